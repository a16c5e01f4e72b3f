"""Which states of a pot the walk holds for one: what the rules can tell apart, and nothing else.

What a rule merely counts, or compares with the reading before it (disagreements, rises, stuck lids,
passes, starts of a fall), ``plain`` takes out of a state and ``variants`` puts back in every way
where a rule looks at it. So the walk sees at least all that can happen, and its states are finite.
``key`` names a state together with what the witness knows of the way to it. Of an age it keeps
which side of a limit it lies on, not how far from it.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from shopassist.core.frozen import replace
from shopassist.core.pot.events import Answer, Event, Typed
from shopassist.core.pot.evidence import (
    EMPTY,
    MOVING,
    SILENT,
    Path,
    fall_wait_left,
    hole_of,
    path,
    ready_in_date,
    seen_live,
    signs_counted,
    usable_signs,
)
from shopassist.core.pot.moves import LATE, READY_ITEMS
from shopassist.core.pot.plate import Holes, Plate
from shopassist.core.pot.state import Evidence, Now, PotState
from shopassist.core.pot.steps import (
    CLOSE,
    FILL,
    LET_DOWN,
    PROVE,
    READY,
    Step,
    holes_to_see,
)
from shopassist.core.pot.words import Belief, Branch, Item, Run
from tests.core.pot.bench import BAR, Sitting
from tests.proofs.pot_witness import LONG, SHORT, Witness

STEPS: dict[Belief, tuple[Step, ...]] = {
    Belief.OPEN: READY, Belief.CLOSED: CLOSE, Belief.PRESSURISED: FILL,
}  # fmt: skip
"""The list that a belief goes by; the late ones have the let-down's."""
OF_A_FALL = frozenset({Item.FALL_FIRST, Item.FALL_SECOND, Item.FALL_SPEED})
"""Once a fall is had or missed, what was read of it counts no more."""
TIMED = tuple(step for step in PROVE if step.item is not Item.SIGN)
"""Steps that time can undo, or meet; the signs themselves stand in the key."""
PROVED = frozenset({step.item for step in PROVE} | {Item.ZERO, Item.SILENCE})
AGAIN = {
    Item.INLET: "shut", Item.HOSE_BLED: "bled", Item.HOSE: "apart", Item.EYES: "covered",
    Item.VENT_AGAIN: "open",
}  # fmt: skip
"""What is only looked at, and asked again until it is well; a plain state has all of it so.

Where one of them is missing it is asked before all that comes later, and nothing else changes: any
answer leads to where it is well, or is asked again, or voids what was proved, or air is heard.
"""
LOOKED_AT = frozenset(AGAIN)
ASKED = frozenset({
    *(step.item for step in (*LET_DOWN, *PROVE)), Item.SIGN_SEEN, Item.OPENING_HEARD, Item.ROCK,
}) - LOOKED_AT  # fmt: skip
"""What the rules look for in the evidence of a let-down."""
TOLD = tuple(step for step in LET_DOWN if step.item in (Item.VENT, Item.ZERO, Item.SILENCE))
CLOSING = frozenset(step.item for step in (*CLOSE, *FILL))
READY_SET = frozenset(READY_ITEMS)
READ_AGAIN = (None, 0.0, 0.5 * BAR, 4 * BAR)
"""Readings that may have come before this one, as far as a rule compares with them."""
STARTS = (None, 0.5 * BAR, 4 * BAR)
FIRSTS = (0.5 * BAR, 4 * BAR)
"""First readings of a fall that the second is held against."""
BOUNDED = (Item.READING, Item.STAY, Item.AT_PRESSURE, Item.LEAK_START, Item.LEAK_END)
DISAGREEING = (Item.SILENCE, Item.SILENCE_AGAIN, Item.VENT_NOW_SEEN)
WELL_ABOVE = 2 * BAR
"""A reading that shows any gauge of the walk alive, whatever was to be held."""

Key = tuple[object, ...]


