"""Filling a pot with air: time, sharing a receiver, and the warmth of a fast fill."""

from shopassist.core.atmosphere import absolute_pressure
from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.quantities import (
    CubicMetre,
    CubicMetrePerSecond,
    Kelvin,
    PascalAbsolute,
    PascalGauge,
    Second,
)

AIR_GAMMA = 1.4
"""Ratio of heat capacities of air; GAS-DYNAMICS."""


def fill_time(
    volume: CubicMetre, gauge: PascalGauge, free_air: CubicMetrePerSecond, ambient: PascalAbsolute
) -> Second:
    r"""Time that a compressor needs to fill a pot.

    .. math:: t = \frac{V p_g}{p_a q}

    Plain: time = volume × gauge pressure ÷ (air pressure × free air each second)

    Parameters
    ----------
    volume
        Volume of air in the pot, [m3].
    gauge
        Gauge pressure to reach, [Pa gauge].
    free_air
        Free air delivered, [m3/s].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    Second
        Time, [s].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    Free air delivered, not displacement, which is often a third to a half more. No receiver.

    Sources
    -------
    MASS-BALANCE

    Examples
    --------
    >>> sea, compressor = PascalAbsolute(101325.0), CubicMetrePerSecond(85e-3 / 60)
    >>> round(fill_time(CubicMetre(0.037854), PascalGauge(413685.4), compressor, sea), 1)
    109.1
    """
    need_positive(volume=volume, gauge=gauge, free_air=free_air, ambient=ambient)
    return Second(volume * gauge / (ambient * free_air))


def shared_gauge(
    volume_one: CubicMetre, gauge_one: PascalGauge, volume_two: CubicMetre, gauge_two: PascalGauge
) -> PascalGauge:
    r"""Pressure of two vessels after they are joined.

    .. math:: p = \frac{p_1 V_1 + p_2 V_2}{V_1 + V_2}

    Plain: gauge = (gauge one × volume one + gauge two × volume two) ÷ both volumes

    Parameters
    ----------
    volume_one
        Volume of the receiver, [m3].
    gauge_one
        Its gauge pressure, [Pa gauge].
    volume_two
        Volume of the pot, [m3].
    gauge_two
        Its gauge pressure, [Pa gauge].

    Returns
    -------
    PascalGauge
        Gauge pressure in both, [Pa gauge].

    Raises
    ------
    OutOfRangeError
        If a volume is zero or negative.

    Notes
    -----
    After both have come to the same temperature again.

    Sources
    -------
    MASS-BALANCE

    Examples
    --------
    >>> receiver, pot = CubicMetre(0.024), CubicMetre(0.010)
    >>> round(shared_gauge(receiver, PascalGauge(8e5), pot, PascalGauge(0.0)) / 1e5, 3)
    5.647
    """
    need_positive(volume_one=volume_one, volume_two=volume_two)
    held = gauge_one * volume_one + gauge_two * volume_two
    return PascalGauge(held / (volume_one + volume_two))


def fast_fill_temperature(temp: Kelvin, gauge: PascalGauge, ambient: PascalAbsolute) -> Kelvin:
    r"""Temperature of the air right after a fast fill from empty.

    .. math:: T = T_1\frac{\gamma\, p}{\gamma\, p_a + p - p_a}

    Plain: hot = T × 1.4 × p ÷ (1.4 × air pressure + p − air pressure), p absolute

    Parameters
    ----------
    temp
        Temperature of the supply and of the pot, [K].
    gauge
        Gauge pressure reached, [Pa gauge].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    Kelvin
        Temperature without any heat lost, [K].

    Raises
    ------
    OutOfRangeError
        If a temperature or an absolute pressure is zero or negative, or the gauge pressure is.

    Notes
    -----
    A bound: walls and mould cool the air. It is why a full pot seems to leak in its first
    minutes.

    Sources
    -------
    MASS-BALANCE

    Examples
    --------
    >>> sea = PascalAbsolute(101325.0)
    >>> round(fast_fill_temperature(Kelvin(293.15), PascalGauge(413685.4), sea), 1)
    380.5
    """
    need_positive(temp=temp)
    need_not_negative(gauge=gauge)
    absolute = absolute_pressure(gauge, ambient)
    return Kelvin(temp * AIR_GAMMA * absolute / (AIR_GAMMA * ambient + absolute - ambient))
