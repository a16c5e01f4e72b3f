"""Which odd thing is in front, and its words."""

from shopassist.core.pot.cards import Card
from shopassist.core.pot.standing import EXPIRED_WORDS, SUSPECT_WORDS
from shopassist.core.pot.state import PotState
from shopassist.core.pot.words import CANT_TELL, Belief, Branch
from shopassist.core.wording import Wording

CANT = ("You could not tell.", "Recorded; nothing moves. Look again, or take another sign.")
RISING = ("The gauge rose with the vent shut.", "Cold air warms, or air comes in. Read it again.")


def branch_of(state: PotState, card: Card, words: Wording) -> tuple[str, tuple[str, ...]]:
    """Its key, and what is said: first what it is, then what to do."""
    if card.belief is Belief.SUSPECT:
        why = words.say(state.suspect_why) if state.suspect_why is not None else "Signs disagree."
        return "suspect", (why, *SUSPECT_WORDS)
    if card.branch is not Branch.NONE:
        return str(card.branch), tuple(words.say(text) for text in card.branch_text)
    if card.belief is Belief.PROVING and state.dwell_done:
        return "expired", EXPIRED_WORDS
    if state.rises and card.belief is Belief.LETTING_DOWN:
        return "rising", RISING
    if state.reported is not None and state.reported.value == CANT_TELL:
        return "cant_tell", CANT
    return "", ()


def cautions_of(card: Card, said: tuple[str, ...], words: Wording) -> tuple[str, ...]:
    """What must stand on the card besides; not what the note already says."""
    return tuple(line for text in card.cautions if (line := words.say(text)) not in said)
