"""Opening what is there, refusing what cannot be read, backup and restore."""

import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from shopassist.clock.manual import ManualClock
from shopassist.core.errors import StoreError
from shopassist.core.rows import Draft
from shopassist.store import database, opening
from shopassist.store.journal import SqliteJournal
from shopassist.store.opening import check, open_journal


def refused(path: Path, clock: ManualClock) -> StoreError:
    before = path.read_bytes()
    with pytest.raises(StoreError) as caught:
        open_journal(path, clock, manual=True)
    assert path.read_bytes() == before
    assert caught.value.title.template
    return caught.value


def test_a_new_journal_is_born_with_its_marks(journal: SqliteJournal, path: Path) -> None:
    assert {journal.born()[name] for name in ("manual", "demo")} == {True, False}
    assert journal.data_set() == journal.born()["data_set"]
    assert journal.displaced() == 0
    assert sorted(p.name for p in path.parent.iterdir()) == [
        "journal.db", "journal.db-shm", "journal.db-wal", "journal.db.last-opened",
    ]  # fmt: skip


def test_commits_are_synced_in_full_to_a_write_ahead_log(journal: SqliteJournal) -> None:
    values = [journal.connection.execute(f"PRAGMA {name}").fetchone()[0]
              for name in ("journal_mode", "synchronous", "foreign_keys")]  # fmt: skip
    assert values == ["wal", 2, 1]


def test_a_whole_journal_has_no_findings(journal: SqliteJournal, path: Path) -> None:
    journal.append([Draft("batch/1", "opened")])
    assert check(path) == ()


def test_the_full_check_can_be_stopped(journal: SqliteJournal, path: Path) -> None:
    assert check(path, lambda: True) == ()


@pytest.mark.parametrize(
    "content", [b"", b"\0" * 4096, b"a letter to somebody", b"SQLite format 3"]
)
def test_a_foreign_or_empty_file_is_left_as_it_is(
    path: Path, clock: ManualClock, content: bytes
) -> None:
    path.parent.mkdir()
    path.write_bytes(content)
    refused(path, clock)
    assert check(path)


def test_somebody_elses_database_is_left_as_it_is(path: Path, clock: ManualClock) -> None:
    path.parent.mkdir()
    db = sqlite3.connect(path)
    db.execute("CREATE TABLE recipe (name TEXT)")
    db.close()
    assert refused(path, clock).title.template == "This file is not a shop log."


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9])
def test_a_cut_file_is_left_as_it_is(
    journal: SqliteJournal, path: Path, clock: ManualClock, share: float
) -> None:
    journal.append([Draft("batch/1", "entry", {"a": n}) for n in range(300)])
    journal.close()
    whole = path.read_bytes()
    path.write_bytes(whole[: int(len(whole) * share)])
    refused(path, clock)


def test_a_newer_journal_is_left_as_it_is(
    journal: SqliteJournal, path: Path, clock: ManualClock
) -> None:
    journal.connection.execute("PRAGMA user_version = 99")
    journal.connection.execute("PRAGMA journal_mode = DELETE")
    journal.close()
    assert "newer" in refused(path, clock).title.template


def test_a_journal_without_any_form_is_damaged(
    journal: SqliteJournal, path: Path, clock: ManualClock
) -> None:
    journal.connection.execute("PRAGMA user_version = 0")
    journal.close()
    assert refused(path, clock).title.template == "The log is damaged."


def test_the_two_clocks_do_not_share_a_folder(
    journal: SqliteJournal, path: Path, clock: ManualClock
) -> None:
    journal.close()
    with pytest.raises(StoreError):
        open_journal(path, clock, manual=False)


def test_a_file_held_by_another_program_is_said_to_be_held(
    journal: SqliteJournal, path: Path, clock: ManualClock, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(database, "PATIENCE", 0.0)
    journal.close()
    mine = open_journal(path, clock, manual=True)
    other = sqlite3.connect(path, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    with pytest.raises(StoreError) as caught:
        mine.append([Draft("batch/1", "opened")])
    assert "Another program" in caught.value.title.template
    with pytest.raises(StoreError):
        open_journal(path, clock, manual=True)
    other.execute("ROLLBACK")
    other.close()
    assert mine.append([Draft("batch/1", "opened")])
    mine.close()


def test_a_full_disk_writes_nothing_and_is_said(journal: SqliteJournal, path: Path) -> None:
    journal.append([Draft("batch/1", "opened")])
    pages = journal.connection.execute("PRAGMA page_count").fetchone()[0]
    journal.connection.execute(f"PRAGMA max_page_count = {pages}")
    with pytest.raises(StoreError) as caught:
        journal.append([Draft("batch/1", "note", {"text": "x" * 100_000})])
    assert caught.value.title.template == "The disk is full."
    assert len(journal.read("batch/1")) == 1
    journal.connection.execute("PRAGMA max_page_count = 100000")
    journal.append([Draft("batch/1", "note")])
    assert check(path) == ()


def test_a_folder_that_cannot_be_made_is_said(tmp_path: Path, clock: ManualClock) -> None:
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(StoreError):
        open_journal(tmp_path / "file" / "journal.db", clock)


READ_ONLY = """
import ctypes, os, sys
from pathlib import Path
from shopassist.clock.manual import ManualClock
from shopassist.core.errors import StoreError
from shopassist.core.rows import Draft
from shopassist.store.opening import open_journal
if os.getuid() == 0:  # even root must ask the folder once its capabilities are dropped
    header = (ctypes.c_uint32 * 2)(0x20080522, 0)
    assert ctypes.CDLL(None).capset(header, (ctypes.c_uint32 * 6)()) == 0
try:
    open_journal(Path(sys.argv[1]), ManualClock(), manual=True).append([Draft("batch/1", "note")])
except StoreError as error:
    print(error.title.template)
"""


@pytest.mark.skipif(sys.platform != "linux", reason="drops root's capabilities the Linux way")
@pytest.mark.parametrize("present", [True, False])
def test_a_read_only_folder_is_said_to_be_one(
    path: Path, clock: ManualClock, present: bool
) -> None:
    if present:
        open_journal(path, clock, manual=True).close()
    else:
        path.parent.mkdir()
    before = {p.name: p.read_bytes() for p in path.parent.iterdir()}
    for file in path.parent.iterdir():
        file.chmod(0o444)
    path.parent.chmod(0o555)
    done = subprocess.run(
        [sys.executable, "-c", READ_ONLY, str(path)],
        capture_output=True, text=True, check=False,
        env={"PYTHONPATH": str(Path(opening.__file__).parents[2])},
    )  # fmt: skip
    path.parent.chmod(0o755)
    assert "The log's folder cannot be written." in done.stdout, done.stderr
    assert {p.name: p.read_bytes() for p in path.parent.iterdir()} == before


@pytest.mark.parametrize(
    ("said", "title"),
    [("database or disk is full", "The disk is full."),
     ("attempt to write a readonly database", "The log's folder cannot be written."),
     ("database is locked", "Another program holds the log."),
     ("disk I/O error", "The log could not be used.")],
)  # fmt: skip
def test_what_the_system_says_is_put_in_plain_words(tmp_path: Path, said: str, title: str) -> None:
    error = database.explained(sqlite3.OperationalError(said), tmp_path / "journal.db")
    assert error.title.template == title


def test_a_malformed_file_is_damaged(tmp_path: Path) -> None:
    malformed = sqlite3.DatabaseError("database disk image is malformed")
    assert database.explained(malformed, tmp_path).title.template == "The log is damaged."
