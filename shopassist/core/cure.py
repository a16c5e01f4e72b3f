"""A running cure: its age at the reference temperature, folded from readings of temperature.

Three branches run side by side. The low one takes the coldest that a reading allows and feeds
releases; the high one takes the warmest and feeds hazards; the middle one is the likely one.
Releases are credited only between the lowest and highest temperature of use; hazards always.
"""

from collections.abc import Iterable, Iterator
from itertools import pairwise
from math import ceil, exp
from typing import TypeAlias

from shopassist.core.cure_age import SUB_STEP
from shopassist.core.cure_law import EnergyLaw, FactorLaw, Law, rate, sensitivity
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen, replace
from shopassist.core.quantities import GAS_CONSTANT, Kelvin, KelvinDelta, Second

GAP = Second(3 * 3600.0)
"""Longer between two readings, and the branches take the bracketing extremes; ours."""
WIDEN = KelvinDelta(2.0)
"""What the branches are widened by where nothing was read; ours."""
WARM_STEP = KelvinDelta(5.0)
"""Most that the temperature changes within one piece: Simpson's rule then errs by 7e-6 of it at
55 kJ/mol, by 1e-4 at 95."""

Ages: TypeAlias = tuple[float, float, float, float]
"""Age with the law one sigma flatter, as it is, one sigma steeper, and age × share per kelvin."""
Temps: TypeAlias = tuple[Kelvin, Kelvin, Kelvin]
"""Low, middle and high branch."""

NOTHING: Ages = (0.0, 0.0, 0.0, 0.0)


@frozen
class Course:
    """What a cure follows: its law, the reference of its ages and the temperatures of use."""

    law: Law
    reference: Kelvin
    lowest: Kelvin | None = None
    highest: Kelvin | None = None

    def frozen(self, temp: float) -> bool:
        """True under the lowest temperature of use."""
        return self.lowest is not None and temp < self.lowest

    def too_hot(self, temp: float) -> bool:
        """True above the highest temperature of use."""
        return self.highest is not None and temp > self.highest

    def credits(self, temp: float) -> bool:
        """True where time counts towards a release."""
        return not (self.frozen(temp) or self.too_hot(temp))


@frozen
class Warmth:
    """A reading of the resin's temperature; times count from hardener-in."""

    at: Second
    low: Kelvin
    high: Kelvin
    since: Second | None = None
    """Where low and high are the extremes since then."""
    known: bool = True
    """False: nobody knows how warm it was; releases count nothing, hazards the warmest."""

    @property
    def temps(self) -> Temps:
        """Low, middle and high branch."""
        return self.low, Kelvin((self.low + self.high) / 2), self.high


@frozen
class Progress:
    """How far a cure has come by one moment: the accumulator of the fold."""

    at: Second = Second(0.0)
    last: Temps | None = None
    """As read last; None before the first reading."""
    read_at: Second = Second(0.0)
    release: tuple[Ages, Ages, Ages] = (NOTHING, NOTHING, NOTHING)
    """Low, middle, high branch; nothing under the lowest and above the highest temperature."""
    hazard: tuple[Ages, Ages, Ages] = (NOTHING, NOTHING, NOTHING)
    """The same without limits: what reacts too cold or too hot still reacts."""
    frozen: Second = Second(0.0)
    """Time that the middle branch spent under the lowest temperature."""
    hot: Second = Second(0.0)
    """Time that the high branch spent above the highest temperature."""
    unknown: Second = Second(0.0)
    """Time of which nobody knows the temperature."""
    warmest: Kelvin | None = None
    """Of the middle branch."""

    @property
    def age(self) -> Second:
        """Likely age for releases."""
        return Second(self.release[1][1])


def fold(course: Course, progress: Progress, reading: Warmth) -> Progress:
    """Take one more reading into account; late ones are folded in again from before them."""
    for step in steps_to(course, progress, reading):
        progress = step
    return progress


def hold(course: Course, progress: Progress, now: Second) -> Progress:
    """Carry the last reading on to now, widened once it is old; not to be folded further."""
    for step in steps_on(course, progress, now):
        progress = step
    return progress


