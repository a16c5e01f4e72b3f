"""What the evidence on record amounts to: pure questions about a state.

Every time and tolerance in here is this project's own choice (``OWN``); a pot's own
instructions win wherever they are stricter.
"""

from enum import StrEnum

from shopassist.core.messages import Text, say
from shopassist.core.pot.plate import Gauge, hides_much, lift_overdue, slow_gauge, working_limit
from shopassist.core.pot.state import Evidence, Now, PotState
from shopassist.core.pot.words import Item, Sign

EVIDENCE_LIFE = 600.0
GRANT_LIFE = 600.0
LEAST_GRANT = 180.0
"""*Clear to crack* is not given for less than this, [s]."""
CRACK_LIFE = 300.0
SHORT_DWELL, LONGEST_DWELL, UNSEEN_DWELL = 120.0, 600.0, 1800.0
SLOW_FACTOR = 1.5
FALL_GAP = 60.0
IDLE_AFTER = 600.0
READY_LIFE = 12 * 3600.0
SUSPEND_LIMIT = 120.0
"""A longer suspend counts like a restart, [s]."""
LIVE_SHARE = 0.2
LIVE_DIVISIONS = 3.0
FALL_SHARE = 0.75
"""A recorded fall is read at or below this share of the reading before it."""
FALL_ROOM = 4.0
"""... or within this many divisions above the baseline."""
LIFT_SHARE = 0.75
"""Least share of its set pressure at which a relief valve is lifted live."""

EDGE = 0.01
"""Room for the last bit of a unit's conversion at the edge of a band, [Pa]."""

MOVING = ("opened_hiss", "was_open_air")
SILENT = ("opened_none", "was_open_silent")
EMPTY = "none"
"""The answer of a sign that shows no air."""


class Path(StrEnum):
    """Which of the ways to the word this record is on."""

    NORMAL = "normal"
    NO_AIR = "no air yet"
    STUCK = "stuck gauge"


def path(state: PotState) -> Path:
    """Which way to the word this record is on."""
    if state.gauge_failed:
        return Path.STUCK
    return Path.NORMAL if state.air else Path.NO_AIR


# -- the gauge ---------------------------------------------------------------------------


def gauge_of(state: PotState) -> Gauge | None:
    """The gauge on the plate."""
    return None if state.plate is None else state.plate.gauge


def zero_band(state: PotState) -> tuple[float, float] | None:
    """Readings that count as zero; None where there is no gauge to judge by."""
    gauge = gauge_of(state)
    if gauge is None:
        return None
    base, division = state.baseline or 0.0, gauge.division
    return max(base - division / 2, -division), min(base + division / 2, division)


def above_baseline(state: PotState, divisions: float) -> float:
    """So many divisions above the baseline, [Pa gauge]."""
    gauge = gauge_of(state)
    return (state.baseline or 0.0) + (0.0 if gauge is None else divisions * gauge.division)


def seen_live(state: PotState) -> bool:
    """Whether this gauge was seen well above zero in this run."""
    gauge = gauge_of(state)
    if gauge is None or state.highest is None or state.plate is None:
        return False
    hold = state.hold
    if hold is None:
        limit = working_limit(state.plate, state.ambient)
        hold = limit.pressure if limit else gauge.span
    return state.highest >= max(LIVE_SHARE * hold, LIVE_DIVISIONS * gauge.division)


def fall_unseen(state: PotState) -> bool:
    """Air was in, and nothing on record shows that the gauge followed it down."""
    return state.air and (state.unseen_forced or not state.fall_recorded)


# -- signs -------------------------------------------------------------------------------


def hole_of(state: PotState, sign: Sign) -> str:
    """The hole of a sign on this plate."""
    return "" if state.plate is None else state.plate.hole_of(sign)


def gauge_hole(state: PotState) -> str:
    """The gauge's own hole."""
    return "" if state.plate is None else state.plate.holes.gauge


def hissed_holes(state: PotState) -> frozenset[str]:
    """Holes other than the gauge's at which air was heard in this run."""
    found = {piece.hole for piece in state.all(Item.OPENING_HEARD) if piece.value != EMPTY}
    if state.vent_hissed:
        found.add(hole_of(state, Sign.VENT))
    return frozenset(found - {"", gauge_hole(state)})


def usable_signs(state: PotState) -> tuple[Sign, ...]:
    """Signs that may count on this pot in this run, least troublesome first.

    A hole that was silent under pressure would be as silent now, whatever is in the pot.
    """
    return tuple(s for s in _signs(state) if hole_of(state, s) not in state.silent_holes)


def _signs(state: PotState) -> tuple[Sign, ...]:
    barred = {"", gauge_hole(state)}
    signs = tuple(sign for sign in Sign if hole_of(state, sign) not in barred)
    hissed = hissed_holes(state)
    if state.gauge_failed == "stuck":
        return tuple(sign for sign in signs if hole_of(state, sign) in hissed)
    return tuple(sign for sign in signs if sign is not Sign.VENT or state.vent_hissed)


def usable_holes(state: PotState) -> int:
    """How many different holes can give a sign in this run."""
    return _holes(state, usable_signs(state))


def _holes(state: PotState, signs: tuple[Sign, ...]) -> int:
    return len({hole_of(state, sign) for sign in signs})


def third_owed(state: PotState) -> bool:
    """Whether one sign besides the gauge is too little."""
    return (
        not seen_live(state)
        or fall_unseen(state)
        or state.baseline is None
        or state.plate is None
        or hides_much(state.plate)
    )


