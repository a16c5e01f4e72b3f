"""Presses: what each does from every belief that offers it; plus notes and corrections."""

from collections.abc import Callable

from shopassist.core.frozen import replace
from shopassist.core.messages import say
from shopassist.core.pot.events import Answer, Correction, Note, PlateSet
from shopassist.core.pot.letting_down import granted
from shopassist.core.pot.moves import (
    LATE,
    READY_ITEMS,
    air_admitted,
    heard_at,
    moved,
    recorded,
    silent_at,
    suspected,
    unproven,
    voided,
)
from shopassist.core.pot.running import GAUGE_ITEMS, supply_told
from shopassist.core.pot.state import Now, PotState
from shopassist.core.pot.words import Act, Belief, Branch, Item, Sign

OnPress = Callable[[PotState, Now], PotState]


def _let_down(state: PotState, now: Now) -> PotState:
    """Start isolating; out of *suspect* the fall counts as not seen."""
    if state.belief is Belief.SUSPECT:
        return unproven(state, now)
    may_stay = state.belief is Belief.PRESSURISED and state.air
    return replace(voided(state, now, _standing(state)), may_stay=may_stay)


def _standing(state: PotState) -> Branch:
    """Warnings that stay on the card through the let-down."""
    lasting = (Branch.TOO_HOT, Branch.OVER_RATING, Branch.RELIEF_LIFTED)
    return state.branch if state.branch in lasting else Branch.NONE


def _vent_now(state: PotState, now: Now) -> PotState:
    """Record the vent open at once; the rest is still owed before a zero counts."""
    down = state if state.belief is Belief.LETTING_DOWN else _let_down(state, now)
    start = down.fall_from if down.last is None else down.last.number
    ready = replace(down, may_stay=False, fall_from=start)
    return recorded(ready, Answer(Item.VENT, "pressed"), now)


def _air_in(state: PotState, now: Now) -> PotState:
    admitted = replace(air_admitted(state, now), reading_owed=True)
    if state.belief is not Belief.OPEN:
        return admitted
    marks = (*state.marks, "air without the list")
    return replace(admitted, baseline=None, marks=marks).without(*READY_ITEMS)


def _air_on(state: PotState, now: Now) -> PotState:
    return replace(air_admitted(state, now), filling=True, over_limit=0)


def _lost_track(state: PotState, now: Now) -> PotState:
    return unproven(state, now, Branch.LOST_TRACK)


def _opened(state: PotState, now: Now) -> PotState:
    marks = (*state.marks, "opened without the list")
    gone = replace(unproven(state, now, Branch.UNLISTED), marks=marks)
    return moved(gone, Belief.UNKNOWN, now)


def _relief_lifted(state: PotState, now: Now) -> PotState:
    owed = replace(state, lift_owed=True, lifted_day=None, air=True)
    if state.belief is Belief.CLOSED:
        return air_admitted(owed, now, Branch.RELIEF_LIFTED)
    if state.belief in LATE:
        return voided(owed, now, Branch.RELIEF_LIFTED)
    return replace(owed, branch=Branch.RELIEF_LIFTED)


def _supply_lost(state: PotState, now: Now) -> PotState:
    lost = Answer(Item.SUPPLY, "lost")
    if state.belief is Belief.CLOSED:
        return replace(recorded(state, lost, now), branch=Branch.SUPPLY_LOST)
    return supply_told(state, lost, now)


def _doubt(state: PotState, now: Now) -> PotState:
    return suspected(state, now, say("You reported a doubt, or no sign to be had."))


PRESSES: dict[Act, OnPress] = {
    Act.LET_DOWN: _let_down,
    Act.VENT_NOW: _vent_now,
    Act.AIR_IN: _air_in,
    Act.AIR_ON: _air_on,
    Act.CONFIRM: granted,
    Act.STOP: lambda state, _now: state,
    Act.LOST_TRACK: _lost_track,
    Act.OPENED: _opened,
    Act.RELIEF_LIFTED: _relief_lifted,
    Act.SUPPLY_LOST: _supply_lost,
    Act.TOO_HOT: lambda state, _now: replace(state, branch=Branch.TOO_HOT, sign_asked=""),
    Act.DOUBT: _doubt,
}


def noted(state: PotState, _event: Note, now: Now) -> PotState:
    """An examination unlocks the plate; out of *suspect* the fall counts as not seen."""
    free = replace(state, locked=False)
    return unproven(free, now) if state.belief is Belief.SUSPECT else free


def corrected(state: PotState, event: Correction, now: Now) -> PotState:
    """Drop what was said, and all that rests on it."""
    dropped = _unheard(state, event.item).without(event.item)
    if event.item is Item.BASELINE:
        dropped = replace(dropped, baseline=None)
    if event.item in GAUGE_ITEMS:
        dropped = replace(dropped, highest=None, last=None, fall_recorded=False)
    if event.item is Item.VENT:
        dropped = replace(dropped, vent_hissed=False)
    if event.item is Item.FALL_SPEED:
        dropped = replace(dropped, fall_recorded=False)
    return voided(dropped, now, state.branch) if state.belief in LATE else dropped


def _unheard(state: PotState, item: Item) -> PotState:
    """Air that was not heard after all leaves its hole in doubt; a reading taken back, in none."""
    if item is Item.VENT_READING:
        return heard_at(state, Sign.VENT)
    if item is Item.VENT and state.vent_hissed:
        return silent_at(state, Sign.VENT)
    if item is Item.OPENING_HEARD:
        tried = frozenset(each.hole for each in state.all(Item.OPENING_HEARD))
        return replace(state, silent_holes=state.silent_holes | tried)
    return state


def plated(state: PotState, event: PlateSet, _now: Now) -> PotState:
    """Another version of the plate; a new gauge ends a failed one."""
    old = None if state.plate is None else state.plate.gauge
    new = None if event.plate is None else event.plate.gauge
    failed = state.gauge_failed if old == new else ""
    return replace(
        state, plate=event.plate, plate_version=event.version, ambient=event.ambient,
        gauge_failed=failed,
    )  # fmt: skip
