"""Fixed words of the pot pane, and the order in which things are offered."""

from shopassist.core.pot.cards import Ask, Card, CardName
from shopassist.core.pot.notes import NAMES
from shopassist.core.pot.words import Act, Item
from shopassist.core.wording import Wording

WALK = (
    (CardName.ISOLATE_AND_VENT, "Isolate and vent"),
    (CardName.ZERO, "Zero"),
    (CardName.PROVE, "Prove"),
    (CardName.CRACK, "Crack and open"),
)
"""The four cards of the walk to an open lid."""
NO_POT = "No pot entered. Enter what its plate says."
HAPPENED = "What happened?"
AIR_OUT = {Act.LET_DOWN: "F8", Act.VENT_NOW: "F9"}
"""Presses that are never withheld, and their keys."""
FREE_FIRST = {Item.STAY: 0, Item.READING: 1, Item.SUPPLY: 2, Item.LID_OFF_NOW: 3}
FREE_WORDS = {
    Item.READING: "Type a reading",
    Item.SUPPLY: "Supply changed",
    Item.TEMPERATURE: "Type a temperature",
    Item.LEAK_START: "Leak check: start",
    Item.LEAK_END: "Leak check: end",
    Item.LIVE_LIFT: "Relief lifted live",
    Item.LID_OFF_NOW: "Lid is off now",
    Item.AFTERCARE: "Holes and gasket",
    Item.STAY: "Stay at pressure",
}


MEASURED = ("PascalGauge", "Kelvin")
COUNTED = {Item.CLAMPS: "clamps", Item.CLAMP_COUNT: "clamps"}
BROKEN_OFF = "Stopped part-way? Type the number of the clamp you reached."


def unit_of(say: Wording, ask: Ask | None) -> str:
    """What stands at the right of the field: a unit, or what is counted."""
    if ask is None:
        return ""
    return say.unit(ask.quantity) if ask.quantity in MEASURED else COUNTED.get(ask.item, "")


def hints_of(say: Wording, ask: Ask | None) -> tuple[str, ...]:
    """What stands beside the field."""
    if ask is None:
        return ()
    own = (BROKEN_OFF,) if ask.item is Item.SLACKEN else ()
    return (*own, *(say.say(hint) for hint in ask.hints))


def free_words(item: Item) -> str:
    """What a thing that may be reported at any time is called."""
    return FREE_WORDS.get(item) or NAMES.get(item) or str(item).replace("_", " ").capitalize()


def walk(name: CardName) -> tuple[tuple[str, str], ...]:
    """Each card of the walk with its state; empty when none of them is up."""
    names = [each for each, _ in WALK]
    if name not in names:
        return ()
    at = names.index(name)
    state = ("done", "present", "later")
    return tuple((words, state[1 + (n > at) - (n < at)]) for n, (_, words) in enumerate(WALK))


def asks_much(card: Card) -> bool:
    """Whether something is asked now that wants room; the run and its care may wait."""
    return card.ask is not None and card.ask.item not in (Item.RUN, Item.AFTERCARE)
