"""What the drawing of the lid shows: clamps in working order, holes and what sits on each."""

from shopassist.core.pot.cards import Card, CardName
from shopassist.core.pot.clamps import slackening_order, tightening_order
from shopassist.core.pot.plate import Plate
from shopassist.core.pot.state import PotState
from shopassist.core.pot.words import Belief, Item
from shopassist.widgets.shown import LidHole, LidHoleKind, LidShown

KINDS: tuple[tuple[str, LidHoleKind], ...] = (
    ("gauge", "gauge"), ("vent", "vent"), ("relief", "relief"), ("inlet", "inlet"),
    ("test_valve", "test valve"), ("second_gauge", "second gauge"),
)  # fmt: skip
CARDS = (CardName.CLOSE, CardName.AIR_ON, CardName.HOLD, CardName.CRACK)
"""Cards on which the lid helps."""
SIDES = {"back": 0.0, "right": 0.25, "front": 0.5, "left": 0.75}
"""Where on the drawing a side named on the plate lies; the operator stands at the front."""
MIDDLE = ("middle", "centre", "center")
OUT, BETWEEN = 0.55, 0.375


def lid_of(state: PotState, card: Card) -> LidShown | None:
    """The lid of this pot; None where the card is about something else."""
    plate = state.plate
    if plate is None or plate.clamps < 1 or card.name not in CARDS:
        return None
    cracking = card.name is CardName.CRACK
    order = _slackening(plate.clamps) if cracking else tightening_order(plate.clamps)
    numbers = tuple(order.index(place) + 1 for place in range(1, plate.clamps + 1))
    hooked = state.belief is not Belief.CRACKED
    holes, beside = holes_of(plate)
    caption = _caption(state, plate, card)
    work = "slackened" if cracking else "tightened"
    spoken = f"{plate.clamps} clamps, numbered in the order in which they are {work}. {caption}"
    return LidShown(
        numbers, _snug(state, numbers), _present(state, card, plate), holes,
        f"{spoken} {beside}".strip(), hooked, caption, beside,
    )  # fmt: skip


def _slackening(clamps: int) -> tuple[int, ...]:
    """Far side first, seen from the bottom of the drawing."""
    return slackening_order(clamps, nearest=clamps // 2 + 1)


def _snug(state: PotState, numbers: tuple[int, ...]) -> frozenset[int]:
    """Numbers that nobody has slackened yet; before Close is answered none is snug."""
    if state.belief is Belief.CLEAR:
        done = state.clamp_reached if state.passes == 0 else len(numbers)
        return frozenset(number for number in numbers if number > done)
    tight = state.value(Item.CLAMPS_ROUND) == "all_round"
    loose = state.belief in (Belief.OPEN, Belief.CRACKED) and not tight
    return frozenset() if loose or state.belief is Belief.CRACKED else frozenset(numbers)


def _present(state: PotState, card: Card, plate: Plate) -> int | None:
    """The clamp that is worked on now."""
    item = card.ask.item if card.ask is not None else None
    if item is Item.CLAMPS_ROUND:
        return 1
    if item is Item.SLACKEN:
        following = state.clamp_reached + 1
        return following if following <= plate.clamps else None
    return None


def _caption(state: PotState, plate: Plate, card: Card) -> str:
    if card.name is not CardName.CRACK:
        return ""
    if state.belief is Belief.CRACKED:
        return "Unhook every clamp, then lift."
    if state.passes >= plate.passes:
        return f"{state.passes} passes done, all hooked"
    return f"Pass {state.passes + 1} of {plate.passes}; far side at the top"


def holes_of(plate: Plate) -> tuple[tuple[LidHole, ...], str]:
    """Holes of the lid, and in words those of the wall."""
    uses: dict[str, list[LidHoleKind]] = {}
    for field, kind in KINDS:
        place = getattr(plate.holes, field)
        if place:
            uses.setdefault(place, []).append(kind)
    on_lid = {place: kinds for place, kinds in uses.items() if _on_lid(place)}
    wall = [kind for place, kinds in uses.items() if place not in on_lid for kind in kinds]
    taken = {turn for place in on_lid if (turn := _turn(place)) is not None}
    free = [BETWEEN + n / 4 - 0.25 for n in range(8) if (BETWEEN + n / 4 - 0.25) not in taken]
    made = []
    for place, kinds in on_lid.items():
        turn, reach = _turn(place), 0.0 if _has(place, MIDDLE) else OUT
        made.append(LidHole(kinds[0], free.pop(0) if turn is None else turn, reach, _named(kinds)))
    return tuple(made), f"On the wall: {', '.join(wall)}." if wall else ""


def _named(kinds: list[LidHoleKind]) -> str:
    return " + ".join(kinds)


def _turn(place: str) -> float | None:
    """Where a side named on the plate lies; None where it names none."""
    if _has(place, MIDDLE):
        return 0.0
    return next((turn for side, turn in SIDES.items() if _has(place, (side,))), None)


def _has(place: str, words: tuple[str, ...]) -> bool:
    return any(word in place.casefold() for word in words)


def _on_lid(place: str) -> bool:
    return not _has(place, ("wall", "side", "shell"))
