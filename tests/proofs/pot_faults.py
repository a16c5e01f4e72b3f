"""One whole run of a pot on a real file in which one thing goes wrong, at every place in turn.

The n-th statement to the disk fails: the disk full, the statement done but its sync failing, the
folder turned read-only for a while, the disk full for a while. Or, between two answers, the wall
clock is moved, the machine sleeps, is started anew, the program dies. An honest person goes on
with a healthy pot, and gets to the open lid. Whatever happens, no acknowledged row is lost, an
answer that was not written leaves the pot NOT KNOWN, the belief is never clearer than the rows
say, and the chain holds.
"""

import sqlite3
import tempfile
from collections import Counter
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any
from unittest.mock import patch

from shopassist.clock.manual import ManualClock
from shopassist.core.errors import StoreError
from shopassist.core.pot.fold import fold_all
from shopassist.core.pot.passing import settled
from shopassist.core.pot.words import Belief
from shopassist.store.opening import check, open_journal
from tests import shops
from tests.proofs.pot_hand import CLEARNESS, MOST, Hand
from tests.proofs.report import Report

FULL = 4_000
"""More than there are places times ways; a test holds that."""
STRETCH = 200


@dataclass(frozen=True)
class Way:
    """A way of failing of the disk."""

    says: str
    lasts: int = 1
    """Statements that fail, one after the other."""
    done: bool = False
    """Whether the statement was carried out all the same, and only its sync failed."""


WAYS = (
    Way("database or disk is full"),
    Way("disk I/O error", done=True),
    Way("attempt to write a readonly database", lasts=12),
    Way("database or disk is full", lasts=40),
)
TURNS = (
    "hour on",
    "hour back",
    "month on",
    "nap",
    "sleep",
    "new start",
    "killed",
    "killed, hour back",
)


class Tap:
    """Counts statements once it is armed, and lets some of them fail."""

    def __init__(self, place: int = -1, way: Way = WAYS[0]) -> None:
        self.armed = False
        self.calls = 0
        self.failed: list[str] = []
        self._place, self._way = place, way

    def connect(self, uri: str) -> sqlite3.Connection:
        """Open a connection whose statements are counted."""
        tap = self

        class Tapped(sqlite3.Connection):
            def execute(self, sql: str, *args: Any) -> sqlite3.Cursor:
                fails = tap.met(sql)
                if fails and not tap._way.done:
                    raise sqlite3.OperationalError(tap._way.says)
                done = super().execute(sql, *args)
                if fails:
                    raise sqlite3.OperationalError(tap._way.says)
                return done

        return sqlite3.connect(uri, uri=True, isolation_level=None, timeout=0.0, factory=Tapped)

    def met(self, sql: str) -> bool:
        """Count a statement; whether it fails. Taking back what was begun always works."""
        if not self.armed or sql.startswith("ROLLBACK"):
            return False
        self.calls += 1
        fails = 0 <= self._place < self.calls <= self._place + self._way.lasts
        if fails:
            self.failed.append(sql[:40])
        return fails


@dataclass
class Life:
    """One whole run, and what was seen in it."""

    hand: Hand
    told: int = 0
    steps: int = 0

    def step(self) -> list[str]:
        """One answer; what was wrong about it."""
        try:
            self.hand.step()
        except StoreError:
            self.told += 1
            return self._judged(written=False)
        refused = self.hand.refused
        written = refused is None or refused.guard != "written"
        self.told += not written
        return self._judged(written=written)

    def _judged(self, *, written: bool) -> list[str]:
        self.steps += 1
        belief = self.hand.state.belief
        if not written and belief is not Belief.UNKNOWN:
            return [f"not written, yet {belief}"]
        return []

    def compared(self) -> list[str]:
        """The belief against what the rows of the file say."""
        pots, journal = self.hand.shop.pots, self.hand.shop.journal
        rows = journal.read(f"pot/{self.hand.pot_id}")
        record = fold_all(rows, partial(pots._plate, self.hand.pot_id), journal.displaced())
        justified = settled(record.state, record.scale.now(self.hand.shop.clock.read())).belief
        belief = self.hand.state.belief
        if belief not in (justified, Belief.UNKNOWN):
            return [f"{belief}, yet the rows say {justified}"]
        return []

    def end(self) -> list[str]:
        """After the whole run: everything acknowledged is there and nothing got clearer."""
        wrong = self.compared() + self.hand.lost()
        before = self.hand.state.belief
        self.hand.shop = self.hand.shop.killed()
        after = self.hand.state.belief
        if CLEARNESS[after] > CLEARNESS[before]:
            wrong.append(f"{after} after a start, {before} before")
        wrong += self.hand.lost() + [
            str(text) for text in check(self.hand.shop.folder / "journal.db")
        ]
        self.hand.close()
        return wrong


