"""A program without Qt that writes to a journal for ever and says what was acknowledged.

``python -m tests.proofs.writer FILE SEED``: a line ``seq hash`` for every committed row, a line
``+`` after anything else that returned.
"""

import random
import sys
from pathlib import Path

from shopassist.clock.manual import ManualClock
from shopassist.core.quantities import UtcSecond
from shopassist.core.rows import Draft
from shopassist.store.journal import SqliteJournal
from shopassist.store.opening import back_up, open_journal


def main(path: Path, seed: int) -> None:
    """Write until killed."""
    rng = random.Random(seed)
    clock = ManualClock()
    journal = open_journal(path, clock, manual=True)
    say("+")
    while True:
        clock.advance(1.0)
        act(journal, clock, rng, path)


def act(journal: SqliteJournal, clock: ManualClock, rng: random.Random, path: Path) -> None:
    kind = rng.choices(("append", "beat", "block", "fold", "backup"), (60, 20, 8, 8, 1))[0]
    stream = f"batch/{rng.randrange(20)}"
    if kind == "append":
        drafts = [
            Draft(stream, "note", {"text": "x" * rng.choice((10, 100, 5000)), "n": rng.random()})
            for _ in range(rng.choice((1, 1, 3)))
        ]
        for row in journal.append(drafts):
            say(f"{row.seq} {row.hash}")
    elif kind == "block":
        samples = [(UtcSecond(float(n)), rng.random()) for n in range(200)]
        row = journal.append_block(Draft(stream, "log"), samples)
        say(f"{row.seq} {row.hash}")
    elif kind == "beat":
        journal.beat(clock.read())
        say("+")
    elif kind == "fold":
        journal.save_folds([(stream, 0, {"n": rng.random()})], 1)
        say("+")
    else:
        back_up(journal, path.parent / "backups")
        say("+")


def say(text: str) -> None:
    print(text, flush=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]))
