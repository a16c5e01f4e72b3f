"""Which states of a pot the walk holds for one: what the rules can tell apart, and nothing else.

What a rule merely counts, or compares with the reading before it (disagreements, rises, stuck lids,
passes, starts of a fall), ``plain`` takes out of a state and ``variants`` puts back in every way
where a rule looks at it. So the walk sees at least all that can happen, and its states are finite.
``key`` names a state together with what the witness knows of the way to it.
"""

from collections.abc import Iterator

from shopassist.core.frozen import replace
from shopassist.core.pot.events import Answer, Event, Typed
from shopassist.core.pot.evidence import (
    MOVING,
    Path,
    fall_wait_left,
    hissed_holes,
    openings_left,
    path,
    seen_live,
    signs_counted,
)
from shopassist.core.pot.moves import LATE, READY_ITEMS
from shopassist.core.pot.state import Evidence, Now, PotState
from shopassist.core.pot.steps import (
    CLOSE,
    FILL,
    LET_DOWN,
    PROVE,
    READY,
    Step,
    hole_to_see,
    present,
)
from shopassist.core.pot.words import Belief, Branch, Item, Run
from tests.core.pot.bench import BAR
from tests.proofs.pot_witness import LIFE, LONG, SHORT, Witness

LET_DOWN_AND_PROVE = (*LET_DOWN, *(step for step in PROVE if step.item is not Item.SIGN))
PROVED = {step.item for step in PROVE} | {Item.ZERO, Item.SILENCE}
STEPS: dict[Belief, tuple[Step, ...]] = {
    Belief.OPEN: READY, Belief.CLOSED: CLOSE, Belief.PRESSURISED: FILL,
    **dict.fromkeys(LATE, LET_DOWN),
}  # fmt: skip
"""The lists that a belief goes by, or comes back to when its word runs out."""
OF_A_FALL = (Item.FALL_FIRST, Item.FALL_SECOND, Item.FALL_SPEED)
"""Once a fall is had or missed, what was read of it counts no more."""
READ_AGAIN = (None, 0.0, 0.5 * BAR, 4 * BAR)
"""Readings that may have come before this one, as far as a rule compares with them."""
STARTS = (None, 0.5 * BAR, 4 * BAR)
RISING = (Item.FALL_SECOND,)
BOUNDED = (Item.READING, Item.STAY, Item.AT_PRESSURE, Item.LEAK_START, Item.LEAK_END)
DISAGREEING = (
    Item.SIGN_SEEN, Item.SILENCE, Item.SILENCE_AGAIN, Item.VENT_NOW_SEEN, Item.ZERO_AGAIN,
)  # fmt: skip

Key = tuple[object, ...]


def plain(state: PotState, now: Now) -> PotState:
    """Take out what a rule only counts or compares with, and answers that no list asks for."""
    kept = state.evidence
    if state.belief is not Belief.OPEN and not state.reseat:
        kept = tuple(each for each in kept if each.item is Item.RUN or each.item not in READY_ITEMS)
    return replace(
        state, evidence=kept, disagreed=0, rises=0, rock_failures=0, over_limit=0, passes=0,
        clamp_reached=0, fall_from=None, marks=(), suspect_why=None, reported=None, locked=False,
        lift_owed=False, run=Run.CASTING, lifted_day=None,
        fall_missed=state.fall_missed and not (state.fall_recorded or state.unseen_forced),
        answered=now.age,
    )  # fmt: skip


def variants(state: PotState, event: Event) -> Iterator[PotState]:
    """The states that ``state`` stands for, as far as a rule on this event tells them apart."""
    item = event.item if isinstance(event, Answer | Typed) else None
    if item is Item.LIVE_LIFT:
        yield replace(state, run=Run.TEST)
    elif item in (Item.SLACKEN, Item.ROCK, Item.LID_OFF) or state.belief is Belief.CLEAR:
        yield from _slackened(state)
    elif item in (Item.FALL_FIRST, Item.ZERO) and isinstance(event, Typed):
        yield from _after_readings(state)
    elif item in RISING:
        for rises in (0, 2):
            for start in STARTS:
                yield replace(state, rises=rises, fall_from=start)
    elif item in BOUNDED:
        yield state
        yield replace(state, over_limit=1)
    elif item in DISAGREEING:
        yield state
        yield replace(state, disagreed=2)
    else:
        yield state


