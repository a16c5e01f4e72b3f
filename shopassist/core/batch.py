"""A batch: what was entered, weighed, poured and seen. ``core.batch_fold`` folds it from its rows.

Batch, pours, cups: hazards follow the earliest cup, releases the latest. Entries can
be undone until hardener is in; weights, times and readings are only ever corrected by
a later row that points at the old one and gives a reason.
"""

from dataclasses import field
from typing import Literal

from shopassist.core.frozen import frozen
from shopassist.core.quantities import CubicMetre, Kelvin, Kilogram, UtcSecond
from shopassist.core.rows import Row

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
    poured_before: tuple[UtcSecond | None, int] = (None, 0)
    """The same of the pour before: what stands again when the last is taken back."""
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
    def may_be_unpoured(self) -> bool:
        """Whether that may still be taken back: under pressure or finished it no longer matters."""
        return self.is_poured and not self.is_pressed and self.closed is None

    @property
    def is_pressed(self) -> bool:
        """Whether all that is mixed came under pressure; a cup mixed since then did not."""
        return self.at_pressure is not None and all(
            cup.mixed_by(self.pressed_by) for cup in self.mixed
        )

    def cup(self, number: int) -> Cup:
        """One cup; an untouched one where nothing was weighed yet."""
        return next((cup for cup in self.cups if cup.number == number), Cup(number))
