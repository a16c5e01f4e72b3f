"""Making, migrating, copying and restoring a journal file."""

import shutil
import sqlite3
from pathlib import Path

import pytest

from shopassist.clock.manual import ManualClock
from shopassist.core.errors import StoreError
from shopassist.core.rows import Draft
from shopassist.store import backup, database, opening, place
from shopassist.store.journal import SqliteJournal
from shopassist.store.opening import back_up, check, open_journal, restore

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
