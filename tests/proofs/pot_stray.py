"""People who answer and wait as they like; some mostly by the list, some hardly ever.

Their states keep all that ``pot_merge.plain`` takes out, and their waits are any: what the walk left
out of a state, or between two of its waits, shows here.
"""

import random
from collections.abc import Iterator
from dataclasses import replace

from shopassist.core.pot.advance import advance
from shopassist.core.pot.events import Answer, Event, Press, Tell, Typed
from shopassist.core.pot.passing import settled
from shopassist.core.pot.questions import ask_of, wait_of
from shopassist.core.pot.state import Now, PotState, Refusal
from shopassist.core.pot.steps import present
from shopassist.core.pot.words import Act, Belief, Item
from tests.proofs.pot_moves import BEAT, Place, answers, further, moves

RUNS, LENGTH = 1_000, 150
"""So many people, and the moves that each of them makes."""
CARES = (0.4, 0.8, 0.95, 0.99)
"""Shares of a person's moves that go by the list."""
LONGEST = 800.0
"""A wait that nobody asked for, [s]."""
WAITING = (0.02, 0.2)
"""How often somebody waits so."""
GOOD = frozenset({
    "casting", "snaps_back", "clear", "clean", "fits", "stays", "all_round", "agrees", "none",
    "isolated", "connected", "shut", "bled", "spitting", "apart", "covered", "opened_hiss",
    "opened_none", "slowly", "open", "hiss_falls", "hiss_silent", "opened_as_sign", "done", "free",
    "inside_seen", "cleaned", "been_here", "vent", "inlet", "ring", "second_gauge", "silent",
})  # fmt: skip
"""What a person says, or types, who wants to get on."""
ZEROS = (Item.BASELINE, Item.ZERO, Item.ZERO_AGAIN)


def wander(place: Place, rng: random.Random) -> Iterator[tuple[Place, list[str]]]:
    """Where one person gets, move by move, and what the witness says of it."""
    place = replace(place, witness=place.witness.copy())
    care, waiting = rng.choice(CARES), rng.choice(WAITING)
    for _ in range(LENGTH):
        idle = rng.random() * LONGEST if rng.random() < waiting else 0.0
        now = further(place.now, BEAT + idle)
        state = settled(place.state, now)
        event = None
        if rng.random() < care:
            event, now = _by_the_list(state, now, rng)
        if event is None:
            event = rng.choice(
                [move.event for move in moves(Place(state, now, place.witness)) if move.event]
            )
        if isinstance(event, Tell):
            now = further(now, event.seconds)
        before = settled(state, now)
        found = advance(state, event, now)
        if isinstance(found, Refusal):
            place = Place(before, now, place.witness)
            yield place, []
            continue
        witness = place.witness.copy()
        wrong = witness.watch(before, event, found, now)
        place = Place(found, now, witness)
        yield place, wrong


def _by_the_list(state: PotState, now: Now, rng: random.Random) -> tuple[Event | None, Now]:
    asked = present(state, now)
    wait = wait_of(state, asked, now)
    if wait is not None and wait.left > 0:
        now = further(now, wait.left + 1)
        state = settled(state, now)
        asked = present(state, now)
    if asked is None:
        stuck = state.belief in (Belief.PRESSURISED, Belief.SUSPECT)
        return (Press(Act.LET_DOWN) if stuck else None), now
    told = [event for event in answers(ask_of(state, asked, now)) if _good(event)]
    return (rng.choice(told) if told else None), now


def _good(event: Event) -> bool:
    if isinstance(event, Typed):
        return event.value == 0.0 if event.item in ZEROS else event.value >= 0
    return not isinstance(event, Answer) or event.choice in GOOD