def _slackened(state: PotState) -> Iterator[PotState]:
    assert state.plate is not None
    for passes in (0, state.plate.passes):
        yield replace(state, passes=passes)
        yield replace(state, passes=passes, rock_failures=2)


def _after_readings(state: PotState) -> Iterator[PotState]:
    last = state.last or Evidence(Item.READING, "", 0.0, "", "", 0.0, 0.0, 0.0)
    for number in READ_AGAIN:
        read = None if number is None else replace(last, number=number)
        for start in STARTS:
            yield replace(state, last=read, fall_from=start)


def key(state: PotState, now: Now, witness: Witness) -> Key:
    """What the rules can tell apart: each requirement met or not, and what decides who owes."""
    belief = state.belief
    return (
        belief, present(state, now), state.branch is Branch.NO_HISS,
        tuple(_met(step, state, now) for step in _list_of(state)),
        *_of_this_list(state, now), *_of_this_run(state), *_known(state, now, witness),
    )  # fmt: skip


def _list_of(state: PotState) -> tuple[Step, ...]:
    """The steps whose being met counts; the signs themselves stand in the key."""
    if state.belief is Belief.PRESSURISED and not state.filling:
        return ()
    if state.belief in LATE and any(each.item in PROVED for each in state.evidence):
        return LET_DOWN_AND_PROVE
    return STEPS.get(state.belief, ())


def _met(step: Step, state: PotState, now: Now) -> bool:
    counts = step.item not in OF_A_FALL or step.owed(state, now)
    return counts and step.met(state, now)


def _of_this_list(state: PotState, now: Now) -> Key:
    belief = state.belief
    if belief is Belief.OPEN:
        return (state.aftercare, hole_to_see(state, now), state.reseat)
    if belief not in (Belief.LETTING_DOWN, Belief.PROVING, Belief.CLEAR, Belief.CRACKED):
        return (state.filling, state.reading_owed)
    signs = frozenset((each.hole, each.about == "inlet") for each in signs_counted(state, now))
    return (
        state.value(Item.HOSE_BLED) == "spitting", state.value(Item.ROCK) == "free",
        openings_left(state), signs, state.dwell_done, state.may_stay, state.sign_asked,
        *_of_a_fall(state, now),
    )  # fmt: skip


def _of_a_fall(state: PotState, now: Now) -> Key:
    """What the vent told counts only while a fall may still be had."""
    if path(state) is Path.STUCK:
        return ()
    if state.fall_recorded:
        return ("had",)
    return (
        state.value(Item.VENT) in MOVING, state.value(Item.OPENING_HEARD) == "hiss_falls",
        state.fall_missed,
        present(state, now) is Item.FALL_SECOND and fall_wait_left(state, now) <= 0,
    )  # fmt: skip


def _of_this_run(state: PotState) -> Key:
    """What lasts; where the gauge failed, nothing that hangs on the gauge counts."""
    lasting = (state.gauge_failed, hissed_holes(state), state.vent_hissed, state.reseat)
    if path(state) is Path.STUCK:
        return (*lasting, state.may_stay or state.air)
    return (
        *lasting, state.air, state.fall_recorded, state.unseen_forced, state.baseline is None,
        seen_live(state),
    )  # fmt: skip


def _known(state: PotState, now: Now, witness: Witness) -> Key:
    """What the witness would judge a grant by."""
    run: Key = (frozenset(witness.heard), witness.vent_hissed)
    if not state.gauge_failed:
        run = (*run, witness.air, witness.fall, witness.baseline is None, witness.live())
    if state.belief is not Belief.PROVING:
        return run
    holes = frozenset(hole for hole, age in witness.signs.items() if now.age - age <= LIFE)
    awake = now.age - witness.slept
    first = awake - witness.firsts[-1] if witness.firsts else -1.0
    apart = witness.seconds[-1][1] - witness.firsts[-1] if witness.seconds else -1.0
    return (
        *run, holes, first >= SHORT, first >= LONG, apart >= SHORT, apart >= LONG,
        frozenset(witness.unseen(now)),
    )  # fmt: skip
