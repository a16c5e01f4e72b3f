"""How warm it was and will be taken to be: readings of a batch on the scale of its cure."""

from collections.abc import Callable, Sequence
from itertools import pairwise
from math import exp, isfinite
from typing import Literal, TypeAlias

from shopassist.core.batch import Batch, WarmthReading
from shopassist.core.cure import GAP, WIDEN, Course, Warmth
from shopassist.core.gas import pore_growth
from shopassist.core.messages import Amount, Text, say
from shopassist.core.milestones import Ahead
from shopassist.core.quantities import Kelvin, KelvinDelta, Second
from shopassist.core.rows import Row
from shopassist.core.timeline import LONGEST_OFF, Elapsed

Since: TypeAlias = Callable[[Row], float]
"""Seconds from hardener-in to a row, negative for one before it."""
Doubted: TypeAlias = Callable[[Row, Row], bool]
"""Whether it is in doubt how long lies between two rows."""

GUESS = Ahead(Kelvin(288.15), Kelvin(298.15))
"""Outlook where nothing was ever read: 15 to 25 °C; ours."""
AIR: dict[str, KelvinDelta] = {"cabinet air": KelvinDelta(2.0), "shop": KelvinDelta(3.0)}
"""What a thermometer in air may lead or lag the resin by; ours."""
BESIDE: dict[str, KelvinDelta] = {"mould": KelvinDelta(1.0), "pot wall": KelvinDelta(1.5)}
"""What one on the mould, or on the pot round it, may differ from the resin by; ours."""
AS_MIXED = "resin as mixed"
"""The place of what was typed beside a cup before its hardener; it says nothing of the shop."""

QUICK, SLOW = Second(20 * 60.0), Second(200 * 60.0)
"""Resin follows the air round it at least as slowly and at most as slowly as these time constants:
a thin mould by itself; moulds in a steel pot in a cabinet, as worked out in our reference. Ours."""
WARMER = KelvinDelta(1.0)
"""From this rise before the gel on it counts as warming; ours."""


def widening(where: str) -> float:
    """How far the resin may be from what was read there, [K]."""
    return AIR.get(where, BESIDE.get(where, KelvinDelta(0.0)))


def reach(reading: WarmthReading) -> tuple[Kelvin, Kelvin]:
    """How cold and how warm the resin may have been at a reading."""
    wide = widening(reading.where)
    return Kelvin(reading.low - wide), Kelvin(reading.high + wide)


Ends: TypeAlias = tuple[Kelvin, Kelvin]
"""How cold and how warm the resin may be."""


def follow(ends: Ends, reading: WarmthReading, length: float) -> Ends:
    """How cold and how warm resin may be that was so, and has had this air round it since.

    Never narrower than the air's own range: a lag is a doubt more, not one less.
    """
    cold, warm = reach(reading)
    shares = [1 - exp(-max(0.0, length) / tau) for tau in (QUICK, SLOW)]
    low = min(cold, *(ends[0] + (cold - ends[0]) * share for share in shares))
    high = max(warm, *(ends[1] + (warm - ends[1]) * share for share in shares))
    return Kelvin(low), Kelvin(high)


def lags(where: str) -> bool:
    """Whether resin comes late after what is read there."""
    return where in AIR


def outlook(latest: WarmthReading | None, age: float, *, borrowed: bool = False) -> Ahead:
    """How warm it is taken to stay: as read last, wider once old, in air, or of another batch.

    The age is told apart, because the wall clock may have been moved since it was read.
    """
    if latest is None:
        return GUESS
    low, high = reach(latest)
    if borrowed:
        wide = max(0.0, AIR["shop"] - widening(latest.where))
        low, high = Kelvin(low - wide), Kelvin(high + wide)
    old = WIDEN if age > GAP else 0.0
    return Ahead(Kelvin(low - old), Kelvin(high + old))


StandsStill: TypeAlias = Literal["", "cold", "hot"]
"""Why a release has no time: outside of the temperatures of use nothing counts."""


def stands_still(course: Course, ahead: Ahead) -> StandsStill:
    """Whether a release goes on as warm as it is taken to stay."""
    middle = ahead.temps[1]
    if course.credits(middle):
        return ""
    return "cold" if course.frozen(middle) else "hot"


