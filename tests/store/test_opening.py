"""Opening what is there, refusing what cannot be read, backup and restore."""

import shutil
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from shopassist.clock.manual import ManualClock
from shopassist.core.errors import StoreError
from shopassist.core.rows import Draft
from shopassist.store import backup, database, opening, place
from shopassist.store.journal import SqliteJournal
from shopassist.store.opening import back_up, check, open_journal, restore


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


# -- making ------------------------------------------------------------------------------


def test_a_half_made_file_of_a_killed_start_is_made_anew(path: Path, clock: ManualClock) -> None:
    path.parent.mkdir()
    path.with_name("journal.db.new").write_bytes(b"half")
    open_journal(path, clock, manual=True).close()
    assert check(path) == ()


@pytest.mark.parametrize("ending", ["-wal", "-shm"])
def test_a_log_that_lost_its_database_is_left_as_it_is(
    path: Path, clock: ManualClock, ending: str
) -> None:
    path.parent.mkdir()
    left = path.with_name(path.name + ending)
    left.write_bytes(b"rows")
    with pytest.raises(StoreError):
        open_journal(path, clock, manual=True)
    assert left.read_bytes() == b"rows" and not path.exists()


def test_a_new_file_never_takes_a_name_that_is_taken(tmp_path: Path) -> None:
    fresh, taken = tmp_path / "fresh", tmp_path / "taken"
    fresh.write_text("new")
    taken.write_text("old")
    with pytest.raises(FileExistsError):
        database.settle(fresh, taken)
    assert taken.read_text() == "old"


def test_where_names_cannot_be_linked_the_file_is_renamed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object) -> None:
        raise OSError

    monkeypatch.setattr(Path, "hardlink_to", fail)
    (tmp_path / "fresh").write_text("new")
    database.settle(tmp_path / "fresh", tmp_path / "free")
    assert [p.name for p in tmp_path.iterdir()] == ["free"]


# -- migrations ---------------------------------------------------------------------------


STEP = "CREATE TABLE more (id INTEGER) STRICT;\nCREATE TRIGGER t AFTER INSERT ON more BEGIN SELECT 1; END;"


def shape(path: Path) -> object:
    db = sqlite3.connect(path)
    found = (
        db.execute("SELECT name, sql FROM sqlite_schema ORDER BY name").fetchall(),
        db.execute("PRAGMA user_version").fetchone(),
        db.execute("SELECT * FROM row").fetchall(),
    )
    db.close()
    return found


def test_an_older_journal_is_backed_up_and_brought_up_to_date(
    journal: SqliteJournal, path: Path
) -> None:
    journal.append([Draft("batch/1", "opened")])
    journal.close()
    before = shape(path)
    db = database.open_file(path, steps=(*database.migrations(), STEP))
    assert db.execute("SELECT count(*) FROM more").fetchone() == (0,)
    assert db.execute("PRAGMA user_version").fetchone() == (2,)
    db.close()
    assert shape(path.with_name("journal-before-form-2.backup")) == before


@pytest.mark.parametrize(
    "bad", ["CREATE TABLE bad (;", "CREATE TABLE unfinished (id", "DELETE FROM row;"]
)
def test_a_failing_step_leaves_version_and_tables_unchanged(
    journal: SqliteJournal, path: Path, bad: str
) -> None:
    journal.append([Draft("batch/1", "opened")])
    journal.close()
    before = shape(path)
    with pytest.raises(StoreError):
        database.open_file(path, steps=(*database.migrations(), f"{STEP}\n{bad}"))
    assert shape(path) == before


def test_tables_that_were_changed_are_found(journal: SqliteJournal, path: Path) -> None:
    journal.connection.execute("DROP TRIGGER row_never_removed")
    assert "tables" in check(path)[0].template


# -- copies, backups, restore --------------------------------------------------------------


def test_after_a_copy_of_the_folder_nothing_older_is_believed(
    journal: SqliteJournal, path: Path, clock: ManualClock, tmp_path: Path
) -> None:
    journal.append([Draft("pot/1", "lid_off")])
    born = journal.data_set()
    journal.close()
    copied = tmp_path / "stick"
    shutil.copytree(path.parent, copied)
    other = open_journal(copied / path.name, clock, manual=True)
    assert other.displaced() > other.read("pot/1")[-1].seq
    assert other.data_set() != born
    seen = other.displaced()
    other.close()
    again = open_journal(copied / path.name, clock, manual=True)
    assert again.displaced() == seen
    again.close()


def test_a_journal_that_stays_is_not_displaced(
    journal: SqliteJournal, path: Path, clock: ManualClock
) -> None:
    journal.close()
    again = open_journal(path, clock, manual=True)
    assert again.displaced() == 0
    again.close()


def test_an_older_copy_laid_in_place_by_hand_is_found(
    journal: SqliteJournal, path: Path, clock: ManualClock, tmp_path: Path
) -> None:
    older = back_up(journal, tmp_path / "backups")
    journal.close()
    for ending in ("", "-wal", "-shm"):
        path.with_name(path.name + ending).unlink(missing_ok=True)
    shutil.copy(older, path)
    again = open_journal(path, clock, manual=True)
    assert again.displaced() > 0
    again.close()


