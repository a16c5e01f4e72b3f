"""Moves of the belief that several items share; each drops what no longer counts."""

from shopassist.core.frozen import replace
from shopassist.core.messages import Text
from shopassist.core.pot.events import Answer, Typed
from shopassist.core.pot.evidence import EDGE, hole_of, zero_band
from shopassist.core.pot.state import Evidence, Now, PotState
from shopassist.core.pot.words import Belief, Branch, Item, Sign

READY_ITEMS = (
    Item.RUN, Item.HOLD_PRESSURE, Item.RING, Item.HOLE, Item.GASKET, Item.BASELINE, Item.CLAMPS,
    Item.DRY_FIT, Item.PLACE,
)  # fmt: skip
KEPT_BY_RESEAT = (
    Item.RUN, Item.HOLD_PRESSURE, Item.RING, Item.HOLE, Item.CLAMPS, Item.DRY_FIT, Item.PLACE,
)  # fmt: skip
OF_THE_RUN = (
    *READY_ITEMS, Item.CLAMPS_ROUND, Item.CLAMP_COUNT, Item.SUPPLY, Item.TEMPERATURE,
    Item.LEAK_START, Item.LEAK_END, Item.READING, Item.AT_PRESSURE,
)  # fmt: skip
"""What a let-down that starts again does not touch."""
LASTING = READY_ITEMS
"""Evidence that a restart leaves; everything else was seen by somebody who may have left."""
UNDER_PRESSURE = (
    Belief.CLOSED, Belief.PRESSURISED, Belief.LETTING_DOWN, Belief.PROVING, Belief.CLEAR,
    Belief.CRACKED,
)  # fmt: skip
LATE = (Belief.LETTING_DOWN, Belief.PROVING, Belief.CLEAR, Belief.CRACKED)
"""From item 12 to item 21."""


def moved(state: PotState, belief: Belief, now: Now) -> PotState:
    """Change the belief and remember when."""
    return replace(state, belief=belief, since=now.age)


def piece_of(state: PotState, event: Answer | Typed, now: Now) -> Evidence:
    """Turn what was reported into evidence."""
    awake = state.awake(now)
    if isinstance(event, Typed):
        return Evidence(
            event.item, event.text, event.value, "", "", now.age, awake, now.utc, event.unit,
            event.temperature,
        )  # fmt: skip
    sign = Sign(event.about) if event.about in set(Sign) else None
    hole = event.about if sign is None or state.plate is None else state.plate.hole_of(sign)
    return Evidence(event.item, event.choice, None, event.about, hole, now.age, awake, now.utc)


def recorded(state: PotState, event: Answer | Typed, now: Now) -> PotState:
    """Add evidence; a newer answer to the same question takes the place of the older one."""
    piece = piece_of(state, event, now)
    kept = tuple(
        old for old in state.evidence
        if (old.item, old.about) != (piece.item, piece.about) or old.item is Item.VENT
    )  # fmt: skip
    return replace(state, evidence=(*kept, piece))


def reading_taken(state: PotState, event: Typed, now: Now) -> PotState:
    """Remember a reading as the last one, as the highest where it is, and as air above zero."""
    highest = event.value if state.highest is None else max(state.highest, event.value)
    shown = above_band(state, event.value)
    # It is asked for where the vent was opened and nothing was heard.
    told = silent_at(state, Sign.VENT) if shown and event.item is Item.VENT_READING else state
    return replace(
        told, last=piece_of(state, event, now), highest=highest, reading_owed=False,
        air=state.air or shown,
    )  # fmt: skip


def voided(state: PotState, now: Now, branch: Branch = Branch.NONE) -> PotState:
    """Back to isolating: every sighting, zero, sign and dwell is gone."""
    kept = tuple(piece for piece in state.evidence if piece.item in OF_THE_RUN)
    fresh_start = replace(
        state, evidence=kept, fall_missed=False, sign_asked="", dwell_done=False, grant=None,
        crack_expires=None, filling=False, branch=branch, suspect_why=None, reading_owed=False,
        may_stay=False, fall_from=None, rises=0,
    )  # fmt: skip
    return moved(fresh_start, Belief.LETTING_DOWN, now)


