"""Backups by SQLite's own copying, verified by reading them back, the oldest let go."""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

KEPT = 7
"""How many daily backups stay; our own choice."""


def copy(source: sqlite3.Connection, target: Path) -> None:
    """Copy a journal whole into a new file; the file has its name only once it is complete."""
    part = target.with_name(f"{target.name}.part")
    part.unlink(missing_ok=True)
    with closing(sqlite3.connect(part, isolation_level=None)) as copied:
        source.backup(copied)
        copied.execute("DELETE FROM meta")  # so that it is known for a copy wherever it is laid
        copied.execute("PRAGMA journal_mode = DELETE")
        if (said := copied.execute("PRAGMA quick_check").fetchone()[0]) != "ok":
            raise sqlite3.DatabaseError(f"the backup does not read back: {said}")
    part.replace(target)


def rotate(
    source: sqlite3.Connection, folder: Path, name: str, check: Callable[[Path], None]
) -> Path:
    """Make the backup ``name`` in a folder, check it, then let the oldest beyond ``KEPT`` go."""
    folder.mkdir(parents=True, exist_ok=True)
    target = folder / f"{name}.backup"
    copy(source, target)
    check(target)
    for old in listed(folder)[KEPT:]:
        old.unlink()
    return target


def listed(folder: Path) -> list[Path]:
    """Backups in a folder, the newest name first."""
    return sorted(folder.glob("*.backup"), reverse=True)
