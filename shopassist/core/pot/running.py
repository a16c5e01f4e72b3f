"""Items from Ready to Hold: what each answer does to the record."""

from collections.abc import Callable

from shopassist.core.frozen import replace
from shopassist.core.pot.events import Answer, Typed
from shopassist.core.pot.evidence import EDGE, LIFT_SHARE, above_baseline
from shopassist.core.pot.moves import (
    LATE,
    air_admitted,
    in_band,
    moved,
    over_rating,
    reading_taken,
    recorded,
    unproven,
    voided,
)
from shopassist.core.pot.plate import working_limit
from shopassist.core.pot.state import Now, PotState
from shopassist.core.pot.words import Belief, Branch, Item, Run

OVER_LIMIT_TIMES = 2
"""Over the working limit this often ends in a let-down."""
FIRST_AIR_DIVISIONS = 3.0
FULL = ("connected", "isolated")
"""What the supply of a pot that is full may be."""

OnAnswer = Callable[[PotState, Answer, Now], PotState]
OnTyped = Callable[[PotState, Typed, Now], PotState]


def _run(state: PotState, event: Answer, now: Now) -> PotState:
    chosen = recorded(replace(state, marks=()), event, now)
    return replace(chosen, run=Run(event.choice), branch=Branch.NONE)


def _clamps_round(state: PotState, event: Answer, now: Now) -> PotState:
    closed = recorded(state, event, now)
    if event.choice != "all_round":
        return closed
    return moved(replace(closed, air=False, reseat=False), Belief.CLOSED, now)


def _regulator(state: PotState, event: Answer, now: Now) -> PotState:
    if event.choice == "agrees":
        return recorded(state, event, now)
    return unproven(state, now, Branch.FALL_NOT_SEEN)


def _lid_hiss(state: PotState, event: Answer, now: Now) -> PotState:
    if event.choice == "none":
        return recorded(state, event, now)
    return replace(voided(state, now, Branch.RESEAT), reseat=True)


def supply_told(state: PotState, event: Answer, now: Now) -> PotState:
    """Take in how the supply is now; from isolating on, vent and zero evidence is voided."""
    branch = Branch.SUPPLY_LOST if event.choice == "lost" else Branch.NONE
    if state.filling and event.choice in FULL:
        return recorded(replace(state, filling=False), event, now)
    if event.choice != "isolated":
        state = replace(state, fall_recorded=False, air=True)
    if state.belief in LATE:
        return recorded(voided(state, now, branch), event, now)
    owed = replace(state, reading_owed=state.belief is Belief.PRESSURISED)
    return recorded(replace(owed, branch=branch), event, now)


def _aftercare(state: PotState, event: Answer, now: Now) -> PotState:
    marks = ("fault reported",) if event.choice == "faults" else ()
    return recorded(replace(state, aftercare=False, marks=(*state.marks, *marks)), event, now)


def _on_pin(state: PotState, _event: Answer, _now: Now) -> PotState:
    """A needle on its pin gives no baseline: the item stays owed."""
    return replace(state, baseline=None).without(Item.BASELINE)


def _did_not_lift(state: PotState, _event: Answer, _now: Now) -> PotState:
    return replace(state, lift_owed=True, lifted_day=None)


ON_ANSWER: dict[Item, OnAnswer] = {
    Item.BASELINE: _on_pin,
    Item.LIVE_LIFT: _did_not_lift,
    Item.RUN: _run,
    Item.CLAMPS_ROUND: _clamps_round,
    Item.REGULATOR: _regulator,
    Item.LID_HISS: _lid_hiss,
    Item.SUPPLY: supply_told,
    Item.AFTERCARE: _aftercare,
}


# -- typed -------------------------------------------------------------------------------


def is_over_rating(state: PotState, value: float) -> bool:
    """Whether a reading lies above what the pot is rated for."""
    rating = None if state.plate is None else state.plate.rating
    return rating is not None and value > rating + EDGE


def _over_limit(state: PotState, value: float) -> bool:
    limit = None if state.plate is None else working_limit(state.plate, state.ambient)
    return limit is not None and value > limit.pressure + EDGE


