"""The procedure: ``(state, event, now)`` to a new state or a refusal with its reason."""

from typing import TypeAlias

from shopassist.core.frozen import replace
from shopassist.core.messages import say
from shopassist.core.pot import cracking, letting_down, running
from shopassist.core.pot.events import (
    Answer,
    Correction,
    Event,
    Note,
    PlateSet,
    Press,
    Tell,
    Typed,
)
from shopassist.core.pot.guards import GUARDS
from shopassist.core.pot.moves import piece_of, recorded
from shopassist.core.pot.passing import settled, told
from shopassist.core.pot.pressing import PRESSES, corrected, noted, plated
from shopassist.core.pot.state import Now, PotState, Refusal
from shopassist.core.pot.vocabulary import CHOICES, TYPED_ITEMS
from shopassist.core.pot.words import CANT_TELL

ON_ANSWER = running.ON_ANSWER | letting_down.ON_ANSWER | cracking.ON_ANSWER
ON_TYPED = running.ON_TYPED | letting_down.ON_TYPED | cracking.ON_TYPED


Reported: TypeAlias = Answer | Typed | Press | Note | Correction | PlateSet
"""What a person says, unlike what the program finds out about its own past."""


def advance(state: PotState, event: Event, now: Now) -> PotState | Refusal:
    """Apply one event, or say why nothing moves. Total: anything not listed is refused."""
    present_state = settled(state, now)
    if isinstance(event, Tell):
        return replace(told(present_state, event, now), seen_at=now.age)
    if not _known(event):
        return Refusal(say("There is no such answer."), "known")
    for guard in GUARDS:
        reason = guard.refuse(present_state, event, now) if isinstance(event, guard.on) else None
        if reason is not None:
            return Refusal(reason, guard.name)
    return _marked(_applied(present_state, event, now), event, now)


def _known(event: Event) -> bool:
    if isinstance(event, Answer):
        return event.choice == CANT_TELL or event.choice in CHOICES.get(event.item, ())
    return not isinstance(event, Typed) or event.item in TYPED_ITEMS


def _marked(state: PotState, event: Event, now: Now) -> PotState:
    """Remember that somebody was there, and what was said."""
    if isinstance(event, Answer | Typed):
        said = piece_of(state, event, now)
        return replace(state, answered=now.age, seen_at=now.age, reported=said)
    return replace(state, answered=now.age, seen_at=now.age)


def _applied(state: PotState, event: Reported, now: Now) -> PotState:
    if isinstance(event, Answer):
        if event.choice == CANT_TELL:
            return replace(state, sign_asked="")
        return ON_ANSWER.get(event.item, recorded)(state, event, now)
    if isinstance(event, Typed):
        over = running.typed_over_rating(state, event, now)
        return over or ON_TYPED.get(event.item, recorded)(state, event, now)
    if isinstance(event, Press):
        return PRESSES[event.act](state, now)
    if isinstance(event, Note):
        return noted(state, event, now)
    if isinstance(event, Correction):
        return corrected(state, event, now)
    return plated(state, event, now)
