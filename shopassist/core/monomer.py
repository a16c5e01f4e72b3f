"""What of the resin itself boils away under vacuum: methyl methacrylate, and things like it."""

from math import exp, log

from shopassist.core.errors import out_of_range
from shopassist.core.quantities import Kelvin, PascalAbsolute

COLDEST, HOTTEST = 273.15, 373.15
"""The formula's use here, [K]: from a cold shop to the monomer's boiling point at the sea."""


def monomer_pressure(temp: Kelvin) -> PascalAbsolute:
    r"""Pressure under which methyl methacrylate boils.

    .. math:: \ln p = 107.36 - \frac{8085.3}{T} - 12.72 \ln T + 8.3307 \times 10^{-6}\,T^2

    Plain: exp(107.36 - 8085.3 ÷ kelvin - 12.72 × ln(kelvin) + 8.3307e-6 × kelvin²)

    Parameters
    ----------
    temp
        Temperature of the bath, [K].

    Returns
    -------
    PascalAbsolute
        Absolute pressure at which it boils, [Pa absolute].

    Raises
    ------
    OutOfRangeError
        If the temperature lies outside 0 °C to 100 °C.

    Notes
    -----
    Of the pure monomer; a resin that is only partly monomer boils a little deeper. Other makers'
    resins of low volatility do not boil here at all.

    Sources
    -------
    MMA-VAPOUR

    Examples
    --------
    >>> round(monomer_pressure(Kelvin(293.15)) / 133.322, 1)
    28.3
    """
    if not COLDEST <= temp <= HOTTEST:
        raise out_of_range("temp", "The monomer's line holds from 0 °C to 100 °C.")
    return PascalAbsolute(exp(107.36 - 8085.3 / temp - 12.72 * log(temp) + 8.3307e-6 * temp**2))
