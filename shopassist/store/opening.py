"""Opening, making, checking, backing up and restoring a journal as a whole."""

import hashlib
import os
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

from shopassist.clock import Clock
from shopassist.core.errors import StoreError
from shopassist.core.messages import Text, say
from shopassist.core.rows import Draft, Json
from shopassist.store import backup, chain
from shopassist.store.atomic import write_atomic
from shopassist.store.database import (
    Connect,
    connect,
    make_file,
    migrate,
    migrations,
    open_file,
    plainly,
    settle,
    uri_of,
)
from shopassist.store.journal import SqliteJournal
from shopassist.store.place import place_of

STREAM = "shop"
FORMAT = 1
"""Form of the rows' cells and of their hash."""
PLACE = "place"
WORD = "word"


def open_journal(
    path: Path,
    clock: Clock,
    *,
    manual: bool = False,
    demo: bool = False,
    connecting: Connect = connect,
) -> SqliteJournal:
    """Open the journal, or make one where there is nothing.

    Checks the file's kind and the tail of the chain, and finds out whether the file was copied;
    the rest is ``check``'s, later. Raises ``StoreError``; never writes over what it cannot read.
    """
    with plainly(path):
        if not path.exists() and not _finish_restore(path):
            _make(path, clock, connecting, manual=manual, demo=demo)
        journal = SqliteJournal(open_file(path, connecting), path, clock)
    try:
        journal.check_tail()
        _match_clock(journal, manual=manual)
        _note_place(journal)
    except BaseException:
        journal.close()
        raise
    return journal


def _token() -> str:
    """Eight random bytes of the system; the library that is named for it brings a dozen more."""
    return os.urandom(8).hex()


def _make(path: Path, clock: Clock, connecting: Connect, *, manual: bool, demo: bool) -> None:
    body: dict[str, Json] = {
        "data_set": _token(), "format": FORMAT, "manual": manual, "demo": demo,
    }  # fmt: skip

    def begin(db: sqlite3.Connection) -> None:
        fresh = path.with_name(f"{path.name}.new")
        journal = SqliteJournal(db, fresh, clock)
        journal.append([Draft(STREAM, "born", body)])
        journal.set_notes({PLACE: place_of(fresh, path)})
        _word_of(path).unlink(missing_ok=True)

    make_file(path, begin, connecting)


def _match_clock(journal: SqliteJournal, *, manual: bool) -> None:
    if bool(journal.born().get("manual")) is not manual:
        raise StoreError(
            "This folder belongs to another clock.",
            "A log that began on the hand-moved clock stays there, and only there. "
            "Choose another folder.",
        )


def _note_place(journal: SqliteJournal) -> None:
    """Journal that the file is not the one last opened here; no pot is believed then.

    A copy lies elsewhere; an older file laid in its place does not know the word that the last
    opening left beside it.
    """
    word_file = _word_of(journal.path)
    with plainly(journal.path):
        place = place_of(journal.path)
        word = word_file.read_text("utf-8") if word_file.exists() else ""
    if journal.note(PLACE) != place or (journal.note(WORD) or "") != word:
        journal.append([Draft(STREAM, "copied", {"data_set": _token()})])
    fresh = _token()
    with plainly(journal.path):
        write_atomic(word_file, fresh, keep_previous=False)
    journal.set_notes({PLACE: place, WORD: fresh})


def _word_of(path: Path) -> Path:
    return path.with_name(f"{path.name}.last-opened")


# -- the full check ------------------------------------------------------------------------


def check(path: Path, stop: Callable[[], bool] = lambda: False) -> tuple[Text, ...]:
    """Read the whole journal against its chain, on a connection of its own; mends nothing.

    For a thread in the background; ``stop`` ends it early. Returns what was found, in plain words.
    """
    try:
        with plainly(path), closing(connect(uri_of(path, "ro"))) as db:
            return tuple(_findings(db, stop))
    except StoreError as error:
        return (error.title,)


