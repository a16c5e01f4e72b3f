"""A real journal with a hand-moved clock; a test that wants others brings its own."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from shopassist.clock.manual import ManualClock
from shopassist.store.journal import SqliteJournal
from shopassist.store.opening import open_journal


@pytest.fixture
def clock() -> ManualClock:
    return ManualClock(since_boot=5000.0)


@pytest.fixture
def journal(tmp_path: Path, clock: ManualClock) -> Iterator[SqliteJournal]:
    opened = open_journal(tmp_path / "journal.db", clock, manual=True)
    yield opened
    opened.close()
