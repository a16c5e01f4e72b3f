"""How warm it was and will be taken to be: readings of a batch on the scale of its cure."""

from collections.abc import Callable
from math import exp, isfinite
from typing import TypeAlias

from shopassist.core.batch import Batch, UnknownWarmth, WarmthReading
from shopassist.core.cure import GAP, WIDEN, Warmth
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
        """With the stretches that nobody knows."""
        more: list[Warmth] = []
        for unknown in batch.unknowns:
            gone = since(unknown.row)
            if gone > 0:
                more += _unknown(batch, unknown, min(gone, upto))
        if not more:
            return tuple(self._found)
        return tuple(sorted([*self._found, *more], key=lambda each: each.at))


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


def _unknown(batch: Batch, unknown: UnknownWarmth, at: float) -> list[Warmth]:
    """Nothing for releases; for hazards as warm as the readings round it allow, and wider.

    Where those lie far apart, the rest of the time between them stays as wide as it was before
    the stretch was entered: to know less must never put a hazard off.
    """
    before = [each for each in batch.warmth if each.at <= unknown.since][-1:]
    after = [each for each in batch.warmth if each.at >= unknown.until][:1]
    ends = [reach(each) for each in (*before, *after)] or [(GUESS.low, GUESS.high)]
    low = Kelvin(min(each[0] for each in ends) - WIDEN)
    high = Kelvin(max(each[1] for each in ends) + WIDEN)
    start = max(0.0, at - (unknown.until - unknown.since))
    found = [Warmth(Second(at), low, high, Second(start), known=False)]
    if before and after and after[0].at - before[0].at > GAP:
        run_up, run_out = unknown.since - before[0].at, after[0].at - unknown.until
        if run_up > 0:
            begin = Second(max(0.0, start - run_up))
            found.append(Warmth(Second(start), low, high, begin))
        if run_out > EDGE:
            found.append(Warmth(Second(at + run_out - EDGE), low, high, Second(at)))
    return found


EDGE = 1e-3
"""So little before a reading ends what is taken for the time before it, [s]."""


def within_reason(span: Elapsed) -> Second:
    """The longest that may have gone by; an endless doubt is as good as two weeks."""
    return span.high if isfinite(span.high) else Second(span.likely + LONGEST_OFF)
