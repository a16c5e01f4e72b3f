"""Opening, making and migrating the journal's file; nothing unreadable is ever written over."""

import os
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from shopassist.core.errors import StoreError
from shopassist.core.messages import say
from shopassist.store import backup

APPLICATION_ID = 0x53686F70
"""``Shop``: marks a file as a journal of this program."""
MAGIC = b"SQLite format 3\x00"
PATIENCE = 2.0
"""How long a locked file is waited for, [s]."""

Connect = Callable[[str], sqlite3.Connection]


def connect(uri: str) -> sqlite3.Connection:
    """Open a connection without the library's own transactions."""
    return sqlite3.connect(uri, uri=True, isolation_level=None, timeout=PATIENCE)


def uri_of(path: Path, mode: str) -> str:
    """Name a file for SQLite; ``mode`` is ``ro``, ``rw`` or ``rwc``."""
    return f"{path.absolute().as_uri()}?mode={mode}"


@contextmanager
def plainly(path: Path) -> Iterator[None]:
    """Turn what SQLite and the system say into a ``StoreError`` in plain words."""
    try:
        yield
    except (sqlite3.Error, OSError) as error:
        raise explained(error, path) from error
    except (ValueError, TypeError, KeyError, OverflowError) as error:
        raise damaged(path, str(error)) from error


def explained(error: Exception, path: Path) -> StoreError:
    """Say in plain words what went wrong with the file."""
    said = str(error).lower()
    name = path.name
    if "full" in said or "no space" in said:
        return StoreError("The disk is full.", "Nothing was recorded. Make room, then do it again.")
    if "locked" in said or "busy" in said:
        return StoreError(
            "Another program holds the log.",
            say("Close what else has {file} open, then try again.", file=name),
        )
    if (
        "readonly" in said
        or "read-only" in said
        or "permission" in said
        or "unable to open" in said
    ):
        return StoreError(
            "The log's folder cannot be written.",
            say("Check who may write in {folder}.", folder=str(path.parent)),
        )
    if isinstance(error, sqlite3.DatabaseError) and not isinstance(
        error, sqlite3.OperationalError | sqlite3.IntegrityError
    ):
        return damaged(path, str(error))
    return StoreError("The log could not be used.", say("The system says: {said}", said=str(error)))


def damaged(path: Path, said: str = "") -> StoreError:
    """Say that the file cannot be read as a journal."""
    return StoreError(
        "The log is damaged.",
        say(
            "{file} was left as it is. Open a backup, or move the file away to begin anew. {said}",
            file=path.name,
            said=said,
        ),
    )


def migrations() -> tuple[str, ...]:
    """Every step from an empty file to the newest form, in order."""
    steps = sorted((Path(__file__).parent / "migrations").glob("*.sql"))
    return tuple(step.read_text("utf-8") for step in steps)


def open_file(
    path: Path, connecting: Connect = connect, steps: tuple[str, ...] | None = None
) -> sqlite3.Connection:
    """Open an existing journal for writing; an older one is backed up and brought up to date."""
    steps = migrations() if steps is None else steps
    _look(path)
    with plainly(path):
        db = connecting(uri_of(path, "rw"))
        try:
            version = _identify(db, path, len(steps))
            _prepare(db)
            if version < len(steps):
                backup.copy(db, path.with_name(f"{path.stem}-before-form-{len(steps)}.backup"))
                migrate(db, steps, version)
        except BaseException:
            db.close()
            raise
        return db


def _look(path: Path) -> None:
    """Refuse a file that is certainly no journal, before SQLite touches it."""
    with plainly(path):
        size = path.stat().st_size
        with path.open("rb") as file:
            head = file.read(len(MAGIC))
    if size == 0:
        raise StoreError(
            "The log is empty.",
            say(
                "{file} has no content, not even a beginning; it was left as it is. Open a backup, "
                "or move the file away to begin anew.",
                file=path.name,
            ),
        )
    if head != MAGIC:
        raise foreign(path)


def foreign(path: Path) -> StoreError:
    """Say that a file belongs to something else."""
    return StoreError(
        "This file is not a shop log.",
        say("{file} was left as it is. Choose another folder.", file=path.name),
    )


def _identify(db: sqlite3.Connection, path: Path, newest: int) -> int:
    mark = int(db.execute("PRAGMA application_id").fetchone()[0])
    version = int(db.execute("PRAGMA user_version").fetchone()[0])
    if mark != APPLICATION_ID:
        raise foreign(path)
    if version > newest:
        raise StoreError(
            "This log was written by a newer program.",
            say("{file} was left as it is. Start the newer program.", file=path.name),
        )
    if version < 1:
        raise damaged(path)
    return version


def _prepare(db: sqlite3.Connection) -> None:
    db.execute("PRAGMA journal_mode = WAL")
    db.execute("PRAGMA synchronous = FULL")
    db.execute("PRAGMA foreign_keys = ON")
    db.execute("PRAGMA recursive_triggers = ON")
    db.execute("PRAGMA trusted_schema = OFF")


def migrate(db: sqlite3.Connection, steps: tuple[str, ...], version: int) -> None:
    """Take the steps after ``version``; a failing step leaves version and tables as they were."""
    for number, step in enumerate(steps[version:], version + 1):
        db.execute("BEGIN IMMEDIATE")
        try:
            for statement in _statements(step):
                db.execute(statement)
            db.execute(f"PRAGMA user_version = {number}")
            db.execute("COMMIT")
        except BaseException:
            roll_back(db)
            raise


def _statements(script: str) -> Iterator[str]:
    """Cut a script at the ends of its statements, not at those within a trigger."""
    held = ""
    for line in script.splitlines(keepends=True):
        held += line
        if sqlite3.complete_statement(held):
            yield held
            held = ""
    if held.strip():
        raise sqlite3.DatabaseError("a migration ends within a statement")


def roll_back(db: sqlite3.Connection) -> None:
    """Undo an open transaction; SQLite may have done so by itself."""
    with suppress(sqlite3.Error):
        if db.in_transaction:
            db.execute("ROLLBACK")


def make_file(
    path: Path, begin: Callable[[sqlite3.Connection], None], connecting: Connect = connect
) -> None:
    """Make a new journal beside its place and move it there whole; never over another file."""
    with plainly(path):
        path.parent.mkdir(parents=True, exist_ok=True)
        left = [p for p in (path, *_companions(path)) if p.exists()]
        if left:
            raise StoreError(
                "There is something in the log's place.",
                say("{file} was left as it is.", file=left[0].name),
            )
        fresh = path.with_name(f"{path.name}.new")
        for old in (fresh, *_companions(fresh)):
            old.unlink(missing_ok=True)
        db = connecting(uri_of(fresh, "rwc"))
        try:
            db.execute(f"PRAGMA application_id = {APPLICATION_ID}")
            _prepare(db)
            migrate(db, migrations(), 0)
            begin(db)
            db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        finally:
            db.close()
        settle(fresh, path)


def settle(fresh: Path, path: Path) -> None:
    """Give a whole file its name, durably; refuses where the name is taken."""
    with fresh.open("rb+") as file:
        os.fsync(file.fileno())
    try:
        path.hardlink_to(fresh)
        fresh.unlink()
    except FileExistsError:
        raise
    except OSError:
        fresh.rename(path)
    sync_folder(path.parent)


def sync_folder(folder: Path) -> None:
    """Make a renaming durable, where the system lets a folder be synced."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _companions(path: Path) -> tuple[Path, Path]:
    return path.with_name(f"{path.name}-wal"), path.with_name(f"{path.name}-shm")
