"""Walk the states of a pot: states × events × faults, every move judged.

States are merged when they differ only in what no rule tells apart: an age is within the life of
evidence or older, and counters (disagreements, rises, stuck lids) keep the value they were first
reached with. The walk goes half breadth first, half depth first, from a pot under pressure whose
Ready, Close and filling are on record, and from a closed one without air. It takes every answer,
every press, representative readings, waits, restarts, suspends and a doubted clock.
``run(count, seed)`` expands up to ``count`` states in all; *left* is what it did not get to.
"""

import random
from collections import Counter, deque
from collections.abc import Iterator
from dataclasses import dataclass, replace

from shopassist.core.pot.advance import advance
from shopassist.core.pot.cards import Ask, AskKind
from shopassist.core.pot.events import Event, Note, Press, Tell
from shopassist.core.pot.evidence import (
    MOVING,
    dwell_owed,
    fall_wait_left,
    hissed_holes,
    openings_left,
    seen_live,
    signs_counted,
    signs_owed,
    zero_band,
)
from shopassist.core.pot.passing import settled
from shopassist.core.pot.plate import Holes, Plate
from shopassist.core.pot.questions import questions
from shopassist.core.pot.state import Now, PotState, Refusal
from shopassist.core.pot.steps import CLOSE, FILL, LET_DOWN, PROVE, Step, present
from shopassist.core.pot.words import Act, Belief, Branch, Item, Told
from tests.core.pot.bench import BAR, Sitting, plate
from tests.proofs.pot_witness import Witness
from tests.proofs.report import Report

FULL = 400_000
STRETCH = 400_000
READINGS = (-0.2, 0.0, 0.5, 2.0, 3.9, 5.6)
TELLS = (
    Tell(Told.RESTARTED), Tell(Told.SUSPENDED, 60.0), Tell(Told.SUSPENDED, 130.0),
    Tell(Told.CLOCK_DOUBTED),
)  # fmt: skip
LAYOUTS = (
    Holes("n", "e", "s", "w"), Holes("n", "n", "s", "w"), Holes("n", "e", "e", "n"),
    Holes("n", "n", "n", "n", "", "g"),
)  # fmt: skip
LEFT_OUT = (Item.TEMPERATURE, Item.LEAK_START, Item.LEAK_END, Item.SUPPLY)
"""Items of Hold that touch no evidence of the let-down; the machine covers them."""
MOST_PASSES = 3
LONGEST = 600.0
WEIGHED = (Item.FALL_FIRST, Item.ZERO)
"""Items whose answer is weighed against the last reading."""
OF_A_FALL = (Item.FALL_FIRST, Item.FALL_SECOND, Item.FALL_SPEED)
"""Once a fall is had or missed, what was read of it counts no more."""
STEPS: dict[Belief, tuple[Step, ...]] = {
    Belief.CLOSED: CLOSE, Belief.PRESSURISED: FILL, Belief.LETTING_DOWN: (*LET_DOWN, *PROVE),
    Belief.PROVING: (*LET_DOWN, *PROVE),
}  # fmt: skip
"""The lists that a belief goes by; what was met of another is dropped or not asked again."""


@dataclass
class Place:
    """A state, when it was reached, and what the witness knows on the way to it."""

    state: PotState
    now: Now
    witness: Witness


Key = tuple[object, ...]


def key(state: PotState, now: Now) -> Key:
    """What the rules can tell apart: each requirement met or not, and what decides who owes."""
    asked = present(state, now)
    last = None if state.last is None else state.last.number
    weighed = asked in WEIGHED
    return (
        state.belief, state.branch is Branch.NO_HISS, asked,
        tuple(_met(step, state, now) for step in STEPS.get(state.belief, ())),
        state.value(Item.HOSE_BLED) == "spitting", state.value(Item.VENT) in MOVING,
        state.value(Item.OPENING_HEARD) == "hiss_falls", state.value(Item.ROCK) == "free",
        _watched(state), hissed_holes(state), openings_left(state),
        frozenset((piece.hole, piece.about == "inlet") for piece in signs_counted(state, now)),
        _level(state, last) if weighed and last is not None else None,
        state.fall_from is None and weighed, state.air, min(state.passes, MOST_PASSES),
        state.fall_recorded, state.fall_missed, state.unseen_forced, state.vent_hissed,
        state.gauge_failed, state.dwell_done, state.may_stay, state.filling,
        state.baseline is None, seen_live(state), signs_owed(state),
        dwell_owed(state) > LONGEST, fall_wait_left(state, now) <= 0, state.sign_asked,
        state.reading_owed,
    )  # fmt: skip


