"""The procedure: ``(state, event, now)`` to a new state or a refusal with its reason."""

from shopassist.core.pot.events import Event
from shopassist.core.pot.state import Now, PotState, Refusal


def advance(state: PotState, event: Event, now: Now) -> PotState | Refusal:
    """Apply one event, or say why nothing moves."""
    raise NotImplementedError
