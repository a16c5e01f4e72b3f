"""How warm the resin was as it was mixed: typed beside the cup, and no less true for its cure.

What is mixed warm cools to what is round it, and what is mixed cold warms up. Until the next
reading hazards go by the warmer of the two, releases by the colder.
"""

from shopassist.core.batch import Batch, WarmthReading
from shopassist.core.milestones import Ahead
from shopassist.core.quantities import Kelvin
from shopassist.services.warmth import AS_MIXED, outlook


def as_mixed(typed: Kelvin, round_it: Ahead, *, read: bool) -> Ahead:
    """From how cold to how warm it is taken to be; ``read``: somebody read a thermometer before."""
    if not read and round_it.low <= typed <= round_it.high:
        # Better than our guess, and nothing speaks of a shop that is otherwise.
        return Ahead(typed, typed)
    return Ahead(min(round_it.low, typed), max(round_it.high, typed))


def news(batch: Batch, typed: Kelvin, latest: WarmthReading | None, age: float) -> Ahead | None:
    """What it adds to the newest reading or our guess; None where that says as much already."""
    round_it = outlook(latest, age, borrowed=not batch.warmth)
    found = as_mixed(typed, round_it, read=latest is not None)
    taken = any(each.where == AS_MIXED and each.low <= typed <= each.high for each in batch.warmth)
    return None if taken or (found.low, found.high) == (round_it.low, round_it.high) else found
