"""What was forecast at earlier readings, by what was known then: the rows up to them, no more."""

from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import Generic, TypeVar

from shopassist.core.batch import Batch, WarmthReading
from shopassist.core.quantities import KelvinDelta, Second
from shopassist.core.rows import Reading, Row
from shopassist.services.kept import Newest

S = TypeVar("S")
AsOf = Callable[[str, Sequence[int]], tuple[Batch, ...]]
"""A batch as it stood right after certain rows."""
MOVED = KelvinDelta(1.0)
"""A reading that moved by so much bent the forecast; ours."""
STOOD = Second(300.0)
"""A forecast that stood for less was hardly read; ours."""
SHOWN = 3
"""Most earlier forecasts that are shown at once; ours."""
KEPT = 48
"""So many are kept."""


def bends(batch: Batch) -> tuple[Row, ...]:
    """Rows after which the forecast was another: the newest few, without the one in force."""
    began = max((cup.contact_row for cup in batch.cups if cup.contact_row), key=_seq, default=None)
    if began is None:
        return ()
    known = sorted(batch.warmth, key=lambda each: each.clocked.seq)
    before = [each for each in known if each.clocked.seq < began.seq]
    found: list[tuple[Row, WarmthReading | None]] = [(began, before[-1] if before else None)]
    for each in known:
        if each.clocked.seq > began.seq and _bent(found[-1][1], each):
            found.append((each.clocked, each))
    rows = [
        row for (row, _), (later, _) in pairwise(found)
        if later.recorded.utc - row.recorded.utc >= STOOD
    ]  # fmt: skip
    return tuple(rows[:1] + rows[1:][1 - SHOWN :])


def _seq(row: Row) -> int:
    return row.seq


def _bent(last: WarmthReading | None, each: WarmthReading) -> bool:
    if last is None or last.where != each.where:
        return True
    return abs(each.middle - last.middle) >= MOVED


class Earlier(Generic[S]):
    """Keeps what was worked out: what was known at an earlier moment never changes."""

    def __init__(self, as_of: AsOf, stood: Callable[[Batch, Reading], S]) -> None:
        self._as_of, self._stood = as_of, stood
        self._kept: Newest[tuple[str, int], S] = Newest(KEPT)

    def forget(self) -> None:
        """Something was settled about the clocks."""
        self._kept.clear()

    def of(self, batch: Batch) -> tuple[S, ...]:
        """The cure as it stood at each bend, the first one first."""
        rows = bends(batch)
        found = {row.seq: self._kept.take((batch.id, row.seq)) for row in rows}
        new = [row for row in rows if found[row.seq] is None]
        then = self._as_of(batch.id, [row.seq for row in new]) if new else ()
        made = {row.seq: self._stood(old, row.recorded) for row, old in zip(new, then, strict=True)}
        stood = {seq: made[seq] if each is None else each for seq, each in found.items()}
        for seq, each in stood.items():
            self._kept.put((batch.id, seq), each)
        return tuple(stood.values())