def _met(step: Step, state: PotState, now: Now) -> bool:
    counts = step.item not in OF_A_FALL or step.owed(state, now)
    return counts and step.met(state, now)


def _watched(state: PotState) -> bool:
    """Whether somebody saw the vent opened, so that the time of venting is known."""
    vents = [piece.value for piece in state.all(Item.VENT)]
    opened = any(value.startswith(("opened", "pressed")) for value in vents)
    return opened and not any(value.startswith("was_open") for value in vents)


def _level(state: PotState, value: float) -> int:
    band = zero_band(state)
    if band is None:
        return 0
    edges = (band[0], band[1] + 1, 1 * BAR, 3 * BAR)
    return sum(value >= edge for edge in edges)


def answers(ask: Ask) -> Iterator[Event]:
    """Every answer to one item, with representative values where it is typed."""
    if ask.kind is AskKind.TYPE and ask.quantity == "PascalGauge":
        for value in READINGS:
            yield ask.typed(value * BAR, f"{value:g}", "bar")
    elif ask.kind is AskKind.TYPE and ask.quantity == "Word":
        yield ask.typed(0.0, "silent", "")
    elif ask.kind is AskKind.TYPE:
        yield ask.typed(6.0, "6", "")
    for choice in ask.choices:
        yield choice.event


def moves(place: Place) -> Iterator[tuple[Event, float]]:
    """Every event and how long before it nothing happened."""
    card = questions(place.state, place.now)
    waits = {2.0, 430.0}
    if card.wait is not None:
        waits.add(card.wait.left + 1)
    if card.expires_in is not None:
        waits.add(card.expires_in + 1)
    asks = [card.ask, *(free.ask for free in card.free)]
    for ask in asks:
        if ask is not None and ask.item not in LEFT_OUT:
            for event in answers(ask):
                for wait in waits if ask is card.ask else (2.0,):
                    yield event, wait
    if card.wait is not None:
        yield Press(Act.STOP), card.wait.left + 1
    for act in Act:
        yield Press(act), 2.0
    for tell in TELLS:
        yield tell, tell.seconds + 2.0
    yield Note("somebody", "looked"), 2.0


def begin(made: Plate, *, closed: bool) -> Place:
    """A pot under pressure by the list, or one closed without air."""
    sitting = Sitting(made)
    witness = Witness(made)
    witness.baseline, witness.hold, witness.air = 0.0, 4 * BAR, not closed
    if closed:
        sitting.ready()
        sitting.close()
        return Place(sitting.state, sitting.now, witness)
    witness.highest = 4 * BAR
    sitting.held()
    return Place(sitting.state, sitting.now, witness)


def walk(first: Place, most: int, seed: int) -> tuple[Counter[str], list[str]]:
    """Expand up to ``most`` states; what was counted, and what was wrong."""
    seen: set[Key] = {key(first.state, first.now)}
    queue: deque[Place] = deque([first])
    rng = random.Random(seed)
    figures: Counter[str] = Counter()
    wrong: list[str] = []
    while queue and figures["expanded"] < most:
        place = queue.popleft() if rng.random() < 0.5 else queue.pop()
        figures["expanded"] += 1
        for event, wait in moves(place):
            now = Now(place.now.age + wait, place.now.utc + wait)
            before = settled(place.state, now)
            after = advance(place.state, event, now)
            if isinstance(after, Refusal):
                continue
            figures["moves"] += 1
            witness = place.witness.copy()
            wrong += [f"{line} after {event}" for line in witness.watch(before, event, after, now)]
            granted = after.belief is Belief.CLEAR and before.belief is Belief.PROVING
            figures["grants"] += granted
            mark = key(after, now)
            if mark not in seen and after.belief is not Belief.OPEN:
                seen.add(mark)
                queue.append(Place(after, now, witness))
    figures.update({"states": len(seen), "left": len(queue)})
    return figures, wrong


def run(count: int, seed: int) -> Report:
    """Walk every pot; ``count`` bounds the states expanded in all."""
    figures: Counter[str] = Counter()
    wrong: list[str] = []
    places = [
        begin(replace(plate(), holes=holes), closed=closed)
        for holes in LAYOUTS
        for closed in (False, True)
    ]
    for place in places:
        found, lines = walk(place, max(1, count // len(places)), seed)
        figures.update(found)
        wrong += lines
    return Report(count, seed, tuple(wrong[:50]), dict(figures))
