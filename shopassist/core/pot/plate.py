"""The plate of a pot: what must be known about it, what blocks a run, what is flagged."""

from collections.abc import Mapping
from dataclasses import field
from typing import TypeVar

from shopassist.core import relief
from shopassist.core.civil import written_day
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.pot.clamps import MOST
from shopassist.core.pot.plate_check import contradictions, one_spelling
from shopassist.core.pot.words import Sign
from shopassist.core.quantities import (
    CubicMetre,
    CubicMetrePerSecond,
    Kelvin,
    Metre,
    Newton,
    PascalAbsolute,
    PascalGauge,
)
from shopassist.core.records import Field, Problem, ReadQuantity, Value, number_at, read_record
from shopassist.core.relief import WorkingLimit
from shopassist.core.vessel import lid_force

WORST_CLASS = 4.0
"""Accuracy class assumed where none is marked on the dial, [% of span]."""
STANDARD_AMBIENT = PascalAbsolute(101325.0)
"""Air pressure where nobody gave an elevation: the standard atmosphere."""
LARGE_FORCE = Newton(500.0)
"""Force on the lid that a zero may hide without a third sign (own choice)."""
OVERDUE_GRACE = 30
"""Days past its date from which an examination blocks a run (own choice)."""
COLDEST_FILL = Kelvin(288.15)
"""Temperature at filling where the plate gives none: 15 °C, toward the greater rise."""
LIFT_INTERVAL = 365
"""Days between live lifts of the relief valve where the plate gives none (own choice)."""
GAUGE_TEST = 365
"""Days after which a gauge wants another comparison (own choice)."""
SPAN_LOW, SPAN_HIGH = 0.25, 0.75
"""Part of the span where a dial reads best; outside it is flagged."""


@frozen
class Gauge:
    """The gauge that the procedure reads."""

    span: PascalGauge
    smallest: PascalGauge
    """Smallest division of a dial, last digit of a display."""
    digital: bool = False
    accuracy: float | None = None
    """Class, [% of span]; None where it is not marked."""
    fitted: str = ""
    """When it was fitted, or its number: a change means a new gauge."""

    @property
    def division(self) -> float:
        """What counts as one division, [Pa difference]."""
        if self.digital:
            return max(10 * self.smallest, 0.01 * self.span)
        return self.smallest


@frozen
class Holes:
    """Which hole in the lid or the shell each device uses; empty where there is none."""

    gauge: str = ""
    vent: str = ""
    relief: str = ""
    inlet: str = ""
    test_valve: str = ""
    second_gauge: str = ""

    def all(self) -> tuple[str, ...]:
        """Every hole once, in a fixed order."""
        named = (self.gauge, self.vent, self.relief, self.inlet, self.test_valve, self.second_gauge)
        return tuple(dict.fromkeys(hole for hole in named if hole))


@frozen
class Supply:
    """Where the air comes from, as far as its plate tells; only numbers hang on it."""

    pressure: PascalGauge | None = None
    """Highest that it can stand at: the receiver's switch-off."""
    bore: Metre | None = None
    """Narrowest bore between receiver and pot."""
    free_air: CubicMetrePerSecond | None = None
    receiver: CubicMetre | None = None


@frozen
class Plate:
    """Everything the procedure knows about one pot."""

    name: str
    rating: PascalGauge | None = None
    rated_temperature: Kelvin | None = None
    volume: float | None = None
    seal_diameter: Metre | None = None
    clamps: int = 0
    passes: int = 3
    relief_set: PascalGauge | None = None
    relief_lifted: int | None = None
    """Day of the last live lift, days since 1970."""
    relief_interval: int = LIFT_INTERVAL
    gauge: Gauge | None = None
    holes: Holes = field(default_factory=Holes)
    inlet_shut_off: bool = False
    inlet_opens: bool = False
    """The inlet can be opened with the hose off and has no check valve."""
    readable_at_lid: bool = False
    examined: str = ""
    examination_due: int | None = None
    warmest: Kelvin | None = None
    coldest_fill: Kelvin = COLDEST_FILL
    gauge_tested: int | None = None
    """Day of the gauge's last comparison with another, days since 1970."""
    relief_bore: Metre | None = None
    supply: Supply = field(default_factory=Supply)

    def hole_of(self, sign: Sign) -> str:
        """The hole at which a sign shows; empty where the pot has no such thing."""
        if sign is Sign.INLET and not self.inlet_opens:
            return ""
        return {
            Sign.VENT: self.holes.vent,
            Sign.TEST_VALVE: self.holes.test_valve,
            Sign.SECOND_GAUGE: self.holes.second_gauge,
            Sign.INLET: self.holes.inlet,
            Sign.RING: self.holes.relief,
        }[sign]

    def sign_holes(self) -> tuple[str, ...]:
        """Holes other than the gauge's that can give a sign."""
        found = (self.hole_of(sign) for sign in Sign)
        return tuple(dict.fromkeys(hole for hole in found if hole and hole != self.holes.gauge))


