"""What the drawing of the lid shows: clamps in working order, holes and what sits on each."""

from shopassist.core.pot.cards import Card, CardName
from shopassist.core.pot.clamps import slackening_order, tightening_order
from shopassist.core.pot.plate import Plate
from shopassist.core.pot.state import PotState
from shopassist.core.pot.words import Belief
from shopassist.widgets.shown import LidHole, LidShown

KINDS = ("gauge", "vent", "relief", "inlet", "test_valve", "second_gauge")
SLACK = (Belief.OPEN, Belief.CRACKED)
CARDS = (CardName.CLOSE, CardName.AIR_ON, CardName.HOLD, CardName.CRACK)
"""Cards on which the lid helps."""


def lid_of(state: PotState, card: Card) -> LidShown | None:
    """The lid of this pot; None where the card is about something else."""
    plate = state.plate
    if plate is None or plate.clamps < 1 or card.name not in CARDS:
        return None
    cracking = card.name is CardName.CRACK
    order = slackening_order(plate.clamps) if cracking else tightening_order(plate.clamps)
    numbers = tuple(order.index(place) + 1 for place in range(1, plate.clamps + 1))
    snug = frozenset() if state.belief in SLACK else frozenset(numbers)
    work = "slackened" if cracking else "tightened"
    spoken = f"{plate.clamps} clamps, numbered in the order in which they are {work}"
    return LidShown(numbers, snug, None, _holes(plate), spoken)


def _holes(plate: Plate) -> tuple[LidHole, ...]:
    """Each device on the lid, spread round the middle; the plate names holes, not places."""
    used = [kind for kind in KINDS if (hole := getattr(plate.holes, kind)) and _on_lid(hole)]
    return tuple(
        LidHole(kind.replace("_", " "), n / len(used), 0.45)  # type: ignore[arg-type]
        for n, kind in enumerate(used)
    )


def _on_lid(hole: str) -> bool:
    words = hole.casefold()
    return "wall" not in words and "side" not in words
