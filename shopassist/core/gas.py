"""Enclosed air that warms, cools and is squeezed: sealed fills and bubbles."""

from shopassist.core.atmosphere import absolute_pressure, pressure_ratio
from shopassist.core.bounds import need_positive
from shopassist.core.quantities import (
    Kelvin,
    PascalAbsolute,
    PascalGauge,
    Ratio,
)


def sealed_gauge(
    gauge: PascalGauge, temp_before: Kelvin, temp_after: Kelvin, ambient: PascalAbsolute
) -> PascalGauge:
    r"""What the gauge of a shut pot shows after its air has changed temperature.

    .. math:: p_2 = (p_1 + p_a)\frac{T_2}{T_1} - p_a

    Plain: after = (before + air pressure) × T after ÷ T before − air pressure, T in kelvin

    Parameters
    ----------
    gauge
        Gauge pressure before, [Pa gauge].
    temp_before
        Temperature of the air inside before, [K].
    temp_after
        Temperature of the air inside afterwards, [K].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    PascalGauge
        Gauge pressure afterwards, [Pa gauge].

    Raises
    ------
    OutOfRangeError
        If a temperature or an absolute pressure is zero or negative.

    Notes
    -----
    For the temperature of the air inside, which lags behind the cabinet. No air lost; rigid pot.

    Sources
    -------
    GAY-LUSSAC

    Examples
    --------
    >>> psi, sea = 6894.757, PascalAbsolute(101325.0)
    >>> warm = sealed_gauge(PascalGauge(60 * psi), Kelvin(293.15), Kelvin(318.15), sea)
    >>> round(warm / psi, 2)
    66.37
    """
    need_positive(temp_before=temp_before, temp_after=temp_after)
    return PascalGauge(absolute_pressure(gauge, ambient) * temp_after / temp_before - ambient)


def greatest_cold_fill(
    limit: PascalGauge, temp_fill: Kelvin, temp_warmest: Kelvin, ambient: PascalAbsolute
) -> PascalGauge:
    r"""Greatest fill of a shut pot that stays within a limit when it is warmest.

    .. math:: p = (p_{lim} + p_a)\min\left(1, \frac{T_{fill}}{T_{warm}}\right) - p_a

    Plain: fill = (limit + air pressure) × T filling ÷ T warmest − air pressure, the limit at most

    Parameters
    ----------
    limit
        Gauge pressure that must not be passed, [Pa gauge].
    temp_fill
        Temperature of the air at filling, [K].
    temp_warmest
        Warmest that the air inside will be, [K].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    PascalGauge
        Gauge pressure to fill to, [Pa gauge].

    Raises
    ------
    OutOfRangeError
        If a temperature or an absolute pressure is zero or negative.

    Notes
    -----
    Rigid pot, supply shut off. A pot that will cool is not filled above the limit.

    Sources
    -------
    GAY-LUSSAC

    Examples
    --------
    >>> psi, sea = 6894.757, PascalAbsolute(101325.0)
    >>> fill = greatest_cold_fill(PascalGauge(60 * psi), Kelvin(293.15), Kelvin(318.15), sea)
    >>> round(fill / psi, 2)
    54.13
    """
    need_positive(temp_fill=temp_fill, temp_warmest=temp_warmest)
    share = min(1.0, temp_fill / temp_warmest)
    return PascalGauge(absolute_pressure(limit, ambient) * share - ambient)


def bubble_volume_ratio(gauge: PascalGauge, ambient: PascalAbsolute) -> Ratio:
    r"""Volume of a bubble under pressure over its volume in the open.

    .. math:: \frac{V_2}{V_1} = \frac{p_a}{p_g + p_a}

    Plain: volume share = air pressure ÷ (gauge + air pressure)

    Parameters
    ----------
    gauge
        Gauge pressure in the pot, [Pa gauge].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    Ratio
        Share of its volume that is left, [1].

    Raises
    ------
    OutOfRangeError
        If an absolute pressure is zero or negative.

    Notes
    -----
    Same temperature; what dissolves into the resin is left out. A bubble never goes by squeezing
    alone.

    Sources
    -------
    BOYLE

    Examples
    --------
    >>> round(bubble_volume_ratio(PascalGauge(413685.4), PascalAbsolute(101325.0)), 3)
    0.197
    """
    return Ratio(1 / pressure_ratio(gauge, ambient))


