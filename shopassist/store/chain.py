"""The hash chain: every row vouches for itself and, by the row before it, for all before it."""

import hashlib
import json
from collections.abc import Iterable, Iterator
from typing import Any

from shopassist.core.errors import StoreError
from shopassist.core.messages import say
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Reading, Row

COLUMNS = (
    "seq, stream, stream_seq, kind, version, utc, since_boot, boot_id, utc_offset, happened, body"
)
START = "0" * 64
"""Stands where the first row has no row before it."""

Cells = tuple[Any, ...]
"""The cells of ``COLUMNS``, then the row's hash, then the hash of the row before it."""


def canonical(value: object) -> str:
    """Write JSON in the one way that is hashed: sorted, without spaces, no NaN."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), allow_nan=False)


def digest(cells: Cells, before: str) -> str:
    """Return the hash of a row, given its cells and the hash before it."""
    return hashlib.sha256(canonical((before, *cells)).encode()).hexdigest()


def verified(cells: Cells) -> Row:
    """Make a row from its cells; ``StoreError`` where its hash does not fit."""
    *own, kept, before = cells
    if before is None and own[0] == 1:
        before = START
    if before is None or digest(tuple(own), before) != kept:
        raise broken(int(own[0]))
    return row_of(tuple(own), kept)


def row_of(own: Cells, kept: str) -> Row:
    """Make a row from cells that are known to be good."""
    seq, stream, stream_seq, kind, version, utc, since_boot, boot_id, offset, happened, body = own
    reading = Reading(UtcSecond(utc), Second(since_boot), boot_id, Second(offset))
    return Row(
        seq, stream, stream_seq, kind, version, reading, UtcSecond(happened), json.loads(body), kept
    )


def broken(seq: int) -> StoreError:
    """Say that the chain does not hold at a row."""
    return StoreError(
        "The log was altered or damaged.",
        say(
            "Row {seq} is not what was written. Nothing was changed. "
            "Keep this file, and open a backup.",
            seq=seq,
        ),
    )


def breaks(rows: Iterable[Cells]) -> Iterator[int]:
    """Walk the whole chain, cells and hash of each row in order; yield the rows that do not fit."""
    before, expected = START, 1
    streams: dict[str, int] = {}
    for *own, kept in rows:
        stream = own[1]
        streams[stream] = streams.get(stream, 0) + 1
        fits = own[0] == expected and own[2] == streams[stream]
        if not fits or digest(tuple(own), before) != kept:
            yield int(own[0])
            streams[stream] = own[2]
        before, expected = kept, own[0] + 1
