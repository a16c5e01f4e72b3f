"""A person answering a pot's lists, killed by SIGKILL at random instants.

After each kill the file holds every row that was acknowledged, its chain is whole, and the pot is
never clearer than it was. Death of the process only: a power cut cannot be tried here. Needs ``fork``.
"""

import os
import random
import signal
import tempfile
import time
from collections import Counter
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path

from shopassist.clock.manual import ManualClock
from shopassist.core.pot.fold import fold_all
from shopassist.core.pot.words import Belief
from shopassist.store.opening import check
from tests.proofs.pot_air import HOLD
from tests.proofs.pot_hand import Hand
from tests.proofs.report import Report

FULL = 5_000
STRETCH = 250
NEW_FOLDER = 0.1
"""Share of kills on a folder of its own, so that its making is hit as well."""
FEW_LINES, MOST_LINES = 12, 50
"""Kills come early in a list, and late enough that every list is met."""
FELL = "fell: "
AFTER_KILL = (Belief.OPEN, Belief.UNKNOWN, Belief.SUSPECT, Belief.PRESSURISED)


@dataclass
class Ground:
    """One folder through several kills, and what was heard from it."""

    folder: Path
    heard: dict[int, str] = field(default_factory=dict)
    utc: float = ManualClock().read().utc
    belief: Belief = Belief.UNKNOWN
    """As last said aloud."""
    fell: str = ""
    """Why the person stopped before the kill, such as an accident."""

    def clock(self) -> ManualClock:
        """The clock where it stood, within the same run of the machine."""
        begun = ManualClock().read()
        return ManualClock(self.utc, since_boot=begun.since_boot + self.utc - begun.utc)

    def hear(self, line: str) -> None:
        """Take one line of the person."""
        if line.startswith(FELL):
            self.fell = line.removeprefix(FELL)
            return
        seq, kept, utc, belief = line.split(" ", 3)
        self.utc, self.belief = float(utc), Belief(belief)
        if int(seq):
            self.heard[int(seq)] = kept


def _answering(ground: Ground, out: int) -> None:
    """Answer for ever; a line for every row, when it is kept."""
    hand = Hand(ground.folder, ground.clock())
    hand.pot.lid_on = hand.state.belief is not Belief.OPEN
    hand.pot.pressure = HOLD if hand.pot.lid_on else 0.0
    _say(out, 0, "-", hand)
    while True:
        if hand.step():
            for row in hand._rows()[-2:]:
                _say(out, row.seq, row.hash, hand)


def _say(out: int, seq: int, kept: str, hand: Hand) -> None:
    clock = hand.shop.clock.read()
    os.write(out, f"{seq} {kept} {clock.utc} {hand.state.belief}\n".encode())


def _killed(ground: Ground, rng: random.Random) -> int:
    """Let a person answer for a while, kill the process; how many lines were heard."""
    read, write = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            os.close(read)
            _answering(ground, write)
        except AssertionError as fault:
            text = f"{FELL}{fault}".splitlines()[0]
            os.write(write, f"{text}\n".encode())
        finally:
            os._exit(1)
    os.close(write)
    lines = rng.randrange(rng.choice((1, FEW_LINES, FEW_LINES, MOST_LINES)))
    heard = 0
    with os.fdopen(read, "rb") as said:
        for _ in range(lines):
            line = said.readline()
            if not line:
                break
            ground.hear(line.decode().strip())
            heard += 1
        _spin(rng.uniform(0.0, 0.006 if lines else 0.06))
        os.kill(child, signal.SIGKILL)
        rest = said.read()
    for line in rest[: rest.rfind(b"\n") + 1].splitlines():
        ground.hear(line.decode().strip())
        heard += 1
    status = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    assert status == -signal.SIGKILL or ground.fell, f"the person ended with {status}"
    return heard


def _spin(seconds: float) -> None:
    until = time.perf_counter() + seconds
    while time.perf_counter() < until:
        pass


def _examined(ground: Ground) -> list[str]:
    """Open the folder again and look."""
    path = ground.folder / "journal.db"
    if not path.exists():
        return ["the file is gone"] if ground.heard else []
    hand = Hand(ground.folder, ground.clock())
    pots, rows = hand.shop.pots, hand._rows()
    kept = {row.seq: row.hash for row in rows}
    wrong = [f"row {seq} is lost" for seq, each in ground.heard.items() if kept.get(seq) != each]
    belief = hand.state.belief
    told = [n for n, row in enumerate(rows) if row.kind == "told"]
    before = rows[: told[-1]] if told and told[-1] == len(rows) - 1 else rows
    displaced = hand.shop.journal.displaced()
    justified = fold_all(before, partial(pots._plate, hand.pot_id), displaced).state.belief
    if belief not in AFTER_KILL:
        wrong.append(f"still {belief}")
    if belief is Belief.OPEN and justified is not Belief.OPEN:
        wrong.append(f"open, yet the rows said {justified}")
    if belief is Belief.OPEN and ground.belief not in (Belief.OPEN, Belief.CRACKED, Belief.UNKNOWN):
        wrong.append(f"open, yet {ground.belief} was said last")
    ground.belief = belief
    if ground.fell:
        wrong.append(f"the person stopped: {ground.fell}")
        ground.fell = ""
    wrong += [f"check: {text}" for text in check(path)]
    hand.close()
    return wrong


def run(count: int, seed: int) -> Report:
    """Kill ``count`` persons; trial ``n`` is seeded by ``seed + n``."""
    failures: list[str] = []
    figures: Counter[str] = Counter({"rows acknowledged": 0, "rows lost": 0})
    with tempfile.TemporaryDirectory() as name:
        ground = Ground(Path(name) / "0")
        for number in range(count):
            rng = random.Random(seed + number)
            if rng.random() < NEW_FOLDER:
                ground = Ground(Path(name) / str(number))
            ground.folder.mkdir(exist_ok=True)
            before = len(ground.heard)
            heard = _killed(ground, rng)
            figures["killed before the first word"] += not heard
            figures[f"killed while {ground.belief}"] += 1
            figures["rows acknowledged"] += len(ground.heard) - before
            wrong = _examined(ground)
            figures["rows lost"] += sum(line.endswith("is lost") for line in wrong)
            failures += [f"seed {seed + number}: {line}" for line in wrong]
    return Report(count, seed, tuple(failures), dict(figures))
