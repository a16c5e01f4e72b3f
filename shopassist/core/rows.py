"""Rows of the journal and readings of the clock: the facts that all state is folded from."""

from collections.abc import Mapping
from dataclasses import field
from typing import TypeAlias

from shopassist.core.frozen import frozen
from shopassist.core.quantities import Second, UtcSecond

Json: TypeAlias = "bool | int | float | str | list[Json] | dict[str, Json] | None"
Body: TypeAlias = Mapping[str, Json]


@frozen
class Reading:
    """One look at both clocks at the same moment."""

    utc: UtcSecond
    """Wall time, [s since 1970 UTC]."""
    since_boot: Second
    """Time since the machine started, counting suspend, [s]."""
    boot_id: str
    """Changes with every start of the machine; empty where the system has none."""
    utc_offset: Second
    """Local time less UTC at that moment, [s]."""
    asleep: Second = Second(0.0)
    """How much of the time since boot the machine slept, as far as its clocks tell, [s]; only
    the difference of two live looks says anything, so it is kept in no row."""


@frozen
class Draft:
    """A row that has not been written yet."""

    stream: str
    """``batch/<id>``, ``pot/<id>``, ``record/<kind>/<id>`` or ``shop``."""
    kind: str
    body: Body = field(default_factory=dict)
    happened: UtcSecond | None = None
    """When it was so; None means now. Never after the recording."""
    version: int = 1


@frozen
class Row:
    """A committed fact. Never rewritten, never removed."""

    seq: int
    """Place in the whole journal, from 1."""
    stream: str
    stream_seq: int
    """Place in its stream, from 1."""
    kind: str
    version: int
    recorded: Reading
    happened: UtcSecond
    body: Body
    hash: str
    """SHA-256 over this row and the hash of the row before it, in hexadecimal."""