def plain(state: PotState, now: Now) -> PotState:
    """Take out what a rule only counts or compares with, and answers that no list asks for."""
    return replace(
        state, evidence=_asked_for(state), disagreed=0, rises=0, rock_failures=0, sign_asked="",
        over_limit=0, reseat=False, passes=0, clamp_reached=0, fall_from=None, last=None, marks=(), suspect_why=None,
        reported=None, locked=False, lift_owed=False, run=Run.CASTING, lifted_day=None,
        answered=now.age, highest=WELL_ABOVE if seen_live(state) else None,
    )  # fmt: skip


def _asked_for(state: PotState) -> tuple[Evidence, ...]:
    belief = state.belief
    if belief is Belief.OPEN:
        return state.evidence
    wanted: frozenset[Item] = frozenset()
    if belief in LATE:
        wanted = ASKED
    elif belief is Belief.CLOSED or state.filling:
        wanted = CLOSING
    if ready_counts(state):
        wanted |= READY_SET
    if state.value(Item.VENT) not in SILENT:
        wanted -= {Item.VENT_READING}
    kept = [each for each in state.evidence if each.item in wanted]
    return (*kept, *_LOOKED) if belief in LATE else tuple(kept)


_LOOKED = tuple(
    [Evidence(item, value, None, "", "", 0.0, 0.0, 0.0) for item, value in AGAIN.items()]
)


def unlooked(state: PotState) -> Iterator[PotState]:
    """The state, and as it is while the inlet is still to be looked at."""
    yield state
    if state.belief in LOOKING:
        yield state.without(Item.INLET)


LOOKING = (Belief.LETTING_DOWN, Belief.PROVING)
"""Where the inlet, the hose and the vent may be owed once more."""


def _vent_doubted(state: PotState) -> PotState:
    shut = replace(_LOOKED[-1], value="shut")
    return replace(state, evidence=(*state.without(Item.VENT_AGAIN).evidence, shut))


def ready_counts(state: PotState) -> bool:
    """Whether what was found before closing is looked at again."""
    return state.belief in (Belief.OPEN, Belief.CLOSED)


def variants(state: PotState, event: Event) -> Iterator[PotState]:
    """The states that ``state`` stands for, as far as a rule on this event tells them apart."""
    item = event.item if isinstance(event, Answer | Typed) else None
    if item in (Item.INLET, Item.HOSE):
        yield state.without(item)
    elif item is Item.VENT_AGAIN:
        yield _vent_doubted(state)
    elif item is Item.WHERE:
        yield from unlooked(state)
    elif item is Item.OPENING_HEARD and isinstance(event, Answer):
        yield replace(state, sign_asked=event.about)
    elif item is Item.SIGN_SEEN and isinstance(event, Answer):
        yield replace(state, sign_asked=event.about)
        yield replace(state, sign_asked=event.about, disagreed=2)
    elif item is Item.LIVE_LIFT:
        yield replace(state, run=Run.TEST)
    elif item is Item.VENT:
        yield state
        yield replace(state, evidence=(*state.evidence, _read(Item.VENT_READING, 2 * BAR)))
    elif item in (Item.SLACKEN, Item.ROCK):
        yield from _slackened(state)
    elif item is Item.LID_OFF_NOW:
        yield from _reseated(state)
    elif item is Item.LID_OFF:
        for slack in _slackened(state):
            yield from _reseated(slack)
    elif item in (Item.FALL_FIRST, Item.ZERO) and isinstance(event, Typed):
        yield from _after_readings(state)
    elif item is Item.FALL_SECOND and isinstance(event, Typed):
        yield from _after_a_first(state)
    elif item in BOUNDED and isinstance(event, Typed) and _limits(state, item):
        yield state
        yield replace(state, over_limit=1)
    elif item in DISAGREEING:
        yield state
        yield replace(state, disagreed=2)
    else:
        yield state


def _limits(state: PotState, item: Item) -> bool:
    """Only under pressure is it counted how often the working limit was passed."""
    return state.belief is Belief.PRESSURISED or item is Item.STAY


def _slackened(state: PotState) -> Iterator[PotState]:
    assert state.plate is not None
    for passes in (0, state.plate.passes):
        yield replace(state, passes=passes)
        yield replace(state, passes=passes, rock_failures=2)


