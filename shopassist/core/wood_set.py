"""A set of cores on its way through oven, bath and bake: the facts, folded from rows."""

from collections.abc import Iterable
from dataclasses import field
from typing import Literal

from shopassist.core.frozen import frozen, replace
from shopassist.core.quantities import Kelvin, Kilogram, PascalVacuum, UtcSecond
from shopassist.core.rows import Row

When = Literal["wet", "oven", "bath", "soaked", "baked"]
WHENS: tuple[When, ...] = ("wet", "oven", "bath", "soaked", "baked")
Event = Literal[
    "oven_on", "oven_wound", "oven_off", "cool", "covered", "pump_on", "quiet", "bubbles",
    "air_in", "power_cut", "gauge_read", "out_of_bath", "wrapped", "bake_on", "core_hot",
    "bake_off", "sank", "floated",
]  # fmt: skip
EVENTS: tuple[Event, ...] = (
    "oven_on", "oven_wound", "oven_off", "cool", "covered", "pump_on", "quiet", "bubbles",
    "air_in", "power_cut", "gauge_read", "out_of_bath", "wrapped", "bake_on", "core_hot",
    "bake_off", "sank", "floated",
)  # fmt: skip
CLEARS: dict[Event, tuple[Event, ...]] = {
    "oven_on": ("oven_off", "cool", "oven_wound"),
    "pump_on": ("quiet", "bubbles", "air_in", "power_cut", "gauge_read"),
    "bubbles": ("quiet",),
    "power_cut": ("quiet", "pump_on"),
    "bake_on": ("core_hot", "bake_off"),
    "sank": ("floated",),
    "floated": ("sank",),
}
"""What is no longer so once an event has happened again."""


@frozen
class Weighed:
    """One mass of the whole set."""

    at: UtcSecond
    mass: Kilogram
    when: When
    seq: int


@frozen
class VacuumRead:
    """One dial reading."""

    at: UtcSecond
    vacuum: PascalVacuum


@frozen
class MeterRead:
    """One reading of a moisture meter, with the lowest it can show."""

    at: UtcSecond
    shown: float
    floor: float


@frozen
class WoodSet:
    """Everything reported about one set."""

    weighed: tuple[Weighed, ...] = ()
    events: dict[Event, UtcSecond] = field(default_factory=dict)
    """The latest of each that still holds."""
    vacuums: tuple[VacuumRead, ...] = ()
    meters: tuple[MeterRead, ...] = ()
    windings: tuple[UtcSecond, ...] = ()
    """When an oven that switches itself off was started, this time in the oven."""
    oven_temps: tuple[tuple[UtcSecond, Kelvin], ...] = ()
    """By a thermometer of its own, not the dial."""

    def at(self, event: Event) -> UtcSecond | None:
        """When an event happened, if it still holds."""
        return self.events.get(event)

    def last(self, when: When) -> Weighed | None:
        """The newest weighing at one point of the way."""
        found = [each for each in self.weighed if each.when == when]
        return found[-1] if found else None

    def log(self) -> tuple[Weighed, ...]:
        """The weighings that judge dryness: before the oven and in it, since it was last on."""
        began = self.events.get("oven_on", UtcSecond(0.0))
        oven = [each for each in self.weighed if each.when == "oven" and each.at >= began]
        wet = self.last("wet")
        return (*([wet] if wet is not None else []), *oven)


def fold_set(state: WoodSet, row: Row) -> WoodSet:
    """Take one row of a batch into account; rows of other kinds change nothing."""
    step = _STEPS.get(row.kind)
    return step(state, row) if step is not None else state


def fold_all_set(rows: Iterable[Row]) -> WoodSet:
    """Fold a whole stream."""
    state = WoodSet()
    for row in rows:
        state = fold_set(state, row)
    return state


def _number(row: Row, key: str) -> float:
    value = row.body.get(key)
    return float(value) if isinstance(value, int | float) else 0.0


def _weighed(state: WoodSet, row: Row) -> WoodSet:
    corrected = row.body.get("corrects")
    kept = tuple(each for each in state.weighed if each.seq != corrected)
    when = str(row.body.get("when"))
    if row.body.get("mass") is None or when not in WHENS:
        return replace(state, weighed=kept)
    mass = Weighed(row.happened, Kilogram(_number(row, "mass")), when, row.seq)
    return replace(state, weighed=tuple(sorted((*kept, mass), key=lambda each: each.at)))


def _event(state: WoodSet, row: Row) -> WoodSet:
    name = str(row.body.get("event"))
    if name not in EVENTS:
        return state
    event = name
    gone = CLEARS.get(event, ())
    events = {key: at for key, at in state.events.items() if key not in gone}
    if row.body.get("undone"):
        events.pop(event, None)
        return replace(state, events=events)
    windings = state.windings
    if event == "oven_on":
        windings = (row.happened,)
    elif event == "oven_wound":
        windings = (*windings, row.happened)
    return replace(state, events={**events, event: row.happened}, windings=windings)


def _vacuum(state: WoodSet, row: Row) -> WoodSet:
    read = VacuumRead(row.happened, PascalVacuum(_number(row, "vacuum")))
    return replace(state, vacuums=(*state.vacuums, read))


def _meter(state: WoodSet, row: Row) -> WoodSet:
    read = MeterRead(row.happened, _number(row, "shown"), _number(row, "floor"))
    return replace(state, meters=(*state.meters, read))


def _oven_temp(state: WoodSet, row: Row) -> WoodSet:
    read = (row.happened, Kelvin(_number(row, "temp")))
    return replace(state, oven_temps=(*state.oven_temps, read))


_STEPS = {
    "wood_weighed": _weighed,
    "wood_event": _event,
    "wood_vacuum": _vacuum,
    "wood_meter": _meter,
    "wood_oven": _oven_temp,
}
