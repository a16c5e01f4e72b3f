"""The fold of one cure, kept: a new reading is folded in alone, what was folded stays.

A reading that is set right, or a time between two that turned out otherwise, takes the fold back to
the last reading before it and no further.
"""

from collections.abc import Iterable, Sequence
from typing import overload

from shopassist.core.cure import Course, Progress, Warmth, steps_on, steps_to
from shopassist.services import cure_bulk

MANY = 5_000
"""So many new readings are folded by columns; fewer are done before numpy would be loaded."""
HOUR = 3_600.0
"""Longest between two checkpoints of a series that is folded by columns; ours, [s]."""


class Track(Sequence[Progress]):
    """The first so many checkpoints of a run and what follows them; never changes."""

    def __init__(self, kept: Sequence[Progress], count: int, tail: Sequence[Progress]) -> None:
        self._kept, self._count, self._tail = kept, count, tail

    def __len__(self) -> int:
        """How many checkpoints there are."""
        return self._count + len(self._tail)

    @overload
    def __getitem__(self, place: int) -> Progress: ...
    @overload
    def __getitem__(self, place: slice) -> Sequence[Progress]: ...
    def __getitem__(self, place: int | slice) -> Progress | Sequence[Progress]:
        """Return one checkpoint, or some."""
        if isinstance(place, slice):
            return [self[number] for number in range(*place.indices(len(self)))]
        number = place if place >= 0 else place + len(self)
        if not 0 <= number < len(self):
            raise IndexError(place)
        return self._kept[number] if number < self._count else self._tail[number - self._count]


class Run:
    """What one course was folded to, reading by reading."""

    def __init__(self, course: Course) -> None:
        self._course = course
        self._readings: list[Warmth] = []
        self._marks: list[tuple[int, int]] = []
        """Readings that are folded in, and how many checkpoints there are then."""
        self._steps: list[Progress] = [Progress()]
        self.folded = 0
        """Readings folded since it began; for the proof that nothing is folded twice."""

    def upto(
        self, readings: Sequence[Warmth], now: float, supposed: Sequence[Warmth] = ()
    ) -> Track:
        """Every checkpoint up to now, through these readings and then what is only supposed."""
        self._back_to(self._same(readings))
        new = readings[len(self._readings) :]
        if len(new) >= MANY and _plain(new) and cure_bulk.can(self._course):
            self._fold_many(new)
        else:
            for reading in new:
                self._keep([reading], steps_to(self._course, self._steps[-1], reading))
        return Track(self._steps, len(self._steps), self._on(supposed, now))

    def _fold_many(self, new: Sequence[Warmth]) -> None:
        """A long series by columns, with a checkpoint each hour at most."""
        at, low, high = cure_bulk.columns(new)
        begin = 0
        while begin < len(new):
            end = max(int(at.searchsorted(at[begin] + HOUR)), begin + 1)
            columns = at[begin:end], low[begin:end], high[begin:end]
            step = cure_bulk.fold_columns(self._course, self._steps[-1], *columns)
            self._keep(new[begin:end], [step])
            begin = end

    def _keep(self, readings: Sequence[Warmth], steps: Iterable[Progress]) -> None:
        self._steps.extend(steps)
        self._readings.extend(readings)
        self._marks.append((len(self._readings), len(self._steps)))
        self.folded += len(readings)

    def _on(self, supposed: Sequence[Warmth], now: float) -> list[Progress]:
        last = self._steps[-1]
        tail: list[Progress] = []
        for reading in supposed:
            tail.extend(steps_to(self._course, last, reading))
            last = tail[-1]
        tail.extend(steps_on(self._course, last, now))
        return tail

    def _same(self, readings: Sequence[Warmth]) -> int:
        """How many readings at the beginning are the same as they were."""
        known = len(self._readings)
        if list(readings[:known]) == self._readings:
            return known
        pairs = zip(self._readings, readings, strict=False)
        return next(
            (n for n, (one, other) in enumerate(pairs) if one is not other and one != other),
            min(len(self._readings), len(readings)),
        )

    def _back_to(self, count: int) -> None:
        """Take back what was folded after so many readings; tracks given out keep theirs."""
        if count == len(self._readings):
            return
        while self._marks and self._marks[-1][0] > count:
            self._marks.pop()
        kept, end = self._marks[-1] if self._marks else (0, 1)
        self._steps, self._readings = self._steps[:end], self._readings[:kept]


def _plain(readings: Sequence[Warmth]) -> bool:
    return all(each.known and each.since is None for each in readings)
