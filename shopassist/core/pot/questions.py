"""Draw the card of a pot from its record."""

from shopassist.core.pot.cards import Card
from shopassist.core.pot.state import Now, PotState


def questions(state: PotState, now: Now) -> Card:
    """Everything a screen shows of this pot now; the screen decides nothing."""
    raise NotImplementedError