def trail(course: Course, readings: Iterable[Warmth], now: Second) -> tuple[Progress, ...]:
    """Every checkpoint from hardener-in to now; between two of them ages grow all but evenly."""
    progress = Progress()
    found = [progress]
    for reading in readings:
        for step in steps_to(course, progress, reading):
            progress = step
            found.append(step)
    found.extend(steps_on(course, progress, now))
    return tuple(found)


# -- from reading to reading -------------------------------------------------------------


def steps_to(course: Course, progress: Progress, reading: Warmth) -> Iterator[Progress]:
    """Every checkpoint from here to one more reading; the last one has it folded in."""
    if reading.at < progress.at or not 0 < reading.low <= reading.high:
        raise out_of_range("warmth", "Readings go forward in time, coldest before warmest.")
    since = reading.at if reading.known and reading.since is None else reading.since
    begins = max(since or progress.at, progress.at)
    for step in _between(course, progress, reading, begins):
        progress = step
        yield step
    for step in _run(course, progress, reading.temps, reading.temps, reading.at, reading.known):
        progress = step
        yield step
    yield replace(progress, last=reading.temps, read_at=reading.at)


def _between(
    course: Course, progress: Progress, reading: Warmth, until: Second
) -> Iterator[Progress]:
    """The stretch that no reading covers, up to the next one."""
    temps = reading.temps
    if progress.last is None:
        wide = _widened(temps, temps)
        yield from _run(course, progress, wide, wide, until)
    elif until - progress.at > GAP:
        low, _, high = _widened(progress.last, temps)
        first, last = (low, progress.last[1], high), (low, temps[1], high)
        yield from _run(course, progress, first, last, until)
    else:
        yield from _run(course, progress, progress.last, temps, until)


def steps_on(course: Course, progress: Progress, now: float) -> Iterator[Progress]:
    """Every checkpoint from the last reading to now; not to be folded further."""
    last = progress.last
    if last is None:
        unknown = Second(progress.unknown + max(now - progress.at, 0.0))
        yield replace(progress, at=Second(max(now, progress.at)), unknown=unknown)
        return
    fresh = Second(min(now, progress.read_at + GAP))
    for step in _run(course, progress, last, last, fresh):
        progress = step
        yield step
    wide = _widened(last, last)
    yield from _run(course, progress, wide, wide, Second(now))


def _widened(first: Temps, last: Temps) -> Temps:
    low = Kelvin(min(first[0], last[0]) - WIDEN)
    high = Kelvin(max(first[2], last[2]) + WIDEN)
    return low, Kelvin((first[1] + last[1]) / 2), high


def _run(
    course: Course, progress: Progress, first: Temps, last: Temps, until: Second,
    known: bool = True,  # noqa: FBT001, FBT002
) -> Iterator[Progress]:  # fmt: skip
    """Go evenly from one temperature to another, in pieces of 15 minutes and 5 K at most.

    Where the temperature stands still all ages grow evenly: one piece, however long.
    """
    start, length = progress.at, until - progress.at
    if length <= 0:
        return
    widest = max(abs(b - a) for a, b in zip(first, last, strict=True))
    count = max(ceil(length / SUB_STEP), ceil(widest / WARM_STEP)) if widest > 0 else 1
    for number in range(count):
        ends = tuple(
            tuple(Kelvin(a + (b - a) * place / count) for a, b in zip(first, last, strict=True))
            for place in (number, number + 1)
        )
        gain = _gain(course, ends, length / count)
        at = Second(until if number == count - 1 else start + length * (number + 1) / count)
        progress = _with(progress, gain, at, known)
        yield progress


@frozen
class _Gain:
    """What one piece adds."""

    counted: tuple[Ages, Ages, Ages]
    credited: tuple[Ages, Ages, Ages]
    frozen: float
    hot: float
    warmest: Kelvin
    seconds: float


