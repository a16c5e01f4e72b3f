"""A random person at one pot: every event a row of a real file, folded; every grant judged.

One in three answers what looks best (a cheat); the others answer anything. Restarts, suspends,
doubted clocks and restored data come in between. ``run(count, seed)`` lives ``count`` runs of
``STEPS`` steps each.
"""

import random
import tempfile
from collections import Counter
from dataclasses import replace
from pathlib import Path

from shopassist.core.pot.advance import advance
from shopassist.core.pot.cards import Ask, AskKind
from shopassist.core.pot.events import Correction, Event, Note, PlateSet, Press, Tell, row_of
from shopassist.core.pot.fold import Record, fold, fold_all
from shopassist.core.pot.passing import settled
from shopassist.core.pot.plate import Holes, Plate
from shopassist.core.pot.questions import questions
from shopassist.core.pot.state import PotState, Refusal
from shopassist.core.pot.words import CANT_TELL, Act, Belief, Item, Told
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Draft, Reading
from shopassist.store.journal import SqliteJournal
from shopassist.store.opening import check, open_journal
from tests.core.pot.bench import BAR, plate
from tests.proofs.pot_witness import Witness
from tests.proofs.report import Report

STEPS = 50
START = 1.728e9
FULL = 17_500
"""More than a million rows, even where refusals write none."""
STRETCH = 500
VALUES = (-1.0, -0.05, 0.0, 0.0, 0.0, 0.04, 0.3, 0.5, 1.0, 2.0, 2.0, 3.0, 4.0, 4.0, 4.8, 5.6)
WAITS = (1, 1, 2, 5, 20, 61, 61, 125, 400, 601, 601, 1801)
BEST = {
    "none", "shut", "apart", "open", "covered", "bled", "slowly", "opened_hiss", "done", "free",
    "inside_seen", "all_round", "clear", "clean", "fits", "stays", "snaps_back", "agrees",
    "isolated", "casting", "cleaned", "been_here", "hiss_silent", "straight_to_zero",
}  # fmt: skip
LAYOUTS = (
    Holes("n", "e", "s", "w"), Holes("n", "n", "s", "w"), Holes("n", "e", "e", "n"),
    Holes("n", "e", "s", "w", "t"), Holes("n", "n", "s", "n", "", "g"), Holes("n", "n", "n", "n"),
)  # fmt: skip


class Hands:
    """Both clocks, moved by hand."""

    def __init__(self) -> None:
        self.utc, self.since_boot, self.boot = START, 1000.0, 1

    def read(self) -> Reading:
        boot = f"boot-{self.boot}"
        return Reading(UtcSecond(self.utc), Second(self.since_boot), boot, Second(0.0))

    def offset_at(self, _utc: float) -> int:
        return 0


class Bench:
    """One pot and its stream in a journal of its own or of many lives."""

    def __init__(self, made: Plate, journal: SqliteJournal, clock: Hands, stream: str) -> None:
        self.plate = made
        self.clock, self.journal, self.stream = clock, journal, stream
        clock.utc, clock.boot = START, clock.boot + 1
        self.steps = 0
        self.record = Record()
        self.witness = Witness(made)
        self.failures: list[str] = []
        self.granted = 0
        self.put(PlateSet(1, made))

    def reading(self) -> Reading:
        return self.clock.read()

    def wait(self, seconds: float) -> None:
        self.clock.utc += seconds
        self.clock.since_boot += seconds

    def reboot(self, seconds: float) -> None:
        self.clock.utc += seconds
        self.clock.since_boot, self.clock.boot = 5.0, self.clock.boot + 1
        self.put(Tell(Told.RESTARTED))

    def state(self) -> PotState:
        return settled(self.record.state, self.record.scale.now(self.reading()))

    def put(self, event: Event) -> bool:
        now = self.record.scale.now(self.reading())
        before = settled(self.record.state, now)
        after = advance(self.record.state, event, now)
        if isinstance(after, Refusal):
            return False
        self.steps += 1
        (row,) = self.journal.append([Draft(self.stream, *row_of(event))])
        self.record = fold(self.record, row, self.plate_of)
        if self.record.state != replace(after):
            self.failures.append(f"fold and advance differ at {event}")
        self.failures += self.witness.watch(before, event, self.record.state, now)
        self.granted += self.record.state.belief is Belief.CLEAR and before.belief is Belief.PROVING
        return True

    def plate_of(self, _version: int) -> Plate:
        return self.plate

    def refolded(self) -> bool:
        return fold_all(self.journal.read(self.stream), self.plate_of).state == self.record.state


