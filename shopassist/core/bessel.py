"""Bessel functions J0 and J1 and their zeros, by Bessel's own integral.

The trapezium rule on that integral converges faster than any power of the number of
points: a few more points than the argument are exact to rounding.
"""

from functools import cache
from math import cos, pi, sin

SPARE = 14
"""Points a quarter turn beyond what the argument asks for."""
STEPS = 6


@cache
def _sines(points: int) -> tuple[float, ...]:
    return tuple(sin((k + 0.5) * pi / (2 * points)) for k in range(points))


def j0(x: float) -> float:
    """Bessel function of the first kind, order 0, for arguments not below 0."""
    sines = _sines(int(x / 4) + SPARE)
    return sum([cos(x * s) for s in sines]) / len(sines)


def j1(x: float) -> float:
    """Bessel function of the first kind, order 1, for arguments not below 0."""
    sines = _sines(int(x / 4) + SPARE)
    return sum([s * sin(x * s) for s in sines]) / len(sines)


@cache
def zero_of_j0(n: int) -> float:
    """Give the n-th zero of J0, counted from 1."""
    x = (n - 0.25) * pi
    x += 1 / (8 * x)
    for _ in range(STEPS):
        x += j0(x) / j1(x)
    return x


@cache
def zero_of_j1(n: int) -> float:
    """Give the n-th zero of J1, counted from 1; the one at nothing has number 0."""
    if n == 0:
        return 0.0
    x = (n + 0.25) * pi
    x -= 3 / (8 * x)
    for _ in range(STEPS):
        x -= j1(x) / (j0(x) - j1(x) / x)
    return x