def working_limit(plate: Plate, ambient: PascalAbsolute) -> WorkingLimit | None:
    """Greatest pressure to fill this pot to, and what governs; None while the plate is short."""
    if plate.rating is None or plate.relief_set is None:
        return None
    warmest = plate.coldest_fill if plate.warmest is None else plate.warmest
    return relief.working_limit(
        plate.rating, plate.relief_set, plate.coldest_fill, warmest, ambient
    )


def hidden_pressure(gauge: Gauge) -> PascalGauge:
    """Pressure that a zero on this gauge can hide."""
    error = 0.0 if gauge.accuracy is None else gauge.accuracy / 100 * gauge.span
    return PascalGauge(gauge.division / 2 + error)


def hidden_force(plate: Plate) -> Newton | None:
    """Force on the lid that a zero on this gauge can hide."""
    if plate.gauge is None or plate.seal_diameter is None:
        return None
    return lid_force(hidden_pressure(plate.gauge), plate.seal_diameter)


def hides_much(plate: Plate) -> bool:
    """Whether a zero may hide a large force; not knowing counts as yes."""
    force = hidden_force(plate)
    return force is None or force > LARGE_FORCE


def slow_gauge(gauge: Gauge) -> bool:
    """Whether the dwell is stretched: class worst or not known."""
    return gauge.accuracy is None or gauge.accuracy >= WORST_CLASS


def blocks(plate: Plate, today: int) -> tuple[Text, ...]:
    """Why this pot may not be closed for a run; letting air out is never blocked."""
    said = {
        "This pot has no rated pressure on its plate.": plate.rating is None,
        "This pot has no relief valve.": plate.relief_set is None or not plate.holes.relief,
        "The relief valve is set above the rating.": (
            plate.rating is not None
            and plate.relief_set is not None
            and plate.relief_set > plate.rating
        ),
        "This pot has no gauge.": plate.gauge is None or not plate.holes.gauge,
        "This pot has no vent.": not plate.holes.vent,
        "The inlet has no shut-off valve.": not plate.inlet_shut_off,
        "Give the number of clamps.": plate.clamps < 1,
        "No opening besides the gauge's hole can give a sign.": not plate.sign_holes(),
        "The examination is overdue.": (
            plate.examination_due is not None and today > plate.examination_due + OVERDUE_GRACE
        ),
        "The pot gets warmer than its rated temperature.": (
            plate.rated_temperature is not None
            and plate.warmest is not None
            and plate.warmest > plate.rated_temperature
        ),
    }
    return tuple(say(text) for text, blocked in said.items() if blocked)


def lift_overdue(plate: Plate, today: int) -> bool:
    """Whether the relief valve must first show a live lift: only a test run is allowed.

    A date that lies ahead shows nothing; tomorrow's may be today's in another time zone.
    """
    lifted = plate.relief_lifted
    return lifted is None or not lifted - 1 <= today <= lifted + plate.relief_interval


