"""What a screen shows of a pot: one card, its present item, its answers. Data only."""

from enum import StrEnum

from shopassist.core.frozen import frozen
from shopassist.core.messages import Text
from shopassist.core.pot.events import Event, Press, Typed
from shopassist.core.pot.state import Evidence
from shopassist.core.pot.words import Act, Belief, Branch, Item


class CardName(StrEnum):
    """One card is one walk to the pot."""

    READY = "ready"
    CLOSE = "close"
    AIR_ON = "air_on"
    HOLD = "hold"
    ISOLATE_AND_VENT = "isolate_and_vent"
    ZERO = "zero"
    PROVE = "prove"
    CRACK = "crack"
    NOT_KNOWN = "not_known"
    SUSPECT = "suspect"


class AskKind(StrEnum):
    """How an item is answered."""

    CHOOSE = "choose"
    TYPE = "type"
    WAIT = "wait"
    HOLD = "hold"
    """Pressed for 1.5 s."""
    PRESS = "press"


@frozen
class Choice:
    """One answer, and the event that it becomes."""

    id: str
    label: Text
    consequence: Text | None
    event: Event


@frozen
class Ask:
    """The present item."""

    item: Item
    kind: AskKind
    question: Text
    choices: tuple[Choice, ...] = ()
    """In order; *can't tell* last. On a *type* item: what may be said instead of a value."""
    quantity: str = ""
    """``PascalGauge``, ``Kelvin``, ``Count`` or ``Word`` for *type*."""
    about: str = ""
    with_temperature: bool = False
    """The pot's temperature is typed beside the value."""
    hints: tuple[Text, ...] = ()

    def typed(self, value: float, text: str, unit: str, temperature: float | None = None) -> Typed:
        """Make the event of a typed value; ``value`` is SI."""
        return Typed(self.item, value, text, unit, temperature)


@frozen
class Reported:
    """An answer that was given: what was asked for, and what was said."""

    item: Item
    label: Text
    answer: Text
    evidence: Evidence


@frozen
class Wait:
    """A time that the program counts and nothing shortens."""

    reason: Text
    seconds: float
    """Whole length."""
    left: float
    """Still to go, seen from the ``now`` that was asked with."""


@frozen
class Offer:
    """A press that is offered beside the item."""

    act: Act
    label: Text
    event: Event
    consequence: Text | None = None


@frozen
class FreeItem:
    """Something that may be reported now although it is not asked for."""

    ask: Ask


@frozen
class Card:
    """Everything a screen shows of a pot at one instant."""

    name: CardName
    title: Text
    belief: Belief
    state_word: Text
    ask: Ask | None
    reported: tuple[Reported, ...] = ()
    wait: Wait | None = None
    offers: tuple[Offer, ...] = ()
    """Stop, Let down, Vent now first where they apply."""
    free: tuple[FreeItem, ...] = ()
    branch: Branch = Branch.NONE
    branch_text: tuple[Text, ...] = ()
    cautions: tuple[Text, ...] = ()
    notes: tuple[Text, ...] = ()
    expires_in: float | None = None
    """What is left of *clear to crack* or *clear to open*, [s]."""


def offer(act: Act, label: Text, consequence: Text | None = None) -> Offer:
    """Make one press."""
    return Offer(act, label, Press(act), consequence)