def _gain(course: Course, ends: tuple[tuple[Kelvin, ...], ...], seconds: float) -> _Gain:
    (low, middle, high), (low_end, middle_end, high_end) = ends
    mid = _stretch(course, middle, middle_end, seconds)
    sharp = low == middle == high and low_end == middle_end == high_end
    cold = mid if sharp else _stretch(course, low, low_end, seconds)
    warm = mid if sharp else _stretch(course, high, high_end, seconds)
    return _Gain(
        (cold.counted, mid.counted, warm.counted), (cold.credited, mid.credited, warm.credited),
        mid.frozen, warm.hot, max(middle, middle_end), seconds,
    )  # fmt: skip


def _with(progress: Progress, gain: _Gain, at: Second, known: bool) -> Progress:  # noqa: FBT001
    warmest = gain.warmest if progress.warmest is None else max(gain.warmest, progress.warmest)
    return Progress(
        at,
        progress.last,
        progress.read_at,
        _added(progress.release, gain.credited) if known else progress.release,
        _added(progress.hazard, gain.counted),
        Second(progress.frozen + gain.frozen),
        Second(progress.hot + gain.hot),
        progress.unknown if known else Second(progress.unknown + gain.seconds),
        warmest,
    )


def _added(
    before: tuple[Ages, Ages, Ages], more: tuple[Ages, Ages, Ages]
) -> tuple[Ages, Ages, Ages]:
    return _sum(before[0], more[0]), _sum(before[1], more[1]), _sum(before[2], more[2])


# -- one even stretch of one branch -------------------------------------------------------


@frozen
class _Stretch:
    counted: Ages
    credited: Ages
    frozen: float
    hot: float


def _stretch(course: Course, first: Kelvin, last: Kelvin, seconds: float) -> _Stretch:
    """Integrate the rates over an even ramp, cut where it crosses a temperature of use."""
    counted, credited, frozen, hot = NOTHING, NOTHING, 0.0, 0.0
    cuts = _cuts(course, first, last)
    for start, end in pairwise(cuts):
        width = (end - start) * seconds
        temps = [Kelvin(first + (last - first) * p) for p in (start, (start + end) / 2, end)]
        part = _simpson(course, temps, width)
        counted = _sum(counted, part)
        if course.frozen(temps[1]):
            frozen += width
        elif course.too_hot(temps[1]):
            hot += width
        else:
            credited = _sum(credited, part)
    return _Stretch(counted, credited, frozen, hot)


def _cuts(course: Course, first: float, last: float) -> list[float]:
    low, high = min(first, last), max(first, last)
    limits = [limit for limit in (course.lowest, course.highest) if limit is not None]
    crossed = [(limit - first) / (last - first) for limit in limits if low < limit < high]
    return sorted([0.0, *crossed, 1.0])


def _simpson(course: Course, temps: list[Kelvin], width: float) -> Ages:
    middle = rates(course, temps[1])
    if temps[0] == temps[2]:
        return middle[0] * width, middle[1] * width, middle[2] * width, middle[3] * width
    first, last = rates(course, temps[0]), rates(course, temps[2])
    less, mid, more, slope = (
        (a + 4 * b + c) * width / 6 for a, b, c in zip(first, middle, last, strict=True)
    )
    return less, mid, more, slope


def _sum(one: Ages, other: Ages) -> Ages:
    return one[0] + other[0], one[1] + other[1], one[2] + other[2], one[3] + other[3]


def rates(course: Course, temp: Kelvin) -> Ages:
    """Growth of the ages in one second at one temperature."""
    law, reference = course.law, course.reference
    if isinstance(law, EnergyLaw) and law.sigma < law.energy:
        steep = (1 / reference - 1 / temp) / GAS_CONSTANT
        middle, tilt = exp(law.energy * steep), exp(law.sigma * steep)
        return middle / tilt, middle, middle * tilt, middle * law.energy / GAS_CONSTANT / temp**2
    if isinstance(law, FactorLaw):
        tens = (temp - reference) / 10
        middle, tilt = law.factor**tens, exp(law.sigma * tens)
        return middle / tilt, middle, middle * tilt, middle * sensitivity(law, temp)
    middle = rate(law, temp, reference)
    less, more = (rate(law, temp, reference, tilt) for tilt in (-1.0, 1.0))
    return less, middle, more, middle * sensitivity(law, temp)
