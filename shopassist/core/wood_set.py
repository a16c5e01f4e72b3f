"""A set of cores on its way through oven, bath and bake: the facts, folded from rows."""

from collections.abc import Iterable
from dataclasses import field
from typing import Literal

from shopassist.core.frozen import frozen, replace
from shopassist.core.oven_time import OvenRun
from shopassist.core.quantities import Kelvin, Kilogram, PascalVacuum, UtcSecond
from shopassist.core.rows import Row

When = Literal["wet", "oven", "bath", "soaked", "baked"]
WHENS: tuple[When, ...] = ("wet", "oven", "bath", "soaked", "baked")
Event = Literal[
    "oven_on", "oven_wound", "oven_cut", "oven_off", "cool", "covered", "pump_on", "foam_down",
    "quiet", "bubbles", "air_in", "power_cut", "gauge_read", "out_of_bath", "wrapped", "bake_on",
    "core_hot", "bake_off", "sank", "floated", "hard", "soft",
]  # fmt: skip
EVENTS: tuple[Event, ...] = (
    "oven_on", "oven_wound", "oven_cut", "oven_off", "cool", "covered", "pump_on", "foam_down",
    "quiet", "bubbles", "air_in", "power_cut", "gauge_read", "out_of_bath", "wrapped", "bake_on",
    "core_hot", "bake_off", "sank", "floated", "hard", "soft",
)  # fmt: skip
EVENT = "wood_event"
PROBE = "wood_probe"
"""Kinds of the rows that report an event, and the probe in a dummy core."""
CLEARS: dict[Event, tuple[Event, ...]] = {
    "oven_on": ("oven_off", "cool", "oven_wound", "oven_cut"),
    "oven_wound": ("oven_cut",),
    "oven_cut": ("core_hot",),
    "pump_on": ("foam_down", "quiet", "bubbles", "air_in", "power_cut", "gauge_read"),
    "bubbles": ("quiet",),
    "power_cut": ("foam_down", "quiet", "pump_on"),
    "bake_on": ("core_hot", "bake_off", "oven_wound", "oven_cut", "hard", "soft"),
    "sank": ("floated",),
    "floated": ("sank",),
    "hard": ("soft",),
    "soft": ("hard",),
}
"""What is no longer so once an event has happened again."""


@frozen
class Weighed:
    """One mass of the whole set."""

    at: UtcSecond
    mass: Kilogram
    when: When
    seq: int
    each: tuple[Kilogram, ...] = ()
    """Mass of each piece where they were weighed one by one; else empty."""


@frozen
class PieceWeighed:
    """One piece of a set that is being weighed piece by piece."""

    number: int
    of: int
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
    pieces: tuple[PieceWeighed, ...] = ()
    """Of a round of weighing that is not complete yet."""
    runs: tuple[OvenRun, ...] = ()
    """The oven's runs, this time in the oven: its starts, and ends that were reported."""
    dry_runs: tuple[OvenRun, ...] = ()
    """Those of the drying, kept when the set is in the oven once more to bake."""
    pumped: tuple[tuple[UtcSecond, UtcSecond], ...] = ()
    """Runs of the pump that are over."""
    oven_temps: tuple[tuple[UtcSecond, Kelvin], ...] = ()
    """By a thermometer of its own, not the dial."""
    oven_dial: Kelvin | None = None
    """Where the dial stood at the newest of them; None where nobody had said it yet."""
    probes: tuple[tuple[UtcSecond, Kelvin], ...] = ()
    """In the dummy core."""

    @property
    def windings(self) -> tuple[UtcSecond, ...]:
        """When an oven that switches itself off was started, this time in the oven."""
        return tuple(each.start for each in self.runs)

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
    """Fold a whole stream; what was reported by mistake never happened."""
    known = tuple(rows)
    mistaken = {
        row.body["corrects"] for row in known
        if row.kind == EVENT and row.body.get("undone") and "corrects" in row.body
    }  # fmt: skip
    state = WoodSet()
    for row in known:
        if row.seq not in mistaken:
            state = fold_set(state, row)
    return state


def _number(row: Row, key: str) -> float:
    value = row.body.get(key)
    return float(value) if isinstance(value, int | float) else 0.0


