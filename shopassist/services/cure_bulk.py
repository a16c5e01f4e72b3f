"""A long series of readings folded at once, by columns; numpy is loaded when there is one.

What lies between two readings close together is an even ramp of one piece, so all of them are one
sum. A gap, a jump or a crossing of a limit of use is folded by itself as ever, and added.
"""

from collections.abc import Sequence
from math import log
from typing import TYPE_CHECKING, TypeAlias

from shopassist.core.cure import WARM_STEP, Ages, Course, Progress, Temps, Warmth, fold
from shopassist.core.cure_age import SUB_STEP
from shopassist.core.cure_law import EnergyLaw, TableLaw, log_time
from shopassist.core.frozen import frozen
from shopassist.core.quantities import GAS_CONSTANT, Kelvin, Second

if TYPE_CHECKING:
    import numpy as np

    Column: TypeAlias = np.ndarray[tuple[int], np.dtype[np.float64]]
    Mask: TypeAlias = np.ndarray[tuple[int], np.dtype[np.bool_]]

BLOCK = 8_192
"""Readings that are summed at once: few enough to stay in the processor's own memory."""

HALF = 0.5
"""Half of the kelvin over which a table's slope is taken, as in ``core.cure_law.sensitivity``."""

Branches: TypeAlias = tuple[Ages, Ages, Ages]


def can(course: Course) -> bool:
    """Whether the law of this course can be followed by columns."""
    law = course.law
    return not isinstance(law, EnergyLaw) or law.sigma < law.energy


def columns(readings: Sequence[Warmth]) -> "tuple[Column, Column, Column]":
    """Times, coldest and warmest of known readings of one moment each."""
    import numpy as np

    count = len(readings)
    return (
        np.fromiter((each.at for each in readings), np.float64, count),
        np.fromiter((each.low for each in readings), np.float64, count),
        np.fromiter((each.high for each in readings), np.float64, count),
    )


def fold_columns(
    course: Course, progress: Progress, at: "Column", low: "Column", high: "Column"
) -> Progress:
    """Take many readings into account, rising in time; the first like any other."""
    progress = fold(course, progress, _reading(at, low, high, 0))
    for begin in range(0, len(at) - 1, BLOCK):
        cut = slice(begin, begin + BLOCK + 1)
        progress = _block(course, progress, at[cut], low[cut], high[cut])
    return progress


def _block(
    course: Course, progress: Progress, at: "Column", low: "Column", high: "Column"
) -> Progress:
    """Go on from the first of these readings, which is folded in, to the last."""
    span = _Span(course, at[1:] - at[:-1], low, high)
    even = span.even()
    added = span.sums(even)
    for place in (~even).nonzero()[0]:
        begun = Progress(
            Second(float(at[place])), _temps(low, high, int(place)), Second(float(at[place]))
        )
        added = _plus(added, fold(course, begun, _reading(at, low, high, int(place) + 1)))
    return _joined(progress, added, _temps(low, high, -1), Second(float(at[-1])))


def _reading(at: "Column", low: "Column", high: "Column", place: int) -> Warmth:
    return Warmth(Second(float(at[place])), Kelvin(float(low[place])), Kelvin(float(high[place])))


def _temps(low: "Column", high: "Column", place: int) -> Temps:
    cold, warm = float(low[place]), float(high[place])
    return Kelvin(cold), Kelvin((cold + warm) / 2), Kelvin(warm)


