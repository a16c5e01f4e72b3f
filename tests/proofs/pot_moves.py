"""What may happen at a pot, and where it leads: every answer, press, fault and wait.

Every answer and every press, representative readings, corrections, restarts, suspends, a doubted
clock; and time that passes: a little, beyond the life of evidence, beyond the idle time, to the end
of a wait that is asked or of a word that was given, and between two answers of which only the older
one is then out of date. Once the pot is closed what Ready found goes out of date at one time.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from shopassist.core.pot.advance import advance
from shopassist.core.pot.cards import Ask, AskKind
from shopassist.core.pot.events import Answer, Correction, Event, Note, Press, Tell
from shopassist.core.pot.evidence import (
    EVIDENCE_LIFE,
    LEAST_GRANT,
    READY_LIFE,
    openings_left,
    signs_left,
)
from shopassist.core.pot.listed import ACTS, free_items
from shopassist.core.pot.moves import READY_ITEMS
from shopassist.core.pot.passing import RENEWED, settled
from shopassist.core.pot.questions import ask_of, expires_in, wait_of
from shopassist.core.pot.state import Now, PotState, Refusal
from shopassist.core.pot.steps import present
from shopassist.core.pot.words import Act, Belief, Item, Told
from tests.core.pot.bench import BAR
from tests.proofs.pot_merge import LOOKING, ready_counts, unlooked, variants
from tests.proofs.pot_witness import LONG, Witness

READINGS = (-0.2, 0.0, 0.35, 2.0, 3.9, 5.0, 5.6)
"""Below the zero band, zero, three of a fall, above the working limit, above the rating, [bar].

