"""Walk every state of a pot: states × events × faults, every move judged, until none is new.

From a pot of which nothing is known, one closed without air and one under pressure, the walk takes
every answer, every press, representative readings, corrections, restarts, suspends, a doubted
clock, and lets time pass: a little, beyond the life of evidence, beyond the idle time, to the end
of a wait that is asked or of a word that was given. ``pot_merge`` says which states are one.
``run(count, seed)`` expands up to ``count`` states of all layouts of holes together; *left* is what
it did not get to, and nothing is left where the walk is exhaustive. Where nothing is left it also
looks for dead ends: closed places from which the list does not lead to the word.
Not in it: another plate in the middle (the plate is frozen from Close), and every instant between
the waits that are tried; the random machine and the models of people take any.
"""

import random
from collections import Counter, deque
from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from shopassist.core.pot.advance import advance
from shopassist.core.pot.cards import Ask, AskKind
from shopassist.core.pot.events import Answer, Correction, Event, Note, Press, Tell
from shopassist.core.pot.evidence import hopeless
from shopassist.core.pot.listed import ACTS, free_items
from shopassist.core.pot.passing import settled
from shopassist.core.pot.plate import Holes, Plate
from shopassist.core.pot.questions import ask_of, expires_in, wait_of
from shopassist.core.pot.state import Now, PotState, Refusal
from shopassist.core.pot.steps import present
from shopassist.core.pot.words import Act, Belief, Item, Told
from tests.core.pot.bench import BAR, DAY, Sitting, plate
from tests.proofs.pot_merge import Key, key, plain, variants
from tests.proofs.pot_witness import Witness
from tests.proofs.report import Report

READINGS = (-0.2, 0.0, 0.5, 2.0, 3.9, 5.0, 5.6)
"""Below the zero band, zero, three of a fall, above the working limit, above the rating, [bar]."""
PLAIN = (-0.2, 0.0, 2.0, 5.0, 5.6)
"""Where no reading is held against the one before."""
FALLING = (Item.FALL_FIRST, Item.FALL_SECOND, Item.ZERO, Item.ZERO_AGAIN, Item.FIRST_AIR)
WAITS = (430.0, 700.0, 2_400.0)
"""Beyond the life of evidence, beyond the idle time, beyond both and any dwell, [s]."""
HALF_A_DAY = 13 * 3600.0
BEAT = 2.0
"""What passes between two events, [s]."""
TELLS = (
    Tell(Told.RESTARTED), Tell(Told.SUSPENDED, 60.0), Tell(Told.SUSPENDED, 130.0),
    Tell(Told.CLOCK_DOUBTED), Tell(Told.RESTORED),
)  # fmt: skip
CORRECTED = (
    Item.BASELINE, Item.READING, Item.ZERO, Item.VENT, Item.FALL_SPEED, Item.SIGN_SEEN,
    Item.INLET_NOW, Item.OPENING_HEARD,
)  # fmt: skip
LAYOUTS = (
    Holes("n", "e", "s", "w"), Holes("n", "n", "s", "w"), Holes("n", "e", "e", "n"),
    Holes("n", "n", "n", "n", "", "g"),
)  # fmt: skip
FULL = 1_200_000
STRETCH = FULL
LEFT_OUT = (Item.TEMPERATURE, Item.LEAK_START, Item.LEAK_END)
"""Items of Hold that touch no evidence of the let-down; the machine covers them."""
COMPARED = 0.0005
"""Share of the merged states whose moves are compared one by one."""


@dataclass
class Place:
    """A state, when it was reached, and what the witness knows on the way to it."""

    state: PotState
    now: Now
    witness: Witness


@dataclass
class Walk:
    """What was seen, what it leads to, and what was wrong."""

    seen: dict[Key, int] = field(default_factory=dict)
    places: list[Place] = field(default_factory=list)
    honest: list[set[int]] = field(default_factory=list)
    """For each state, where an event of the list itself leads to."""
    figures: Counter[str] = field(default_factory=Counter)
    wrong: list[str] = field(default_factory=list)


@dataclass(frozen=True)
class Move:
    """One step: an event, or None where only time passes."""

    event: Event | None
    wait: float = BEAT


# -- what may happen ---------------------------------------------------------------------