def _reseated(state: PotState) -> Iterator[PotState]:
    """As it is; and let down to reseat the gasket, with what Ready had found or with nothing.

    What goes out of date before the lid is off may as well go out of date after it, one by one.
    """
    yield state
    assert state.plate is not None
    to_reseat = replace(state, reseat=True, hold=4 * BAR)
    yield to_reseat
    found = _found_ready(state.plate)
    wait = state.answered - found[-1].age
    kept = [replace(each, age=each.age + wait, awake=each.awake + wait) for each in found]
    yield replace(to_reseat, evidence=(*state.evidence, *kept))


def _found_ready(made: Plate) -> tuple[Evidence, ...]:
    """What Ready finds at a pot that is in order."""
    found = _FOUND.get(made.holes)
    if found is None:
        sitting = Sitting(made)
        sitting.ready()
        found = _FOUND[made.holes] = sitting.state.evidence
    return found


_FOUND: dict[Holes, tuple[Evidence, ...]] = {}


def _read(item: Item, pressure: float) -> Evidence:
    return Evidence(item, f"{pressure / BAR:g}", pressure, "", "", 0.0, 0.0, 0.0, "bar")


def _after_readings(state: PotState) -> Iterator[PotState]:
    last = state.last or _read(Item.READING, 0.0)
    for number in READ_AGAIN:
        read = None if number is None else replace(last, number=number)
        for start in STARTS:
            yield replace(state, last=read, fall_from=start)


def _after_a_first(state: PotState) -> Iterator[PotState]:
    first = state.find(Item.FALL_FIRST)
    assert first is not None
    for number in FIRSTS:
        other = tuple(
            replace(each, number=number) if each is first else each for each in state.evidence
        )
        for rises in (0, 2):
            for start in STARTS:
                yield replace(state, evidence=other, rises=rises, fall_from=start)


# -- the key -----------------------------------------------------------------------------


def key(state: PotState, now: Now, witness: Witness) -> Key:
    """What the rules can tell apart: each requirement met or not, and what decides who owes.

    The present item is no part of it: it follows from the rest.
    """
    belief = state.belief
    if belief in LATE:
        return (belief, *_late(state, now), *_of_this_run(state), *_known(state, now, witness))
    return (
        belief, state.branch is Branch.NO_HISS,
        *_of_this_list(state, now), *_of_this_run(state), *_known(state, now, witness),
    )  # fmt: skip


def _met(steps: tuple[Step, ...], state: PotState, now: Now) -> Key:
    return tuple([step.met(state, now) for step in steps])


def _of_this_list(state: PotState, now: Now) -> Key:
    belief = state.belief
    kept = _met(READY, state, now) if ready_counts(state) else ()
    if belief is Belief.OPEN:
        return (state.aftercare, tuple(holes_to_see(state, now)), kept)
    if belief is Belief.CLOSED:
        return (ready_in_date(state, now), kept, _met(CLOSE, state, now))
    listed = _met(FILL, state, now) if state.filling else ()
    return (state.filling, state.reading_owed, kept, listed)


def _late(state: PotState, now: Now) -> Key:
    """What a let-down asked for: what was seen, what of it is in date, and what is going on.

    Once a zero or a silence is on record, and wherever the gauge failed, no fall is asked and no
    opening tried any more: until all of it is void only the holes count at which air was heard.
    """
    said = _said(state, now)
    proved = _proved(state, now) if said.proved and state.grant is None else ()
    if state.belief is not Belief.LETTING_DOWN:
        return (said.hissed, said.rocked, state.dwell_done, proved)
    if path(state) is Path.STUCK:
        return (said.seen, said.hissed, said.rocked, proved)
    no_hiss = state.branch is Branch.NO_HISS
    return (
        said.seen, said.tried, said.rocked, no_hiss, state.may_stay, proved,
        *_of_a_fall(state, now, said),
    )  # fmt: skip


