"""How long a vent takes, its area from a timed run, and what chilled air brings back.

Only ever used to find a vent that is too quick or too slow; never to say that a pot is empty.
"""

from math import sqrt

from shopassist.core.atmosphere import absolute_pressure
from shopassist.core.blowdown import (
    AIR_CONSTANT,
    AIR_GAMMA,
    CHOKED,
    vent_factor_quick,
    vent_factor_slow,
)
from shopassist.core.bounds import need_positive
from shopassist.core.quantities import (
    CubicMetre,
    Kelvin,
    PascalAbsolute,
    PascalGauge,
    Second,
    SquareMetre,
)


def vent_time_slow(
    volume: CubicMetre,
    start: PascalGauge,
    end: PascalGauge,
    area: SquareMetre,
    temp: Kelvin,
    ambient: PascalAbsolute,
) -> Second:
    r"""Longest time that an ideal vent takes.

    .. math:: t = \frac{V F}{A\,\psi_c\sqrt{R T}}

    Plain: time = volume × F ÷ (area × 0.68473 × √(R × T))

    Parameters
    ----------
    volume
        Volume of air in the pot, [m3].
    start
        Gauge pressure at the start, [Pa gauge].
    end
        Gauge pressure at the end, [Pa gauge].
    area
        Area of the hole times its discharge coefficient, [m2].
    temp
        Temperature of the air at the start, [K].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    Second
        Time, [s].

    Raises
    ------
    OutOfRangeError
        If a value is out of range.

    Notes
    -----
    Walls keep the air warm. A real valve, hose or resin in the way takes longer: a fast vent is
    the suspicious one.

    Sources
    -------
    GAS-DYNAMICS

    Examples
    --------
    >>> psi, sea, hole = 6894.757, PascalAbsolute(101325.0), SquareMetre(0.8 * 7.0686e-6)
    >>> full, low, room = PascalGauge(60 * psi), PascalGauge(psi), Kelvin(293.15)
    >>> round(vent_time_slow(CubicMetre(0.010), full, low, hole, room, sea), 1)
    14.8
    """
    need_positive(volume=volume, area=area, temp=temp)
    speed = CHOKED * sqrt(AIR_CONSTANT * temp)
    return Second(volume * vent_factor_slow(start, end, ambient) / (area * speed))


def vent_time_quick(
    volume: CubicMetre,
    start: PascalGauge,
    end: PascalGauge,
    area: SquareMetre,
    temp: Kelvin,
    ambient: PascalAbsolute,
) -> Second:
    r"""Shortest time that an ideal vent takes.

    .. math:: t = \frac{V F}{A\,\psi_c\sqrt{R T}}

    Plain: time = volume × F ÷ (area × 0.68473 × √(R × T)), F with chilling air

    Parameters
    ----------
    volume
        Volume of air in the pot, [m3].
    start
        Gauge pressure at the start, [Pa gauge].
    end
        Gauge pressure at the end, [Pa gauge].
    area
        Area of the hole times its discharge coefficient, [m2].
    temp
        Temperature of the air at the start, [K].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    Second
        Time, [s].

    Raises
    ------
    OutOfRangeError
        If a value is out of range.

    Notes
    -----
    No heat from the walls. Much quicker than this: something other than the pot was emptied.

    Sources
    -------
    GAS-DYNAMICS

    Examples
    --------
    >>> psi, sea, hole = 6894.757, PascalAbsolute(101325.0), SquareMetre(0.8 * 7.0686e-6)
    >>> full, low, room = PascalGauge(60 * psi), PascalGauge(psi), Kelvin(293.15)
    >>> round(vent_time_quick(CubicMetre(0.010), full, low, hole, room, sea), 1)
    11.9
    """
    need_positive(volume=volume, area=area, temp=temp)
    speed = CHOKED * sqrt(AIR_CONSTANT * temp)
    return Second(volume * vent_factor_quick(start, end, ambient) / (area * speed))


