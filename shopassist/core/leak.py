"""A gauge that falls: how much is cold, how much is leak, and where it will end."""

from math import exp, log

from shopassist.core.bounds import need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.gas import sealed_gauge
from shopassist.core.quantities import (
    CubicMetre,
    CubicMetrePerSecond,
    Kelvin,
    PascalAbsolute,
    PascalDelta,
    PascalGauge,
    Second,
)


def explained_fall(
    gauge: PascalGauge, temp_before: Kelvin, temp_after: Kelvin, ambient: PascalAbsolute
) -> PascalDelta:
    r"""Fall of the gauge that cooling alone explains; negative where it warmed.

    .. math:: \Delta p = (p_1 + p_a)\left(1 - \frac{T_2}{T_1}\right)

    Plain: fall by cold = (gauge + air pressure) × (1 − T after ÷ T before)

    Parameters
    ----------
    gauge
        Gauge pressure at the first reading, [Pa gauge].
    temp_before
        Temperature inside at the first reading, [K].
    temp_after
        Temperature inside at the second reading, [K].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    PascalDelta
        Fall without any air lost, [Pa difference].

    Raises
    ------
    OutOfRangeError
        If a temperature or an absolute pressure is zero or negative.

    Notes
    -----
    For the air inside; weather adds up to 0.02 bar either way.

    Sources
    -------
    GAY-LUSSAC

    Examples
    --------
    >>> psi, sea = 6894.757, PascalAbsolute(101325.0)
    >>> fall = explained_fall(PascalGauge(50 * psi), Kelvin(298.15), Kelvin(283.15), sea)
    >>> round(fall / psi, 2)
    3.25
    """
    return PascalDelta(gauge - sealed_gauge(gauge, temp_before, temp_after, ambient))


def unexplained_fall(
    gauge_before: PascalGauge,
    temp_before: Kelvin,
    gauge_after: PascalGauge,
    temp_after: Kelvin,
    ambient: PascalAbsolute,
) -> PascalDelta:
    r"""Fall of the gauge that cooling does not explain: the leak.

    .. math:: \Delta p = (p_1 + p_a)\frac{T_2}{T_1} - p_a - p_2

    Plain: leak = what the gauge would show without a leak − what it shows

    Parameters
    ----------
    gauge_before
        Gauge pressure at the first reading, [Pa gauge].
    temp_before
        Temperature inside at the first reading, [K].
    gauge_after
        Gauge pressure at the second reading, [Pa gauge].
    temp_after
        Temperature inside at the second reading, [K].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    PascalDelta
        Fall by lost air; negative where air was added, [Pa difference].

    Raises
    ------
    OutOfRangeError
        If a temperature or an absolute pressure is zero or negative.

    Notes
    -----
    Only as good as both temperatures: 1 K is worth 0.02 bar at 5 bar.

    Sources
    -------
    LEAK-BY-DECAY

    Examples
    --------
    >>> psi, sea = 6894.757, PascalAbsolute(101325.0)
    >>> first, second = PascalGauge(60 * psi), PascalGauge(58.5 * psi)
    >>> fall = unexplained_fall(first, Kelvin(297.15), second, Kelvin(293.15), sea)
    >>> round(fall / psi, 2)
    0.49
    """
    return PascalDelta(sealed_gauge(gauge_before, temp_before, temp_after, ambient) - gauge_after)


def free_air_lost(
    fall: PascalDelta, volume: CubicMetre, time: Second, ambient: PascalAbsolute
) -> CubicMetrePerSecond:
    r"""Leak as air in the open, each second.

    .. math:: q = \frac{V\,\Delta p}{p_a\, t}

    Plain: leak = volume × unexplained fall ÷ (air pressure × time)

    Parameters
    ----------
    fall
        Unexplained fall, [Pa difference].
    volume
        Volume of air in the pot, [m3].
    time
        Time between both readings, [s].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    CubicMetrePerSecond
        Air lost, measured at the air pressure of the place, [m3/s].

    Raises
    ------
    OutOfRangeError
        If a volume, a time or the air pressure is zero or negative.

    Notes
    -----
    Give the fall after temperature. At the temperature of the pot.

    Sources
    -------
    LEAK-BY-DECAY

    Examples
    --------
    >>> gallon, sea = CubicMetre(0.0378541), PascalAbsolute(101325.0)
    >>> round(free_air_lost(PascalDelta(6894.757), gallon, Second(600.0), sea) * 6e7, 1)
    257.6
    """
    need_positive(volume=volume, time=time, ambient=ambient)
    return CubicMetrePerSecond(fall * volume / (ambient * time))


def leak_time(gauge_before: PascalGauge, gauge_after: PascalGauge, time: Second) -> Second:
    r"""Time constant of a leak: when about a third of the gauge pressure is left.

    .. math:: \tau = \frac{t}{\ln(p_1/p_2)}

    Plain: time constant = time ÷ ln(first reading ÷ second reading)

    Parameters
    ----------
    gauge_before
        First reading, [Pa gauge].
    gauge_after
        Second reading, at the same temperature, [Pa gauge].
    time
        Time between them, [s].

    Returns
    -------
    Second
        Time constant, [s].

    Raises
    ------
    OutOfRangeError
        If a reading or the time is zero or negative, or the gauge has not fallen.

    Notes
    -----
    Both readings at one temperature: correct the second for temperature first.

    Sources
    -------
    DECAY-FORECAST

    Examples
    --------
    >>> psi = 6894.757
    >>> round(leak_time(PascalGauge(50 * psi), PascalGauge(47 * psi), Second(3600.0)) / 3600, 1)
    16.2
    """
    need_positive(gauge_before=gauge_before, gauge_after=gauge_after, time=time)
    if gauge_after >= gauge_before:
        raise out_of_range("gauge_after", "The gauge has not fallen: there is no leak to forecast.")
    return Second(time / log(gauge_before / gauge_after))