def whole(tap: Tap, folder: Path, turn: str = "", at: int = -1) -> Life:
    """Live a run; ``turn`` happens after answer ``at``. Raises AssertionError at what is wrong."""
    connecting = partial(open_journal, connecting=tap.connect)
    with patch.object(shops, "open_journal", connecting):
        life = Life(Hand(folder, ManualClock()))
        tap.armed = True
        wrong: list[str] = []
        for number in range(MOST):
            wrong += life.step()
            if number == at:
                wrong += turned(life.hand, turn)
            if tap.failed or turn:
                wrong += _quietly(life, tap)
            if life.hand.lived or wrong:
                break
        else:
            wrong.append(f"no way to the open lid: {life.hand.state.belief}")
        tap.armed = False
        wrong += life.end()
    assert not wrong, "; ".join(wrong)
    return life


def _quietly(life: Life, tap: Tap) -> list[str]:
    tap.armed, armed = False, tap.armed
    wrong = life.compared()
    tap.armed = armed
    return wrong


def turned(hand: Hand, turn: str) -> list[str]:
    """Let something happen to clock or machine; the belief must not get clearer by it."""
    before, clock = hand.state.belief, hand.shop.clock
    match turn:
        case "hour on" | "month on":
            clock.step(3600.0 if turn == "hour on" else 30 * 86_400.0)
        case "hour back":
            clock.step(-3600.0)
        case "nap" | "sleep":
            seconds = 90.0 if turn == "nap" else 7200.0
            hand.pot.wait(seconds)
            clock.suspend(seconds)
        case "new start":
            clock.moved = None
            clock.reboot(30.0)
            hand.shop = hand.shop.killed()
        case "killed" | "killed, hour back":
            clock.moved = None
            if turn != "killed":
                clock.step(-3600.0)
            hand.shop = hand.shop.killed()
    after = hand.state.belief
    lasting = (Belief.OPEN, Belief.UNKNOWN, Belief.SUSPECT, Belief.PRESSURISED)
    if CLEARNESS[after] > CLEARNESS[before]:
        return [f"{turn}: {before} became {after}"]
    if turn in ("sleep", "new start", "killed", "killed, hour back") and after not in lasting:
        return [f"{turn}: still {after}"]
    return []


def extent() -> tuple[int, int]:
    """Statements and answers of a run in which nothing fails."""
    tap = Tap()
    with tempfile.TemporaryDirectory() as name:
        life = whole(tap, Path(name))
    return tap.calls, life.steps


def run(count: int, seed: int) -> Report:
    """Try ``count`` faults, going round all of them from the one that the seed names."""
    calls, steps = extent()
    failures: list[str] = []
    figures: Counter[str] = Counter({"most statements": calls, "most answers": steps})
    for number in range(count):
        which = (seed + number) % (calls * len(WAYS) + steps * len(TURNS))
        if which < calls * len(WAYS):
            turn, place = divmod(which, calls)
            way = WAYS[(turn + place) % len(WAYS)]  # one round meets every place
            tap, words, say = Tap(place, way), ("", -1), f"statement {place}, {way}"
            figures["faults of the disk"] += 1
        else:
            at, kind = divmod(which - calls * len(WAYS), len(TURNS))
            tap, words, say = Tap(), (TURNS[kind], at), f"answer {at}, {TURNS[kind]}"
            figures["turns of clock and machine"] += 1
        try:
            with tempfile.TemporaryDirectory() as name:
                figures["told"] += whole(tap, Path(name), *words).told
        except Exception as error:  # noqa: BLE001
            failures.append(f"{say}: {error!r}")
    return Report(count, seed, tuple(failures), dict(figures))
