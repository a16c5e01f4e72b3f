"""The journal in its file: appended to, read back row by row against its hash chain."""

import hashlib
import json
import sqlite3
import struct
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path

from shopassist.clock import Clock
from shopassist.core.errors import RefusedError, StoreError
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Body, Draft, Reading, Row
from shopassist.services.ports import Heartbeat, KeptFold, Sample
from shopassist.store import chain
from shopassist.store.chain import COLUMNS, canonical
from shopassist.store.database import plainly, roll_back

POT = "pot/"
TAIL = 64
"""Rows whose chain is checked before the first paint; the rest is checked after it."""
INSERT = f"INSERT INTO row ({COLUMNS}, hash) VALUES ({', '.join('?' * 12)})"  # noqa: S608
CELLS = ", ".join(f"r.{name}" for name in COLUMNS.split(", "))
SELECT = f"SELECT {CELLS}, r.hash, p.hash FROM row AS r LEFT JOIN row AS p ON p.seq = r.seq - 1"  # noqa: S608
KEPT = (
    "SELECT stream, version, upto, result, hash,"
    " (SELECT max(stream_seq) FROM row WHERE row.stream = fold.stream) FROM fold"
)


class SqliteJournal:
    """The only truth, in one file; used by one thread."""

    def __init__(self, db: sqlite3.Connection, path: Path, clock: Clock) -> None:
        self.path = path
        self._db = db
        self._clock = clock

    # -- writing -----------------------------------------------------------------------

    def append(self, drafts: Sequence[Draft]) -> tuple[Row, ...]:
        """Commit all drafts in one transaction, stamped with one reading of the clock."""
        if not drafts:
            return ()
        reading = self._clock.read()
        cells = [_cells(draft, reading) for draft in drafts]
        with self._transaction():
            return tuple(self._insert(cells))

    def append_block(self, draft: Draft, samples: Sequence[Sample]) -> Row:
        """Commit a block of samples and the one row that holds its hash."""
        data = struct.pack(f"<{len(samples) * 2}d", *(x for sample in samples for x in sample))
        body: Body = {
            **draft.body, "samples": len(samples), "sha256": hashlib.sha256(data).hexdigest(),
        }  # fmt: skip
        marked = Draft(draft.stream, draft.kind, body, draft.happened, draft.version)
        cells = _cells(marked, self._clock.read())
        with self._transaction():
            (row,) = self._insert([cells])
            self._db.execute("INSERT INTO sample (row_seq, data) VALUES (?, ?)", (row.seq, data))
        return row

    def _insert(self, drafted: Iterable[chain.Cells]) -> Iterator[Row]:
        last = self._db.execute("SELECT seq, hash FROM row ORDER BY seq DESC LIMIT 1").fetchone()
        seq, before = last or (0, chain.START)
        counts: dict[str, int] = {}
        for stream, *rest in drafted:
            seq += 1
            counts[stream] = counts[stream] + 1 if stream in counts else self._newest(stream) + 1
            own = (seq, stream, counts[stream], *rest)
            before = chain.digest(own, before)
            self._db.execute(INSERT, (*own, before))
            yield chain.row_of(own, before)

    def _newest(self, stream: str) -> int:
        query = "SELECT coalesce(max(stream_seq), 0) FROM row WHERE stream = ?"
        return int(self._db.execute(query, (stream,)).fetchone()[0])

    @contextmanager
    def _transaction(self) -> Iterator[None]:
        with plainly(self.path):
            try:
                self._db.execute("BEGIN IMMEDIATE")
                yield
                self._db.execute("COMMIT")
            except BaseException:
                roll_back(self._db)
                raise

    # -- reading -----------------------------------------------------------------------

    def read(self, stream: str, after: int = 0) -> tuple[Row, ...]:
        """Rows of one stream whose ``stream_seq`` is above ``after``, each against its hash."""
        where = " WHERE r.stream = ? AND r.stream_seq > ? ORDER BY r.stream_seq"
        with plainly(self.path):
            rows = tuple(map(chain.verified, self._db.execute(SELECT + where, (stream, after))))
        for expected, row in enumerate(rows, after + 1):
            if row.stream_seq != expected:
                raise chain.broken(row.seq)
        return rows

    def tail(self, stream: str, count: int) -> tuple[Row, ...]:
        """The newest rows of a stream, in order."""
        with plainly(self.path):
            newest = self._newest(stream)
        return self.read(stream, max(0, newest - count))

    def row(self, seq: int) -> Row:
        """One row by its place in the whole journal."""
        with plainly(self.path):
            cells = self._db.execute(f"{SELECT} WHERE r.seq = ?", (seq,)).fetchone()
            if cells is None:
                raise chain.broken(seq)
            return chain.verified(cells)

    def streams(self, prefix: str = "") -> tuple[str, ...]:
        """Names of the streams that begin so, oldest first."""
        query = (
            "SELECT stream FROM row WHERE stream_seq = 1"
            " AND substr(stream, 1, length(?1)) = ?1 ORDER BY seq"
        )
        with plainly(self.path):
            return tuple(name for (name,) in self._db.execute(query, (prefix,)))

    def newest(self) -> int:
        """Place of the newest row in the whole journal; 0 before the first."""
        with plainly(self.path):
            found = self._db.execute("SELECT coalesce(max(seq), 0) FROM row").fetchone()
        return int(found[0])

    def kinds(self, stream: str) -> frozenset[str]:
        """Kinds of the rows of a stream."""
        query = "SELECT DISTINCT kind FROM row WHERE stream = ?"
        with plainly(self.path):
            return frozenset(kind for (kind,) in self._db.execute(query, (stream,)))

    def block(self, row: Row) -> tuple[Sample, ...]:
        """The samples of a row, against the hash in the row."""
        with plainly(self.path):
            found = self._db.execute("SELECT data FROM sample WHERE row_seq = ?", (row.seq,))
            data: bytes = (found.fetchone() or (b"",))[0]
            if hashlib.sha256(data).hexdigest() != row.body.get("sha256"):
                raise chain.broken(row.seq)
            values = struct.iter_unpack("<2d", data)
            return tuple((UtcSecond(utc), value) for utc, value in values)

    def check_tail(self) -> None:
        """Hold the newest rows against the chain; ``StoreError`` where they do not fit."""
        with plainly(self.path):
            cells = self._db.execute(f"{SELECT} ORDER BY r.seq DESC LIMIT {TAIL}").fetchall()
            beat = self._db.execute("SELECT seq FROM heartbeat").fetchone()
            newest = max((chain.verified(row).seq for row in cells), default=0)
        if newest == 0 or (beat is not None and beat[0] > newest):
            raise chain.broken(newest + 1)

    # -- what the journal says about itself -------------------------------------------------

    def born(self) -> Body:
        """How this journal began: ``data_set``, ``manual`` (clock), ``demo`` (invented shop)."""
        return self.row(1).body

    def displaced(self) -> int:
        """The newest row that restored, copied or imported the data, by its place; 0 if none.

        What an older row says about a pot is not believed.
        """
        query = (
            "SELECT coalesce(max(seq), 0) FROM row WHERE kind IN ('copied', 'imported', 'restored')"
        )
        with plainly(self.path):
            return int(self._db.execute(query).fetchone()[0])

    def data_set(self) -> str:
        """The id of this data; another one after a restore or a copy."""
        return str(self.row(self.displaced() or 1).body["data_set"])

    def note(self, name: str) -> str | None:
        """A fact about the file itself."""
        with plainly(self.path):
            found = self._db.execute("SELECT value FROM meta WHERE name = ?", (name,)).fetchone()
        return None if found is None else str(found[0])

    def set_notes(self, notes: Mapping[str, str]) -> None:
        """Keep facts about the file itself; no part of the truth."""
        with self._transaction():
            for name, value in notes.items():
                self._db.execute("REPLACE INTO meta (name, value) VALUES (?, ?)", (name, value))

    # -- heartbeat ---------------------------------------------------------------------

    def heartbeat(self) -> Heartbeat | None:
        """The last heartbeat; None before the first, or where it cannot be believed."""
        query = "SELECT utc, since_boot, boot_id, utc_offset, running, seq, hash FROM heartbeat"
        with plainly(self.path):
            found = self._db.execute(query).fetchone()
        if found is None or chain.digest(found[:-1], "heartbeat") != found[-1]:
            return None
        utc, since_boot, boot_id, offset, running, seq, _ = found
        reading = Reading(UtcSecond(utc), Second(since_boot), boot_id, Second(offset))
        return Heartbeat(reading, bool(running), seq)

    def beat(self, reading: Reading, *, running: bool = True) -> None:
        """Overwrite the heartbeat."""
        with self._transaction():
            (seq,) = self._db.execute("SELECT coalesce(max(seq), 0) FROM row").fetchone()
            cells = (*_clocks(reading), int(running), seq)
            self._db.execute(
                "REPLACE INTO heartbeat VALUES (1, ?, ?, ?, ?, ?, ?, ?)",
                (*cells, chain.digest(cells, "heartbeat")),
            )

    # -- kept folds ----------------------------------------------------------------------

    def load_folds(self, streams: Sequence[str], version: int) -> dict[str, object]:
        """Those results of this version that no later row has overtaken, by stream."""
        marks = ", ".join("?" * len(streams))
        query = f"{KEPT} WHERE version = ? AND stream IN ({marks})"
        found: dict[str, object] = {}
        try:
            with plainly(self.path):
                for *own, kept, newest in self._db.execute(query, (version, *streams)):
                    if own[2] == newest and chain.digest(tuple(own), "fold") == kept:
                        found[own[0]] = json.loads(own[3])
        except StoreError:
            return {}
        return found

    def save_folds(self, folds: Sequence[KeptFold], version: int) -> None:
        """Keep the results of folds in one transaction; losing them costs nothing."""
        if any(stream.startswith(POT) for stream, _, _ in folds):
            raise RefusedError("What is known of a pot is folded from its rows every time.")
        owned = [(stream, version, upto, canonical(result)) for stream, upto, result in folds]
        if not owned:
            return
        try:
            with self._transaction():
                self._db.executemany(
                    "REPLACE INTO fold (stream, version, upto, result, hash)"
                    " VALUES (?, ?, ?, ?, ?)",
                    [(*own, chain.digest(own, "fold")) for own in owned],
                )
        except StoreError:
            return

    def close(self) -> None:
        """Let go of the file."""
        self._db.close()

    @property
    def connection(self) -> sqlite3.Connection:
        """The connection, for a backup."""
        return self._db


def _clocks(reading: Reading) -> chain.Cells:
    return (
        float(reading.utc), float(reading.since_boot), reading.boot_id, float(reading.utc_offset),
    )  # fmt: skip


def _cells(draft: Draft, reading: Reading) -> chain.Cells:
    """Lay out a draft as the cells of a row, without its places; refuse a wrong time."""
    happened = float(reading.utc if draft.happened is None else draft.happened)
    if happened > reading.utc:
        raise RefusedError("That time has not come yet.", field="happened")
    if draft.stream.startswith(POT) and happened != reading.utc:
        raise RefusedError("What is reported of a pot is as of now.", field="happened")
    body = canonical(dict(draft.body))
    return (draft.stream, draft.kind, draft.version, *_clocks(reading), happened, body)
