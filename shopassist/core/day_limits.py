"""The sheet's limits at today's warmth: scaled downward only."""

from math import sqrt

from shopassist.core.bounds import need_positive
from shopassist.core.quantities import Kelvin, Kilogram, Metre, Ratio


def depth_limit(limit: Metre, limit_at: Kelvin, temp: Kelvin, rate: Ratio) -> Metre:
    r"""Deepest layer today: the sheet's limit, scaled downward only.

    .. math:: h = h_0 \min\left(1,\ \frac{T}{T_0}\frac{1}{\sqrt{r}}\right)

    Plain: deepest = sheet's limit × (T ÷ T of the sheet) ÷ √(how much faster), never more than it

    Parameters
    ----------
    limit
        Deepest layer of the sheet, [m].
    limit_at
        Temperature that the sheet gives it for, [K].
    temp
        Temperature of the resin today, [K].
    rate
        Cure rate today over the rate at the sheet's temperature, [1].

    Returns
    -------
    Metre
        Deepest layer today, [m].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    Keeps the Frank-Kamenetskii number of the sheet's own limit. A cold shop is no credit: below
    the sheet's temperature the sheet's limit stands.

    Sources
    -------
    CASTING-LIMIT
    FRANK-KAMENETSKII

    Examples
    --------
    >>> round(depth_limit(Metre(0.05), Kelvin(296.15), Kelvin(303.15), Ratio(1.6752)) * 1e3, 1)
    39.5
    """
    need_positive(limit=limit, limit_at=limit_at, temp=temp, rate=rate)
    if temp <= limit_at:
        return limit
    return Metre(limit * min(1.0, temp / limit_at / sqrt(rate)))


def mass_limit(limit: Kilogram, limit_at: Kelvin, temp: Kelvin, rate: Ratio) -> Kilogram:
    r"""Most mass in one cup today: the sheet's limit, scaled downward only.

    .. math:: m = m_0 \left(\frac{h}{h_0}\right)^3

    Plain: most = sheet's limit × (today's share of the depth limit)³

    Parameters
    ----------
    limit
        Most mass in one cup by the sheet, [kg].
    limit_at
        Temperature that the sheet gives it for, [K].
    temp
        Temperature of the resin today, [K].
    rate
        Cure rate today over the rate at the sheet's temperature, [1].

    Returns
    -------
    Kilogram
        Most mass in one cup today, [kg].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    A cup is taken to shrink alike in all three directions, as the depth does. Where a cup loses
    its heat to still air rather than through itself the limit falls faster than this.

    Sources
    -------
    CASTING-LIMIT
    OWN

    Examples
    --------
    >>> round(mass_limit(Kilogram(0.15), Kelvin(296.15), Kelvin(303.15), Ratio(1.6752)) * 1e3)
    74
    """
    need_positive(limit=limit)
    share = depth_limit(Metre(1.0), limit_at, temp, rate)
    return Kilogram(limit * share**3)


def mixed_temperature(mass_a: Kilogram, temp_a: Kelvin, mass_b: Kilogram, temp_b: Kelvin) -> Kelvin:
    r"""Temperature just after two parts are put together.

    .. math:: T = \frac{m_A T_A + m_B T_B}{m_A + m_B}

    Plain: mean of both temperatures, each weighed by its mass

    Parameters
    ----------
    mass_a
        Mass of part A, [kg].
    temp_a
        Temperature of part A, [K].
    mass_b
        Mass of part B, [kg].
    temp_b
        Temperature of part B, [K].

    Returns
    -------
    Kelvin
        Temperature before the reaction adds heat, [K].

    Raises
    ------
    OutOfRangeError
        If a mass or a temperature is zero or negative.

    Notes
    -----
    Both parts are taken to hold the same heat per gram; the cup's own heat is left out.

    Sources
    -------
    OWN

    Examples
    --------
    >>> cold, warm = Kelvin(291.15), Kelvin(323.15)
    >>> round(mixed_temperature(Kilogram(0.1), warm, Kilogram(0.044), cold) - 273.15, 1)
    40.2
    """
    need_positive(mass_a=mass_a, temp_a=temp_a, mass_b=mass_b, temp_b=temp_b)
    return Kelvin((mass_a * temp_a + mass_b * temp_b) / (mass_a + mass_b))