def answers(ask: Ask) -> Iterator[Event]:
    """Every answer to one item, with representative values where it is typed."""
    if ask.kind is AskKind.TYPE and ask.quantity == "PascalGauge":
        for value in READINGS if ask.item in FALLING else PLAIN:
            yield ask.typed(value * BAR, f"{value:g}", "bar")
    elif ask.kind is AskKind.TYPE and ask.quantity == "Word":
        yield ask.typed(0.0, "silent", "")
    elif ask.kind is AskKind.TYPE:
        yield ask.typed(6.0, "6", "")
    for choice in ask.choices:
        yield choice.event


def moves(state: PotState, now: Now) -> Iterator[Move]:
    """Every event from here, and every way in which time passes."""
    asked = present(state, now)
    lift = (Item.LIVE_LIFT,) if state.belief is Belief.PRESSURISED else ()
    for item in (asked, *free_items(state), *lift):
        if item is not None and item not in LEFT_OUT:
            for event in answers(ask_of(state, item, now)):
                yield Move(event)
    for act in Act:
        if act in ACTS[state.belief]:
            yield Move(Press(act))
    for tell in TELLS:
        yield Move(tell, tell.seconds + BEAT)
    yield Move(Note("somebody", "looked"))
    for item in CORRECTED:
        yield Move(Correction(item, "misread"))
    for wait in waits(state, asked, now):
        yield from _passing(state, wait, now)


def _passing(state: PotState, wait: float, now: Now) -> Iterator[Move]:
    """Nothing happens for a while; who was idle so long is asked where they were."""
    later = Now(now.age + wait, now.utc + wait)
    at = settled(state, later)
    if present(at, later) is not Item.WHERE:
        yield Move(None, wait)
        return
    for event in answers(ask_of(at, Item.WHERE, later)):
        yield Move(event, wait)


def waits(state: PotState, asked: Item | None, now: Now) -> set[float]:
    """How long nothing may happen, as far as the rules tell it."""
    found = {*WAITS}
    wait, ends = wait_of(state, asked, now), expires_in(state, now)
    if wait is not None:
        found.add(wait.left + 1)
    if ends is not None:
        found |= {ends + 1, max(1.0, ends - 3)}
    if state.belief in (Belief.OPEN, Belief.CLOSED):
        found.add(HALF_A_DAY)
    return found


def results(place: Place, move: Move) -> Iterator[tuple[PotState, PotState, Now]]:
    """Before, after and when, for each of the states that a place stands for."""
    now = Now(place.now.age + move.wait, place.now.utc + move.wait)
    if move.event is None:
        passed = settled(place.state, now)
        yield passed, passed, now
        return
    for state in variants(place.state, move.event):
        before = settled(state, now)
        after = advance(state, move.event, now)
        if not isinstance(after, Refusal):
            yield before, after, now


# -- the walk ----------------------------------------------------------------------------


def step(place: Place, move: Move) -> Iterator[tuple[Place, list[str]]]:
    """Where a move leads to, and what the witness says of it."""
    for before, after, now in results(place, move):
        witness = place.witness.copy()
        wrong = [] if move.event is None else witness.watch(before, move.event, after, now)
        yield Place(plain(after, now), now, witness), wrong


def begin(made: Plate) -> list[Place]:
    """A pot of which nothing is known; one closed without air; one under pressure by the list."""
    unknown = Witness(made)
    places = [Place(PotState(plate=made), Now(1000.0, DAY * 86400.0), unknown)]
    sitting = Sitting(made)
    witness = Witness(made)
    witness.baseline, witness.hold, witness.air = 0.0, 4 * BAR, False
    sitting.ready()
    sitting.close()
    places.append(Place(plain(sitting.state, sitting.now), sitting.now, witness))
    held = Sitting(made).held()
    full = replace(witness.copy(), air=True, highest=4 * BAR)
    return [*places, Place(plain(held.state, held.now), held.now, full)]