def _findings(db: sqlite3.Connection, stop: Callable[[], bool]) -> Iterator[Text]:
    for (said,) in db.execute("PRAGMA integrity_check(5)"):
        if said != "ok":
            yield say("The log's file is damaged: {said}", said=str(said))
    if _shape(db) != _expected_shape():
        yield say("The tables of the log are not as the program made them.")
    rows = db.execute(f"SELECT {chain.COLUMNS}, hash FROM row ORDER BY seq")  # noqa: S608
    for seq in chain.breaks(_while_wanted(rows, stop)):
        yield say("Row {seq} of the log is not what was written, or a row before it is missing.",
                  seq=seq)  # fmt: skip
    yield from _wrong_blocks(db, stop)
    beat = db.execute("SELECT utc, since_boot, boot_id, utc_offset, running, seq, hash FROM"
                      " heartbeat").fetchone()  # fmt: skip
    if beat is not None and chain.digest(beat[:-1], "heartbeat") != beat[-1]:
        yield say("The last sign of life in the log is damaged.")
    newest = db.execute("SELECT max(seq) FROM row").fetchone()[0] or 0
    if beat is not None and beat[-2] > newest:
        yield say("Rows are missing at the end of the log, from {seq}.", seq=newest + 1)


def _while_wanted(rows: Iterator[chain.Cells], stop: Callable[[], bool]) -> Iterator[chain.Cells]:
    for number, row in enumerate(rows):
        if number % 256 == 0 and stop():
            return
        yield row


def _wrong_blocks(db: sqlite3.Connection, stop: Callable[[], bool]) -> Iterator[Text]:
    query = (
        "SELECT row_seq, data, json_extract(body, '$.sha256') FROM sample"
        " LEFT JOIN row ON seq = row_seq"
    )
    held = 0
    for seq, data, kept in db.execute(query):
        if stop():
            return
        held += 1
        if hashlib.sha256(data).hexdigest() != kept:
            yield say("The samples of row {seq} are not what was written.", seq=seq)
    owed = db.execute("SELECT count(*) FROM row WHERE json_extract(body, '$.sha256') IS NOT NULL"
                      " AND json_extract(body, '$.samples') IS NOT NULL").fetchone()[0]  # fmt: skip
    if held < owed:
        yield say("Samples are missing from {count} rows of the log.", count=owed - held)


def _shape(db: sqlite3.Connection) -> list[tuple[str, ...]]:
    return db.execute(
        "SELECT type, name, tbl_name, sql FROM sqlite_schema ORDER BY 1, 2"
    ).fetchall()


def _expected_shape() -> list[tuple[str, ...]]:
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as model:
        migrate(model, migrations(), 0)
        return _shape(model)


# -- backup and restore ----------------------------------------------------------------------


def back_up(journal: SqliteJournal, folder: Path) -> Path:
    """Make a backup named after the newest row, read it back, let the oldest go."""
    with plainly(journal.path):
        newest = journal.connection.execute("SELECT max(seq) FROM row").fetchone()[0]
        return backup.rotate(journal.connection, folder, f"journal-{newest:09d}", accept)


def accept(path: Path) -> None:
    """Read a backup back; raises ``StoreError`` where it is not whole."""
    if found := check(path):
        raise StoreError("The backup does not read back.", found[0])


def restore(source: Path, path: Path, clock: Clock) -> Path | None:
    """Put a backup in the journal's place; no pot is believed afterwards.

    The present file, whatever its state, is set aside under another name, which is returned.
    """
    accept(source)
    with plainly(path):
        path.parent.mkdir(parents=True, exist_ok=True)
        fresh = path.with_name(f"{path.name}.new")
        for old in _with_companions(fresh):
            old.unlink(missing_ok=True)
        with closing(connect(uri_of(source, "ro"))) as db:
            backup.copy(db, fresh)
        journal = SqliteJournal(open_file(fresh), fresh, clock)
        with closing(journal):
            body: dict[str, Json] = {"data_set": _token()}
            journal.append([Draft(STREAM, "restored", body)])
            journal.set_notes({PLACE: place_of(fresh, path), WORD: ""})
            journal.connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        aside = _set_aside(path)
        _word_of(path).unlink(missing_ok=True)
        settle(fresh, path)
    return aside


def _finish_restore(path: Path) -> bool:
    """Carry on where a restore was cut off between setting the old file aside and its end."""
    fresh = path.with_name(f"{path.name}.new")
    begun = fresh.exists() and any(path.parent.glob(f"{path.name}.set-aside-*"))
    if begun:
        settle(fresh, path)
    return begun


def _set_aside(path: Path) -> Path | None:
    present = [old for old in _with_companions(path) if old.exists()]
    number = 1
    while path.with_name(f"{path.name}.set-aside-{number}").exists():
        number += 1
    for old in present:
        ending = old.name.removeprefix(path.name)
        old.rename(path.with_name(f"{path.name}.set-aside-{number}{ending}"))
    return path.with_name(f"{path.name}.set-aside-{number}") if present else None


def _with_companions(path: Path) -> tuple[Path, ...]:
    return (path, *(path.with_name(path.name + ending) for ending in ("-wal", "-shm")))
