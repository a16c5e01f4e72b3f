"""Many samples made few readings: the lowest and highest of each stretch of time."""

from collections.abc import Sequence

from shopassist.core.frozen import frozen
from shopassist.core.quantities import Kelvin, KelvinDelta, Second, UtcSecond

STRETCH = Second(300.0)
"""A reading stands for so long at most; ours."""
MOVED = KelvinDelta(1.0)
"""Or until the temperature has moved by this; ours."""

Sample = tuple[UtcSecond, Kelvin]


@frozen
class Bin:
    """One stretch: an interval reading."""

    since: UtcSecond
    until: UtcSecond
    low: Kelvin
    high: Kelvin


def binned(samples: Sequence[Sample], *, end: bool = False) -> tuple[tuple[Bin, ...], int]:
    """Whole stretches of samples in order, and how many samples they took.

    What is left over waits for more, unless this is the end.
    """
    found: list[Bin] = []
    begin = 0
    for place in range(1, len(samples) + 1):
        part = samples[begin:place]
        whole = part[-1][0] - part[0][0] >= STRETCH or _moved(part)
        if whole or (end and place == len(samples)):
            temps = [temp for _, temp in part]
            found.append(Bin(part[0][0], part[-1][0], min(temps), max(temps)))
            begin = place
    return tuple(found), begin


def _moved(part: Sequence[Sample]) -> bool:
    temps = [temp for _, temp in part]
    return max(temps) - min(temps) >= MOVED