def _limited(state: PotState, now: Now) -> PotState:
    """Once: bleed to the limit and type again. Twice: let down."""
    times = state.over_limit + 1
    counted = replace(state, over_limit=times, branch=Branch.OVER_LIMIT)
    if times >= OVER_LIMIT_TIMES:
        return replace(voided(counted, now, Branch.OVER_LIMIT), air=True)
    return replace(counted, reading_owed=not state.filling)


def _hold_pressure(state: PotState, event: Typed, now: Now) -> PotState:
    return replace(recorded(state, event, now), hold=event.value)


def _baseline(state: PotState, event: Typed, now: Now) -> PotState:
    return replace(recorded(state, event, now), baseline=event.value)


def _first_air(state: PotState, event: Typed, now: Now) -> PotState:
    seen = reading_taken(recorded(state, event, now), event, now)
    if event.value < above_baseline(state, FIRST_AIR_DIVISIONS):
        return unproven(seen, now, Branch.FALL_NOT_SEEN)
    return seen


def _at_pressure(state: PotState, event: Typed, now: Now) -> PotState:
    seen = reading_taken(state, event, now)
    return _limited(seen, now) if _over_limit(state, event.value) else recorded(seen, event, now)


def reading(state: PotState, event: Typed, now: Now) -> PotState:
    """Take a gauge reading at any time; believe the worse of it and the record."""
    seen = reading_taken(recorded(state, event, now), event, now)
    if state.belief in (Belief.PROVING, Belief.CLEAR, Belief.CRACKED):
        return seen if in_band(state, event.value) else voided(seen, now, Branch.DISAGREE)
    if state.belief is Belief.CLOSED:
        return seen if in_band(state, event.value) else air_admitted(seen, now)
    if state.belief is Belief.PRESSURISED and _over_limit(state, event.value):
        return _limited(seen, now)
    calmed = _CALMED.get(state.belief, ())
    return replace(seen, branch=Branch.NONE) if state.branch in calmed else seen


_CALMED = {
    Belief.PRESSURISED: (Branch.OVER_LIMIT, Branch.SUPPLY_LOST),
    Belief.LETTING_DOWN: (Branch.SUPPLY_LOST,),
}
"""The warnings that a typed reading ends."""


def _stay(state: PotState, event: Typed, now: Now) -> PotState:
    back = moved(voided(state, now), Belief.PRESSURISED, now)
    return replace(reading(back, event, now), over_limit=state.over_limit)


def _live_lift(state: PotState, event: Typed, now: Now) -> PotState:
    seen = reading_taken(recorded(state, event, now), event, now)
    relief = None if state.plate is None else state.plate.relief_set
    if relief is None or event.value < LIFT_SHARE * relief:
        return seen.without(Item.LIVE_LIFT)
    return replace(seen, lift_owed=False, lifted_day=now.day, marks=(*state.marks, "lifted live"))


ON_TYPED: dict[Item, OnTyped] = {
    Item.HOLD_PRESSURE: _hold_pressure,
    Item.BASELINE: _baseline,
    Item.FIRST_AIR: _first_air,
    Item.AT_PRESSURE: _at_pressure,
    Item.READING: reading,
    Item.LEAK_START: reading,
    Item.LEAK_END: reading,
    Item.STAY: _stay,
    Item.LIVE_LIFT: _live_lift,
}

GAUGE_ITEMS = frozenset({
    Item.FIRST_AIR, Item.AT_PRESSURE, Item.READING, Item.LEAK_START, Item.LEAK_END, Item.STAY,
    Item.LIVE_LIFT, Item.VENT_READING, Item.FALL_FIRST, Item.FALL_SECOND, Item.ZERO,
    Item.ZERO_AGAIN,
})  # fmt: skip
"""Typed items that are gauge readings of a closed pot."""


def typed_over_rating(state: PotState, event: Typed, now: Now) -> PotState | None:
    """Any reading above the rating ends in a let-down, whatever was asked."""
    if event.item not in GAUGE_ITEMS or not is_over_rating(state, event.value):
        return None
    return over_rating(reading_taken(state, event, now), now)
