"""What everything stands on: folders, one program per folder, journal, session, settings."""

from dataclasses import dataclass
from pathlib import Path

from shopassist.app.arguments import Arguments
from shopassist.clock import Clock
from shopassist.core.errors import StoreError
from shopassist.services.session import Session
from shopassist.services.settings import SettingsService
from shopassist.store.journal import SqliteJournal
from shopassist.store.keeping import KeptFile
from shopassist.store.opening import open_journal
from shopassist.store.paths import Paths, paths_of
from shopassist.store.state import State

DEMO_FOLDER = "demo"
ASKED = "restore"
"""Name in the window's state of a backup that is to be put back, as ``store.copies`` keeps it."""


@dataclass(slots=True)
class Foundation:
    """Opened once, closed once."""

    paths: Paths
    clock: Clock
    journal: SqliteJournal
    session: Session
    settings: SettingsService
    state: State

    def close(self) -> None:
        """End the session in order and let go of the file."""
        self.session.end()
        self.journal.close()


def folders(asked: Arguments) -> Paths:
    """Name the folders; the demo has one of its own unless another is named."""
    if asked.demo and asked.data_dir is None:
        own = paths_of(None)
        return paths_of(own.data / DEMO_FOLDER)
    return paths_of(asked.data_dir)


def refuse_used_folder(journal_file: Path) -> None:
    """A demo never goes into a folder that holds somebody's log."""
    if journal_file.exists():
        raise StoreError(
            "This folder is in use already.",
            "The demo fills an empty folder only. Name another one with --data-dir.",
        )


def lay(paths: Paths, clock: Clock, *, manual: bool) -> Foundation:
    """Open the journal and read what was kept; raises ``StoreError`` and changes nothing then."""
    settings = SettingsService(KeptFile(paths.settings))
    state = State(KeptFile(paths.window))
    if state.get(ASKED):
        from shopassist.store.copies import put_back

        put_back(state, paths, clock)
    journal = open_journal(paths.journal, clock, manual=manual)
    return Foundation(paths, clock, journal, Session(journal, clock), settings, state)


def daily_copy(paths: Paths, now: float) -> StoreError | None:
    """Make today's backup where there is none; says why where it cannot be. For a thread."""
    from shopassist.store.copies import make_daily

    try:
        make_daily(paths.journal, paths.backups, now)
    except StoreError as error:
        return error
    return None
