"""What time alone does: expiry, restart, suspend, a doubted clock. Never toward clearer."""

from shopassist.core.frozen import replace
from shopassist.core.pot.events import Tell
from shopassist.core.pot.evidence import SUSPEND_LIMIT
from shopassist.core.pot.moves import LASTING, UNDER_PRESSURE, moved, voided
from shopassist.core.pot.state import Now, PotState
from shopassist.core.pot.words import Belief, Branch, Item, Told

RENEWED = (
    Item.SIGN_SEEN, Item.ZERO_AGAIN, Item.SILENCE_AGAIN, Item.INLET_NOW, Item.HOSE_NOW,
    Item.VENT_NOW_SEEN,
)  # fmt: skip
"""What a grant rested on and its renewal asks again."""


def _expired(state: PotState, at: float) -> PotState:
    """Hands off: the vent stays open, the passes stay on record, the signs are asked again."""
    gone = replace(state.without(*RENEWED), grant=None, crack_expires=None, sign_asked="")
    return replace(gone, belief=Belief.PROVING, since=at)


def settled(state: PotState, now: Now) -> PotState:
    """The record as it stands at ``now``: a grant that ran out is gone."""
    if now.age < state.seen_at:
        return settled(clock_doubted(replace(state, seen_at=now.age), now), now)
    grant, crack = state.grant, state.crack_expires
    if state.belief is Belief.CRACKED and crack is not None and now.age >= crack:
        state = replace(state, belief=Belief.CLEAR, crack_expires=None, since=crack)
    if state.belief is Belief.CLEAR and grant is not None and now.age >= grant.expires:
        return _expired(state, grant.expires)
    return state


def after_restart(state: PotState, now: Now) -> PotState:
    """Closed … cracked become pressurised; sightings, zeros, signs and dwell are lost."""
    if state.belief not in UNDER_PRESSURE:
        return replace(state, answered=now.age)
    kept = tuple(piece for piece in state.evidence if piece.item in LASTING)
    branch = state.branch if state.branch in _LASTING_BRANCHES else Branch.NONE
    gone = replace(
        voided(state, now, branch), evidence=kept, over_limit=0, rock_failures=0, answered=now.age
    )
    return moved(gone, Belief.PRESSURISED, now)


_LASTING_BRANCHES = (
    Branch.OVER_RATING, Branch.RELIEF_LIFTED, Branch.TOO_HOT, Branch.SUPPLY_LOST,
    Branch.LOST_TRACK, Branch.STUCK_GAUGE,
)  # fmt: skip


def after_suspend(state: PotState, seconds: float, now: Now) -> PotState:
    """A suspend counts as age, never as dwell; a long one counts like a restart."""
    slept = replace(state, slept=state.slept + max(0.0, seconds))
    return after_restart(slept, now) if seconds > SUSPEND_LIMIT else slept


def clock_doubted(state: PotState, now: Now) -> PotState:
    """Ages are not known: like a restart, and Ready has to be answered again."""
    gone = after_restart(state, now)
    kept = gone.evidence if state.belief is not Belief.OPEN else ()
    return replace(gone, evidence=kept, doubted=True)


def forgotten(state: PotState, now: Now) -> PotState:
    """Restored, copied or broken: nothing about this pot is known."""
    return PotState(
        plate=state.plate, plate_version=state.plate_version, ambient=state.ambient,
        locked=state.locked, lift_owed=state.lift_owed, gauge_failed=state.gauge_failed,
        reported=state.reported, answered=now.age, slept=state.slept, seen_at=now.age,
        since=now.age, doubted=state.doubted,
    )  # fmt: skip


def told(state: PotState, event: Tell, now: Now) -> PotState:
    """Fold in what the program found out about its own past."""
    if event.what is Told.RESTARTED:
        return after_restart(state, now)
    if event.what is Told.SUSPENDED:
        return after_suspend(state, event.seconds, now)
    if event.what is Told.CLOCK_DOUBTED:
        return clock_doubted(state, now)
    return forgotten(state, now)
