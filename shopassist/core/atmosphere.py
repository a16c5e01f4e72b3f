"""Air pressure by elevation, and pressures counted from it or from nothing."""

from math import isfinite

from shopassist.core.bounds import need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.quantities import (
    Metre,
    PascalAbsolute,
    PascalGauge,
    PascalVacuum,
    Ratio,
)

SEA_LEVEL = PascalAbsolute(101_325.0)
"""Standard air pressure at sea level, [Pa absolute]; US-STD-ATM-1976."""
SEA_LEVEL_TEMPERATURE = 288.15
"""Standard temperature at sea level, [K]; US-STD-ATM-1976."""
LAPSE = 0.0065
"""Standard fall of temperature with height, [K/m]; US-STD-ATM-1976."""
EXPONENT = 9.80665 * 28.9644e-3 / (8.31432 * LAPSE)
"""g0 M / (R* L) with that standard's own gas constant, 5.25588."""
EARTH_RADIUS = 6_356_766.0
"""Radius used for geopotential height, [m]; US-STD-ATM-1976."""
LOWEST, HIGHEST = -430.0, 11_000.0
"""Elevations that the formula is used for, [m]."""


def geopotential_height(elevation: Metre) -> Metre:
    r"""Geopotential height of an elevation on the map.

    .. math:: H = \frac{r_0 Z}{r_0 + Z}

    Plain: H = r × Z ÷ (r + Z), r = 6 356 766 m

    Parameters
    ----------
    elevation
        Height above sea level, geometric, [m].

    Returns
    -------
    Metre
        Height with gravity taken as the same all the way up, [m].

    Raises
    ------
    OutOfRangeError
        If the elevation is outside -430 m to 11 000 m.

    Notes
    -----
    Differs from the elevation by 0.5 m at 1800 m.

    Sources
    -------
    US-STD-ATM-1976

    Examples
    --------
    >>> round(geopotential_height(Metre(3000.0)), 1)
    2998.6
    """
    _need_elevation(elevation)
    return Metre(EARTH_RADIUS * elevation / (EARTH_RADIUS + elevation))


def _need_elevation(elevation: float) -> None:
    if not (isfinite(elevation) and LOWEST <= elevation <= HIGHEST):
        raise out_of_range("elevation", "Give the height above sea level of your shop, in land.")


def air_pressure(elevation: Metre) -> PascalAbsolute:
    r"""Air pressure at an elevation on a standard day.

    .. math:: p = p_0 \left(1 - \frac{L H}{T_0}\right)^{5.25588}

    Plain: p = 101 325 Pa × (1 − 0.0065 × H ÷ 288.15)^5.25588, H the geopotential height

    Parameters
    ----------
    elevation
        Height above sea level, geometric, [m].

    Returns
    -------
    PascalAbsolute
        Standard air pressure there, [Pa absolute].

    Raises
    ------
    OutOfRangeError
        If the elevation is outside -430 m to 11 000 m.

    Notes
    -----
    Weather moves the true pressure by about 3 % either way. The elevation is geometric, as on a
    map.

    Sources
    -------
    US-STD-ATM-1976

    Examples
    --------
    >>> round(air_pressure(Metre(1000.0)))
    89876
    """
    height = geopotential_height(elevation)
    return PascalAbsolute(SEA_LEVEL * (1 - LAPSE * height / SEA_LEVEL_TEMPERATURE) ** EXPONENT)


def absolute_pressure(gauge: PascalGauge, ambient: PascalAbsolute) -> PascalAbsolute:
    r"""Pressure from nothing, of a gauge that counts from the air.

    .. math:: p = p_g + p_a

    Plain: absolute = gauge + air pressure

    Parameters
    ----------
    gauge
        What the gauge shows, [Pa gauge].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    PascalAbsolute
        Absolute pressure, [Pa absolute].

    Raises
    ------
    OutOfRangeError
        If the result would not be above nothing.

    Notes
    -----
    The air pressure of the place, not of sea level.

    Sources
    -------
    PRESSURE-TERMS

    Examples
    --------
    >>> round(absolute_pressure(PascalGauge(413685.4), SEA_LEVEL))
    515010
    """
    absolute = gauge + ambient
    need_positive(ambient=ambient, gauge=absolute)
    return PascalAbsolute(absolute)