def dwell_replaces_third(state: PotState) -> bool:
    """A third is owed, no third opening is there, and a long dwell may stand in for it."""
    return (
        path(state) is Path.NORMAL
        and third_owed(state)
        and _holes(state, _signs(state)) == 1
        and seen_live(state)
        and state.vent_hissed
    )


def signs_owed(state: PotState) -> int:
    """How many signs from different holes the word needs besides the gauge."""
    way = path(state)
    if way is Path.NO_AIR:
        return 0
    if way is Path.STUCK:
        return 2
    return 2 if third_owed(state) and not dwell_replaces_third(state) else 1


def signs_counted(state: PotState, now: Now) -> tuple[Evidence, ...]:
    """Fresh silent signs, one a hole."""
    by_hole = {
        piece.hole: piece
        for piece in state.all(Item.SIGN_SEEN)
        if piece.value == EMPTY and fresh(piece, now)
    }
    return tuple(by_hole.values())


def signs_left(state: PotState, now: Now) -> tuple[Sign, ...]:
    """Signs that may be chosen next."""
    taken = {piece.hole for piece in signs_counted(state, now)}
    return tuple(sign for sign in usable_signs(state) if hole_of(state, sign) not in taken)


def openings_left(state: PotState) -> tuple[Sign, ...]:
    """Openings besides vent and gauge that were not yet tried where the vent gave no hiss."""
    tried = {piece.about for piece in state.all(Item.OPENING_HEARD)}
    barred = {"", gauge_hole(state), hole_of(state, Sign.VENT)}
    return tuple(
        sign for sign in (Sign.TEST_VALVE, Sign.INLET, Sign.RING)
        if sign.value not in tried and hole_of(state, sign) not in barred
    )  # fmt: skip


def hopeless(state: PotState) -> Text | None:
    """Why the word can never be given on this pot in this let-down; None while it can."""
    if zero_band(state) is None:
        return say("There is no plate with a gauge to judge a zero by. Get help.")
    way = path(state)
    if way is Path.NO_AIR:
        return None
    holes = usable_holes(state)
    if way is Path.STUCK:
        return None if holes > 1 and hissed_holes(state) else say(
            "The gauge failed and two other openings did not show that they are clear. Get help."
        )  # fmt: skip
    if holes == 0 and state.silent_holes:
        return say("No opening is left that was not silent under pressure: it cannot be told"
                   " whether the pot is empty. Get help.")  # fmt: skip
    if holes == 0:
        return say("One opening only: it cannot be told whether the pot is empty. Get help.")
    if holes < signs_owed(state):
        return say("A third sign is owed and this pot has no third opening. Get help.")
    return None


# -- times -------------------------------------------------------------------------------


def fresh(piece: Evidence | None, now: Now) -> bool:
    """Whether a piece of evidence can still carry a grant of the least useful length."""
    return piece is not None and now.age - piece.age <= EVIDENCE_LIFE - LEAST_GRANT


def first_zero(state: PotState) -> Evidence | None:
    """What started the dwell."""
    return state.find(Item.SILENCE if state.gauge_failed else Item.ZERO)


def second_zero(state: PotState) -> Evidence | None:
    """What ended the dwell."""
    return state.find(Item.SILENCE_AGAIN if state.gauge_failed else Item.ZERO_AGAIN)


def vent_time(state: PotState) -> float | None:
    """From opening the vent to the first zero; None where the opening was not seen."""
    vents, zero = state.all(Item.VENT), first_zero(state)
    opened = [piece for piece in vents if piece.value.startswith(("opened", "pressed"))]
    if not opened or zero is None or any(p.value.startswith("was_open") for p in vents):
        return None
    return zero.age - opened[0].age


def dwell_owed(state: PotState) -> float:
    """How long the vent stays open between the two zeros, [s]."""
    way = path(state)
    if way is Path.NO_AIR:
        return SHORT_DWELL
    if way is Path.STUCK or fall_unseen(state) or dwell_replaces_third(state):
        return UNSEEN_DWELL
    seen, gauge = vent_time(state), gauge_of(state)
    if seen is None:
        return LONGEST_DWELL
    stretched = seen * (SLOW_FACTOR if gauge is not None and slow_gauge(gauge) else 1.0)
    return min(max(SHORT_DWELL, stretched), LONGEST_DWELL)


def dwell_left(state: PotState, now: Now) -> float:
    """What is left of the dwell; suspends do not count toward it."""
    zero = first_zero(state)
    if state.dwell_done:
        return 0.0
    if zero is None:
        return dwell_owed(state)
    return max(0.0, dwell_owed(state) - (state.awake(now) - zero.awake))


def fall_wait_left(state: PotState, now: Now) -> float:
    """What is left of the minute between the two readings of a fall."""
    first = state.find(Item.FALL_FIRST)
    return 0.0 if first is None else max(0.0, FALL_GAP - (state.awake(now) - first.awake))


def ready_in_date(state: PotState, now: Now) -> bool:
    """Whether Ready was answered less than twelve hours ago."""
    piece = state.find(Item.RUN)
    return piece is not None and now.age - piece.age < READY_LIFE


def lift_wanted(state: PotState, now: Now) -> bool:
    """Whether the relief valve must show a live lift before resin goes in."""
    if state.lift_owed:
        return True
    done = state.lifted_day
    if state.plate is None or (done is not None and now.day <= done + state.plate.relief_interval):
        return False
    return lift_overdue(state.plate, now.day)
