"""Abrasive papers: their grains, and steps that are too far."""

from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from shopassist.core.bounds import need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.quantities import Metre, Ratio

Scale = Literal["P", "CAMI"]
MICRON = 1e-6
FEPA: dict[int, float] = {
    60: 269, 80: 201, 100: 162, 120: 125, 150: 100, 180: 82, 220: 68, 240: 58.5, 280: 52.2,
    320: 46.2, 360: 40.5, 400: 35.0, 500: 30.2, 600: 25.8, 800: 21.8, 1000: 18.3, 1200: 15.3,
    1500: 12.6, 2000: 10.3, 2500: 8.4,
}  # fmt: skip
"""Mean grain in microns of FEPA P papers (ISO 6344)."""
CAMI: dict[int, float] = {
    60: 268, 80: 192, 100: 141, 120: 116, 150: 93, 180: 82, 220: 68, 240: 52, 280: 42, 320: 35,
    360: 28, 400: 22, 500: 18, 600: 15,
}  # fmt: skip
"""Mean grain in microns of CAMI papers."""
GRAINS: dict[Scale, dict[int, float]] = {"P": FEPA, "CAMI": CAMI}
JUMP = Ratio(1.6)
"""From one paper to the next the number grows by at most this; common practice."""
GRAIN_JUMP = Ratio(1.75)
"""And the grain shrinks by at most this; ours."""


@frozen
class Paper:
    """One abrasive paper."""

    scale: Scale
    grit: int

    @property
    def grain(self) -> Metre:
        """Mean size of its grains, [m]."""
        try:
            return Metre(GRAINS[self.scale][self.grit] * MICRON)
        except KeyError:
            raise out_of_range(
                "grit", "No such paper in the table of grits; papers from 60 up are listed."
            ) from None

    @property
    def name(self) -> str:
        """As it is printed on the back."""
        return f"P{self.grit}" if self.scale == "P" else f"{self.grit} CAMI"


def grain_ratio(coarse: Metre, fine: Metre) -> Ratio:
    r"""How much finer the next paper's grain is.

    .. math:: r = \frac{d_1}{d_2}

    Plain: grain before ÷ grain after

    Parameters
    ----------
    coarse
        Mean grain of the paper before, [m].
    fine
        Mean grain of the paper after, [m].

    Returns
    -------
    Ratio
        Ratio of the grains, [1].

    Raises
    ------
    OutOfRangeError
        If a grain is zero or negative.

    Notes
    -----
    Scratches of the coarse paper must vanish with the fine one's depth.

    Sources
    -------
    GRIT-TABLES

    Examples
    --------
    >>> round(grain_ratio(Metre(201e-6), Metre(82e-6)), 2)
    2.45
    """
    need_positive(coarse=coarse, fine=fine)
    return Ratio(coarse / fine)


@frozen
class Step:
    """From one paper to the next."""

    before: Paper
    after: Paper
    ratio: Ratio
    too_far: bool


def ladder(papers: Sequence[Paper]) -> tuple[Step, ...]:
    """Judge each step of a row of papers; a step back or to the same grit is refused."""
    steps: list[Step] = []
    for before, after in pairwise(papers):
        ratio = grain_ratio(before.grain, after.grain)
        if ratio <= 1:
            raise out_of_range("grit", "Each paper must be finer than the one before.")
        by_number = before.scale == after.scale and after.grit / before.grit > JUMP + 1e-9
        steps.append(Step(before, after, ratio, by_number or ratio > GRAIN_JUMP))
    return tuple(steps)


def between(step: Step) -> tuple[Paper, ...]:
    """Give the fewest papers that bridge a step, on the scale of the finer one."""
    scale = step.after.scale
    rest = [Paper(scale, grit) for grit in sorted(GRAINS[scale])]
    rest = [each for each in rest if step.before.grain > each.grain > step.after.grain]
    found: list[Paper] = []
    last = step.before
    while rest and ladder((last, step.after))[0].too_far:
        near = [each for each in rest if not ladder((last, each))[0].too_far] or rest[:1]
        last = near[-1]
        found.append(last)
        rest = [each for each in rest if each.grain < last.grain]
    return tuple(found)
