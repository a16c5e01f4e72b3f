"""Items 12 to 19: isolate, vent, zero, prove."""

from shopassist.core.frozen import replace
from shopassist.core.messages import say
from shopassist.core.pot.events import Answer, Typed
from shopassist.core.pot.evidence import (
    EDGE,
    EMPTY,
    EVIDENCE_LIFE,
    FALL_ROOM,
    FALL_SHARE,
    GRANT_LIFE,
    LIVE_DIVISIONS,
    MOVING,
    above_baseline,
    first_zero,
    gauge_of,
    hissed_holes,
    hopeless,
    openings_left,
    second_zero,
    signs_counted,
)
from shopassist.core.pot.moves import (
    below_band,
    gauge_lost,
    heard_at,
    in_band,
    moved,
    reading_taken,
    recorded,
    silent_at,
    suspected,
    unproven,
    voided,
)
from shopassist.core.pot.running import OnAnswer, OnTyped
from shopassist.core.pot.state import Grant, Now, PotState
from shopassist.core.pot.words import Belief, Branch, Item, Sign

DISAGREE_TIMES = 3
"""So many disagreements in one let-down end in *suspect*."""
RISES = 3
"""So many rises with the vent shut mean that air comes in."""
GOOD_SIGHT = {
    Item.INLET: ("shut",), Item.INLET_NOW: ("shut", "opened_as_sign"),
    Item.HOSE: ("apart",), Item.HOSE_NOW: ("apart",), Item.VENT_AGAIN: ("open",),
    Item.VENT_NOW_SEEN: ("open",),
}  # fmt: skip


# -- isolate and vent --------------------------------------------------------------------


def _sighting(state: PotState, event: Answer, now: Now) -> PotState:
    """See a valve or a hose; in a wrong place after a zero it undoes the zero."""
    if event.choice == "open_air":
        return _air_moving(heard_at(state, Sign.VENT), event, now)
    good = event.choice in GOOD_SIGHT[event.item]
    if not good and state.belief is Belief.PROVING:
        state = voided(state, now)
    return recorded(state, event, now)


def _vent(state: PotState, event: Answer, now: Now) -> PotState:
    heard = event.choice in MOVING
    start = state.fall_from if state.last is None else state.last.number
    seen = replace(state, vent_hissed=state.vent_hissed or heard, fall_from=start, may_stay=False)
    told = replace(recorded(seen, event, now), air=state.air or heard)
    return heard_at(told, Sign.VENT) if heard else told


def _no_hiss(state: PotState, now: Now) -> PotState:
    """The gauge stands above zero and the vent is silent: another opening, or stop."""
    full = replace(state, air=True)
    if not openings_left(full):
        return suspected(
            full, now, say("The vent is silent, the gauge is not, and there is no other opening."),
            Branch.NO_HISS,
        )  # fmt: skip
    return replace(full, branch=Branch.NO_HISS, sign_asked="")


def _vent_reading(state: PotState, event: Typed, now: Now) -> PotState:
    seen = reading_taken(recorded(state, event, now), event, now)
    if below_band(state, event.value):
        return gauge_lost(seen, now, "below")
    if in_band(state, event.value):
        return replace(seen, fall_missed=True)
    return _no_hiss(seen, now)


def _ask_sign(state: PotState, event: Answer, _now: Now) -> PotState:
    return replace(state, sign_asked=event.choice)


def _opening_heard(state: PotState, event: Answer, now: Now) -> PotState:
    told, opening = replace(recorded(state, event, now), sign_asked=""), Sign(event.about)
    if event.choice == EMPTY:
        return _no_hiss(silent_at(told, opening), now)
    heard = heard_at(told, opening)
    if event.choice == "hiss_falls":
        return replace(heard, branch=Branch.NONE)
    enough = 2
    if len(hissed_holes(heard)) >= enough:
        return gauge_lost(heard, now, "stuck")
    return _no_hiss(heard, now)


def _steady(state: PotState, event: Answer, now: Now) -> PotState:
    """Silent and steady above zero; or the fall was not watched."""
    if event.choice == "silent_steady":
        return _no_hiss(silent_at(replace(state, fall_missed=True), Sign.VENT), now)
    return replace(state, fall_missed=True)


def _fall_first(state: PotState, event: Typed, now: Now) -> PotState:
    """Take the first reading of a fall: well below the start, below the last, well above zero."""
    start, last = state.fall_from, state.last
    seen = reading_taken(state, event, now)
    room = above_baseline(state, FALL_ROOM)
    begun = event.value if start is None else start
    if event.value < above_baseline(state, LIVE_DIVISIONS) or begun < room:
        return replace(recorded(seen, event, now), fall_missed=True)
    if start is None or last is None or last.number is None:
        return replace(seen, fall_from=event.value)
    fallen = event.value <= max(FALL_SHARE * start, room)
    return recorded(seen, event, now) if fallen and event.value < last.number else seen


def _fall_second(state: PotState, event: Typed, now: Now) -> PotState:
    """Take the second reading; cold air that warms up may rise once or twice, an inlet goes on."""
    first = state.find(Item.FALL_FIRST)
    seen = reading_taken(state, event, now)
    if first is not None and first.number is not None and event.value > first.number:
        times = state.rises + 1
        if times >= RISES or event.value >= (state.fall_from or 0.0):
            return replace(voided(seen, now), fall_missed=True)
        return replace(recorded(seen, replace(event, item=Item.FALL_FIRST), now), rises=times)
    low = event.value < above_baseline(state, LIVE_DIVISIONS)
    return replace(recorded(seen, event, now), fall_missed=state.fall_missed or low)