def gauge_pressure(absolute: PascalAbsolute, ambient: PascalAbsolute) -> PascalGauge:
    r"""What a gauge that counts from the air shows.

    .. math:: p_g = p - p_a

    Plain: gauge = absolute − air pressure

    Parameters
    ----------
    absolute
        Absolute pressure, [Pa absolute].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    PascalGauge
        Gauge pressure, negative under vacuum, [Pa gauge].

    Raises
    ------
    OutOfRangeError
        If a pressure is zero or negative.

    Notes
    -----
    The air pressure of the place, not of sea level.

    Sources
    -------
    PRESSURE-TERMS

    Examples
    --------
    >>> round(gauge_pressure(PascalAbsolute(515010.4), SEA_LEVEL))
    413685
    """
    need_positive(absolute=absolute, ambient=ambient)
    return PascalGauge(absolute - ambient)


def absolute_of_vacuum(vacuum: PascalVacuum, ambient: PascalAbsolute) -> PascalAbsolute:
    r"""Pressure that is left where a vacuum gauge shows so much.

    .. math:: p = p_a - v

    Plain: absolute = air pressure − vacuum shown

    Parameters
    ----------
    vacuum
        What the vacuum gauge shows below the air, [Pa below ambient].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    PascalAbsolute
        Absolute pressure, [Pa absolute].

    Raises
    ------
    OutOfRangeError
        If the gauge shows more than the air pressure of the place.

    Notes
    -----
    A dial that reads higher than that is off, or the elevation is.

    Sources
    -------
    PRESSURE-TERMS

    Examples
    --------
    >>> round(absolute_of_vacuum(PascalVacuum(94818.9), SEA_LEVEL))
    6506
    """
    need_positive(ambient=ambient)
    if vacuum >= ambient:
        raise out_of_range("vacuum", "No pump can pull more than the air pressure of the place.")
    return PascalAbsolute(ambient - vacuum)


def vacuum_of_absolute(absolute: PascalAbsolute, ambient: PascalAbsolute) -> PascalVacuum:
    r"""What a vacuum gauge must show for an absolute pressure.

    .. math:: v = p_a - p

    Plain: vacuum shown = air pressure − absolute

    Parameters
    ----------
    absolute
        Absolute pressure that is wanted, [Pa absolute].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    PascalVacuum
        Reading below the air pressure of the place, [Pa below ambient].

    Raises
    ------
    OutOfRangeError
        If a pressure is negative, or the wanted one above the air pressure.

    Notes
    -----
    The same absolute pressure asks for less on the dial the higher the shop lies.

    Sources
    -------
    PRESSURE-TERMS

    Examples
    --------
    >>> round(vacuum_of_absolute(PascalAbsolute(6506.0), PascalAbsolute(84560.0)) / 3386.389, 2)
    23.05
    """
    need_positive(absolute=absolute, ambient=ambient)
    if absolute > ambient:
        raise out_of_range("absolute", "This is above the air pressure of the place.")
    return PascalVacuum(ambient - absolute)


def pressure_ratio(gauge: PascalGauge, ambient: PascalAbsolute) -> Ratio:
    r"""How many times the air pressure a gauge pressure is.

    .. math:: n = \frac{p_g + p_a}{p_a}

    Plain: n = (gauge + air pressure) ÷ air pressure

    Parameters
    ----------
    gauge
        What the gauge shows, [Pa gauge].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    Ratio
        Absolute pressure over air pressure, [1].

    Raises
    ------
    OutOfRangeError
        If the result would not be above nothing.

    Notes
    -----
    The same gauge pressure is worth a little more in the mountains.

    Sources
    -------
    PRESSURE-TERMS

    Examples
    --------
    >>> round(pressure_ratio(PascalGauge(413685.4), SEA_LEVEL), 3)
    5.083
    """
    return Ratio(absolute_pressure(gauge, ambient) / ambient)
