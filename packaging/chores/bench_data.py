"""Data folders for the bench, filled through the program's own services and journal."""

import time
import tomllib
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path

from chores.ground import ROOT
from shopassist.app.demo import DAYS_BACK, Replay
from shopassist.clock.manual import ManualClock
from shopassist.clock.system import SystemClock
from shopassist.core.batch import Typed
from shopassist.core.quantities import Kelvin, Kilogram, UtcSecond
from shopassist.core.rows import Body, Draft, Row
from shopassist.services.batches import BatchService
from shopassist.services.ports import Journal
from shopassist.services.versions import Library
from shopassist.store.journal import SqliteJournal
from shopassist.store.opening import open_journal
from shopassist.store.paths import paths_of

YEAR_S = 365.25 * 86_400
BATCHES = 1_500
ROWS = 200_000
SAMPLES = 2_000_000
ROOM = Kelvin(294.0)
WOODS = ("Oak", "Ash", "Maple", "Walnut", "Cherry", "Elm", "Yew")
KINDS = ("knobs", "rods", "bowls", "stoppers")
NOTES = ("Clear all through.", "A few bubbles at the foot.", "Warmed for an hour first.")


class Copyist:
    """A journal that also keeps the drafts that it was given."""

    def __init__(self, journal: Journal) -> None:
        self.drafts: list[Draft] = []
        self._journal = journal

    def append(self, drafts: Sequence[Draft]) -> tuple[Row, ...]:
        """Commit, and keep."""
        self.drafts += drafts
        return self._journal.append(drafts)

    def read(self, stream: str, after: int = 0) -> tuple[Row, ...]:
        """Read as the journal does."""
        return self._journal.read(stream, after)

    def streams(self, prefix: str = "") -> tuple[str, ...]:
        """List as the journal does."""
        return self._journal.streams(prefix)

    def kinds(self, stream: str) -> frozenset[str]:
        """Name the kinds as the journal does."""
        return self._journal.kinds(stream)


def twelve_waits(data: Path) -> None:
    """Fill a folder with twelve running cures."""
    clock = Replay(SystemClock().read())
    clock.suspend(DAYS_BACK - 900)
    with closing(_journal(data, clock)) as journal:
        sheet = _sheet(journal)
        batches = BatchService(journal, clock)
        for number in range(12):
            batches.poured(_begin(batches, f"Blank {number + 1}", sheet))


def ten_years(data: Path) -> None:
    """Fill a folder with ten years of work: batches, their rows, a thermometer's samples."""
    clock = ManualClock(utc=time.time() - 10 * YEAR_S)
    with closing(_journal(data, clock)) as journal:
        copyist = Copyist(journal)
        batches = BatchService(copyist, clock)
        first = _finished(batches, _sheet(journal), ROWS // BATCHES)
        pattern = [draft for draft in copyist.drafts if draft.stream == f"batch/{first}"]
        for number in range(2, BATCHES + 1):
            clock.advance(10 * YEAR_S / (BATCHES + 1))
            stream = f"batch/{number:04d}"
            journal.append([Draft(stream, d.kind, d.body, None, d.version) for d in pattern])
            _samples(journal, clock, SAMPLES // BATCHES)


def many_batches(data: Path, count: int) -> None:
    """Fill a folder with batches of ten years that differ in wood, warmth, cups and outcome."""
    clock = ManualClock(utc=time.time() - 10 * YEAR_S)
    with closing(_journal(data, clock)) as journal:
        sheet = _sheet(journal)
        for number in range(1, count + 1):
            clock.advance(10 * YEAR_S / (count + 1))
            journal.append(_drafts(f"batch/{number:04d}", number, sheet))


def _drafts(stream: str, number: int, sheet: str) -> list[Draft]:
    """A batch in as few rows as one has that was entered, weighed, watched and closed."""
    wood, cold = WOODS[number % len(WOODS)], number % 7 == 0
    entries = {"amount": f"{150 + number % 90} g", "pieces": str(1 + number % 5), "waste": "10 %",
               "plan.species": wood, "mix.how": "grams"}  # fmt: skip
    warm = 281.0 if cold else 294.0 + number % 3
    bodies: list[tuple[str, Body]] = [
        ("opened", {"name": f"{wood} {KINDS[number % len(KINDS)]} {number}", "again_of": ""}),
        ("sheet", {"record": sheet, "version": 1, "reason": ""}),
        *(("entry", {"field": name, "text": text, "value": None, "quantity": "", "origin": "typed"})
          for name, text in entries.items()),
        ("temperature", {"low": warm, "high": warm, "where": "resin"}),
        ("weighed", {"cup": 1, "part": "a", "mass": 0.1794, "reason": ""}),
        ("weighed", {"cup": 1, "part": "b", "mass": 0.0538, "reason": ""}),
        ("hardener_in", {"cup": 1, "reason": ""}),
        ("poured", {}),
        ("seen", {"mark": "gelled"}),
        ("note", {"text": NOTES[number % len(NOTES)]}),
        ("outcome", {"outcome": "spoiled" if cold else "good"}),
    ]  # fmt: skip
    return [Draft(stream, kind, body) for kind, body in bodies]


def _journal(data: Path, clock: ManualClock) -> SqliteJournal:
    data.mkdir(parents=True, exist_ok=True)
    return open_journal(paths_of(data).journal, clock)


def _sheet(journal: Journal) -> str:
    text = (ROOT / "resources" / "demo" / "sheets" / "slow-clear.toml").read_text("utf-8")
    saved, problems = Library(journal, "resin", lambda given: (given, ())).save(tomllib.loads(text))
    if saved is None:
        raise ValueError(problems)
    return saved.id


def _begin(batches: BatchService, name: str, sheet: str) -> str:
    batch = batches.open(name)
    batches.use_sheet(batch, sheet, 1)
    batches.enter(batch, "amount", Typed("214 ml", 2.14e-4, "CubicMetre"))
    batches.weigh(batch, 1, "a", Kilogram(0.1794))
    batches.weigh(batch, 1, "b", Kilogram(0.0538))
    batches.hardener_in(batch, 1)
    batches.add_temperature(batch, ROOM, ROOM, "room")
    return batch


def _finished(batches: BatchService, sheet: str, rows: int) -> str:
    batch = _begin(batches, "Knobs", sheet)
    batches.poured(batch)
    for turn in range(rows - 10):
        batches.add_temperature(batch, Kelvin(ROOM + turn % 5), Kelvin(ROOM + turn % 5), "room")
    batches.see(batch, "gelled")
    batches.close(batch, "good")
    return batch


def _samples(journal: SqliteJournal, clock: ManualClock, count: int) -> None:
    now = clock.read().utc
    block = [(UtcSecond(now - 60 * (count - n)), 293.0 + n % 40 / 10) for n in range(count)]
    journal.append_block(Draft("logger/room", "samples", {"name": "room"}), block)
