"""The order of the items: the first one that is owed and not met is the present one.

The lists are data: each step is one requirement, and nothing else lets the word through.
"""

from collections.abc import Callable, Iterator

from shopassist.core.frozen import frozen
from shopassist.core.pot.evidence import (
    FALL_GAP,
    IDLE_AFTER,
    MOVING,
    READY_LIFE,
    SILENT,
    Path,
    dwell_left,
    dwell_owed,
    first_zero,
    fresh,
    path,
    ready_in_date,
    second_zero,
    signs_counted,
    signs_owed,
)
from shopassist.core.pot.state import Now, PotState
from shopassist.core.pot.words import Belief, Branch, Item, Run

Test = Callable[[PotState, Now], bool]


def always(_state: PotState, _now: Now) -> bool:
    """Owed in every case."""
    return True


def said(item: Item, *values: str) -> Test:
    """Reported, with one of these answers; with none named, with any value."""

    def met(state: PotState, _now: Now) -> bool:
        piece = state.find(item)
        return piece is not None and (not values or piece.value in values)

    return met


def said_fresh(item: Item, *values: str) -> Test:
    """Reported just now, with one of these answers."""

    def met(state: PotState, now: Now) -> bool:
        piece = state.find(item)
        return piece is not None and piece.value in values and fresh(piece, now)

    return met


def said_today(item: Item, *values: str) -> Test:
    """Reported within the life of Ready."""
    answered = said(item, *values)

    def met(state: PotState, now: Now) -> bool:
        piece = state.find(item)
        return answered(state, now) and piece is not None and now.age - piece.age < READY_LIFE

    return met


@frozen
class Step:
    """One requirement."""

    item: Item
    met: Test
    owed: Test = always


# -- owed when ---------------------------------------------------------------------------


def _spitting(state: PotState, _now: Now) -> bool:
    return state.value(Item.HOSE_BLED) == "spitting"


def _calm_hose(state: PotState, now: Now) -> bool:
    return not _spitting(state, now)


def _eyes_owed(state: PotState, _now: Now) -> bool:
    return path(state) is not Path.NO_AIR


def _eyes_now(state: PotState, now: Now) -> bool:
    return _eyes_owed(state, now) and _calm_hose(state, now)


def _eyes_late(state: PotState, now: Now) -> bool:
    return _eyes_owed(state, now) and _spitting(state, now)


def _gauge_counts(state: PotState, _now: Now) -> bool:
    return not state.gauge_failed


def _gauge_lost(state: PotState, _now: Now) -> bool:
    return bool(state.gauge_failed)


def _quiet_vent(state: PotState, _now: Now) -> bool:
    silent = state.value(Item.VENT) in SILENT and not state.fall_recorded
    return silent and path(state) is Path.NORMAL


def _no_hiss(state: PotState, _now: Now) -> bool:
    return state.branch is Branch.NO_HISS


def _fall_owed(state: PotState, _now: Now) -> bool:
    heard = state.value(Item.VENT) in MOVING or state.value(Item.OPENING_HEARD) == "hiss_falls"
    had = state.fall_recorded or state.fall_missed or state.unseen_forced
    return heard and not had and path(state) is Path.NORMAL


def _vent_standing(state: PotState, _now: Now) -> bool:
    """Whether the vent was seen open after the last thing that put it in doubt."""
    for piece in reversed(state.evidence):
        if piece.item in (Item.VENT, Item.VENT_AGAIN):
            return piece.value != "shut"
        if piece.item in (Item.FALL_FIRST, Item.FALL_SECOND, Item.WHERE):
            return False
    return False


def _signs_met(state: PotState, now: Now) -> bool:
    return len(signs_counted(state, now)) >= signs_owed(state)


def _dwell_met(state: PotState, now: Now) -> bool:
    return dwell_left(state, now) <= 0.0


def _second_met(state: PotState, now: Now) -> bool:
    return fresh(second_zero(state), now)


def _holes_clear(state: PotState, now: Now) -> bool:
    return not hole_to_see(state, now)


def holes_to_see(state: PotState, now: Now) -> Iterator[str]:
    """The holes that were not seen clear within the life of Ready, in their order."""
    for hole in () if state.plate is None else state.plate.holes.all():
        piece = state.find(Item.HOLE, hole)
        if piece is None or piece.value != "clear" or now.age - piece.age >= READY_LIFE:
            yield hole


def hole_to_see(state: PotState, now: Now) -> str:
    """The next hole that was not seen clear; empty when all were."""
    return next(holes_to_see(state, now), "")


# -- the lists ---------------------------------------------------------------------------

READY: tuple[Step, ...] = (
    Step(Item.RUN, ready_in_date),
    Step(Item.HOLD_PRESSURE, said_today(Item.HOLD_PRESSURE)),
    Step(Item.RING, said_today(Item.RING, "snaps_back")),
    Step(Item.HOLE, _holes_clear),
    Step(Item.GASKET, said_today(Item.GASKET, "clean")),
    Step(Item.BASELINE, said_today(Item.BASELINE)),
    Step(Item.CLAMPS, said_today(Item.CLAMPS)),
    Step(Item.DRY_FIT, said_today(Item.DRY_FIT, "fits")),
    Step(Item.PLACE, said_today(Item.PLACE, "stays")),
)

CLOSE: tuple[Step, ...] = (
    Step(Item.CLAMPS_ROUND, said(Item.CLAMPS_ROUND, "all_round")),
    Step(Item.CLAMP_COUNT, said(Item.CLAMP_COUNT)),
)