def walk(begun: list[Place], seed: int, most: float = float("inf")) -> Walk:
    """Expand states, up to ``most``; without a bound until none is left."""
    done = Walk()
    queue: deque[int] = deque(_known(done, place)[0] for place in begun)
    rng = random.Random(seed)
    while queue and done.figures["expanded"] < most:
        number = queue.popleft()
        place = done.places[number]
        done.figures["expanded"] += 1
        for move in moves(place.state, place.now):
            for after, wrong in step(place, move):
                done.figures["moves"] += 1
                done.wrong += [f"{line} after {move.event}" for line in wrong]
                target, new = _known(done, after)
                if new:
                    queue.append(target)
                elif rng.random() < COMPARED:
                    _compare(done, target, after)
                if honest(move.event):
                    done.honest[number].add(target)
    done.figures.update({"states": len(done.seen), "left": len(queue)})
    return done


def _known(done: Walk, place: Place) -> tuple[int, bool]:
    mark = key(place.state, place.now, place.witness)
    number = done.seen.setdefault(mark, len(done.places))
    if number < len(done.places):
        return number, False
    done.places.append(place)
    done.honest.append(set())
    return number, True


def led_to(place: Place) -> dict[Event, set[Key]]:
    """Where every move from a place leads to."""
    found: dict[Event, set[Key]] = {}
    for move in moves(place.state, place.now):
        if move.event is None or move.wait > BEAT:
            continue
        for after, _ in step(place, move):
            found.setdefault(move.event, set()).add(key(after.state, after.now, after.witness))
    return found


def _compare(done: Walk, number: int, other: Place) -> None:
    """Two places held for one must lead to the same by every move but those of time alone.

    How long nobody answered is no part of a key: what a wait leads to from one of them, another
    wait leads to from the other. So a pair of which one is about to lose a piece of evidence to
    its age is not compared.
    """
    one = done.places[number]
    if _soon(one) != _soon(other):
        done.figures["at an edge of time"] += 1
        return
    done.figures["compared"] += 1
    first, second = led_to(one), led_to(other)
    for event in first.keys() | second.keys():
        if first.get(event) != second.get(event):
            done.figures["told apart"] += 1
            done.wrong.append(f"merged, and told apart by {event}: {other.state}")
            return


def _soon(place: Place) -> Key:
    now = Now(place.now.age + BEAT, place.now.utc + BEAT)
    return key(settled(place.state, now), now, place.witness)


# -- no dead ends ------------------------------------------------------------------------

ASIDE = (Act.OPENED, Act.AIR_IN, Act.AIR_ON)
"""Ways about the list: they start another pot."""
LID_OFF = (Item.LID_OFF_NOW, Item.LID_OFF)


def honest(event: Event | None) -> bool:
    """Whether an event belongs to the way through the list."""
    if isinstance(event, Press):
        return event.act not in ASIDE
    if isinstance(event, Answer):
        return event.item not in LID_OFF
    return event is None or not isinstance(event, Tell | Correction)


def dead_ends(done: Walk) -> list[Place]:
    """Closed places, with a gauge that works and a hope, from which the list leads nowhere."""
    return [
        place for place in unreached(done)
        if place.state.belief not in (Belief.OPEN, Belief.UNKNOWN, Belief.CRACKED)
        and not place.state.gauge_failed and hopeless(place.state) is None
    ]  # fmt: skip


def unreached(done: Walk) -> list[Place]:
    """Places from which no way through the list leads to the word."""
    back: list[list[int]] = [[] for _ in done.places]
    for number, targets in enumerate(done.honest):
        for target in targets:
            back[target].append(number)
    reach = [n for n, place in enumerate(done.places) if place.state.belief is Belief.CLEAR]
    reached = set(reach)
    while reach:
        for number in back[reach.pop()]:
            if number not in reached:
                reached.add(number)
                reach.append(number)
    return [place for number, place in enumerate(done.places) if number not in reached]


def run(count: int, seed: int) -> Report:
    """Walk every layout, each to its end or to its share of the count."""
    figures: Counter[str] = Counter()
    wrong: list[str] = []
    for holes in LAYOUTS:
        done = walk(begin(replace(plate(), holes=holes)), seed, max(1, count // len(LAYOUTS)))
        figures.update(done.figures)
        wrong += done.wrong
        if not done.figures["left"]:
            figures["walked to the end"] += 1
            wrong += [f"no way to the word from {place.state}" for place in dead_ends(done)]
    return Report(count, seed, tuple(wrong[:50]), dict(figures))
