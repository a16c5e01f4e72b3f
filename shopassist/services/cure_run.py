"""The fold of one cure, kept: a new reading is folded in alone, what was folded stays.

A reading that is set right, or a time between two that turned out otherwise, takes the fold back to
the last reading before it and no further.
"""

from collections.abc import Sequence
from typing import overload

from shopassist.core.cure import Course, Progress, Warmth, steps_on, steps_to


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
        self._marks: list[int] = []
        """Checkpoints there are after each reading."""
        self._steps: list[Progress] = [Progress()]
        self.folded = 0
        """Readings folded since it began; for the proof that nothing is folded twice."""

    def upto(
        self, readings: Sequence[Warmth], now: float, supposed: Sequence[Warmth] = ()
    ) -> Track:
        """Every checkpoint up to now, through these readings and then what is only supposed."""
        self._back_to(self._same(readings))
        for reading in readings[len(self._readings) :]:
            self._steps.extend(steps_to(self._course, self._steps[-1], reading))
            self._readings.append(reading)
            self._marks.append(len(self._steps))
            self.folded += 1
        return Track(self._steps, len(self._steps), self._on(supposed, now))

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
        pairs = zip(self._readings, readings, strict=False)
        return next(
            (place for place, (one, other) in enumerate(pairs) if one != other),
            min(len(self._readings), len(readings)),
        )

    def _back_to(self, count: int) -> None:
        """Take back what was folded after so many readings; tracks given out keep theirs."""
        if count < len(self._readings):
            end = self._marks[count - 1] if count else 1
            self._steps = self._steps[:end]
            self._readings, self._marks = self._readings[:count], self._marks[:count]
