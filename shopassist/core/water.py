"""Water as a measure of volume."""

from shopassist.core.bounds import need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.quantities import (
    ZERO_CELSIUS,
    CubicMetre,
    Kelvin,
    Kilogram,
    KilogramPerCubicMetre,
)

WARMEST = Kelvin(ZERO_CELSIUS + 40.0)
"""The density formula holds up to here."""


def water_density(temp: Kelvin) -> KilogramPerCubicMetre:
    r"""Density of clean water.

    .. math:: \rho = a_5\left[1 - \frac{(t + a_1)^2 (t + a_2)}{a_3 (t + a_4)}\right]

    Plain: density of water at its temperature, by the table of the metrologists

    Parameters
    ----------
    temp
        Temperature of the water, [K].

    Returns
    -------
    KilogramPerCubicMetre
        Density at atmospheric pressure, [kg/m3].

    Raises
    ------
    OutOfRangeError
        If the water would be frozen or is warmer than 40 °C.

    Notes
    -----
    For air-free pure water; tap water differs by less than 0.1 %. Valid 0 °C to 40 °C.

    Sources
    -------
    TANAKA-2001

    Examples
    --------
    >>> round(water_density(Kelvin(293.15)), 2)
    998.21
    """
    t = temp - ZERO_CELSIUS
    if not 0.0 <= t <= WARMEST - ZERO_CELSIUS:
        raise out_of_range("temp", "Measure with water between 0 °C and 40 °C.")
    share = (t - 3.983035) ** 2 * (t + 301.797) / (522528.9 * (t + 69.34881))
    return KilogramPerCubicMetre(999.974950 * (1 - share))


def water_volume(mass: Kilogram, temp: Kelvin) -> CubicMetre:
    r"""Volume of weighed water.

    .. math:: V = \frac{m}{\rho(T)}

    Plain: volume = mass of the water ÷ its density at its temperature

    Parameters
    ----------
    mass
        Mass of the water alone, [kg].
    temp
        Temperature of the water, [K].

    Returns
    -------
    CubicMetre
        Volume that the water takes up, [m3].

    Raises
    ------
    OutOfRangeError
        If there is no water or its temperature is out of range.

    Notes
    -----
    The lift of air on the water, about 0.1 %, is left out. Dry the mould before resin goes in.

    Sources
    -------
    TANAKA-2001

    Examples
    --------
    >>> round(water_volume(Kilogram(0.030), Kelvin(293.15)) * 1e6, 2)
    30.05
    """
    need_positive(mass=mass)
    return CubicMetre(mass / water_density(temp))
