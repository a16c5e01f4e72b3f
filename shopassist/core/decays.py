"""Sums of decaying exponentials: their values, and the first time one passes a level.

A sum of exponentials has no more zeros than its coefficients change sign (Descartes'
rule, which holds for real exponents too). Where that allows several, the zeros of its
derivative part the line into stretches with one zero each.
"""

from itertools import pairwise
from math import exp, inf
from operator import mul

from shopassist.core.frozen import frozen

CLOSED = 1e-15
"""Relative width at which the bracket of a root is taken as closed."""
NEAR = 1e-7
"""A step of Newton's so small, as a share, leaves its square."""
ROUNDS = 200


@frozen
class Decays:
    """The sum of ``size * exp(-rate * t)``; rates rise from term to term, 0 is a constant."""

    rates: tuple[float, ...]
    sizes: tuple[float, ...]

    def at(self, time: float) -> float:
        """Value at a time."""
        return sum([a * exp(-r * time) for r, a in zip(self.rates, self.sizes, strict=True)])

    def zeros(self, end: float) -> tuple[float, ...]:
        """Times in (0, end] at which the value passes zero, in order."""
        marks = (0.0, *self._turns(end), end)
        values = [sum(self.sizes), *[self.at(mark) for mark in marks[1:]]]
        return tuple(
            self._root(left, right, below)
            for (left, below), (right, above) in pairwise(zip(marks, values, strict=True))
            if (below < 0) != (above < 0) and below != 0
        )

    def _turns(self, end: float) -> tuple[float, ...]:
        """Times that part (0, end) into stretches with one zero at most."""
        signs = [a > 0 for a in self.sizes if a]
        if sum(a != b for a, b in pairwise(signs)) <= 1:
            return ()
        first = self.rates[0]
        rates = tuple(r - first for r in self.rates[1:])
        sizes = tuple(-r * a for r, a in zip(rates, self.sizes[1:], strict=True))
        return Decays(rates, sizes).zeros(end)

    def _root(self, low: float, high: float, value: float) -> float:
        """Newton's steps, held inside a bracket that halves where they leave it."""
        rising, time = value < 0, low
        rates, pairs = self.rates, [*zip(self.rates, self.sizes, strict=True)]
        for _ in range(ROUNDS):
            parts = [a * exp(-r * time) for r, a in pairs]
            value, slope = sum(parts), -sum(map(mul, rates, parts))
            if value == 0 or high - low <= CLOSED * high:
                break
            low, high = (time, high) if (value < 0) == rising else (low, time)
            step = time - value / slope if slope else inf
            if low <= step <= high and abs(step - time) <= NEAR * time:
                return step
            time = step if low < step < high else 0.5 * (low + high)
        return time
