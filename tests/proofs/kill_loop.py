"""A writer killed by SIGKILL at random instants loses no acknowledged row.

Death of the process only: a power cut cannot be tried here.
"""

import os
import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from shopassist.clock.manual import ManualClock
from shopassist.store.backup import listed
from shopassist.store.opening import check, open_journal
from tests.proofs.report import Report

FULL = 5_000
STRETCH = 100
ROOT = Path(__file__).resolve().parents[2]
NEW_FOLDER = 0.2
"""Share of kills of a writer on a folder of its own, so that making the file is hit as well."""


def run(count: int, seed: int) -> Report:
    """Kill ``count`` writers; trial ``n`` is seeded by ``seed + n``."""
    failures: list[str] = []
    figures = {"rows acknowledged": 0.0, "rows lost": 0.0, "killed before the first word": 0.0}
    with tempfile.TemporaryDirectory() as name:
        folder, acknowledged = Path(name) / "0", dict[int, str]()
        for number in range(count):
            rng = random.Random(seed + number)
            if rng.random() < NEW_FOLDER:
                folder, acknowledged = Path(name) / str(number), {}
            said = _killed(folder / "journal.db", seed + number, rng)
            figures["killed before the first word"] += not said
            heard = dict(_row(line) for line in said if " " in line)
            figures["rows acknowledged"] += len(heard)
            acknowledged |= heard
            wrong, lost = _examined(folder, acknowledged)
            figures["rows lost"] += lost
            failures += [f"seed {seed + number}: {text}" for text in wrong]
    return Report(count, seed, tuple(failures), figures)


def _row(line: str) -> tuple[int, str]:
    seq, kept = line.split()
    return int(seq), kept


def _killed(path: Path, seed: int, rng: random.Random) -> list[str]:
    """Start a writer, let it say some lines, kill it a random moment later; return the lines."""
    process = subprocess.Popen(
        [sys.executable, "-m", "tests.proofs.writer", str(path), str(seed)],
        stdout=subprocess.PIPE, cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT)},
    )  # fmt: skip
    out = process.stdout
    assert out is not None
    read = b""
    if rng.random() < 0.9:
        for _ in range(rng.randrange(40)):
            read += out.readline()
    else:
        _spin(rng.uniform(0.02, 0.25))
    _spin(rng.uniform(0.0, 0.004))
    process.kill()
    read += out.read()
    out.close()
    process.wait()
    whole = read[: read.rfind(b"\n") + 1]
    return whole.decode("ascii").splitlines()


def _spin(seconds: float) -> None:
    until = time.perf_counter() + seconds
    while time.perf_counter() < until:
        pass


def _examined(folder: Path, acknowledged: dict[int, str]) -> tuple[list[str], int]:
    path = folder / "journal.db"
    if not path.exists():
        return (["the file is gone"], len(acknowledged)) if acknowledged else ([], 0)
    journal = open_journal(path, ManualClock(), manual=True)
    wrong: list[str] = []
    lost = 0
    query = "SELECT hash FROM row WHERE seq = ?"
    for seq, kept in acknowledged.items():
        found = journal.connection.execute(query, (seq,)).fetchone()
        if found is None or found[0] != kept:
            lost += 1
            wrong.append(f"row {seq} is lost")
    for stream in journal.streams():
        journal.read(stream)
    wrong += [f"check: {text}" for text in check(path)]
    wrong += [f"backup {p.name}: {t}" for p in listed(folder / "backups") for t in check(p)]
    journal.close()
    return wrong, lost
