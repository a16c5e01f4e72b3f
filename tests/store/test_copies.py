"""Backups by their rule, and the one that is put back at the next start."""

from pathlib import Path

import pytest

from shopassist.app.foundation import daily_copy, lay
from shopassist.clock.manual import ManualClock
from shopassist.core.errors import StoreError
from shopassist.core.rows import Draft
from shopassist.store.copies import DAILY, KeptCopies, copies, make_daily, put_back
from shopassist.store.journal import SqliteJournal
from shopassist.store.keeping import KeptFile
from shopassist.store.opening import open_journal
from shopassist.store.paths import Paths, paths_of
from shopassist.store.state import State


@pytest.fixture
def paths(tmp_path: Path) -> Paths:
    return paths_of(tmp_path)


@pytest.fixture
def kept(paths: Paths) -> State:
    return State(KeptFile(paths.window))


def opened(paths: Paths) -> SqliteJournal:
    return open_journal(paths.journal, ManualClock(), manual=True)


def test_a_backup_is_listed_with_its_rows(paths: Paths, kept: State) -> None:
    journal = opened(paths)
    keeper = KeptCopies(paths, kept)
    assert keeper.listed() == ()
    made = keeper.make()
    assert made.rows == journal.newest()
    assert made.bytes > 1000
    journal.append([Draft("batch/1", "opened")])
    later = keeper.make()
    assert [each.name for each in keeper.listed()] == [later.name, made.name]
    journal.close()


def test_one_a_day_is_made(paths: Paths) -> None:
    journal = opened(paths)
    first = make_daily(paths.journal, paths.backups, 0.0)
    assert first is not None
    assert make_daily(paths.journal, paths.backups, first.made + DAILY - 60) is None
    journal.append([Draft("batch/1", "opened")])
    assert make_daily(paths.journal, paths.backups, first.made + DAILY + 60) is not None
    journal.close()


def test_a_foreign_file_among_the_backups_is_passed_over(paths: Paths) -> None:
    paths.backups.mkdir(parents=True)
    (paths.backups / "holiday.backup").write_text("no log")
    assert copies(paths.backups) == ()


def test_what_was_asked_for_comes_back_at_the_next_start(paths: Paths, kept: State) -> None:
    journal = opened(paths)
    keeper = KeptCopies(paths, kept)
    made = keeper.make()
    journal.append([Draft("batch/1", "opened")])
    journal.close()
    keeper.ask(made.name)
    assert keeper.asked() == made.name
    base = lay(paths, ManualClock(), manual=True)
    assert base.journal.streams("batch/") == ()
    assert base.journal.displaced() > made.rows, "no pot is believed afterwards"
    assert (base.state.get("restore"), base.state.get("restored")) == ("", made.name)
    base.journal.close()
    assert list(paths.data.glob("journal.db.set-aside-*"))


def test_a_backup_that_is_gone_changes_nothing(paths: Paths, kept: State) -> None:
    opened(paths).close()
    for name in ("journal-000000009.backup", "../../journal.db"):
        kept.put("restore", name)
        with pytest.raises(StoreError, match="not there any more"):
            put_back(kept, paths, ManualClock())
        assert kept.get("restore") == ""
    put_back(kept, paths, ManualClock())
    opened(paths).close()


def test_a_folder_that_cannot_be_used_is_told(paths: Paths) -> None:
    opened(paths).close()
    assert daily_copy(paths, 0.0) is None
    paths.journal.unlink()
    paths.journal.mkdir()
    error = daily_copy(paths, 1e12)
    assert isinstance(error, StoreError)
