"""Sums of decaying exponentials: their values, and the first time one passes a level.

A sum of exponentials has no more zeros than its coefficients change sign (Descartes'
rule, which holds for real exponents too). Where that allows several, the zeros of its
derivative part the line into stretches with one zero each.
"""

from dataclasses import dataclass
from itertools import pairwise
from math import exp, inf

CLOSE = 1e-15
"""Relative width at which a bracket of a root is taken as closed."""
ROUNDS = 200


@dataclass(frozen=True, slots=True)
class Decays:
    """The sum of ``size * exp(-rate * t)``; rates rise from term to term, 0 is a constant."""

    rates: tuple[float, ...]
    sizes: tuple[float, ...]

    def at(self, time: float) -> float:
        """Value at a time."""
        return sum([a * exp(-r * time) for r, a in zip(self.rates, self.sizes, strict=True)])

    def slope(self, time: float) -> float:
        """Rate of change at a time."""
        pairs = zip(self.rates, self.sizes, strict=True)
        return sum([-r * a * exp(-r * time) for r, a in pairs])

    def zeros(self, end: float) -> tuple[float, ...]:
        """Times in (0, end] at which the value passes zero, in order."""
        turns = self._turns(end)
        found: list[float] = []
        for left, right in zip((0.0, *turns), (*turns, end), strict=True):
            below, above = self.at(left), self.at(right)
            if (below < 0) != (above < 0) and below != 0:
                found.append(self._root(left, right, rising=below < 0))
        return tuple(found)

    def _turns(self, end: float) -> tuple[float, ...]:
        """Times that part (0, end) into stretches with one zero at most."""
        signs = [a > 0 for a in self.sizes if a]
        if sum(a != b for a, b in pairwise(signs)) <= 1:
            return ()
        first = self.rates[0]
        rates = tuple(r - first for r in self.rates[1:])
        sizes = tuple(-r * a for r, a in zip(rates, self.sizes[1:], strict=True))
        return Decays(rates, sizes).zeros(end)

    def _root(self, low: float, high: float, *, rising: bool) -> float:
        """Newton's steps, held inside a bracket that halves where they leave it."""
        time = low
        for _ in range(ROUNDS):
            value, slope = self.at(time), self.slope(time)
            if value == 0 or high - low <= CLOSE * high:
                break
            low, high = (time, high) if (value < 0) == rising else (low, time)
            step = time - value / slope if slope else inf
            if abs(step - time) <= CLOSE * high and low <= step <= high:
                return step
            time = step if low < step < high else 0.5 * (low + high)
        return time