def test_an_older_file_written_over_the_newer_one_is_found(
    journal: SqliteJournal, path: Path, clock: ManualClock
) -> None:
    journal.append([Draft("pot/1", "lid_off")])
    journal.close()
    older = path.read_bytes()
    newer = open_journal(path, clock, manual=True)
    newer.append([Draft("pot/1", "closed")])
    newer.close()
    path.write_bytes(older)
    again = open_journal(path, clock, manual=True)
    assert again.displaced() > 0
    again.close()


def test_a_backup_holds_every_row_and_reads_back(journal: SqliteJournal, tmp_path: Path) -> None:
    journal.append([Draft("batch/1", "entry", {"a": n}) for n in range(50)])
    made = back_up(journal, tmp_path / "backups")
    assert check(made) == ()
    db = sqlite3.connect(made)
    assert db.execute("SELECT count(*) FROM row").fetchone() == (51,)
    db.close()
    assert [p.name for p in (tmp_path / "backups").iterdir()] == [made.name]


def test_the_oldest_backups_are_let_go(journal: SqliteJournal, tmp_path: Path) -> None:
    made = []
    for n in range(backup.KEPT + 3):
        journal.append([Draft("batch/1", "entry", {"a": n})])
        made.append(back_up(journal, tmp_path))
    assert backup.listed(tmp_path) == made[: -backup.KEPT - 1 : -1]


def test_a_backup_of_a_damaged_journal_is_told_and_takes_no_good_one_away(
    journal: SqliteJournal, tmp_path: Path
) -> None:
    good = back_up(journal, tmp_path)
    journal.append([Draft("batch/1", "entry")])
    journal.connection.execute("DROP TRIGGER row_never_rewritten")
    journal.connection.execute("UPDATE row SET kind = 'x' WHERE seq = 1")
    with pytest.raises(StoreError):
        back_up(journal, tmp_path)
    assert good.exists()


def test_a_backup_that_does_not_read_back_is_no_backup(tmp_path: Path) -> None:
    source = sqlite3.connect(":memory:", isolation_level=None)
    source.execute("CREATE TABLE meta (name TEXT NOT NULL)")
    source.execute("PRAGMA writable_schema = ON")
    source.execute("CREATE TABLE a (x INTEGER)")
    source.execute("INSERT INTO a VALUES (NULL)")
    source.execute("UPDATE sqlite_schema SET sql = 'CREATE TABLE a (x INTEGER NOT NULL)'"
                   " WHERE name = 'a'")  # fmt: skip
    with pytest.raises(sqlite3.DatabaseError, match="NULL value"):
        backup.copy(source, tmp_path / "a.backup")
    source.close()
    assert not (tmp_path / "a.backup").exists()


def test_a_restored_backup_holds_its_rows_and_believes_no_pot(
    journal: SqliteJournal, path: Path, clock: ManualClock, tmp_path: Path
) -> None:
    rows = journal.append([Draft("pot/1", "lid_off")])
    born = journal.data_set()
    made = back_up(journal, tmp_path / "backups")
    journal.append([Draft("batch/1", "opened")])
    journal.close()
    path.write_bytes(b"ruined")
    aside = restore(made, path, clock)
    assert aside is not None and aside.read_bytes() == b"ruined"
    again = open_journal(path, clock, manual=True)
    assert again.read("pot/1") == rows
    assert again.displaced() > rows[-1].seq
    assert again.data_set() != born
    assert [row.kind for row in again.read("shop")] == ["born", "restored"]
    assert check(path) == ()
    again.close()
    assert restore(made, path, clock) != aside


def test_a_restore_into_an_empty_place_sets_nothing_aside(
    journal: SqliteJournal, clock: ManualClock, tmp_path: Path
) -> None:
    made = back_up(journal, tmp_path / "backups")
    assert restore(made, tmp_path / "new" / "journal.db", clock) is None


def test_a_damaged_backup_is_not_restored(
    journal: SqliteJournal, path: Path, clock: ManualClock, tmp_path: Path
) -> None:
    made = tmp_path / "bad.backup"
    made.write_bytes(path.read_bytes()[:5000])
    before = path.read_bytes()
    with pytest.raises(StoreError):
        restore(made, path, clock)
    assert path.read_bytes() == before


def test_a_restore_cut_off_after_setting_aside_is_carried_on(
    journal: SqliteJournal, path: Path, clock: ManualClock, tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    journal.append([Draft("batch/1", "opened")])
    made = back_up(journal, tmp_path / "backups")
    journal.close()

    def cut_off(*_: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patched:
        patched.setattr(opening, "settle", cut_off)
        with pytest.raises(KeyboardInterrupt):
            restore(made, path, clock)
    assert not path.exists()
    again = open_journal(path, clock, manual=True)
    assert again.read("batch/1") and again.displaced()
    again.close()


def test_a_machine_without_an_id_file_has_a_network_address(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def fail(*_: object, **__: object) -> str:
        raise OSError

    monkeypatch.setattr(Path, "read_text", fail)
    assert place.machine_id()
