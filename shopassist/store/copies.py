"""Backups kept by a rule, and the one that is put in the log's place at the next start."""

import re
from contextlib import closing
from pathlib import Path

from shopassist.clock import Clock
from shopassist.core.errors import StoreError
from shopassist.core.messages import say
from shopassist.core.quantities import UtcSecond
from shopassist.services.copies import Copy
from shopassist.store import backup
from shopassist.store.database import connect, plainly, uri_of
from shopassist.store.opening import accept, restore
from shopassist.store.paths import Paths
from shopassist.store.state import State

DAILY = 20 * 3600.0
"""A backup younger than this is today's; ours."""
ASKED, DONE = "restore", "restored"
"""Under these names the window's state keeps what was asked for and what was done."""
_NAME = re.compile(r"journal-(\d+)\.backup")


def copies(folder: Path) -> tuple[Copy, ...]:
    """Backups in a folder, the newest first."""
    found = [_copy(path) for path in backup.listed(folder) if _NAME.fullmatch(path.name)]
    return tuple(sorted(found, key=lambda each: (each.made, each.rows), reverse=True))


def _copy(path: Path) -> Copy:
    found = _NAME.fullmatch(path.name)
    rows = int(found[1]) if found is not None else 0
    told = path.stat()
    return Copy(path.name, UtcSecond(told.st_mtime), rows, told.st_size)


def make_copy(journal: Path, folder: Path) -> Copy:
    """Make a backup on a connection of its own, read it back, let the oldest go."""
    with plainly(journal), closing(connect(uri_of(journal, "ro"))) as db:
        newest = db.execute("SELECT coalesce(max(seq), 0) FROM row").fetchone()[0]
        return _copy(backup.rotate(db, folder, f"journal-{newest:09d}", accept))


def make_daily(journal: Path, folder: Path, now: float) -> Copy | None:
    """Make today's backup unless there is one, or nothing has happened since the last."""
    with plainly(folder):
        newest = next(iter(copies(folder)), None)
    if newest is not None and now - newest.made < DAILY:
        return None
    return make_copy(journal, folder)


def put_back(state: State, paths: Paths, clock: Clock) -> None:
    """Put the backup that was asked for in the log's place; raises ``StoreError``.

    Asked for once, tried once: where it cannot be, the log stands as it was at the next start.
    """
    name = state.get(ASKED)
    if not name:
        return
    state.put(ASKED, "")
    source = paths.backups / name
    if not _NAME.fullmatch(name) or not source.exists():
        raise StoreError(
            say("The backup {name} is not there any more.", name=name),
            "Nothing was changed. Start again to go on with the log as it is.",
        )
    restore(source, paths.journal, clock)
    state.put(DONE, name)


class KeptCopies:
    """Backups of one log."""

    def __init__(self, paths: Paths, state: State) -> None:
        self._paths = paths
        self._state = state

    def listed(self) -> tuple[Copy, ...]:
        """Every backup, the newest first."""
        with plainly(self._paths.backups):
            return copies(self._paths.backups)

    def make(self) -> Copy:
        """Make one now."""
        return make_copy(self._paths.journal, self._paths.backups)

    def ask(self, name: str) -> None:
        """Have one put in the log's place at the next start."""
        self._state.put(ASKED, name)

    def asked(self) -> str:
        """Which one was asked for."""
        return self._state.get(ASKED)
