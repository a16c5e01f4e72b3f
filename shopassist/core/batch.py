"""A batch: what was entered, weighed, poured and seen, folded from its rows.

Batch, pours, cups: hazards follow the earliest cup, releases the latest. Entries can
be undone until hardener is in; weights, times and readings are only ever corrected by
a later row that points at the old one and gives a reason.
"""

from collections.abc import Iterable
from dataclasses import field
from typing import Literal, cast

from shopassist.core.frozen import frozen, replace
from shopassist.core.quantities import CubicMetre, Kelvin, Kilogram, UtcSecond
from shopassist.core.rows import Json, Row

FOLD_VERSION = 1

PartName = Literal["a", "b", "colour", "empty"]
SeenMark = Literal["strings", "gelled", "tack-free", "nail-hard"]
SEEN_MARKS: tuple[SeenMark, ...] = ("strings", "gelled", "tack-free", "nail-hard")
Outcome = Literal["good", "usable", "spoiled"]
OUTCOMES: tuple[Outcome, ...] = ("good", "usable", "spoiled")


@frozen
class Typed:
    """An entry as it was typed, and what was understood."""

    text: str
    value: float | None
    quantity: str = ""
    """Type name in ``core.quantities``; empty for words."""
    origin: str = "typed"


@frozen
class Weighing:
    """What the scale showed for one part: the mass of that part alone."""

    mass: Kilogram
    seq: int
    at: UtcSecond


@frozen
class Cup:
    """One cup of one pour."""

    number: int
    weighed: dict[PartName, Weighing] = field(default_factory=dict)
    contact_row: Row | None = None
    """The row that says when hardener met resin."""
    told: int = 0
    """The row that said so first, before its time was set right."""

    def mixed_by(self, row: int) -> bool:
        """Whether hardener had met resin in it when a row told of the whole batch."""
        return self.told <= row

    @property
    def contact(self) -> UtcSecond | None:
        """When hardener met resin."""
        return self.contact_row.happened if self.contact_row is not None else None


@frozen
class WarmthReading:
    """A typed temperature; an interval where only the extremes are known."""

    row: Row
    low: Kelvin
    high: Kelvin
    where: str
    since: UtcSecond | None = None
    """Start of the interval that the extremes are for."""
    first: Row | None = None
    """Where this sets an earlier reading right: the row that was read by the clock then."""

    @property
    def clocked(self) -> Row:
        """The row whose clocks say when it was read."""
        return self.first if self.first is not None else self.row

    @property
    def at(self) -> UtcSecond:
        """When it was read."""
        return self.row.happened

    @property
    def middle(self) -> Kelvin:
        """Half-way between the extremes."""
        return Kelvin((self.low + self.high) / 2)


@frozen
class UnknownWarmth:
    """A stretch of which nobody knows how warm it was: the heater was off, the power was cut."""

    row: Row
    since: UtcSecond

    @property
    def until(self) -> UtcSecond:
        """When it ended."""
        return self.row.happened


@frozen
class NeedSet:
    """Resin for all pieces as Blank worked it out, waste counted."""

    low: CubicMetre
    likely: CubicMetre
    high: CubicMetre
    geometry: str
    """Changes with every entry that it was worked out from."""
    at: UtcSecond


@frozen
class Drawn:
    """What a cup took out of one lot."""

    lot: str
    """Id of the lot's record."""
    part: str
    mass: Kilogram
    seq: int


