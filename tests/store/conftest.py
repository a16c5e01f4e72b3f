"""A journal on a hand-moved clock, made anew for each test."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from shopassist.clock.manual import ManualClock
from shopassist.store.journal import SqliteJournal
from shopassist.store.opening import open_journal


@pytest.fixture
def clock() -> ManualClock:
    return ManualClock()


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "data" / "journal.db"


@pytest.fixture
def journal(path: Path, clock: ManualClock) -> Iterator[SqliteJournal]:
    opened = open_journal(path, clock, manual=True)
    yield opened
    opened.close()