def hole_area(
    volume: CubicMetre,
    start: PascalGauge,
    end: PascalGauge,
    time: Second,
    temp: Kelvin,
    ambient: PascalAbsolute,
) -> SquareMetre:
    r"""Area of a vent, discharge coefficient included, from a timed run.

    .. math:: A = \frac{V F}{t\,\psi_c\sqrt{R T}}

    Plain: area = volume × F ÷ (time × 0.68473 × √(R × T))

    Parameters
    ----------
    volume
        Volume of air in the pot, [m3].
    start
        Gauge pressure at the start, [Pa gauge].
    end
        Gauge pressure at the end, [Pa gauge].
    time
        Time taken, [s].
    temp
        Temperature of the air at the start, [K].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    SquareMetre
        Area times discharge coefficient, [m2].

    Raises
    ------
    OutOfRangeError
        If a value is out of range.

    Notes
    -----
    From an empty pot, vent fully open. Air kept at its temperature: a little too large for a
    quick vent.

    Sources
    -------
    GAS-DYNAMICS

    Examples
    --------
    >>> psi, sea = 6894.757, PascalAbsolute(101325.0)
    >>> full, low, room = PascalGauge(60 * psi), PascalGauge(psi), Kelvin(293.15)
    >>> round(hole_area(CubicMetre(0.037854), full, low, Second(70.0), room, sea) * 1e6, 3)
    4.518
    """
    need_positive(volume=volume, time=time, temp=temp)
    speed = CHOKED * sqrt(AIR_CONSTANT * temp)
    return SquareMetre(volume * vent_factor_slow(start, end, ambient) / (time * speed))


def chilled_temperature(temp: Kelvin, start: PascalGauge, ambient: PascalAbsolute) -> Kelvin:
    r"""Coldest that air gets when it is let out without any heat.

    .. math:: T = T_1\left(\frac{p_a}{p_1}\right)^{(\gamma - 1)/\gamma}

    Plain: coldest = T × (air pressure ÷ p)^0.2857

    Parameters
    ----------
    temp
        Temperature at the start, [K].
    start
        Gauge pressure at the start, [Pa gauge].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    Kelvin
        Temperature at the end, [K].

    Raises
    ------
    OutOfRangeError
        If a temperature or an absolute pressure is zero or negative.

    Notes
    -----
    A bound: real air is warmed by the walls. Moisture may freeze in a small vent.

    Sources
    -------
    GAS-DYNAMICS

    Examples
    --------
    >>> sea = PascalAbsolute(101325.0)
    >>> round(chilled_temperature(Kelvin(293.15), PascalGauge(413685.4), sea), 1)
    184.2
    """
    need_positive(temp=temp)
    share = ambient / absolute_pressure(start, ambient)
    return Kelvin(temp * share ** ((AIR_GAMMA - 1) / AIR_GAMMA))


def rebound(temp_cold: Kelvin, temp_warm: Kelvin, ambient: PascalAbsolute) -> PascalGauge:
    r"""Pressure that comes back in a pot whose vent is shut on cold air.

    .. math:: p = p_a\left(\frac{T_2}{T_1} - 1\right)

    Plain: comes back = air pressure × (T warm ÷ T cold − 1)

    Parameters
    ----------
    temp_cold
        Temperature of the air when shut, [K].
    temp_warm
        Temperature later, [K].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    PascalGauge
        Gauge pressure once warm, [Pa gauge].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    Why the vent stays open until the lid is off.

    Sources
    -------
    GAY-LUSSAC

    Examples
    --------
    >>> sea = PascalAbsolute(101325.0)
    >>> round(rebound(Kelvin(263.15), Kelvin(293.15), sea) / 6894.757, 3)
    1.675
    """
    need_positive(temp_cold=temp_cold, temp_warm=temp_warm, ambient=ambient)
    return PascalGauge(ambient * (temp_warm / temp_cold - 1))
