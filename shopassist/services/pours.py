"""Which cup the times of a batch count from: what is poured later has hazards of its own.

Hazards follow the earliest cup and releases the latest. A cup that was poured has no working time
left to watch; one that was under pressure, or that had gelled for sure before the next was mixed,
is no hazard any more: the next one is a pour, or a layer, by itself.
"""

from collections.abc import Callable, Sequence

from shopassist.core.batch import Batch, Cup
from shopassist.core.quantities import Kilogram
from shopassist.core.rows import Row
from shopassist.services.standing import Whose

Gelled = Callable[[Cup, Cup], bool]
"""Whether the one had gelled for sure when the other one's hardener went in."""


def contacts(batch: Batch, gelled: Gelled) -> dict[Whose, Row]:
    """The row of the contact that each kind of milestone counts from."""
    mixed = batch.mixed
    live = _live(mixed, batch, gelled)
    to_pour = [cup for cup in live if not cup.mixed_by(batch.poured_by)] or live
    return {"working": _row(to_pour[0]), "hazard": _row(live[0]), "release": _row(mixed[-1])}


def _live(mixed: Sequence[Cup], batch: Batch, gelled: Gelled) -> Sequence[Cup]:
    """The cups that still may gel, the earliest first; all of them where none does."""
    live = [cup for cup in mixed if not cup.mixed_by(batch.pressed_by)] or mixed
    begins = [n for n in range(1, len(live)) if gelled(live[n - 1], live[n])]
    return live[begins[-1] :] if begins else live


def fullest(batch: Batch) -> Kilogram:
    """The most in any cup that is mixed and not poured; none where nothing was weighed."""
    cups = [cup for cup in batch.mixed if not cup.mixed_by(batch.poured_by)]
    masses = (sum(each.mass for each in cup.weighed.values()) for cup in cups)
    return Kilogram(max(masses, default=0.0))


def _row(cup: Cup) -> Row:
    assert cup.contact_row is not None  # noqa: S101 - only cups whose hardener is in
    return cup.contact_row