The lowest of a fall shows no gauge alive, the next every one, whatever was to be held.
"""
PLAIN = (-0.2, 0.0, 2.0, 5.0, 5.6)
"""Where no reading is held against the one before."""
FALLING = (Item.FALL_FIRST, Item.FALL_SECOND, Item.ZERO, Item.ZERO_AGAIN, Item.FIRST_AIR)
WAITS = (430.0, 700.0, 2_400.0)
"""Beyond the life of evidence, beyond the idle time, beyond both and any dwell, [s]."""
HALF_A_DAY = 13 * 3600.0
STAGGER = 300.0
"""After which a piece still carries a word, but will not when that word has run out, [s]."""
LAPSING = {
    Belief.OPEN: (READY_ITEMS, READY_LIFE, HALF_A_DAY),
    Belief.PROVING: (RENEWED, EVIDENCE_LIFE - LEAST_GRANT, WAITS[0]),
}  # fmt: skip
"""What goes out of date one by one, after how long, and a wait in which it does, [s]."""
BEAT = 2.0
"""What passes between two events, [s]."""
TELLS = (
    Tell(Told.RESTARTED), Tell(Told.SUSPENDED, 60.0), Tell(Told.SUSPENDED, 130.0),
    Tell(Told.CLOCK_DOUBTED), Tell(Told.RESTORED),
)  # fmt: skip
CORRECTED = (
    Item.BASELINE, Item.READING, Item.ZERO, Item.VENT, Item.VENT_READING, Item.FALL_SPEED,
    Item.SIGN_SEEN, Item.INLET_NOW, Item.OPENING_HEARD,
)  # fmt: skip
HIDDEN = {
    Belief.PRESSURISED: (Item.LIVE_LIFT,), Belief.CLEAR: (Item.ROCK,),
    **dict.fromkeys(LOOKING, (Item.INLET, Item.HOSE, Item.VENT_AGAIN)),
}  # fmt: skip
"""Asked of states for which a plain one stands, although the plain one is not asked."""
LEFT_OUT = (Item.TEMPERATURE, Item.LEAK_START, Item.LEAK_END)
"""Items of Hold that touch no evidence of the let-down; the machine covers them."""


@dataclass
class Place:
    """A state, when it was reached, and what the witness knows on the way to it."""

    state: PotState
    now: Now
    witness: Witness


@dataclass(frozen=True)
class Move:
    """One step: an event, or None where only time passes."""

    event: Event | None
    wait: float = BEAT
    since: float | None = None
    """The time passed before what was reported at this age or later, not after it."""
    rest: float = 0.0
    """What passes after it all the same, [s]."""


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


def moves(place: Place) -> Iterator[Move]:
    """Every event from here, and every way in which time passes."""
    state, now = place.state, place.now
    asked = present(state, now)
    for item in (asked, *free_items(state), *HIDDEN.get(state.belief, ())):
        if item is not None and item not in LEFT_OUT:
            for event in answers(ask_of(state, item, now)):
                yield Move(event)
    for event in _of_a_sign(state, asked, now):
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
    yield from _one_by_one(place, asked)


def _of_a_sign(state: PotState, asked: Item | None, now: Now) -> Iterator[Event]:
    """What a sign shows, for each that may be chosen: which was, a plain state does not say."""
    chosen = {
        Item.SIGN: (Item.SIGN_SEEN, signs_left(state, now)),
        Item.OPENING: (Item.OPENING_HEARD, openings_left(state)),
    }  # fmt: skip
    if asked in chosen:
        item, signs = chosen[asked]
        for sign in signs:
            yield from answers(ask_of(replace(state, sign_asked=sign), item, now))


def _one_by_one(place: Place, asked: Item | None) -> Iterator[Move]:
    """Time passed between two answers: the older is out of date, or old when the word is given.

    Or so much passed before them that the longest dwell ends just after the second zero.
    """
    if place.state.belief not in LAPSING:
        return
    reported = in_date(place)
    waited = place.now.age - place.witness.slept - max(place.witness.firsts, default=0.0)
    if reported and place.witness.seconds and waited < LONG:
        yield Move(None, LONG - 1 - waited, reported[0], BEAT)
    for since in reported[1:]:
        yield Move(None, LAPSING[place.state.belief][2], since)
        if asked is Item.CONFIRM:
            yield Move(Press(Act.CONFIRM), STAGGER, since)


def in_date(place: Place) -> list[float]:
    """When what lapses was reported, oldest first."""
    items, life, _ = LAPSING[place.state.belief]
    ages = {each.age for each in place.state.evidence if each.item in items}
    return sorted(age for age in ages if place.now.age - age < life)


def _passing(state: PotState, wait: float, now: Now) -> Iterator[Move]:
    """Nothing happens for a while; who was idle so long is asked where they were."""
    later = further(now, wait)
    at = settled(state, later)
    if present(at, later) is not Item.WHERE:
        yield Move(None, wait)
    if any(present(each, later) is Item.WHERE for each in unlooked(at)):
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
    if ready_counts(state):
        found.add(HALF_A_DAY)
    return found


def put_off(place: Place, since: float, wait: float) -> Place:
    """As if what lapses had been reported so much later, from one instant on."""
    witness, lapsing = place.witness.copy(), LAPSING[place.state.belief][0]
    evidence = tuple(
        replace(each, age=each.age + wait, awake=each.awake + wait)
        if each.item in lapsing and each.age >= since else each
        for each in place.state.evidence
    )  # fmt: skip
    witness.signs = {hole: _moved(age, since, wait) for hole, age in witness.signs.items()}
    witness.sights = {item: _moved(age, since, wait) for item, age in witness.sights.items()}
    witness.seconds = [
        (_moved(age, since, wait), awake + _moved(age, since, wait) - age)
        for age, awake in witness.seconds
    ]  # fmt: skip
    return Place(replace(place.state, evidence=evidence), place.now, witness)


def _moved(age: float, since: float, wait: float) -> float:
    return age + wait if age >= since else age


def further(now: Now, seconds: float) -> Now:
    """So much later."""
    return Now(now.age + seconds, now.utc + seconds)


def results(place: Place, move: Move) -> Iterator[tuple[PotState, PotState, Now]]:
    """Before, after and when, for each of the states that a place stands for."""
    now = further(place.now, move.wait + move.rest)
    before = settled(place.state, now)
    if move.event is None:
        yield before, before, now
        return
    for state in variants(place.state, move.event):
        after = advance(state, move.event, now)
        if not isinstance(after, Refusal):
            yield before, after, now


def step(place: Place, move: Move) -> Iterator[tuple[Place, list[str]]]:
    """Where a move leads to, and what the witness says of it."""
    if move.since is not None:
        place = put_off(place, move.since, move.wait)
    for before, after, now in results(place, move):
        witness = place.witness.copy()
        wrong = [] if move.event is None else witness.watch(before, move.event, after, now)
        yield Place(after, now, witness), wrong


ASIDE = (Act.OPENED, Act.AIR_IN, Act.AIR_ON)
"""Ways about the list: they start another pot."""
LID_OFF = (Item.LID_OFF_NOW, Item.LID_OFF)
NOT_ASKED = (Item.INLET, Item.HOSE, Item.VENT_AGAIN)
"""A plain state has them; a way out must not go through an answer that nobody is asked for."""


def honest(event: Event | None) -> bool:
    """Whether an event belongs to the way through the list."""
    if isinstance(event, Press):
        return event.act not in ASIDE
    if isinstance(event, Answer):
        return event.item not in (*LID_OFF, *NOT_ASKED)
    return event is None or not isinstance(event, Tell | Correction)
