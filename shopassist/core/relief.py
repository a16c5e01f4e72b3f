"""Relief valves and the greatest pressure to work at."""

from typing import Literal

from shopassist.core.bounds import need_positive
from shopassist.core.frozen import frozen
from shopassist.core.gas import greatest_cold_fill
from shopassist.core.quantities import Kelvin, PascalAbsolute, PascalGauge

RELIEF_SHARE = 0.9
"""Greatest working pressure as a share of the relief set pressure; common practice."""
FLAT_UP_TO = 70.0
"""Set pressure up to which the tolerance is 2 psi, [psi]; UG-134."""
POUND_PER_SQUARE_INCH = 6894.757293168
"""[Pa]; exact product of the pound, the inch and standard gravity."""

Governs = Literal["rating", "relief", "warming"]


def allowed_rise(rating: PascalGauge) -> PascalGauge:
    r"""Pressure above which a relief valve must not let a vessel rise.

    .. math:: p = \max(1.1\,p_r,\ p_r + 3\,\mathrm{psi})

    Plain: limit = rating + 10 %, or + 3 psi where that is more

    Parameters
    ----------
    rating
        Rated gauge pressure, [Pa gauge].

    Returns
    -------
    PascalGauge
        Gauge pressure, [Pa gauge].

    Raises
    ------
    OutOfRangeError
        If the rating is zero or negative.

    Notes
    -----
    For one relief valve. It is no working pressure.

    Sources
    -------
    UG-125

    Examples
    --------
    >>> psi = 6894.757293168
    >>> round(allowed_rise(PascalGauge(25 * psi)) / psi, 1)
    28.0
    """
    need_positive(rating=rating)
    return PascalGauge(max(1.1 * rating, rating + 3 * POUND_PER_SQUARE_INCH))


@frozen
class ReliefBand:
    """Between which pressures a relief valve may begin to open."""

    low: PascalGauge
    high: PascalGauge


def relief_band(relief_set: PascalGauge) -> ReliefBand:
    r"""Pressures between which a relief valve may open.

    .. math:: p = p_s \pm \max(2\,\mathrm{psi},\ 3\,\%)

    Plain: from set − tolerance to set + tolerance; 2 psi up to 70 psi, 3 % above

    Parameters
    ----------
    relief_set
        Set pressure of the valve, [Pa gauge].

    Returns
    -------
    ReliefBand
        Least and greatest opening pressure.

    Raises
    ------
    OutOfRangeError
        If the set pressure is zero or negative.

    Notes
    -----
    Tolerance of a new valve; an old one may be worse.

    Sources
    -------
    UG-134

    Examples
    --------
    >>> psi = 6894.757293168
    >>> band = relief_band(PascalGauge(60 * psi))
    >>> round(band.low / psi, 1), round(band.high / psi, 1)
    (58.0, 62.0)
    """
    need_positive(relief_set=relief_set)
    small = relief_set <= FLAT_UP_TO * POUND_PER_SQUARE_INCH
    spread = 2 * POUND_PER_SQUARE_INCH if small else 0.03 * relief_set
    return ReliefBand(PascalGauge(relief_set - spread), PascalGauge(relief_set + spread))


@frozen
class WorkingLimit:
    """Greatest pressure to work at, and which part of it governs."""

    pressure: PascalGauge
    governs: Governs


def working_limit(
    rating: PascalGauge,
    relief_set: PascalGauge,
    temp_fill: Kelvin,
    temp_warmest: Kelvin,
    ambient: PascalAbsolute,
) -> WorkingLimit:
    r"""Greatest pressure to fill a pot to.

    .. math:: p = \min\left(p_r,\ 0.9\,p_s,\ (p_{lim} + p_a)\frac{T_{fill}}{T_{warm}} - p_a\right)

    Plain: least of the rating, 0.9 × relief set, and the cold fill that warms up to them

    Parameters
    ----------
    rating
        Rated gauge pressure, [Pa gauge].
    relief_set
        Set pressure of the relief valve, [Pa gauge].
    temp_fill
        Temperature at filling, [K].
    temp_warmest
        Warmest that the pot will be, [K].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    WorkingLimit
        Limit and which of the three governs.

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    A pot that stays on a relieving regulator does not rise when it warms; the limit stands all
    the same.

    Sources
    -------
    UG-134
    GAY-LUSSAC
    PRACTICE

    Examples
    --------
    >>> psi, sea = 6894.757293168, PascalAbsolute(101325.0)
    >>> rating, relief = PascalGauge(80 * psi), PascalGauge(60 * psi)
    >>> limit = working_limit(rating, relief, Kelvin(293.15), Kelvin(293.15), sea)
    >>> round(limit.pressure / psi, 1), limit.governs
    (54.0, 'relief')
    """
    need_positive(rating=rating, relief_set=relief_set)
    still = PascalGauge(min(rating, RELIEF_SHARE * relief_set))
    cold = greatest_cold_fill(still, temp_fill, temp_warmest, ambient)
    if cold < still:
        return WorkingLimit(cold, "warming")
    return WorkingLimit(still, "rating" if still == rating else "relief")
