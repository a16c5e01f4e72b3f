"""One scenario in which the n-th call to the disk fails, for every n and every way of failing.

Whatever fails, only a ``StoreError`` comes out, no acknowledged row is lost, the chain holds, and
the same act succeeds once the disk does its work again.
"""

import errno
import os
import sqlite3
import tempfile
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import Any
from unittest.mock import patch

from shopassist.clock.manual import ManualClock
from shopassist.core.errors import StoreError
from shopassist.core.quantities import UtcSecond
from shopassist.core.rows import Draft, Row
from shopassist.store import database, opening
from shopassist.store.journal import SqliteJournal
from shopassist.store.opening import back_up, check, open_journal, restore
from tests.proofs.report import Report

FULL = 700
"""More than there are calls times ways; a test holds that."""
STRETCH = 100
WAYS: tuple[Exception, ...] = (
    sqlite3.OperationalError("database or disk is full"),
    sqlite3.OperationalError("disk I/O error"),
    OSError(errno.ENOSPC, "No space left on device"),
)


SYSTEM_CALLS = frozenset({"fsync", "rename", "replace", "hardlink_to", "mkdir", "open", "stat"})


class Tap:
    """Counts calls to the disk and lets one of them fail."""

    def __init__(self, failing: int | None = None, error: Exception | None = None) -> None:
        self.calls = 0
        self.failed = ""
        self._failing = failing
        self._error = error

    def touch(self, what: str) -> None:
        """Let a call through, or not."""
        self.calls += 1
        if self.calls - 1 == self._failing and self._error is not None:
            self.failed = what
            if what in SYSTEM_CALLS and isinstance(self._error, sqlite3.Error):
                # The system never speaks in the database's words.
                raise OSError(errno.EIO, "Input/output error")
            raise self._error


class Scene:
    """A little life of a journal; every act that returned is remembered."""

    def __init__(self, folder: Path) -> None:
        self.path = folder / "journal.db"
        self.clock = ManualClock()
        self.rows: list[Row] = []
        self.journal: SqliteJournal | None = None
        self.backup: Path | None = None
        self.restored = False

    def acts(self) -> list[Callable[[], None]]:
        """Everything that happens, in order; each may be tried again."""
        return [self.open, self.add, self.beat, self.fold, self.log, self.save, self.close,
                self.open, self.add, self.close, self.bring_back, self.open, self.add]  # fmt: skip

    def open(self) -> None:
        tapped_connect = database.connect  # looked up here, while it is tapped
        self.journal = open_journal(self.path, self.clock, manual=True, connecting=tapped_connect)

    @property
    def opened(self) -> SqliteJournal:
        assert self.journal is not None
        return self.journal

    def add(self) -> None:
        drafts = [Draft("batch/1", "note", {"n": n}) for n in range(3)]
        self.rows += self.opened.append(drafts)

    def beat(self) -> None:
        self.opened.beat(self.clock.read())

    def fold(self) -> None:
        self.opened.save_folds([("batch/1", 3, {"n": 3})], 1)

    def log(self) -> None:
        self.rows.append(self.opened.append_block(Draft("batch/2", "log"), [(UtcSecond(1.0), 2.0)]))

    def save(self) -> None:
        self.backup = back_up(self.opened, self.path.parent / "backups")

    def close(self) -> None:
        if self.journal is not None:
            self.journal.close()
        self.journal = None

    def bring_back(self) -> None:
        assert self.backup is not None
        restore(self.backup, self.path, self.clock)
        self.restored = True
        self.rows = [row for row in self.rows if row.seq <= self.saved]

    @property
    def saved(self) -> int:
        assert self.backup is not None
        return int(self.backup.stem.split("-")[1])


@contextmanager
def tapped(tap: Tap) -> Iterator[None]:
    """Lead every statement, sync, renaming and linking through a tap."""

    class Tapped(sqlite3.Connection):
        def execute(self, sql: str, *args: Any) -> sqlite3.Cursor:
            tap.touch(sql[:40])
            return super().execute(sql, *args)

    def connect(uri: str) -> sqlite3.Connection:
        tap.touch("connect")
        return sqlite3.connect(uri, uri=True, isolation_level=None, timeout=0.0, factory=Tapped)

    def led(real: Callable[..., Any], name: str) -> Callable[..., Any]:
        def call(*args: Any, **kwargs: Any) -> Any:
            tap.touch(name)
            return real(*args, **kwargs)

        return call

    with ExitStack() as stack:
        stack.enter_context(patch.object(database, "connect", connect))
        stack.enter_context(patch.object(opening, "connect", connect))
        stack.enter_context(patch.object(os, "fsync", led(os.fsync, "fsync")))
        for name in ("rename", "replace", "hardlink_to", "mkdir", "open", "stat"):
            stack.enter_context(patch.object(Path, name, led(getattr(Path, name), name)))
        yield


def calls_in_all() -> int:
    """Count the calls of one life in which nothing fails."""
    tap = Tap()
    with tempfile.TemporaryDirectory() as name, tapped(tap):
        scene = Scene(Path(name))
        for act in scene.acts():
            act()
        scene.close()
    return tap.calls


def run(count: int, seed: int) -> Report:
    """Try ``count`` faults, going round all of them from the one that the seed names."""
    calls = calls_in_all()
    failures: list[str] = []
    raised = 0
    for number in range(count):
        which = (seed + number) % (calls * len(WAYS))
        turn, place = divmod(which, calls)
        way = (turn + place) % len(WAYS)  # one round meets every place, three every way there
        tap = Tap(place, WAYS[way])
        try:
            raised += _lived(tap)
        except Exception as error:  # noqa: BLE001
            failures.append(f"call {place} ({tap.failed}), {WAYS[way]}: {error!r}")
    return Report(count, seed, tuple(failures), {"faults told": raised, "most calls": calls})


def _lived(tap: Tap) -> int:
    """Live through one fault; returns how often it was told."""
    told = 0
    with tempfile.TemporaryDirectory() as name:
        scene = Scene(Path(name))
        with tapped(tap):
            for act in scene.acts():
                try:
                    act()
                except StoreError:
                    told += 1
                    act()
        kept = {
            row for stream in scene.opened.streams() for row in map(_key, scene.opened.read(stream))
        }
        lost = [row for row in map(_key, scene.rows) if row not in kept]
        assert not lost, f"lost: {lost}"
        found = check(scene.path)
        assert not found, f"check: {found}"
        scene.close()
    return told


def _key(row: Row) -> tuple[int, str]:
    return row.seq, row.hash