class Readings:
    """Readings of one batch on the scale of its cure, kept: a new one is timed alone.

    What was timed holds until something is found out about the clocks; then this is let go.
    """

    def __init__(self) -> None:
        self._seen: tuple[WarmthReading, ...] = ()
        self._found: list[Warmth] = []
        self._ends: Ends | None = None
        """How cold and how warm the resin may have been at the reading that was timed last."""
        self._at = 0.0
        self._last: Row | None = None
        """The row that was timed last."""
        self._until = float("-inf")
        self._whole = True
        """Nothing that was timed lay ahead of now: none of it was cut short."""

    def of(
        self, batch: Batch, upto: float, since: Since, doubted: Doubted | None = None
    ) -> tuple[Warmth, ...]:
        """Readings in seconds since hardener; the last one before it stands at 0.

        Before or after is told by the time that went by, never by the wall clock alone.
        """
        old = len(self._seen)
        timed = self._timed(batch.warmth[old:], since)
        follows = self._until <= min(timed[0][0] if timed else upto, upto)
        if not (self._whole and follows and batch.warmth[:old] == self._seen):
            self._seen, self._found, self._last, self._ends = (), [], None, None
            self._until, timed = float("-inf"), self._timed(batch.warmth, since)
        for gone, each in timed:
            self._add(gone, each, upto, doubted)
        self._seen = batch.warmth
        self._until = max((gone for gone, _ in timed), default=self._until)
        self._whole = self._until <= upto
        return self._with_unknown(batch, upto, since)

    @staticmethod
    def _timed(
        readings: tuple[WarmthReading, ...], since: Since
    ) -> list[tuple[float, WarmthReading]]:
        return sorted(((since(each.clocked), each) for each in readings), key=_when)

    def _add(
        self, gone: float, each: WarmthReading, upto: float, doubted: Doubted | None
    ) -> None:  # fmt: skip
        ends = self._follow(gone, each)
        if gone <= 0:
            self._found = [Warmth(Second(0.0), *ends)]
        else:
            at = min(gone, upto)
            start = (
                None if each.since is None else Second(max(0.0, at - (each.at - each.since)))
            )  # fmt: skip
            reading = Warmth(Second(at), *ends, start)
            if doubted is not None and self._last is not None and doubted(self._last, each.clocked):
                self._found.append(_spanned(self._found[-1], reading))
            self._found.append(reading)
        self._last = each.clocked

    def _follow(self, gone: float, each: WarmthReading) -> Ends:
        """As read; of air, as far as the resin can have followed it since the reading before."""
        ends = reach(each)
        if self._ends is not None and lags(each.where):
            ends = follow(self._ends, each, gone - self._at)
        self._ends, self._at = ends, gone
        return ends

    def _with_unknown(self, batch: Batch, upto: float, since: Since) -> tuple[Warmth, ...]:
        """With the stretches that nobody knows; they go before what was read at their ends."""
        more: list[Warmth] = []
        stretches = _stretches(batch, upto, since)
        limits = [*(start for start, _ in stretches[1:]), float("inf")]
        for (start, end), limit in zip(stretches, limits, strict=False):
            more += _unknown(self._found, start, end, limit)
        if not more:
            return tuple(self._found)
        return tuple(sorted([*self._found, *more], key=lambda each: (each.at, each.known)))


def readings_of(
    batch: Batch, upto: float, since: Since, doubted: Doubted | None = None
) -> tuple[Warmth, ...]:
    """Readings in seconds since hardener, timed all anew."""
    return Readings().of(batch, upto, since, doubted)


def breathing(batch: Batch, contact: float) -> Text | None:
    """What has warmed since hardener by one thermometer: air comes out of wood in the resin."""
    last = batch.warmth[-1] if batch.warmth else None
    same = [each for each in batch.warmth if last is not None and each.where == last.where]
    before = [each for each in same if each.at <= contact][-1:]
    first = next(iter(before or same), None)
    if last is None or first is None or last.low - first.high <= WARMER:
        return None
    grows = pore_growth(first.middle, last.middle)
    return say(
        "It has warmed by {rise} and is not gelled for sure: air in wood grows by {grows} and comes"
        " out as bubbles. Pour while it cools.",
        rise=Amount(KelvinDelta(last.middle - first.middle), "KelvinDelta", 0),
        grows=Amount(grows, "Ratio", 1, "%"),
    )  # fmt: skip