def flags(plate: Plate, hold: PascalGauge | None, today: int | None = None) -> tuple[Text, ...]:
    """What is worth knowing about this pot, but blocks nothing."""
    found: list[Text] = []
    tested, lifted = plate.gauge_tested, plate.relief_lifted
    if today is not None and lifted is not None and today < lifted - 1:
        found.append(say("The date of the last live lift lies ahead: look at it."))
    if today is not None and tested is not None and today > tested + GAUGE_TEST:
        found.append(say("The gauge was last compared more than a year ago: compare it."))
    if plate.gauge is not None and hold is not None:
        share = hold / plate.gauge.span
        if share > 1:
            found.append(say("The dial ends below this pressure: it cannot show it."))
        elif not SPAN_LOW <= share <= SPAN_HIGH:
            found.append(say("This pressure lies in a part of the dial that reads poorly."))
    if hides_much(plate):
        force = hidden_force(plate)
        found.append(
            say("Enter gauge and seal line; until then a third sign is always asked.")
            if force is None
            else say(
                "A zero can hide {force} on this lid: a third sign is asked.",
                force=Amount(force, "Newton"),
            )
        )
    if plate.clamps in range(1, 4):
        found.append(say("Fewer than four clamps is unusual."))
    return tuple(found)


PLATE_FIELDS: tuple[Field, ...] = (
    Field("name", "Name", "text", required=True),
    Field("rating.pressure", "Rated pressure", "quantity", "PascalGauge", low=1.0,
          note="As stamped on the pot; without it no run starts."),
    Field("rating.temperature", "Rated temperature", "quantity", "Kelvin"),
    Field("rating.warmest", "Warmest the pot will be", "quantity", "Kelvin", low=200.0,
          required=True, note="Cabinet setting, or the hottest day."),
    Field("rating.coldest_fill", "Coldest when filled", "quantity", "Kelvin", low=200.0,
          note="Blank: 15 °C, our choice."),
    Field("size.volume", "Inside volume", "quantity", "CubicMetre", low=0.0),
    Field("size.seal_diameter", "Diameter of the seal line", "quantity", "Metre", low=0.001),
    Field("lid.clamps", "Number of clamps", "count", required=True, low=1, high=MOST),
    Field("lid.passes", "Passes to slacken", "count", low=2, high=12, note="Blank: three."),
    Field("relief.set", "Relief valve set at", "quantity", "PascalGauge", low=1.0),
    Field("relief.lifted", "Last live lift", "date"),
    Field("relief.bore", "Narrowest bore of the relief valve", "quantity", "Metre", low=1e-4,
          note="For comparing it with the supply."),
    Field("relief.interval", "Lift it every", "quantity", "Second", low=86400.0,
          note="Blank: a year, our choice."),
    Field("gauge.kind", "Gauge", "choice", choices=("dial", "digital")),
    Field("gauge.span", "Full scale", "quantity", "PascalGauge", low=1.0),
    Field("gauge.division", "Smallest division, or last digit", "quantity", "PascalGauge",
          low=0.1),
    Field("gauge.class", "Accuracy class, % of span", "number", low=0.0, high=10.0,
          note="Blank: not known; counted as the worst."),
    Field("gauge.fitted", "Fitted, or number", "text", note="A change here means a new gauge."),
    Field("gauge.readable_at_lid", "Readable where the lid is worked", "flag"),
    Field("gauge.tested", "Last compared with another gauge", "date"),
    Field("holes.gauge", "Hole of the gauge", "text",
          note="Two devices on one hole: the same name at both."),
    Field("holes.vent", "Hole of the vent", "text"),
    Field("holes.relief", "Hole of the relief valve", "text"),
    Field("holes.inlet", "Hole of the inlet", "text"),
    Field("holes.test_valve", "Hole of a test valve", "text"),
    Field("holes.second_gauge", "Hole of a second gauge", "text"),
    Field("inlet.shut_off", "Inlet has its own shut-off", "flag"),
    Field("inlet.opens", "Opens with the hose off, no check valve", "flag"),
    Field("supply.pressure", "Highest pressure of the supply", "quantity", "PascalGauge", low=1.0,
          note="Where the compressor switches off."),
    Field("supply.bore", "Narrowest bore of the supply", "quantity", "Metre", low=1e-4),
    Field("supply.free_air", "Free air of the compressor", "quantity", "CubicMetrePerSecond",
          low=1e-6, note="Delivered, not displacement."),
    Field("supply.receiver", "Volume of the receiver", "quantity", "CubicMetre", low=1e-5),
    Field("examined.by", "Last examined by", "text"),
    Field("examined.due", "Next examination due", "date"),
)  # fmt: skip

