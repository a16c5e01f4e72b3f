"""Learning a cabinet from a logged warm-up: the log as typed, and what it tells."""

from shopassist.core.cabinet import Cabinet, warmed
from shopassist.core.cabinet_fit import AirReading, Fit, learn
from shopassist.core.civil import civil
from shopassist.core.entry import EntrySpec
from shopassist.core.errors import OutOfRangeError, ShopError
from shopassist.core.messages import say
from shopassist.core.quantities import Kelvin, Second
from shopassist.core.rows import Json
from shopassist.core.wording import Wording
from shopassist.panes.warmup.screen import LearnShown
from shopassist.services.warmup import Given, worked_out

HINT = (
    "Switch on in a cold cabinet and write a line now and then, until the thermostat first"
    " switches off: minutes, and what the thermometer of its own shows. What stands in it and the"
    " shop are taken from the entries."
)
TEMP = EntrySpec("Kelvin", lowest=233.15, highest=423.15)
LONGEST_LOG = 500
MINUTE = 60.0


class Learning:
    """The sheet's own state."""

    def __init__(self, wording: Wording) -> None:
        self._wording = wording
        self._is_open = False
        self._message = ""
        self._compared: tuple[Cabinet, float] | None = None
        self.fit: Fit | None = None

    def open(self) -> None:
        """Show the sheet."""
        self._is_open = True

    def close(self) -> None:
        """Hide the sheet."""
        self._is_open = False

    def forget(self) -> None:
        """Another cabinet: what was learnt is not its."""
        self.fit, self._message, self._is_open = None, "", False

    def shown(self, keep_reason: str) -> LearnShown:
        """The sheet as it stands."""
        can_keep = self.fit is not None and not keep_reason
        return LearnShown(
            self._is_open, HINT, self._message, self._result(), can_keep,
            keep_reason if self.fit is not None else "",
        )  # fmt: skip

    def _result(self) -> tuple[tuple[str, str], ...]:
        if self.fit is None or self._compared is None:
            return ()
        words, fit = self._wording, self.fit
        _, before = self._compared
        return (
            ("Loss, from the log",
             f"{words.amount(fit.loss, 'WattPerKelvin')} ± {words.percent(fit.loss_band)}"),
            ("Loss, from the walls", words.amount(before, "WattPerKelvin")),
            ("Heat of air and wall over what was worked out",
             f"{words.number(fit.heat, 2)} ± {words.percent(fit.heat_band)}"),
            ("Readings miss by", f"{words.number(fit.misses, 1)} K"),
        )  # fmt: skip

    def learn(self, text: str, given: Given | None) -> None:
        """Read the log and fit the cabinet to it, or say what is wrong."""
        self.fit, self._message = None, ""
        try:
            if given is None:
                raise OutOfRangeError(
                    say("Fill in the entries at the left first: what stands in it, and the shop.")
                )
            readings = self._readings(text)
            body = warmed(given.cabinet, given.load)
            self.fit = learn(body, given.cabinet.heater, given.shop, readings)
        except ShopError as error:
            self._message = self._wording.say(error.title)
            return
        self._compared = given.cabinet, worked_out(given) or given.cabinet.loss

    def _readings(self, text: str) -> list[AirReading]:
        lines = [line for line in text.splitlines() if line.strip()]
        if len(lines) > LONGEST_LOG:
            raise OutOfRangeError(say("That is more than 500 lines: every quarter hour is enough."))
        return [self._reading(number, line) for number, line in enumerate(lines, start=1)]

    def _reading(self, number: int, line: str) -> AirReading:
        """Minutes, or hours and minutes with a colon between them; then the temperature."""
        first, _, second = line.replace(";", " ").replace("\t", " ").strip().partition(" ")
        hours, _, minutes = first.rpartition(":")
        comma = self._wording.style.decimal
        try:
            at = (60 * int(hours or 0) + float(minutes.replace(comma, "."))) * MINUTE
            temp = self._wording.read(second, TEMP).value
        except (ValueError, ShopError) as error:
            raise OutOfRangeError(
                say("Line {number} cannot be read: write minutes, then degrees.", number=number)
            ) from error
        return AirReading(Second(at), Kelvin(temp))

    def measured(self, local: float) -> dict[str, Json]:
        """The record's entries of what was learnt, as text with units; local seconds since 1970."""
        here = civil(local)
        date = f"{here.year:04}-{here.month:02}-{here.day:02}"
        assert self.fit is not None  # noqa: S101 - only called with a fit
        return {
            "loss": f"{self.fit.loss:.3f} W/K",
            "band": f"{100 * self.fit.loss_band:.1f} %",
            "heat": f"{self.fit.heat:.3f}",
            "on": date,
        }