FILL: tuple[Step, ...] = (
    Step(Item.FIRST_AIR, said(Item.FIRST_AIR)),
    Step(Item.REGULATOR, said(Item.REGULATOR, "agrees")),
    Step(Item.LID_HISS, said(Item.LID_HISS, "none")),
    Step(Item.AT_PRESSURE, said(Item.AT_PRESSURE)),
    Step(Item.SUPPLY, said(Item.SUPPLY, "connected", "isolated")),
)

LET_DOWN: tuple[Step, ...] = (
    Step(Item.INLET, said(Item.INLET, "shut")),
    Step(Item.HOSE_BLED, said(Item.HOSE_BLED, "bled", "no_hose", "spitting")),
    Step(Item.HOSE, said(Item.HOSE, "apart"), _calm_hose),
    Step(Item.EYES, said(Item.EYES, "covered"), _eyes_now),
    Step(Item.VENT, said(Item.VENT, *MOVING, *SILENT)),
    Step(Item.HOSE, said(Item.HOSE, "apart"), _spitting),
    Step(Item.EYES, said(Item.EYES, "covered"), _eyes_late),
    Step(Item.VENT_READING, said(Item.VENT_READING), _quiet_vent),
    Step(Item.OPENING, lambda _s, _n: False, _no_hiss),
    Step(Item.FALL_FIRST, said(Item.FALL_FIRST), _fall_owed),
    Step(Item.FALL_SECOND, said(Item.FALL_SECOND), _fall_owed),
    Step(Item.VENT_AGAIN, _vent_standing),
    Step(Item.FALL_SPEED, said(Item.FALL_SPEED, "slowly"), _fall_owed),
    Step(Item.ZERO, said(Item.ZERO), _gauge_counts),
    Step(Item.SILENCE, said(Item.SILENCE), _gauge_lost),
)

PROVE: tuple[Step, ...] = (
    Step(Item.DWELL, _dwell_met),
    Step(Item.SIGN, _signs_met),
    Step(Item.ZERO_AGAIN, _second_met, _gauge_counts),
    Step(Item.SILENCE_AGAIN, _second_met, _gauge_lost),
    Step(Item.INLET_NOW, said_fresh(Item.INLET_NOW, "shut", "opened_as_sign")),
    Step(Item.HOSE_NOW, said_fresh(Item.HOSE_NOW, "apart")),
    Step(Item.VENT_NOW_SEEN, said_fresh(Item.VENT_NOW_SEEN, "open")),
)


def first_unmet(steps: tuple[Step, ...], state: PotState, now: Now) -> Item | None:
    """The first requirement that is owed and not met."""
    return next((s.item for s in steps if s.owed(state, now) and not s.met(state, now)), None)


# -- the present item --------------------------------------------------------------------

UNHURRIED = (Item.FALL_FIRST, Item.ZERO, Item.SILENCE, Item.DWELL)
"""Waits that the program asked for; nobody is idle in them."""


def unasked(state: PotState, now: Now, item: Item) -> float:
    """Time without an answer, less the waits that the program asked for, [s]."""
    passed = now.age - state.answered
    zero = first_zero(state)
    if zero is not None and not state.dwell_done:
        passed = min(passed, state.awake(now) - zero.awake - dwell_owed(state))
    if item is Item.FALL_SECOND:
        first = state.find(Item.FALL_FIRST)
        passed = min(passed, state.awake(now) - (first.awake if first else 0.0) - FALL_GAP)
    return passed


def idle(state: PotState, now: Now, item: Item) -> bool:
    """Whether so long went by without an answer that the sightings are asked again."""
    return item not in UNHURRIED and unasked(state, now, item) > IDLE_AFTER


def present(state: PotState, now: Now) -> Item | None:
    """The one item that is asked now."""
    return _PRESENT[state.belief](state, now)


def _open(state: PotState, now: Now) -> Item | None:
    return Item.AFTERCARE if state.aftercare else first_unmet(READY, state, now) or CLOSE[0].item


def _closed(state: PotState, now: Now) -> Item | None:
    return first_unmet(CLOSE, state, now) or Item.AIR_ON


def _pressurised(state: PotState, now: Now) -> Item | None:
    if state.filling:
        return first_unmet(FILL, state, now)
    if state.reading_owed:
        return Item.READING
    return Item.LIVE_LIFT if state.run is Run.TEST and state.lifted_day is None else None


def _letting_down(state: PotState, now: Now) -> Item | None:
    item = first_unmet((*LET_DOWN, *PROVE), state, now) or Item.CONFIRM
    if idle(state, now, item):
        return Item.WHERE
    asked = {Item.SIGN: Item.SIGN_SEEN, Item.OPENING: Item.OPENING_HEARD}
    return asked.get(item, item) if state.sign_asked else item


def _clear(state: PotState, _now: Now) -> Item | None:
    owed = 3 if state.plate is None else state.plate.passes
    return Item.SLACKEN if state.passes < owed else Item.ROCK


_PRESENT: dict[Belief, Callable[[PotState, Now], Item | None]] = {
    Belief.UNKNOWN: lambda _s, _n: Item.LID_OFF_NOW,
    Belief.OPEN: _open,
    Belief.CLOSED: _closed,
    Belief.PRESSURISED: _pressurised,
    Belief.LETTING_DOWN: _letting_down,
    Belief.PROVING: _letting_down,
    Belief.CLEAR: _clear,
    Belief.CRACKED: lambda _s, _n: Item.LID_OFF,
    Belief.SUSPECT: lambda _s, _n: None,
}