def _fall_speed(state: PotState, event: Answer, now: Now) -> PotState:
    seen = recorded(state, event, now)
    slowly = event.choice == "slowly"
    return replace(seen, fall_recorded=slowly, fall_missed=not slowly)


# -- zero --------------------------------------------------------------------------------


def _proving(state: PotState, now: Now) -> PotState:
    why = hopeless(state)
    return suspected(state, now, why) if why else moved(state, Belief.PROVING, now)


def _zero(state: PotState, event: Typed, now: Now) -> PotState:
    last, gauge = state.last, gauge_of(state)
    seen = reading_taken(state, event, now)
    if below_band(state, event.value):
        return gauge_lost(seen, now, "below")
    if gauge is None or in_band(state, event.value):
        return _proving(recorded(seen, event, now), now)
    before = None if last is None else last.number
    if before is not None and event.value > before + gauge.division / 2:
        return replace(voided(seen, now), air=True)
    return replace(seen, air=True)


def _failed_pin(state: PotState, event: Answer, now: Now) -> PotState:
    """Steady above zero: a zero before it proves nothing. On its pin: the gauge tells nothing."""
    if event.choice == "silent_steady":
        silent = silent_at(state, Sign.VENT)
        return _no_hiss(voided(silent, now) if state.belief is Belief.PROVING else silent, now)
    return gauge_lost(state, now, "below")


def _silence(state: PotState, event: Typed, now: Now) -> PotState:
    return _proving(recorded(state, event, now), now)


def _air_moving(state: PotState, _event: Answer, now: Now) -> PotState:
    """Air where the gauge says zero: believe the worse; a third time, stop."""
    times = state.disagreed + 1
    doubted = replace(state, air=True, disagreed=times)
    if times >= DISAGREE_TIMES:
        return suspected(doubted, now, say("The signs disagreed three times."), Branch.DISAGREE)
    return unproven(doubted, now, Branch.DISAGREE)


# -- prove -------------------------------------------------------------------------------


def _sign_seen(state: PotState, event: Answer, now: Now) -> PotState:
    if event.choice != EMPTY:
        elsewhere = event.about != Sign.VENT
        heard = state.vent_hissed and not elsewhere
        passes = heard_at(replace(state, vent_hissed=heard), Sign(event.about))
        return _air_moving(passes, event, now)
    return replace(recorded(state, event, now), sign_asked="")


def _zero_again(state: PotState, event: Typed, now: Now) -> PotState:
    first, gauge = first_zero(state), gauge_of(state)
    seen = reading_taken(recorded(state, event, now), event, now)
    if below_band(state, event.value):
        return gauge_lost(seen, now, "below")
    start = 0.0 if first is None or first.number is None else first.number
    room = 0.0 if gauge is None else gauge.division / 2
    if not in_band(state, event.value) or event.value > start + room + EDGE:
        return replace(voided(seen, now), air=True)
    return seen


def granted(state: PotState, now: Now) -> PotState:
    """Give *clear to crack*: never past its oldest evidence."""
    sights = (Item.INLET_NOW, Item.HOSE_NOW, Item.VENT_NOW_SEEN)
    pieces = [state.find(item) for item in sights] + [second_zero(state)]
    ages = [piece.age for piece in (*pieces, *signs_counted(state, now)) if piece is not None]
    expires = min(now.age + GRANT_LIFE, min(ages, default=now.age) + EVIDENCE_LIFE)
    held = replace(state, grant=Grant(now.age, expires), dwell_done=True, branch=Branch.NONE)
    return moved(held, Belief.CLEAR, now)


def _where(state: PotState, event: Answer, now: Now) -> PotState:
    """After an idle time the sightings are asked again; nothing in date is dropped."""
    if event.choice == "moved":
        return unproven(state, now, Branch.LOST_TRACK)
    asked = state.without(Item.INLET, Item.HOSE, Item.INLET_NOW, Item.HOSE_NOW, Item.VENT_NOW_SEEN)
    return recorded(asked, event, now)


ON_ANSWER: dict[Item, OnAnswer] = {
    Item.INLET: _sighting,
    Item.HOSE: _sighting,
    Item.INLET_NOW: _sighting,
    Item.HOSE_NOW: _sighting,
    Item.VENT_AGAIN: _sighting,
    Item.VENT_NOW_SEEN: _sighting,
    Item.VENT: _vent,
    Item.OPENING: _ask_sign,
    Item.OPENING_HEARD: _opening_heard,
    Item.FALL_FIRST: _steady,
    Item.FALL_SPEED: _fall_speed,
    Item.ZERO: _failed_pin,
    Item.ZERO_AGAIN: _failed_pin,
    Item.SILENCE: _air_moving,
    Item.SILENCE_AGAIN: _air_moving,
    Item.SIGN: _ask_sign,
    Item.SIGN_SEEN: _sign_seen,
    Item.WHERE: _where,
}

ON_TYPED: dict[Item, OnTyped] = {
    Item.VENT_READING: _vent_reading,
    Item.FALL_FIRST: _fall_first,
    Item.FALL_SECOND: _fall_second,
    Item.ZERO: _zero,
    Item.SILENCE: _silence,
    Item.ZERO_AGAIN: _zero_again,
}
