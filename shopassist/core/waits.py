"""Clocks of one's own: a coat, putty, a bench wait, a top-up in its window."""

from collections.abc import Iterable
from typing import cast

from shopassist.core.frozen import frozen, replace
from shopassist.core.quantities import Second
from shopassist.core.rows import Row

STREAM = "waits"
STARTED, ENDED = "wait_started", "wait_ended"
LONGEST = Second(400 * 86_400.0)
"""No clock runs longer; ours."""


@frozen
class Wait:
    """One clock: from when something may be done, and until when, where it closes."""

    id: str
    what: str
    row: Row
    opens: Second
    """After its start."""
    closes: Second | None = None


def fold(waits: tuple[Wait, ...], row: Row) -> tuple[Wait, ...]:
    """Take one more row into account; an unknown kind changes nothing."""
    if row.kind == ENDED:
        return tuple(each for each in waits if each.id != row.body.get("wait"))
    if row.kind != STARTED:
        return waits
    closes = row.body.get("closes")
    made = Wait(
        str(row.seq), str(row.body.get("what", "")), row,
        Second(float(cast("float", row.body.get("opens", 0.0)))),
    )  # fmt: skip
    if isinstance(closes, int | float):
        made = replace(made, closes=Second(float(closes)))
    return (*waits, made)


def fold_all(rows: Iterable[Row]) -> tuple[Wait, ...]:
    """Fold a stream: the clocks that still run."""
    waits: tuple[Wait, ...] = ()
    for row in rows:
        waits = fold(waits, row)
    return waits