def heard_at(state: PotState, sign: Sign) -> PotState:
    """Air was heard there: its hole is not plugged."""
    return replace(state, silent_holes=state.silent_holes - {hole_of(state, sign)})


def silent_at(state: PotState, sign: Sign) -> PotState:
    """Nothing was heard there while the gauge stood above zero."""
    return replace(state, silent_holes=state.silent_holes | {hole_of(state, sign)})


def unproven(state: PotState, now: Now, branch: Branch = Branch.NONE) -> PotState:
    """Back to isolating; air is taken to be in, its fall as not seen whatever is read later."""
    return replace(voided(state, now, branch), air=True, unseen_forced=True, fall_recorded=False)


def air_admitted(state: PotState, now: Now, branch: Branch = Branch.NONE) -> PotState:
    """Air went in, or may have: no fall is on record any more."""
    taken = replace(
        voided(state, now, branch), air=True, fall_recorded=False, unseen_forced=False, disagreed=0
    )
    return moved(taken, Belief.PRESSURISED, now)


def suspected(state: PotState, now: Now, why: Text, branch: Branch | None = None) -> PotState:
    """Stop: signs disagree or are missing."""
    kept = state.branch if branch is None else branch
    return replace(voided(state, now, kept), belief=Belief.SUSPECT, suspect_why=why, disagreed=0)


def over_rating(state: PotState, now: Now) -> PotState:
    """Above the rating: let down, and no run until the pot was examined."""
    locked = replace(state, locked=True)
    if state.belief is Belief.SUSPECT:
        return locked
    return replace(voided(locked, now, Branch.OVER_RATING), air=True)


def opened(state: PotState, now: Now, *marks: str) -> PotState:
    """Lid off, inside seen: the run is over."""
    kept = tuple(piece for piece in state.evidence if state.reseat and piece.item in KEPT_BY_RESEAT)
    return replace(
        PotState(
            plate=state.plate, plate_version=state.plate_version, ambient=state.ambient,
            evidence=kept, locked=state.locked, lift_owed=state.lift_owed,
            gauge_failed=state.gauge_failed, lifted_day=state.lifted_day,
            marks=(*state.marks, *(mark for mark in marks if mark not in state.marks)),
            answered=now.age, slept=state.slept, seen_at=now.age, aftercare=True,
            hold=state.hold if state.reseat else None, run=state.run if state.reseat else None,
        ),
        belief=Belief.OPEN, since=now.age, reported=state.reported,
    )  # fmt: skip


def in_band(state: PotState, value: float) -> bool:
    """Whether a reading counts as zero."""
    band = zero_band(state)
    return band is not None and band[0] - EDGE <= value <= band[1] + EDGE


def above_band(state: PotState, value: float) -> bool:
    """Whether a reading shows pressure; without a gauge on the plate any above nothing does."""
    band = zero_band(state)
    return value > (0.0 if band is None else band[1]) + EDGE


def below_band(state: PotState, value: float) -> bool:
    """Whether a reading shows that the gauge failed."""
    band = zero_band(state)
    return band is not None and value < band[0] - EDGE


def gauge_lost(state: PotState, now: Now, how: str) -> PotState:
    """The gauge tells nothing any more: go on by two other openings."""
    failed = replace(
        state, gauge_failed=how, branch=Branch.STUCK_GAUGE, sign_asked="", dwell_done=False,
        grant=None,
    )  # fmt: skip
    gone = (Item.ZERO, Item.ZERO_AGAIN, Item.SILENCE, Item.SILENCE_AGAIN, Item.SIGN_SEEN)
    return moved(failed.without(*gone), Belief.LETTING_DOWN, now)