def _weighed(state: WoodSet, row: Row) -> WoodSet:
    corrected = row.body.get("corrects")
    kept = tuple(each for each in state.weighed if each.seq != corrected)
    state = replace(
        state, weighed=kept,
        pieces=tuple(each for each in state.pieces if each.seq != corrected),
    )  # fmt: skip
    when = str(row.body.get("when"))
    if row.body.get("mass") is None or when not in WHENS:
        return state
    mass = Kilogram(_number(row, "mass"))
    if "piece" in row.body:
        return _piece(state, row, mass, when)
    whole = Weighed(row.happened, mass, when, row.seq)
    return replace(_with(state, whole), pieces=())


def _piece(state: WoodSet, row: Row, mass: Kilogram, when: When) -> WoodSet:
    """One piece more of a round; the last one makes a weighing of the whole set."""
    number, of = int(_number(row, "piece")), int(_number(row, "of"))
    others = [
        each for each in state.pieces
        if each.when == when and each.of == of and each.number != number
    ]  # fmt: skip
    pieces = (*others, PieceWeighed(number, of, mass, when, row.seq))
    if len(pieces) < of:
        return replace(state, pieces=pieces)
    masses = tuple(each.mass for each in sorted(pieces, key=lambda one: one.number))
    whole = Weighed(row.happened, Kilogram(sum(masses)), when, row.seq, masses)
    return replace(_with(state, whole), pieces=())


def _with(state: WoodSet, whole: Weighed) -> WoodSet:
    ordered = sorted((*state.weighed, whole), key=lambda each: each.at)
    return replace(state, weighed=tuple(ordered))


def _event(state: WoodSet, row: Row) -> WoodSet:
    name = str(row.body.get("event"))
    if name not in EVENTS:
        return state
    event = name
    gone = CLEARS.get(event, ())
    if row.body.get("undone"):
        left = {key: at for key, at in state.events.items() if key != event}
        return replace(state, events=left)
    events = {key: at for key, at in state.events.items() if key not in gone}
    runs = _runs(state.runs, event, row.happened)
    baking = event == "bake_on" or "bake_on" in state.events
    return replace(
        state, events={**events, event: row.happened}, runs=runs,
        dry_runs=state.dry_runs if baking else runs,
        pumped=_pumped(state, event, row.happened),
    )  # fmt: skip


def _runs(runs: tuple[OvenRun, ...], event: Event, at: UtcSecond) -> tuple[OvenRun, ...]:
    """The oven's runs after an event."""
    if event in ("oven_on", "bake_on"):
        return (OvenRun(at),)
    if event not in ("oven_wound", "oven_cut", "oven_off", "bake_off") or not runs:
        return runs
    last = runs[-1]
    ended = (*runs[:-1], OvenRun(last.start, at if last.end is None else last.end))
    return (*ended, OvenRun(at)) if event == "oven_wound" else ended


def _pumped(state: WoodSet, event: Event, at: UtcSecond) -> tuple[tuple[UtcSecond, UtcSecond], ...]:
    """Runs of the pump that are over after an event."""
    began = state.events.get("pump_on")
    over = event == "power_cut" or (event == "air_in" and "air_in" not in state.events)
    return (*state.pumped, (began, at)) if over and began is not None else state.pumped


def _vacuum(state: WoodSet, row: Row) -> WoodSet:
    read = VacuumRead(row.happened, PascalVacuum(_number(row, "vacuum")))
    return replace(state, vacuums=(*state.vacuums, read))


def _meter(state: WoodSet, row: Row) -> WoodSet:
    read = MeterRead(row.happened, _number(row, "shown"), _number(row, "floor"))
    return replace(state, meters=(*state.meters, read))


def _oven_temp(state: WoodSet, row: Row) -> WoodSet:
    read = (row.happened, Kelvin(_number(row, "temp")))
    dial = Kelvin(_number(row, "dial")) if "dial" in row.body else None
    return replace(state, oven_temps=(*state.oven_temps, read), oven_dial=dial)


def _probe(state: WoodSet, row: Row) -> WoodSet:
    read = (row.happened, Kelvin(_number(row, "temp")))
    return replace(state, probes=(*state.probes, read))


_STEPS = {
    "wood_weighed": _weighed,
    EVENT: _event,
    "wood_vacuum": _vacuum,
    "wood_meter": _meter,
    "wood_oven": _oven_temp,
    PROBE: _probe,
}
