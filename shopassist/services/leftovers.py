"""What is left over in a cup stays in sight until it is cold and hard: a wait of its own."""

from collections.abc import Iterable

from shopassist.core.leftover import needs_watch
from shopassist.core.messages import Amount, Moment, Text, say
from shopassist.core.quantities import Kilogram, UtcSecond
from shopassist.services.batches import BatchService
from shopassist.services.next import Due, Rank

LOOK_AFTER = 1800.0
"""So long after the pour a rest in the cup is looked at; ours, [s]."""
RECENT = 12
"""Newest batches that are looked through; ours."""


def leftover_dues(batches: BatchService) -> Iterable[Due]:
    """A look at every rest that may get hot, until it is told to be cold and hard."""
    for batch in batches.reacting(RECENT):
        left = batch.entries.get("mix.leftover")
        poured = batch.poured or batch.last_contact
        if left is None or poured is None or "mix.leftover_cold" in batch.entries:
            continue
        mass = Kilogram(left.value or 0.0)
        if not needs_watch(mass):
            continue
        gate = UtcSecond(poured + LOOK_AFTER)
        place = batch.entries.get("mix.leftover_place")
        yield Due(
            _event(mass, place.text if place is not None else "", gate), gate, None,
            Rank.LATER, "mix", batch.name, batch.id,
        )  # fmt: skip


def _event(mass: Kilogram, place: str, gate: UtcSecond) -> Text:
    shown = Amount(mass, "Kilogram")
    if place:
        return say(
            "Rest of {mass}, {place}: cold? {gate}", mass=shown, place=place, gate=Moment(gate)
        )
    return say("Rest of {mass} in the cup: cold? {gate}", mass=shown, gate=Moment(gate))