@frozen
class Batch:
    """Everything known about one batch."""

    id: str
    name: str = ""
    opened: UtcSecond = UtcSecond(0.0)
    again_of: str = ""
    sheet: tuple[str, int] | None = None
    """Record id and version that this batch uses."""
    entries: dict[str, Typed] = field(default_factory=dict)
    entry_log: tuple[tuple[str, Typed | None], ...] = ()
    """Field and what stood there before, newest last: what undo gives back."""
    cups: tuple[Cup, ...] = ()
    poured: UtcSecond | None = None
    poured_by: int = 0
    """The row that said so last."""
    pot: str = ""
    """The pot it is in now."""
    held_in: str = ""
    """The pot it was put into last, kept when it has left it."""
    at_pressure: UtcSecond | None = None
    """When air first went on with this batch in the pot."""
    pressed_by: int = 0
    """The row that put it into a pot last."""
    left_pot: UtcSecond | None = None
    """When it was last taken out of a pot."""
    warmth: tuple[WarmthReading, ...] = ()
    unknowns: tuple[UnknownWarmth, ...] = ()
    need: NeedSet | None = None
    """Resin that the Blank pane handed over."""
    drawn: tuple[Drawn, ...] = ()
    """What was taken out of which lot."""
    steps: tuple[UtcSecond, ...] = ()
    """When each step from hardener to pressure was done."""
    seen: dict[str, UtcSecond] = field(default_factory=dict)
    outcome: str = ""
    notes: tuple[str, ...] = ()
    photos: tuple[str, ...] = ()
    """Where photographs lie; they are never copied."""
    reasons: tuple[str, ...] = ()
    """Why something was done off the sheet."""
    next_time: str = ""
    removed: bool = False
    finished: UtcSecond | None = None
    """When its outcome was said last: a piece may tell otherwise later."""
    closed: UtcSecond | None = None
    """When its outcome was said first: nothing of it runs since."""

    @property
    def first_contact(self) -> UtcSecond | None:
        """The earliest cup: hazards follow it."""
        return next((cup.contact for cup in self.mixed), None)

    @property
    def last_contact(self) -> UtcSecond | None:
        """The latest cup: releases follow it."""
        return next((cup.contact for cup in reversed(self.mixed)), None)

    @property
    def mixed(self) -> tuple[Cup, ...]:
        """Cups whose hardener is in, the earliest first."""
        found = [(cup.contact, cup.number, cup) for cup in self.cups if cup.contact is not None]
        return tuple(cup for *_, cup in sorted(found, key=lambda each: each[:2]))

    @property
    def is_poured(self) -> bool:
        """Whether all that is mixed was reported poured; a cup mixed since then was not."""
        return self.poured is not None and all(cup.mixed_by(self.poured_by) for cup in self.mixed)

    @property
    def is_pressed(self) -> bool:
        """Whether all that is mixed came under pressure; a cup mixed since then did not."""
        return self.at_pressure is not None and all(
            cup.mixed_by(self.pressed_by) for cup in self.mixed
        )

    def cup(self, number: int) -> Cup:
        """One cup; an untouched one where nothing was weighed yet."""
        return next((cup for cup in self.cups if cup.number == number), Cup(number))


def fold(batch: Batch, row: Row) -> Batch:
    """Take one more row into account; an unknown kind changes nothing."""
    step = _STEPS.get(row.kind)
    return step(batch, row) if step is not None else batch


def fold_all(batch_id: str, rows: Iterable[Row]) -> Batch:
    """Fold a whole stream."""
    batch = Batch(batch_id)
    for row in rows:
        batch = fold(batch, row)
    return batch


def _text(row: Row, key: str) -> str:
    value = row.body.get(key, "")
    return value if isinstance(value, str) else ""


def _number(value: Json) -> float:
    return float(value) if isinstance(value, int | float) else 0.0


def _opened(batch: Batch, row: Row) -> Batch:
    return replace(
        batch, name=_text(row, "name"), opened=row.happened, again_of=_text(row, "again_of")
    )


def _named(batch: Batch, row: Row) -> Batch:
    return replace(batch, name=_text(row, "name"))


def _sheet(batch: Batch, row: Row) -> Batch:
    record = _text(row, "record")
    if not record:
        return replace(batch, sheet=None)
    reasons = (*batch.reasons, reason) if (reason := _text(row, "reason")) else batch.reasons
    return replace(batch, sheet=(record, int(_number(row.body.get("version")))), reasons=reasons)


def _entry(batch: Batch, row: Row) -> Batch:
    name, before = _text(row, "field"), batch.entries.get(_text(row, "field"))
    entries = {key: value for key, value in batch.entries.items() if key != name}
    if row.body.get("text") is not None:
        value = row.body.get("value")
        entries[name] = Typed(
            _text(row, "text"),
            float(value) if isinstance(value, int | float) else None,
            _text(row, "quantity"),
            _text(row, "origin") or "typed",
        )
    log = batch.entry_log[:-1] if row.body.get("undo") else (*batch.entry_log, (name, before))
    return replace(batch, entries=entries, entry_log=log)


def _with_cup(batch: Batch, cup: Cup) -> Batch:
    others = [each for each in batch.cups if each.number != cup.number]
    return replace(batch, cups=tuple(sorted([*others, cup], key=lambda each: each.number)))


def _weighed(batch: Batch, row: Row) -> Batch:
    cup = batch.cup(int(_number(row.body.get("cup"))))
    part = cast("PartName", _text(row, "part"))
    if row.body.get("mass") is None:
        kept = {name: each for name, each in cup.weighed.items() if name != part}
        return _with_cup(batch, replace(cup, weighed=kept))
    mass = Weighing(Kilogram(_number(row.body.get("mass"))), row.seq, row.happened)
    return _with_cup(batch, replace(cup, weighed={**cup.weighed, part: mass}))