@dataclass(frozen=True)
class Said:
    """What the answers of a let-down amount to, whenever they were given."""

    seen: Key
    fall: Key
    tried: frozenset[object]
    hissed: frozenset[object]
    """Openings at which air was heard."""
    rocked: bool
    proved: bool
    """Whether a zero, a sign or a last look is on record."""
    heard: bool
    falls: bool
    waits: bool
    """Whether the second reading of a fall is the next."""


def _said(state: PotState, now: Now) -> Said:
    """Look at the answers once for all states that have the same ones."""
    shape = tuple([(each.item._value_, each.value, each.about) for each in state.evidence])
    found = _SAID.get(shape)
    if found is None:
        silent = state.value(Item.VENT) in SILENT
        found = _SAID[shape] = Said(
            (*_met(TOLD, state, now), silent and state.find(Item.VENT_READING) is not None),
            _met(tuple(step for step in LET_DOWN if step.item in OF_A_FALL), state, now),
            frozenset((each.about, each.value != EMPTY) for each in state.all(Item.OPENING_HEARD)),
            frozenset(each.about for each in state.all(Item.OPENING_HEARD) if each.value != EMPTY),
            state.value(Item.ROCK) == "free",
            any(each.item in PROVED for each in state.evidence),
            state.value(Item.VENT) in MOVING, state.value(Item.OPENING_HEARD) == "hiss_falls",
            state.find(Item.FALL_FIRST) is not None and state.find(Item.FALL_SECOND) is None,
        )  # fmt: skip
    return found


_SAID: dict[Key, Said] = {}


def _proved(state: PotState, now: Now) -> Key:
    """What of the proof is in date; nothing is nothing, whatever went out of date.

    Once the word is given nobody looks at it: the word has an end of its own, and takes it along.
    Which piece is the older is no part of it: that only time tells apart, and strays look for it.
    """
    signs = frozenset([(each.hole, each.about == "inlet") for each in signs_counted(state, now)])
    met = (*_met(TIMED, state, now), signs)
    return met if any(met) else ()


def _of_a_fall(state: PotState, now: Now, said: Said) -> Key:
    """What the vent told counts while a fall may still be had, if only it is answered again."""
    if state.fall_recorded:
        return ("had",)
    if state.fall_missed or state.unseen_forced:
        return ("missed", said.heard)
    waited = said.waits and fall_wait_left(state, now) <= 0
    return (said.heard, said.falls, said.fall, waited)


def _of_this_run(state: PotState) -> Key:
    """What lasts; where the gauge failed, nothing that hangs on the gauge counts."""
    barred = state.silent_holes & _sign_holes(state)
    lasting = (state.gauge_failed, state.vent_hissed, state.air, barred)
    if path(state) is Path.STUCK:
        return lasting
    return (
        *lasting, state.fall_recorded, state.unseen_forced, state.baseline is None,
        seen_live(state),
    )  # fmt: skip


def _sign_holes(state: PotState) -> frozenset[str]:
    """Holes that could give a sign if they had not been silent; any other is heard before it can."""
    could = usable_signs(replace(state, silent_holes=frozenset()))
    return frozenset(hole_of(state, sign) for sign in could)


def _known(state: PotState, now: Now, witness: Witness) -> Key:
    """What the witness would judge a grant by; once one was given, the next, after its end."""
    run: Key = (witness.heard, witness.vent_hissed, witness.dumb & _sign_holes(state))
    if not state.gauge_failed:
        run = (*run, witness.air, witness.fall, witness.baseline is None, witness.live())
    if state.belief not in LATE[1:]:
        return run
    first = witness.firsts[-1] if witness.firsts else float("inf")
    if state.grant is not None:
        return (*run, state.grant.expires - witness.slept - first >= LONG)
    then, waited = witness.at(now.age), now.age - witness.slept - first
    apart = then.seconds[-1][1] - first if then.seconds else -1.0
    return (
        *run, then.silent(now.age), waited >= SHORT, waited >= LONG, apart >= SHORT, apart >= LONG,
        tuple(then.unseen(now.age)),
    )  # fmt: skip
