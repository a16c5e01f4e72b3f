"""Files that are whole or not there: written beside, synced, then moved into place."""

import os
from contextlib import suppress
from pathlib import Path

from shopassist.store.database import sync_folder


def previous_of(path: Path) -> Path:
    """Where the last good copy of a file is kept."""
    return path.with_name(f"{path.name}.previous")


def write_atomic(path: Path, text: str, *, keep_previous: bool = True) -> None:
    """Write a text so that at every instant the old or the new one is there, whole.

    ``keep_previous`` keeps the file that stood there as the last good copy; leave it out where the
    present file is not known to be good. Raises ``OSError``; then the old file still stands.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    fresh = path.with_name(f".{path.name}.new")
    try:
        _write_synced(fresh, text)
        if keep_previous and path.exists():
            kept = path.with_name(f".{path.name}.kept")
            _write_synced(kept, path.read_text("utf-8"))
            kept.replace(previous_of(path))
        fresh.replace(path)
    finally:
        with suppress(OSError):
            fresh.unlink(missing_ok=True)
    sync_folder(path.parent)


def set_aside(path: Path) -> Path:
    """Move a file that could not be read out of the way, under a name that is free."""
    number = 1
    while (aside := path.with_name(f"{path.name}.unreadable-{number}")).exists():
        number += 1
    path.rename(aside)
    return aside


def _write_synced(path: Path, text: str) -> None:
    with path.open("w", encoding="utf-8", newline="\n") as file:
        file.write(text)
        file.flush()
        os.fsync(file.fileno())
