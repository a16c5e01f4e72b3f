"""Items 20 to 22: slacken, rock, lid off; and the ways in which a lid is off without the list."""

from shopassist.core.frozen import replace
from shopassist.core.messages import say
from shopassist.core.pot.events import Answer, Typed
from shopassist.core.pot.evidence import CRACK_LIFE
from shopassist.core.pot.moves import moved, opened, recorded, suspected
from shopassist.core.pot.running import OnAnswer, OnTyped
from shopassist.core.pot.state import Now, PotState
from shopassist.core.pot.words import Belief, Branch, Item

STUCK_TIMES = 3
"""A lid that stays stuck this often wants help."""


def _hiss(state: PotState, now: Now) -> PotState:
    return suspected(replace(state, air=True), now, say("You reported a hiss at the lid."))


def _slacken(state: PotState, event: Answer, now: Now) -> PotState:
    if event.choice == "hiss":
        return _hiss(state, now)
    return replace(recorded(state, event, now), passes=state.passes + 1, clamp_reached=0)


def _reached(state: PotState, event: Typed, now: Now) -> PotState:
    return replace(recorded(state, event, now), clamp_reached=int(event.value))


def _rock(state: PotState, event: Answer, now: Now) -> PotState:
    if event.choice == "hiss":
        return _hiss(state, now)
    seen = recorded(state, event, now)
    if event.choice == "free":
        cracked = replace(seen, crack_expires=now.age + CRACK_LIFE, branch=Branch.NONE)
        return moved(cracked, Belief.CRACKED, now)
    times = state.rock_failures + 1
    if times >= STUCK_TIMES:
        return suspected(state, now, say("The lid stays stuck: get help."), Branch.STUCK_LID)
    return replace(seen, rock_failures=times, branch=Branch.STUCK_LID)


def _lid_off(state: PotState, event: Answer, now: Now) -> PotState:
    if event.choice == "hiss":
        return _hiss(state, now)
    if event.choice != "inside_seen":
        return recorded(state, event, now)
    return opened(state, now, *(() if state.belief is Belief.CRACKED else ("lid off late",)))


def _lid_off_now(state: PotState, event: Answer, now: Now) -> PotState:
    if event.choice != "inside_seen":
        return recorded(state, event, now)
    return opened(state, now, "lid off now")


ON_ANSWER: dict[Item, OnAnswer] = {
    Item.SLACKEN: _slacken,
    Item.ROCK: _rock,
    Item.LID_OFF: _lid_off,
    Item.LID_OFF_NOW: _lid_off_now,
}

ON_TYPED: dict[Item, OnTyped] = {Item.SLACKEN: _reached}
