"""Random histories of warmth as a shop has them: steps, ramps, waves of day and night."""

import random
from collections.abc import Callable
from math import pi, sin

from shopassist.core.cure import Warmth
from shopassist.core.quantities import Kelvin, Second

HOUR, DAY = 3_600.0, 86_400.0
ZERO = 273.15


def reading(at: float, low: float, high: float | None = None) -> Warmth:
    """One reading in degrees; warmest too where it may have been another."""
    return Warmth(Second(at), Kelvin(low + ZERO), Kelvin((low if high is None else high) + ZERO))


def steps(rng: random.Random) -> list[Warmth]:
    """Warm here, cold there: carried from one place to another, at once."""
    at, found = 0.0, list[Warmth]()
    warm = rng.uniform(5, 45)
    for _ in range(rng.randint(2, 9)):
        found.append(reading(at, warm))
        at += rng.uniform(0.05, 2.9) * HOUR
        found.append(reading(at, warm))
        warm = rng.uniform(5, 45)
    return found


def ramps(rng: random.Random) -> list[Warmth]:
    """Readings now and then, some hours apart, some read in air and so wide."""
    at, found = 0.0, list[Warmth]()
    for _ in range(rng.randint(3, 15)):
        warm, wide = rng.uniform(5, 45), rng.choice((0.0, 0.0, 2.0, 3.0))
        found.append(reading(at, warm - wide, warm + wide))
        at += rng.choice((0.1, 0.7, 2.5, 6.0, 14.0)) * HOUR * rng.uniform(0.5, 1.1)
    return found


def wave(rng: random.Random) -> Callable[[float], float]:
    """Day and night in degrees, with a slow drift."""
    middle, swing, drift = rng.uniform(12, 28), rng.uniform(2, 12), rng.uniform(-2, 2)
    phase = rng.uniform(0, 2 * pi)
    return lambda at: middle + drift * at / DAY + swing * sin(2 * pi * at / DAY + phase)


def sampled(curve: Callable[[float], float], length: float, every: float) -> list[Warmth]:
    """A curve as a logger writes it down."""
    return [reading(n * every, curve(n * every)) for n in range(round(length / every) + 1)]


def waves(rng: random.Random) -> list[Warmth]:
    """A day and a half of a wave, a reading each hour."""
    return sampled(wave(rng), 1.5 * DAY, HOUR)


KINDS: tuple[Callable[[random.Random], list[Warmth]], ...] = (steps, ramps, waves)
