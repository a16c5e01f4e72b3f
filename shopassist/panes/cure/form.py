"""Typing temperatures: now or earlier, lowest and highest, not known, corrections, what-if."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import get_args

from shopassist.clock import Clock
from shopassist.core.batch import Batch, WarmthReading
from shopassist.core.cure import Warmth
from shopassist.core.entry import Entry, EntrySpec
from shopassist.core.errors import EntryError, RefusedError, ShopError
from shopassist.core.messages import say
from shopassist.core.quantities import Kelvin, Second, UtcSecond
from shopassist.core.wording import Wording
from shopassist.panes.cure.screen import Field, FormShown, Mode
from shopassist.services.batches import BatchService
from shopassist.services.nights import Nights
from shopassist.services.waits import WaitService

TEMPERATURE = EntrySpec(
    "Kelvin", field="cure.temperature", lowest=233.15, highest=473.15,
    unlikely_below=273.15, unlikely_above=333.15,
)  # fmt: skip
"""Below 0 °C or above 60 °C it is asked: 72 typed for 72 °F would cure in minutes; ours."""
MODES: tuple[tuple[Mode, str], ...] = (
    ("reading", "At a time"),
    ("extremes", "Lowest and highest"),
    ("unknown", "Not known"),
    ("correct", "Correct one"),
    ("what_if", "What if"),
    ("nights", "Cold nights"),
    ("cabinet", "In the cabinet"),
    ("clock", "A clock"),
    ("hardener", "Hardener was in"),
    ("off", "Machine was off"),
)
FIELDS: dict[Mode, tuple[Field, ...]] = {
    "reading": ("temp", "when"),
    "extremes": ("low", "high", "since"),
    "unknown": ("since", "when"),
    "correct": ("reading", "temp", "reason"),
    "what_if": ("temp",),
    "nights": ("temp", "low", "since", "when"),
    "cabinet": (),
    "clock": ("what", "after", "before"),
    "hardener": ("when", "reason"),
    "off": ("off",),
}
HINTS: dict[Mode, str] = {
    "reading": "Earlier readings bend the course from there on.",
    "extremes": "The coldest counts for what must wait, the warmest for what must hurry.",
    "unknown": "Heater off, power cut: counts nothing toward what must wait.",
    "correct": "The old reading stays in the log with your reason.",
    "what_if": "If it stays at this: beside the true times, never mixed with them.",
    "nights": "If every day and every night are so: beside the true times, never mixed with them.",
    "cabinet": "If it goes in now, by what Warm-up has: beside the true times, never mixed in.",
    "clock": "A coat, putty, a top-up in its window: with an end you are called before it closes.",
    "hardener": "Of the cup mixed last: the old time stays in the log with your reason.",
    "off": "Where the clock is in doubt: how long it really was off before its last start.",
}
ACTS: dict[Mode, str] = {
    "reading": "Add", "extremes": "Add both", "unknown": "Record", "correct": "Correct",
    "what_if": "Show", "nights": "Show", "cabinet": "Show", "clock": "Start",
    "hardener": "Set right", "off": "Settle",
}  # fmt: skip
SUPPOSED: tuple[Mode, ...] = ("what_if", "nights", "cabinet")
"""What stands beside the truth and can be taken away."""
MOST_READINGS = 12
NUMBERS: tuple[Field, ...] = ("temp", "low", "high")
MOMENTS: tuple[Field, ...] = ("since", "when")


@dataclass(slots=True)
class _Drafts:
    numbers: dict[Field, float] = field(default_factory=dict)
    texts: dict[Field, str] = field(default_factory=dict)
    pick: int | None = None


class ReadingForm:
    """Holds what is being typed; ``do`` turns it into one act."""

    def __init__(
        self, batches: BatchService, waits: WaitService, clock: Clock, wording: Wording
    ) -> None:
        self._waits = waits
        self.mode: Mode = "reading"
        self.what_if: Kelvin | None = None
        self.nights: Nights | None = None
        """Another: day and night by turns."""
        self.in_cabinet = False
        """The other what-if: as if it went into the cabinet now."""
        self.into: Callable[[str], Sequence[Warmth]] | None = None
        """How warm a batch would become in the cabinet; raises where that cannot be told."""
        self.settle: Callable[[Second], None] | None = None
        """Takes the person's word for how long the machine was off; the program sets it."""
        self._batches = batches
        self._clock = clock
        self._wording = wording
        self._drafts = _Drafts()
        self._serial = 0

    # -- what is shown ---------------------------------------------------------------------------

    def shown(self, batch: Batch | None, now: float) -> FormShown:
        """The form as it stands."""
        readings = () if batch is None else self._readings(batch, now)
        echoes = tuple(
            (name, self._echo(name, now)) for name in FIELDS[self.mode] if name in MOMENTS
        )
        stands: dict[Mode, bool] = {
            "what_if": self.what_if is not None, "nights": self.nights is not None,
            "cabinet": self.in_cabinet,
        }  # fmt: skip
        can_clear = stands.get(self.mode, False)
        return FormShown(
            self.mode, MODES, FIELDS[self.mode], readings, echoes, HINTS[self.mode],
            ACTS[self.mode], can_clear, self._serial,
        )  # fmt: skip

    def _readings(self, batch: Batch, now: float) -> tuple[tuple[int, str], ...]:
        newest = batch.warmth[::-1][:MOST_READINGS]
        return tuple((each.row.seq, self._reading(each, now)) for each in newest)

    def _reading(self, each: WarmthReading, now: float) -> str:
        say_it = self._wording
        ends = say_it.span(each.low, each.high, "Kelvin")
        unit = say_it.unit("Kelvin")
        return f"{say_it.clock(each.at, now)}   {ends} {unit}"

    def _echo(self, name: Field, now: float) -> str:
        text = self._drafts.texts.get(name, "")
        if not text.strip():
            return self._example(name)
        if self.mode == "nights":
            return self._hour(text)
        try:
            at = self._wording.read_moment(text, self._clock.read())
        except EntryError as error:
            return self._wording.say(error.title)
        return f"{self._wording.clock(at, now)}, {self._wording.age(now - at)}"

    def _example(self, name: Field) -> str:
        if self.mode == "nights":
            return "such as 22:00" if name == "since" else "such as 06:00"
        if self.mode == "hardener":
            return "such as 14:06, 10 min ago"
        return "empty: now" if name == "when" else "such as 22:00"

    def _hour(self, text: str) -> str:
        try:
            at = self._wording.read_planned(text, self._clock.read())
        except EntryError as error:
            return self._wording.say(error.title)
        return f"every {self._wording.clock(at)}"

    # -- typing ------------------------------------------------------------------------------------

    def on_mode(self, mode: str) -> None:
        """Choose what is typed; what was typed for another act is dropped."""
        if mode in get_args(Mode) and mode != self.mode:
            self.mode = mode  # type: ignore[assignment]
            self._emptied()

    def on_number(self, name: Field, entry: Entry | None) -> None:
        """Take a temperature, or its absence."""
        if entry is None:
            self._drafts.numbers.pop(name, None)
        else:
            self._drafts.numbers[name] = entry.value

    def on_text(self, name: Field, text: str) -> None:
        """Take a time or a reason."""
        self._drafts.texts[name] = text

    def on_pick(self, seq: int) -> None:
        """Choose the reading to correct."""
        self._drafts.pick = seq

    def clear_what_if(self) -> None:
        """Show the true times alone again."""
        self._suppose()

    def _suppose(
        self, what_if: Kelvin | None = None, nights: Nights | None = None, *, cabinet: bool = False
    ) -> None:
        """One of them stands at a time."""
        self.what_if, self.nights, self.in_cabinet = what_if, nights, cabinet

    # -- doing ---------------------------------------------------------------------------------

    def do(self, batch_id: str, place: str) -> None:
        """Do what was typed; raises ``ShopError`` with the field to look at."""
        acts: dict[Mode, Callable[[str, str], None]] = {
            "reading": self._add, "extremes": self._add_both, "unknown": self._record,
            "correct": self._correct, "what_if": self._ask, "nights": self._by_turns,
            "cabinet": self._put_in, "clock": self._start, "hardener": self._set_right,
            "off": self._settle,
        }  # fmt: skip
        acts[self.mode](batch_id, place)
        self._emptied()

    def _emptied(self) -> None:
        self._drafts = _Drafts()
        self._serial += 1

    def _add(self, batch_id: str, place: str) -> None:
        temp = self._number("temp")
        self._batches.add_temperature(batch_id, temp, temp, place, self._moment("when"))

    def _add_both(self, batch_id: str, place: str) -> None:
        low, high, since = self._number("low"), self._number("high"), self._moment("since")
        if since is None:
            raise _missing("since")
        self._batches.add_temperature(batch_id, low, high, place, since=since)

    def _record(self, batch_id: str, _: str) -> None:
        since, until = self._moment("since"), self._moment("when")
        if since is None:
            raise _missing("since")
        end = until if until is not None else self._clock.read().utc
        self._batches.unknown_temperature(batch_id, since, end)

    def _correct(self, batch_id: str, _: str) -> None:
        temp, reason = self._number("temp"), self._drafts.texts.get("reason", "")
        seq = self._drafts.pick
        if seq is None:
            newest = self._batches.get(batch_id).warmth
            if not newest:
                raise RefusedError("There is no reading to correct.", field="cure.form.reading")
            seq = newest[-1].row.seq
        self._batches.correct_temperature(batch_id, seq, temp, temp, reason)

    def _ask(self, *_: str) -> None:
        self._suppose(self._number("temp"))

    def _by_turns(self, *_: str) -> None:
        day, night = self._number("temp"), self._number("low")
        evening, morning = self._planned("since"), self._planned("when")
        self._suppose(nights=Nights.between(day, night, evening, morning))

    def _planned(self, name: Field) -> UtcSecond:
        text = self._drafts.texts.get(name, "").strip()
        if not text:
            raise _missing(name)
        return self._wording.read_planned(text, self._clock.read(), f"cure.form.{name}")

    def _put_in(self, batch_id: str, _: str) -> None:
        self.course(batch_id)
        self._suppose(cabinet=True)

    def course(self, batch_id: str) -> Sequence[Warmth]:
        """How warm it would become in the cabinet; raises ``ShopError`` with the reason."""
        if self.into is None:
            raise RefusedError("No cabinet is known here.")
        return self.into(batch_id)

    def _start(self, *_: str) -> None:
        after, before = self._length("after"), self._length("before")
        if after is None:
            raise _missing("after")
        self._waits.start(self._drafts.texts.get("what", ""), after, before)

    def _set_right(self, batch_id: str, _: str) -> None:
        """The button was pressed late, or at once when it should not: say when it really was."""
        when, reason = self._moment("when"), self._drafts.texts.get("reason", "").strip()
        if when is None:
            raise _missing("when")
        if not reason:
            raise _missing("reason")
        mixed = max(self._batches.get(batch_id).mixed, key=lambda cup: cup.told, default=None)
        if mixed is None:
            raise RefusedError("Nothing is mixed yet.", field="cure.form.when")
        self._batches.hardener_in(batch_id, mixed.number, when, reason)

    def _settle(self, *_: str) -> None:
        off = self._length("off")
        if off is None:
            raise _missing("off")
        if self.settle is not None:
            self.settle(off)

    def _length(self, name: Field) -> Second | None:
        text = self._drafts.texts.get(name, "").strip()
        if not text:
            return None
        return Second(
            self._wording.read(text, EntrySpec("Second", field=f"cure.form.{name}")).value
        )

    def _number(self, name: Field) -> Kelvin:
        if name not in self._drafts.numbers:
            raise _missing(name)
        return Kelvin(self._drafts.numbers[name])

    def _moment(self, name: Field) -> UtcSecond | None:
        text = self._drafts.texts.get(name, "").strip()
        if not text:
            return None
        return self._wording.read_moment(text, self._clock.read(), f"cure.form.{name}")


WORDS: dict[Field, str] = {
    "temp": "the temperature", "low": "the lowest", "high": "the highest", "since": "since when",
    "when": "when", "reading": "which reading", "reason": "why",
    "what": "what for", "after": "after how long", "before": "before when",
    "off": "how long it was off",
}  # fmt: skip


def _missing(name: Field) -> ShopError:
    return RefusedError(say("Type {what} first.", what=WORDS[name]), field=f"cure.form.{name}")
