"""What a scale can and cannot tell about a ratio, and how targets are rounded to its step."""

from math import ceil, sqrt

from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.mixing import PartMasses
from shopassist.core.quantities import Kilogram, Ratio

FUZZ = 1e-9
"""Share of a step that is rounding of the machine, not mass."""


@frozen
class Scale:
    """A scale as its owner describes it."""

    step: Kilogram
    error: Kilogram | None = None
    """Stated error; None: not stated, taken as two steps (ours)."""

    @property
    def doubt(self) -> Kilogram:
        """How far off a shown mass may be: stated error and half a step."""
        error = 2 * self.step if self.error is None else self.error
        return Kilogram(error + self.step / 2)


@frozen
class RatioBand:
    """Least and greatest ratio that the masses may really have."""

    low: Ratio
    high: Ratio


def ratio_band(mass_a: Kilogram, mass_b: Kilogram, doubt: Kilogram) -> RatioBand:
    r"""Ratio B to A that two weighed masses may really have, at worst.

    .. math:: \frac{m_B - e}{m_A + e} \ldots \frac{m_B + e}{m_A - e}

    Plain: from (B − e) ÷ (A + e) to (B + e) ÷ (A − e)

    Parameters
    ----------
    mass_a
        Shown mass of A, [kg].
    mass_b
        Shown mass of B, [kg].
    doubt
        How far off each may be: stated error and half a step, [kg].

    Returns
    -------
    RatioBand
        Least and greatest ratio.

    Raises
    ------
    OutOfRangeError
        If a mass is not above the doubt, or the doubt is negative.

    Notes
    -----
    Both errors are taken at their worst and against each other. Each part counts as weighed from
    its own zero; draughts, a tilted scale and drops on the pan are left out.

    Sources
    -------
    BUILDERS-LIST-1999

    Examples
    --------
    >>> band = ratio_band(Kilogram(0.100), Kilogram(0.025), Kilogram(0.0005))
    >>> round(1 / band.high, 3), round(1 / band.low, 3)
    (3.902, 4.102)
    """
    need_not_negative(doubt=doubt)
    for field, mass in (("mass_a", mass_a), ("mass_b", mass_b)):
        if not mass > doubt:
            raise out_of_range(field, "This is less than the scale can tell: mix more.")
    return RatioBand(
        Ratio((mass_b - doubt) / (mass_a + doubt)), Ratio((mass_b + doubt) / (mass_a - doubt))
    )


def least_batch(ratio: Ratio, tolerance: Ratio, doubt: Kilogram) -> Kilogram:
    r"""Smallest total whose ratio stays within a tolerance whatever the scale does.

    .. math:: m = (1 + r)\, e\, \frac{1 + r (1 + \tau)}{r \tau}

    Plain: least = (1 + r) × e × (1 + r × (1 + τ)) ÷ (r × τ), r = B per A, τ = tolerance

    Parameters
    ----------
    ratio
        Masses of B per mass of A, [1].
    tolerance
        Share by which the ratio may be off, [1].
    doubt
        How far off each mass may be: stated error and half a step, [kg].

    Returns
    -------
    Kilogram
        Least total of A and B, [kg].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    Solves ``ratio_band`` for the side with too much B, the stricter one. The printed rule that
    leaves out terms of second order asks for up to 1 % less.

    Sources
    -------
    BUILDERS-LIST-1999

    Examples
    --------
    >>> round(least_batch(Ratio(0.25), Ratio(0.03), Kilogram(0.0005)) * 1e3, 1)
    104.8
    """
    need_positive(ratio=ratio, tolerance=tolerance, doubt=doubt)
    mass_a = doubt * (1 + ratio * (1 + tolerance)) / (ratio * tolerance)
    return Kilogram(mass_a * (1 + ratio))


def spread_of_rounding(mass_a: Kilogram, mass_b: Kilogram, step: Kilogram, readings: int) -> Ratio:
    r"""Likely error of the ratio from the rounding of the display alone.

    .. math:: \sigma = d \sqrt{\frac{n}{12}} \sqrt{\frac{1}{m_A^2} + \frac{1}{m_B^2}}

    Plain: spread = step × √(readings ÷ 12) × √(1 ÷ A² + 1 ÷ B²)

    Parameters
    ----------
    mass_a
        Mass of A, [kg].
    mass_b
        Mass of B, [kg].
    step
        Step of the display, [kg].
    readings
        Readings that each mass takes: 1 from zero, 2 as a difference.

    Returns
    -------
    Ratio
        Standard deviation of the ratio as a share of it, [1].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    Rounding alone; the scale's own error is left out.

    Sources
    -------
    UNIFORM-ROUNDING

    Examples
    --------
    >>> resin, hardener, step = Kilogram(0.1), Kilogram(0.025), Kilogram(0.001)
    >>> round(spread_of_rounding(resin, hardener, step, 1) * 100, 2)
    1.19
    """
    need_positive(mass_a=mass_a, mass_b=mass_b, step=step, readings=readings)
    return Ratio(step * sqrt(readings / 12) * sqrt(1 / mass_a**2 + 1 / mass_b**2))


def left_by_step(smallest: Kilogram, step: Kilogram) -> Ratio:
    r"""Greatest error of the ratio that the step of the scale leaves.

    .. math:: d = \frac{s/2}{m_{small}}

    Plain: left = half a step ÷ the smaller part

    Parameters
    ----------
    smallest
        Mass of the smaller part, [kg].
    step
        Step of the display, [kg].

    Returns
    -------
    Ratio
        Share by which the ratio may be off, either way, [1].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    The smaller part is worked out from what was really poured of the larger one.

    Sources
    -------
    UNIFORM-ROUNDING

    Examples
    --------
    >>> left_by_step(Kilogram(0.020), Kilogram(0.001))
    0.025
    """
    need_positive(smallest=smallest, step=step)
    return Ratio(step / 2 / smallest)


def round_parts(parts: PartMasses, step: Kilogram) -> PartMasses:
    """Round to the scale's step: the larger part up, the smaller to the nearest that fits it."""
    need_positive(step=step, a=parts.a, b=parts.b)
    if parts.b <= parts.a:
        mass_a = _up(parts.a, step)
        return PartMasses(mass_a, nearest(Kilogram(mass_a * parts.b / parts.a), step))
    mass_b = _up(parts.b, step)
    return PartMasses(nearest(Kilogram(mass_b * parts.a / parts.b), step), mass_b)


def nearest(mass: Kilogram, step: Kilogram) -> Kilogram:
    """Round to the nearest step that the scale can show, never to nothing."""
    return Kilogram(max(int(mass / step + 0.5), 1) * step)


def _up(mass: Kilogram, step: Kilogram) -> Kilogram:
    return Kilogram(ceil(mass / step - FUZZ) * step)