@frozen
class _Span:
    """Ramps from reading to reading."""

    course: Course
    length: "Column"
    low: "Column"
    high: "Column"

    def even(self) -> "Mask":
        """Ramps of one piece that cross no limit of use."""
        import numpy as np

        found: Mask = self.length <= SUB_STEP
        for side in self._sides():
            found &= np.abs(side[1:] - side[:-1]) <= WARM_STEP
            for limit in (self.course.lowest, self.course.highest):
                if limit is not None and side.min() < limit < side.max():
                    found &= ((side[1:] < limit) == (side[:-1] < limit)) & (side[1:] != limit)
                    found &= side[:-1] != limit
        return found

    def sums(self, even: "Mask") -> Progress:
        """What these ramps add."""
        width = self.length if even.all() else self.length * even
        sharp = self._sides()[0] is self._sides()[-1]
        branches = [self._branch(side, width) for side in self._sides()]
        ages = branches * 3 if sharp else branches
        middle = self._sides()[len(branches) // 2]
        warmest = _warmest(middle, width)
        return Progress(
            release=(ages[0][1], ages[1][1], ages[2][1]),
            hazard=(ages[0][0], ages[1][0], ages[2][0]),
            frozen=Second(ages[1][2]), hot=Second(ages[2][3]),
            warmest=warmest,
        )  # fmt: skip

    def _sides(self) -> "tuple[Column, ...]":
        if (self.low == self.high).all():
            return (self.low,)
        return self.low, (self.low + self.high) / 2, self.high

    def _branch(self, side: "Column", width: "Column") -> tuple[Ages, Ages, float, float]:
        """Ages counted and credited, time too cold and too hot."""
        course, middle = self.course, (side[1:] + side[:-1]) / 2
        at_ends, between = _rates(course, side), _rates(course, middle)
        counted = credited = _simpson(at_ends, between, width)
        cold = hot = 0.0
        if course.lowest is not None and side.min() < course.lowest:
            kept = width * (middle >= course.lowest)
            cold, width = float(width.sum() - kept.sum()), kept
        if course.highest is not None and side.max() > course.highest:
            kept = width * (middle <= course.highest)
            hot, width = float(width.sum() - kept.sum()), kept
        if cold > 0.0 or hot > 0.0:
            credited = _simpson(at_ends, between, width)
        return counted, credited, cold, hot


def _warmest(middle: "Column", width: "Column") -> Kelvin | None:
    """Warmest end of any ramp that takes time."""
    import numpy as np

    gone = width > 0.0
    if not gone.any():
        return None
    ends = middle if gone.all() else np.maximum(middle[1:], middle[:-1])[gone]
    return Kelvin(float(ends.max()))


def _rates(course: Course, temp: "Column") -> "tuple[Column, ...]":
    """Growth of the four ages at each temperature; as ``core.cure.rates``."""
    import numpy as np

    law = course.law
    if isinstance(law, EnergyLaw):
        steep = (1 / course.reference - 1 / temp) / GAS_CONSTANT
        middle, tilt = np.exp(law.energy * steep), np.exp(law.sigma * steep)
        return middle / tilt, middle, middle * tilt, middle * (law.energy / GAS_CONSTANT) / temp**2
    if isinstance(law, TableLaw):
        return _table_rates(law, course.reference, temp)
    tens = (temp - course.reference) / 10
    middle, tilt = law.factor**tens, np.exp(law.sigma * tens)
    return middle / tilt, middle, middle * tilt, middle * (log(law.factor) / 10)


def _table_rates(law: TableLaw, reference: Kelvin, temp: "Column") -> "tuple[Column, ...]":
    import numpy as np

    knots = np.array([point[0] for point in law.points])
    times = np.log([point[1] for point in law.points])

    def logs(warmth: "Column") -> "Column":
        after = np.clip(knots.searchsorted(warmth), 1, len(knots) - 1)
        cold, warm = knots[after - 1], knots[after]
        share = (1 / cold - 1 / warmth) / (1 / cold - 1 / warm)
        found: Column = times[after - 1] + share * (times[after] - times[after - 1])
        return found

    middle = np.exp(log_time(law, reference) - logs(temp))
    tilt = np.exp(law.sigma / GAS_CONSTANT * (1 / reference - 1 / temp))
    slope = logs(temp - HALF) - logs(temp + HALF)
    return middle / tilt, middle, middle * tilt, middle * slope


def _simpson(at_ends: "tuple[Column, ...]", between: "tuple[Column, ...]", width: "Column") -> Ages:
    import numpy as np

    shares = np.zeros(len(width) + 1)
    shares[1:] += width
    shares[:-1] += width
    less, mid, more, slope = (
        float(shares @ ends + 4 * (width @ middle)) / 6
        for ends, middle in zip(at_ends, between, strict=True)
    )
    return less, mid, more, slope


def _plus(one: Progress, other: Progress) -> Progress:
    warmest = max((float(each.warmest) for each in (one, other) if each.warmest), default=None)
    return Progress(
        release=_added(one.release, other.release), hazard=_added(one.hazard, other.hazard),
        frozen=Second(one.frozen + other.frozen), hot=Second(one.hot + other.hot),
        warmest=None if warmest is None else Kelvin(warmest),
    )  # fmt: skip


def _joined(before: Progress, added: Progress, last: Temps, at: Second) -> Progress:
    whole = _plus(before, added)
    return Progress(
        at, last, at, whole.release, whole.hazard, whole.frozen, whole.hot, before.unknown,
        whole.warmest,
    )  # fmt: skip


def _added(one: Branches, other: Branches) -> Branches:
    low, middle, high = (
        (a + e, b + f, c + g, d + h) for (a, b, c, d), (e, f, g, h) in zip(one, other, strict=True)
    )
    return low, middle, high