T = TypeVar("T", int, float, str, bool)


class _Values:
    """Typed access to read values."""

    def __init__(self, values: Mapping[str, Value]) -> None:
        self._values = values

    def number(self, place: str) -> float | None:
        return number_at(self._values, place)

    def size(self, place: str) -> Metre | None:
        value = self.number(place)
        return None if value is None else Metre(value)

    def count(self, place: str, default: int) -> int:
        value = self.number(place)
        return default if value is None else int(value)

    def word(self, place: str) -> str:
        return str(self._values.get(place, "")).strip()

    def flag(self, place: str) -> bool:
        return self._values.get(place) is True

    def day(self, place: str) -> int | None:
        word = self.word(place)
        return written_day(word) if word else None


def plate_from_mapping(
    mapping: Mapping[str, object], read: ReadQuantity
) -> tuple[Plate | None, tuple[Problem, ...]]:
    """Read a plate from nested tables; None where something in it is wrong."""
    record = read_record(mapping, PLATE_FIELDS, read)
    problems = [*record.problems, *contradictions(record.values)]
    values = _Values(record.values)
    if any(values.number(f"gauge.{part}") is not None for part in ("span", "division")):
        problems += [
            Problem(f"gauge.{part}", say("A gauge needs its full scale and its division."))
            for part in ("span", "division")
            if values.number(f"gauge.{part}") is None
        ]
    return (None if problems else _plate(values)), tuple(problems)


def _gauge(values: _Values) -> Gauge | None:
    span, smallest = values.number("gauge.span"), values.number("gauge.division")
    if span is None or smallest is None:
        return None
    return Gauge(
        PascalGauge(span), PascalGauge(smallest), values.word("gauge.kind") == "digital",
        values.number("gauge.class"), values.word("gauge.fitted"),
    )  # fmt: skip


def _plate(values: _Values) -> Plate:
    rating, lifts_at = values.number("rating.pressure"), values.number("relief.set")
    rated, warmest = values.number("rating.temperature"), values.number("rating.warmest")
    interval = values.number("relief.interval")
    holes = ("gauge", "vent", "relief", "inlet", "test_valve", "second_gauge")
    return Plate(
        name=values.word("name"),
        rating=None if rating is None else PascalGauge(rating),
        rated_temperature=None if rated is None else Kelvin(rated),
        volume=values.number("size.volume"),
        seal_diameter=values.size("size.seal_diameter"),
        clamps=values.count("lid.clamps", 0),
        passes=values.count("lid.passes", 3),
        relief_set=None if lifts_at is None else PascalGauge(lifts_at),
        relief_lifted=values.day("relief.lifted"),
        relief_interval=LIFT_INTERVAL if interval is None else int(interval // 86400),
        gauge=_gauge(values),
        holes=Holes(*one_spelling(tuple(values.word(f"holes.{hole}") for hole in holes))),
        inlet_shut_off=values.flag("inlet.shut_off"),
        inlet_opens=values.flag("inlet.opens"),
        readable_at_lid=values.flag("gauge.readable_at_lid"),
        examined=values.word("examined.by"),
        examination_due=values.day("examined.due"),
        warmest=None if warmest is None else Kelvin(warmest),
        coldest_fill=Kelvin(values.number("rating.coldest_fill") or COLDEST_FILL),
        gauge_tested=values.day("gauge.tested"),
        relief_bore=values.size("relief.bore"),
        supply=_supply(values),
    )


def _supply(values: _Values) -> Supply:
    pressure, free = values.number("supply.pressure"), values.number("supply.free_air")
    receiver = values.number("supply.receiver")
    return Supply(
        None if pressure is None else PascalGauge(pressure), values.size("supply.bore"),
        None if free is None else CubicMetrePerSecond(free),
        None if receiver is None else CubicMetre(receiver),
    )  # fmt: skip