def _typed(ask: Ask, rng: random.Random, best: bool) -> Event:
    if ask.quantity == "Count":
        return ask.typed(6.0 if rng.random() < 0.9 else 5.0, "6", "")
    if ask.quantity == "Word":
        return ask.typed(0.0, "silent" if rng.random() < 0.8 else "quiet", "")
    if ask.quantity == "Kelvin":
        return ask.typed(293.0, "20", "°C")
    good = {
        Item.ZERO: 0.0, Item.ZERO_AGAIN: 0.0, Item.FALL_FIRST: 2.0, Item.FALL_SECOND: 2.0,
        Item.AT_PRESSURE: 4.0, Item.HOLD_PRESSURE: 4.0, Item.BASELINE: 0.0, Item.FIRST_AIR: 0.7,
        Item.READING: 4.0,
    }  # fmt: skip
    value = good.get(ask.item, 0.0) if best else rng.choice(VALUES)
    return ask.typed(value * BAR, f"{value:g}", "bar", 293.0 if ask.with_temperature else None)


def _answer(ask: Ask, rng: random.Random, *, best: bool) -> Event | None:
    if ask.kind in (AskKind.HOLD, AskKind.PRESS):
        return ask.choices[0].event
    if ask.kind is AskKind.WAIT:
        return None
    if ask.kind is AskKind.TYPE and (best or rng.random() < 0.85):
        return _typed(ask, rng, best)
    likely = [c for c in ask.choices if c.id in BEST] if best else list(ask.choices)
    if not likely:
        likely = [c for c in ask.choices if c.id != CANT_TELL] or list(ask.choices)
    return rng.choice(likely).event


def _step(bench: Bench, rng: random.Random, cheat: float) -> None:
    card = questions(bench.record.state, bench.record.scale.now(bench.reading()))
    if card.wait is not None and rng.random() < 0.8:
        bench.wait(card.wait.left + 1)
    else:
        bench.wait(rng.choice(WAITS) if rng.random() < 0.4 else 2)
    odds, best = rng.random(), rng.random() < cheat
    rare = 0.01 if best else 0.12
    if odds < rare:
        _trouble(bench, rng)
    elif odds < 2 * rare or card.ask is None:
        offers = [offer.event for offer in card.offers if offer.act is not Act.STOP]
        down = [Press(Act.LET_DOWN)] if card.ask is None else []
        bench.put(rng.choice([*offers, *down, *down, *down]))
    elif odds < 3 * rare and card.free:
        event = _answer(rng.choice(card.free).ask, rng, best=False)
        if event is not None:
            bench.put(event)
    else:
        event = _answer(card.ask, rng, best=best)
        if event is not None:
            bench.put(event)


def _trouble(bench: Bench, rng: random.Random) -> None:
    match rng.randrange(8):
        case 0:
            bench.reboot(rng.choice((30, 600, 36000)))
        case 1:
            bench.put(Tell(Told.RESTARTED))
        case 2 | 3:
            seconds = float(rng.choice((20, 100, 130, 4000)))
            bench.wait(seconds)
            bench.put(Tell(Told.SUSPENDED, seconds))
        case 4:
            bench.put(Tell(Told.CLOCK_DOUBTED))
        case 5:
            bench.put(Tell(Told.RESTORED))
        case 6:
            bench.put(Note("somebody", "looked at it"))
        case _:
            said = [piece.item for piece in bench.state().evidence]
            bench.put(Correction(rng.choice((Item.VENT, Item.ZERO, *said)), "mistaken"))


def live(
    rng: random.Random, journal: SqliteJournal, clock: Hands, stream: str, steps: int = STEPS
) -> Bench:
    """Live one run."""
    bench = Bench(replace(plate(), holes=rng.choice(LAYOUTS)), journal, clock, stream)
    if rng.random() < 0.7:
        _to_the_middle(bench, rng)
    cheat = rng.choice((0.0, 0.6, 0.97, 0.97))
    for _ in range(steps):
        _step(bench, rng, cheat)
    if not bench.refolded():
        bench.failures.append("refolding the rows gives another record")
    return bench


def _to_the_middle(bench: Bench, rng: random.Random) -> None:
    """Get to a pot under pressure quickly, so that the steps are spent on the let-down."""
    for _ in range(60):
        card = questions(bench.record.state, bench.record.scale.now(bench.reading()))
        if card.ask is None or bench.state().belief in (Belief.LETTING_DOWN, Belief.SUSPECT):
            return
        bench.wait(2)
        event = _answer(card.ask, rng, best=True)
        if event is not None:
            bench.put(event)


def run(count: int, seed: int) -> Report:
    """Live ``count`` runs; report every grant and every move that the invariant forbids."""
    failures: list[str] = []
    figures: Counter[str] = Counter()
    clock = Hands()
    with tempfile.TemporaryDirectory() as name:
        path = Path(name) / "journal.db"
        journal = open_journal(path, clock, manual=True)
        for number in range(count):
            rng = random.Random(f"{seed + number}")
            bench = live(rng, journal, clock, f"pot/{number}")
            figures["events"] += bench.steps
            figures["grants"] += bench.granted
            failures += [f"run {seed + number}: {line}" for line in bench.failures]
        journal.close()
        failures += [f"check: {text}" for text in check(path)]
    return Report(count, seed, tuple(failures), dict(figures))