def _hardener_in(batch: Batch, row: Row) -> Batch:
    cup = batch.cup(int(_number(row.body.get("cup"))))
    reasons = (*batch.reasons, reason) if (reason := _text(row, "reason")) else batch.reasons
    cup = replace(cup, contact_row=row, told=cup.told or row.seq)
    # Undo ends here: what was entered before hardener met resin is now a fact.
    return replace(_with_cup(batch, cup), entry_log=(), reasons=reasons)


def _poured(batch: Batch, row: Row) -> Batch:
    return replace(batch, poured=row.happened, poured_by=row.seq)


def _loaded(batch: Batch, row: Row) -> Batch:
    pot = _text(row, "pot")
    began = batch.at_pressure if batch.at_pressure is not None or not pot else row.happened
    left = batch.left_pot if pot else row.happened
    return replace(
        batch, pot=pot, held_in=pot or batch.held_in, at_pressure=began, left_pot=left,
        pressed_by=row.seq if pot else batch.pressed_by,
    )  # fmt: skip


def _temperature(batch: Batch, row: Row) -> Batch:
    since, corrected = row.body.get("since"), row.body.get("corrects")
    earlier = next((each for each in batch.warmth if each.row.seq == corrected), None)
    reading = WarmthReading(
        row,
        Kelvin(_number(row.body.get("low"))),
        Kelvin(_number(row.body.get("high"))),
        _text(row, "where"),
        UtcSecond(float(since)) if isinstance(since, int | float) else None,
        earlier.clocked if earlier is not None else None,
    )
    kept = batch.warmth
    if corrected is not None:
        kept = tuple(each for each in kept if each.row.seq != corrected)
    if not kept or kept[-1].at <= reading.at:
        return replace(batch, warmth=(*kept, reading))
    return replace(batch, warmth=tuple(sorted([*kept, reading], key=lambda each: each.at)))


def _unknown_warmth(batch: Batch, row: Row) -> Batch:
    found = UnknownWarmth(row, UtcSecond(_number(row.body.get("since"))))
    return replace(batch, unknowns=(*batch.unknowns, found))


def _need_set(batch: Batch, row: Row) -> Batch:
    low, likely, high = (
        CubicMetre(_number(row.body.get(key))) for key in ("low", "likely", "high")
    )
    return replace(batch, need=NeedSet(low, likely, high, _text(row, "geometry"), row.happened))


def _drawn(batch: Batch, row: Row) -> Batch:
    found = row.body.get("lots")
    lots = found if isinstance(found, list) else []
    made = tuple(
        Drawn(str(each[0]), str(each[1]), Kilogram(_number(each[2])), row.seq)
        for each in lots
        if isinstance(each, list) and len(each) == len(("lot", "part", "mass"))
    )
    return replace(batch, drawn=(*batch.drawn, *made))


def _step_done(batch: Batch, row: Row) -> Batch:
    return replace(batch, steps=(*batch.steps, row.happened))


def _seen(batch: Batch, row: Row) -> Batch:
    return replace(batch, seen={**batch.seen, _text(row, "mark"): row.happened})


def _outcome(batch: Batch, row: Row) -> Batch:
    first = row.happened if batch.closed is None else batch.closed
    return replace(batch, outcome=_text(row, "outcome"), finished=row.happened, closed=first)


def _note(batch: Batch, row: Row) -> Batch:
    return replace(batch, notes=(*batch.notes, _text(row, "text")))


def _photo(batch: Batch, row: Row) -> Batch:
    path = _text(row, "path")
    others = tuple(each for each in batch.photos if each != path)
    return replace(batch, photos=others if row.body.get("off") else (*others, path))


def _next_time(batch: Batch, row: Row) -> Batch:
    return replace(batch, next_time=_text(row, "text"))


def _removed(batch: Batch, row: Row) -> Batch:
    return replace(batch, removed=row.body.get("removed") is not False)


_STEPS = {
    "opened": _opened,
    "named": _named,
    "sheet": _sheet,
    "entry": _entry,
    "weighed": _weighed,
    "hardener_in": _hardener_in,
    "poured": _poured,
    "loaded": _loaded,
    "temperature": _temperature,
    "temperature_unknown": _unknown_warmth,
    "need_set": _need_set,
    "drawn": _drawn,
    "step_done": _step_done,
    "seen": _seen,
    "outcome": _outcome,
    "note": _note,
    "photo": _photo,
    "next_time": _next_time,
    "removed": _removed,
}