def bubble_diameter_ratio(gauge: PascalGauge, ambient: PascalAbsolute) -> Ratio:
    r"""Diameter of a bubble under pressure over its diameter in the open.

    .. math:: \frac{d_2}{d_1} = \left(\frac{p_a}{p_g + p_a}\right)^{1/3}

    Plain: diameter share = cube root of (air pressure ÷ (gauge + air pressure))

    Parameters
    ----------
    gauge
        Gauge pressure in the pot, [Pa gauge].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    Ratio
        Share of its diameter that is left, [1].

    Raises
    ------
    OutOfRangeError
        If an absolute pressure is zero or negative.

    Notes
    -----
    Same temperature; for a round bubble; what dissolves is left out. Released before gel it grows
    back by the inverse.

    Sources
    -------
    BOYLE

    Examples
    --------
    >>> round(bubble_diameter_ratio(PascalGauge(413685.4), PascalAbsolute(101325.0)), 4)
    0.5816
    """
    return Ratio(bubble_volume_ratio(gauge, ambient) ** (1 / 3))


def gauge_for_diameter(share: Ratio, ambient: PascalAbsolute) -> PascalGauge:
    r"""Gauge pressure that squeezes bubbles to a share of their diameter.

    .. math:: p_g = p_a\left(\frac{1}{s^3} - 1\right)

    Plain: gauge = air pressure × (1 ÷ share³ − 1)

    Parameters
    ----------
    share
        Wanted share of the diameter, [1].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    PascalGauge
        Gauge pressure needed, [Pa gauge].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    Often far above what a pot may hold: hold it against the working limit first.

    Sources
    -------
    BOYLE

    Examples
    --------
    >>> round(gauge_for_diameter(Ratio(0.5), PascalAbsolute(101325.0)) / 6894.757, 2)
    102.87
    """
    need_positive(share=share, ambient=ambient)
    return PascalGauge(ambient * (1 / share**3 - 1))


def expansion(absolute: PascalAbsolute, ambient: PascalAbsolute) -> Ratio:
    r"""How many times bubbles swell under vacuum.

    .. math:: n = \frac{p_a}{p}

    Plain: n = air pressure ÷ absolute pressure

    Parameters
    ----------
    absolute
        Pressure under the bell, [Pa absolute].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    Ratio
        Volume over the volume in the open, [1].

    Raises
    ------
    OutOfRangeError
        If a pressure is zero or negative.

    Notes
    -----
    Same temperature; vapour of the resin and gas that comes out of it add to this.

    Sources
    -------
    BOYLE

    Examples
    --------
    >>> round(expansion(PascalAbsolute(3119.7), PascalAbsolute(101325.0)), 2)
    32.48
    """
    need_positive(absolute=absolute, ambient=ambient)
    return Ratio(ambient / absolute)


def pore_growth(temp_before: Kelvin, temp_after: Kelvin) -> Ratio:
    r"""Share by which air in wood grows when the wood warms.

    .. math:: g = \frac{T_2}{T_1} - 1

    Plain: growth = T after ÷ T before − 1, T in kelvin

    Parameters
    ----------
    temp_before
        Temperature of the wood when coated, [K].
    temp_after
        Temperature of the wood later, [K].

    Returns
    -------
    Ratio
        Growth of the air as a share of its volume, [1].

    Raises
    ------
    OutOfRangeError
        If a temperature is zero or negative.

    Notes
    -----
    At the same pressure; the air that swells has to come out through the resin.

    Sources
    -------
    GAY-LUSSAC

    Examples
    --------
    >>> round(pore_growth(Kelvin(288.15), Kelvin(308.15)), 4)
    0.0694
    """
    need_positive(temp_before=temp_before, temp_after=temp_after)
    return Ratio(temp_after / temp_before - 1)