def gauge_later(gauge: PascalGauge, leak_time: Second, time: Second) -> PascalGauge:
    r"""What a leaking pot will show later, if the leak eases as it empties.

    .. math:: p = p_1 e^{-t/\tau}

    Plain: later = now × e^(−time ÷ time constant)

    Parameters
    ----------
    gauge
        Gauge pressure now, [Pa gauge].
    leak_time
        Time constant of the leak, [s].
    time
        How much later, [s].

    Returns
    -------
    PascalGauge
        Gauge pressure then, [Pa gauge].

    Raises
    ------
    OutOfRangeError
        If the time constant is zero or negative.

    Notes
    -----
    Shown beside the straight line, which falls faster; the truth mostly lies between.

    Sources
    -------
    DECAY-FORECAST

    Examples
    --------
    >>> psi, hour = 6894.757, 3600.0
    >>> round(gauge_later(PascalGauge(50 * psi), Second(16.16 * hour), Second(8 * hour)) / psi, 1)
    30.5
    """
    need_positive(leak_time=leak_time)
    return PascalGauge(gauge * exp(-time / leak_time))


def gauge_later_straight(
    gauge_before: PascalGauge, gauge_after: PascalGauge, between: Second, time: Second
) -> PascalGauge:
    r"""What a leaking pot will show later, if it goes on falling as fast as it did.

    .. math:: p = \max\left(0,\ p_2 - \frac{p_1 - p_2}{t_{12}}\,t\right)

    Plain: later = second reading − (first − second) ÷ time between × time, never under nothing

    Parameters
    ----------
    gauge_before
        First reading, [Pa gauge].
    gauge_after
        Second reading, at the same temperature, [Pa gauge].
    between
        Time between them, [s].
    time
        How long after the second reading, [s].

    Returns
    -------
    PascalGauge
        Gauge pressure then, [Pa gauge].

    Raises
    ------
    OutOfRangeError
        If the time between is zero or negative.

    Notes
    -----
    The cautious forecast: no leak from a pot gets faster as it empties.

    Sources
    -------
    DECAY-FORECAST

    Examples
    --------
    >>> psi, hour = 6894.757, 3600.0
    >>> first, second = PascalGauge(50 * psi), PascalGauge(47 * psi)
    >>> round(gauge_later_straight(first, second, Second(hour), Second(7 * hour)) / psi)
    26
    """
    need_positive(between=between)
    fall = (gauge_before - gauge_after) / between
    return PascalGauge(max(0.0, gauge_after - fall * time))


def isolated_gauge(
    gauge: PascalGauge, fall_per_second: PascalDelta, time: Second, ambient: PascalAbsolute
) -> PascalGauge:
    r"""What a shut pot shows later whose leak goes with its absolute pressure.

    .. math:: p = (p_1 + p_a)\, e^{-t\,\dot p/(p_1 + p_a)} - p_a

    Plain: later = p × e^(−time × fall each second ÷ p) − air pressure, p = now + air pressure

    Parameters
    ----------
    gauge
        Gauge pressure now, [Pa gauge].
    fall_per_second
        Fall of the gauge in one second, [Pa difference].
    time
        How much later, [s].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    PascalGauge
        Gauge pressure then, never under nothing, [Pa gauge].

    Raises
    ------
    OutOfRangeError
        If the absolute pressure is zero or negative.

    Notes
    -----
    For a hole that passes air as fast as sound, as long as the gauge shows 0.9 bar or more.

    Sources
    -------
    DECAY-FORECAST
    GAS-DYNAMICS

    Examples
    --------
    >>> psi, sea = 6894.757, PascalAbsolute(101325.0)
    >>> now, fall = PascalGauge(60 * psi), PascalDelta(psi / 600)
    >>> round(isolated_gauge(now, fall, Second(8 * 3600.0), sea) / psi, 1)
    24.6
    """
    absolute = gauge + ambient
    need_positive(ambient=ambient, gauge=absolute)
    later = absolute * exp(-time * fall_per_second / absolute)
    return PascalGauge(max(0.0, later - ambient))


@frozen
class Crossing:
    """When a leaking pot falls to a pressure: the straight line first, the easing leak later."""

    earliest: Second
    latest: Second


def time_to_fall(
    gauge_before: PascalGauge, gauge_after: PascalGauge, between: Second, limit: PascalGauge
) -> Crossing | None:
    """Time from the second reading until a limit is reached; None where nothing falls."""
    need_positive(limit=limit, between=between)
    if gauge_after >= gauge_before:
        return None
    if gauge_after <= limit:
        return Crossing(Second(0.0), Second(0.0))
    fall = (gauge_before - gauge_after) / between
    easing = leak_time(gauge_before, gauge_after, between) * log(gauge_after / limit)
    return Crossing(Second((gauge_after - limit) / fall), Second(easing))
