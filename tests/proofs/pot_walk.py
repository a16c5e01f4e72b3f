"""Walk every state of a pot: states × events × faults, every move judged, until none is new.

From a pot of which nothing is known, one closed without air and one under pressure, the walk takes
every move of ``pot_moves``; ``pot_merge`` says which states are one. ``run(count, seed)`` walks so
many layouts of holes to their end, the seed says which one first; then it looks for dead ends
(closed places from which the list does not lead to the word) and for strays (states of people who
answer and wait as they like, none of them put in its plain form, that were never walked).
Not in it: another plate in the middle (the plate is frozen from Close), a gauge off its zero, and
every instant between the waits that are tried; the random machine and the models of people take
any.
"""

import gc
import random
import sys
from collections import Counter, deque
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from unittest.mock import patch

from shopassist.core.pot import guards
from shopassist.core.pot.advance import advance
from shopassist.core.pot.events import Event, Press
from shopassist.core.pot.evidence import hopeless
from shopassist.core.pot.passing import settled
from shopassist.core.pot.plate import Holes, Plate
from shopassist.core.pot.state import Now, PotState, Refusal
from shopassist.core.pot.steps import present
from shopassist.core.pot.words import Act, Belief, Item
from tests.core.pot.bench import BAR, DAY, Sitting, plate
from tests.proofs.pot_merge import Key, key, plain
from tests.proofs.pot_moves import BEAT, Place, further, honest, moves, step
from tests.proofs.pot_stray import RUNS, wander
from tests.proofs.pot_witness import LONG, Witness
from tests.proofs.report import Report

LAYOUTS = (
    Holes("n", "e", "s", "w"), Holes("n", "n", "s", "w"), Holes("n", "e", "e", "n"),
    Holes("n", "n", "n", "n", "", "g"),
)  # fmt: skip
FULL = len(LAYOUTS)
STRETCH = 1
"""One layout at a time: a walk that was cut goes on with the layout it was in."""
COMPARED = 0.001
"""Share of the merged states whose moves are compared one by one."""
TOLD = 20_000
"""A line on standard error after so many states."""


@dataclass
class Walk:
    """What was seen, what it leads to, and what was wrong."""

    seen: dict[Key, int] = field(default_factory=dict)
    places: list[Place] = field(default_factory=list)
    honest: list[tuple[int, ...]] = field(default_factory=list)
    """For each state, where an event of the list itself leads to."""
    figures: Counter[str] = field(default_factory=Counter)
    wrong: list[str] = field(default_factory=list)


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
    with patch.object(guards, "present", remembered(present)):
        _expand(done, queue, rng, most)
    done.figures.update({"states": len(done.seen), "left": len(queue)})
    return done


def remembered(asked: Callable[[PotState, Now], Item | None]) -> Callable[..., Item | None]:
    """Ask once for all events that are tried on one state at one instant."""
    last: list[tuple[PotState, float, Item | None]] = []

    def once(state: PotState, now: Now) -> Item | None:
        if last and last[0][0] is state and last[0][1] == now.age:
            return last[0][2]
        item = asked(state, now)
        last[:] = [(state, now.age, item)]
        return item

    return once


def _expand(done: Walk, queue: deque[int], rng: random.Random, most: float) -> None:
    while queue and done.figures["expanded"] < most:
        number = queue.popleft()
        place = done.places[number]
        done.figures["expanded"] += 1
        if done.figures["expanded"] % TOLD == 0:
            print(len(done.seen), "states,", len(queue), "to go", file=sys.stderr, flush=True)
        targets = set()
        for move in moves(place):
            by_the_list = honest(move.event)
            for after, wrong in step(place, move):
                done.figures["moves"] += 1
                done.wrong += [f"{line} after {move.event}" for line in wrong]
                target, new = _known(done, after)
                if new:
                    queue.append(target)
                elif rng.random() < COMPARED:
                    _compare(done, target, after)
                if by_the_list:
                    targets.add(target)
        done.honest[number] = tuple(targets)


def _known(done: Walk, place: Place) -> tuple[int, bool]:
    mark = key(place.state, place.now, place.witness)
    number = done.seen.setdefault(mark, len(done.places))
    if number < len(done.places):
        return number, False
    done.places.append(replace(place, state=plain(place.state, place.now)))
    done.honest.append(())
    return number, True


def led_to(place: Place) -> dict[Event, set[Key]]:
    """Where every move from a place leads to."""
    found: dict[Event, set[Key]] = {}
    for move in moves(place):
        if move.event is None or move.wait > BEAT:
            continue
        for after, _ in step(place, move):
            found.setdefault(move.event, set()).add(key(after.state, after.now, after.witness))
    return found


def _compare(done: Walk, number: int, other: Place) -> None:
    """Two places held for one must lead to the same by every move but those of time alone.

    How long nobody answered is no part of a key: what a wait leads to from one of them, another
    wait leads to from the other. So a pair of which one is about to lose a piece of evidence to
    its age is not compared, nor one of which one could be given a word that ends after the long dwell.
    """
    one = done.places[number]
    other = replace(other, state=plain(other.state, other.now))
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
    """What it will be at the next event, and whether a word given then outlasts the long dwell."""
    now = further(place.now, BEAT)
    at, witness = settled(place.state, now), place.witness
    word = advance(at, Press(Act.CONFIRM), now)
    first = witness.firsts[-1] if witness.firsts else 0.0
    ends = None if isinstance(word, Refusal) or word.grant is None else word.grant.expires
    late = ends is not None and ends - witness.slept - first >= LONG
    return (key(at, now, witness), late)


# -- no dead ends ------------------------------------------------------------------------


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


# -- the proof ---------------------------------------------------------------------------


def run(count: int, seed: int) -> Report:
    """Walk so many layouts to their end, the one of the seed first.

    Nothing in a walk refers back to what refers to it, so that nothing waits for the collector.
    """
    gc.disable()
    figures: Counter[str] = Counter()
    wrong: list[str] = []
    for number in range(seed, seed + count):
        done = sampled(number)
        figures.update(done.figures)
        wrong += done.wrong
    return Report(count, seed, tuple(wrong[:50]), dict(figures))


def sampled(number: int, most: float = float("inf"), runs: int = RUNS) -> Walk:
    """Walk one layout up to so many states; where none is left, look for dead ends and strays."""
    begun = begin(replace(plate(), holes=LAYOUTS[number % len(LAYOUTS)]))
    done = walk(begun, number, most)
    if not done.figures["left"]:
        done.figures["walked to the end"] += 1
        done.figures[f"states of layout {number % len(LAYOUTS)}"] = len(done.seen)
        done.wrong += [f"no way to the word from {place.state}" for place in dead_ends(done)]
        stray(done, begun, random.Random(number), runs)
    return done


def stray(done: Walk, begun: list[Place], rng: random.Random, runs: int) -> None:
    """People who answer and wait as they like come into no state that was not walked."""
    met: set[Key] = set()
    for _ in range(runs):
        for place, wrong in wander(rng.choice(begun), rng):
            done.figures["moves of strays"] += 1
            mark = key(place.state, place.now, place.witness)
            met.add(mark)
            if mark not in done.seen:
                done.figures["strayed"] += 1
                done.wrong.append(f"never walked: {place.state} at {place.now}")
            done.wrong += wrong
            if wrong or mark not in done.seen:
                break
    done.figures["states met by strays"] = len(met)