def _spanned(before: Warmth, after: Warmth) -> Warmth:
    """How long lies between two readings is in doubt: all of it as wide as a gap."""
    low = Kelvin(min(before.low, after.low) - WIDEN)
    high = Kelvin(max(before.high, after.high) + WIDEN)
    return Warmth(after.at, low, high, before.at)


def _when(timed: tuple[float, WarmthReading]) -> tuple[float, int]:
    """In order of time; where no time lies between them for sure, in the order of their rows."""
    return round(timed[0], 3), timed[1].clocked.seq


def _stretches(batch: Batch, upto: float, since: Since) -> list[tuple[float, float]]:
    """The unknown stretches after hardener in order of time; those that overlap are one."""
    found: list[tuple[float, float]] = []
    for unknown in batch.unknowns:
        end = min(since(unknown.row), upto)
        if end > 0:
            found.append((max(0.0, end - (unknown.until - unknown.since)), end))
    merged: list[tuple[float, float]] = []
    for start, end in sorted(found):
        if merged and start <= merged[-1][1]:
            merged[-1] = merged[-1][0], max(merged[-1][1], end)
        else:
            merged.append((start, end))
    return merged


def _unknown(read: Sequence[Warmth], start: float, end: float, limit: float) -> list[Warmth]:
    """Nothing for releases; for hazards as warm as the readings round it allow, and wider.

    A reading within it cuts it and takes nothing of it away: what was typed as not known stays so.
    Before and after it everything stays as it would be without it: to know less must never bring a
    release forward or put a hazard off. At ``limit`` the next such stretch begins.
    """
    before = [each for each in read if each.at <= start][-1:]
    within = [each for each in read if start < each.at < end]
    after = [each for each in read if each.at >= end][:1]
    round_it = [*before, *within, *after]
    edges = [start, *sorted({each.at for each in within}), end]
    low, high = _widest(round_it)
    found = [
        Warmth(Second(to), low, high, Second(begin), known=False) for begin, to in pairwise(edges)
    ]
    if before and before[0].at < start:
        found.append(_up_to(before[0], next(iter(round_it[1:]), None), start))
    elif not before and start > 0:
        found.append(Warmth(Second(start), *_widest(round_it[:1]), Second(0.0)))
    if after and _begin(after[0]) > end:
        found.append(_on_from(next(iter(round_it[-2:-1]), None), after[0], end, limit))
    elif round_it and not after:
        found.append(Warmth(Second(end), *_widest(round_it[-1:])))
    return found


def _begin(reading: Warmth) -> float:
    """From when on a reading stands for itself."""
    return reading.at if reading.since is None else reading.since


def _up_to(before: Warmth, following: Warmth | None, at: float) -> Warmth:
    """What is taken from a reading up to a moment before the next, or before now."""
    if following is None:
        return Warmth(Second(at), before.low, before.high)
    begin = max(_begin(following), before.at)
    if begin <= at:
        return Warmth(Second(at), following.low, following.high, Second(begin))
    if begin - before.at > GAP:
        return Warmth(Second(at), *_widest([before, following]), before.at)
    return _between(before, following, at)


def _on_from(before: Warmth | None, following: Warmth, at: float, limit: float) -> Warmth:
    """What is taken from a moment after a reading on, up to the next or to the limit."""
    begin = _begin(following)
    if before is None or begin - before.at > GAP:
        ends = _widest([following] if before is None else [before, following])
        return Warmth(Second(max(min(begin - EDGE, limit), at)), *ends, Second(at))
    return _between(before, following, at)


def _between(before: Warmth, following: Warmth, at: float) -> Warmth:
    """Straight between two readings."""
    share = (at - before.at) / (_begin(following) - before.at)
    low, high = (
        Kelvin(one + (other - one) * share)
        for one, other in ((before.low, following.low), (before.high, following.high))
    )
    return Warmth(Second(at), low, high)


def _widest(read: Sequence[Warmth]) -> Ends:
    """As cold and as warm as readings round a time allow, and wider; our guess without any."""
    low = min((each.low for each in read), default=GUESS.low)
    high = max((each.high for each in read), default=GUESS.high)
    return Kelvin(low - WIDEN), Kelvin(high + WIDEN)


EDGE = 1e-3
"""So little before a reading ends what is taken for the time before it, [s]."""


def within_reason(span: Elapsed) -> Second:
    """The longest that may have gone by; an endless doubt is as good as two weeks."""
    return span.high if isfinite(span.high) else Second(span.likely + LONGEST_OFF)
