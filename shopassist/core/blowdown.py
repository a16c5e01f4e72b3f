"""Letting air out: flow through a hole, and the factors of how long it takes.

Only ever used to find a vent that is too quick or too slow; never to say that a pot is empty.
"""

from collections.abc import Callable
from math import log, sqrt

from shopassist.core.atmosphere import absolute_pressure
from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.quantities import (
    Kelvin,
    KilogramPerSecond,
    PascalAbsolute,
    PascalGauge,
    Ratio,
    SquareMetre,
)

AIR_GAMMA = 1.4
"""Ratio of heat capacities of air; GAS-DYNAMICS."""
AIR_CONSTANT = 287.05
"""Gas constant of dry air, [J/(kg K)]; GAS-DYNAMICS."""
CRITICAL: float = (2 / (AIR_GAMMA + 1)) ** (AIR_GAMMA / (AIR_GAMMA - 1))
"""Pressure ratio at which the flow reaches the speed of sound, 0.5283."""
CHOKED: float = sqrt(AIR_GAMMA) * (2 / (AIR_GAMMA + 1)) ** ((AIR_GAMMA + 1) / (2 * (AIR_GAMMA - 1)))
"""Flow function at and above it, 0.68473."""
STEPS = 96
"""Even number of steps of the tail's integral; 48 already give five figures."""


def flow_function(ratio: Ratio) -> Ratio:
    r"""How freely air flows out at a ratio of pressures.

    .. math:: \psi = \sqrt{\frac{2\gamma}{\gamma - 1}(r^{2/\gamma} - r^{(\gamma + 1)/\gamma})}

    Plain: ψ = √(7 × (r^1.4286 − r^1.7143)), 0.68473 where r is under 0.5283

    Parameters
    ----------
    ratio
        Pressure outside over pressure inside, absolute, [1].

    Returns
    -------
    Ratio
        Flow function, [1].

    Raises
    ------
    OutOfRangeError
        If the ratio is negative or above 1.

    Notes
    -----
    Ideal air without friction; outside over inside pressure, both absolute.

    Sources
    -------
    GAS-DYNAMICS

    Examples
    --------
    >>> round(flow_function(Ratio(0.5)), 5), round(flow_function(Ratio(0.9)), 4)
    (0.68473, 0.4226)
    """
    if not 0 <= ratio <= 1:
        raise out_of_range("ratio", "The pressure outside must not be above the pressure inside.")
    if ratio <= CRITICAL:
        return Ratio(CHOKED)
    bracket = ratio ** (2 / AIR_GAMMA) - ratio ** ((AIR_GAMMA + 1) / AIR_GAMMA)
    return Ratio(sqrt(2 * AIR_GAMMA / (AIR_GAMMA - 1) * bracket))


def hole_flow(
    area: SquareMetre, gauge: PascalGauge, temp: Kelvin, ambient: PascalAbsolute
) -> KilogramPerSecond:
    r"""Air that leaves through a hole each second.

    .. math:: \dot m = A\,\frac{p\,\psi}{\sqrt{R T}}

    Plain: flow = area × absolute pressure × ψ ÷ √(R × T)

    Parameters
    ----------
    area
        Area of the hole times its discharge coefficient, [m2].
    gauge
        Gauge pressure inside, [Pa gauge].
    temp
        Temperature of the air inside, [K].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    KilogramPerSecond
        Mass of air, [kg/s].

    Raises
    ------
    OutOfRangeError
        If the area or a temperature is zero or negative, or the gauge pressure is negative.

    Notes
    -----
    The area includes the discharge coefficient.

    Sources
    -------
    GAS-DYNAMICS

    Examples
    --------
    >>> hole, sea = SquareMetre(0.8 * 7.0686e-6), PascalAbsolute(101325.0)
    >>> round(hole_flow(hole, PascalGauge(413685.4), Kelvin(293.15), sea) * 1e3, 3)
    6.874
    """
    need_positive(area=area, temp=temp)
    need_not_negative(gauge=gauge)
    absolute = absolute_pressure(gauge, ambient)
    flow = area * absolute * flow_function(Ratio(ambient / absolute)) / sqrt(AIR_CONSTANT * temp)
    return KilogramPerSecond(flow)


def vent_factor_slow(start: PascalGauge, end: PascalGauge, ambient: PascalAbsolute) -> Ratio:
    r"""How long a slow vent takes, in units of volume ÷ (area × speed), no chill.

    .. math:: F = \int_{p_2}^{p_1} \frac{\psi_c}{\psi}\,\frac{dp}{p}

    Plain: F = ln(p1 ÷ p2) while the flow is at the speed of sound, then the slowing tail

    Parameters
    ----------
    start
        Gauge pressure at the start, [Pa gauge].
    end
        Gauge pressure at the end, [Pa gauge].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    Ratio
        Factor, [1].

    Raises
    ------
    OutOfRangeError
        If the end is above the start or a pressure is negative.

    Notes
    -----
    Air kept at its temperature by the walls: the longest that the ideal vent takes. The tail ends
    in the model only.

    Sources
    -------
    GAS-DYNAMICS

    Examples
    --------
    >>> psi, sea = 6894.757, PascalAbsolute(101325.0)
    >>> round(vent_factor_slow(PascalGauge(60 * psi), PascalGauge(psi), sea), 2)
    1.66
    """
    high, low = _ends(start, end, ambient)
    choked_end = min(max(ambient / CRITICAL, low), high)
    tail = _tail(low, choked_end, ambient, _even)
    return Ratio(log(high / choked_end) + tail)


def vent_factor_quick(start: PascalGauge, end: PascalGauge, ambient: PascalAbsolute) -> Ratio:
    r"""How long a quick vent takes, in units of volume ÷ (area × speed), air chilling.

    .. math:: F = \int \frac{\psi_c}{\gamma\,\psi}(p_1/p)^{(\gamma - 1)/2\gamma}\frac{dp}{p}

    Plain: F = 5 × ((p1 ÷ p2)^0.1429 − 1) at the speed of sound, then the slowing tail

    Parameters
    ----------
    start
        Gauge pressure at the start, [Pa gauge].
    end
        Gauge pressure at the end, [Pa gauge].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    Ratio
        Factor, [1].

    Raises
    ------
    OutOfRangeError
        If the end is above the start or a pressure is negative.

    Notes
    -----
    No heat from the walls: the shortest that the ideal vent takes.

    Sources
    -------
    GAS-DYNAMICS

    Examples
    --------
    >>> psi, sea = 6894.757, PascalAbsolute(101325.0)
    >>> round(vent_factor_quick(PascalGauge(60 * psi), PascalGauge(psi), sea), 3)
    1.336
    """
    high, low = _ends(start, end, ambient)
    choked_end = min(max(ambient / CRITICAL, low), high)
    power = (AIR_GAMMA - 1) / (2 * AIR_GAMMA)

    def chilled(pressure: float) -> float:
        return float((high / pressure) ** power) / AIR_GAMMA

    choked = 2 / (AIR_GAMMA - 1) * ((high / choked_end) ** power - 1)
    return Ratio(choked + _tail(low, choked_end, ambient, chilled))


def _ends(start: float, end: float, ambient: float) -> tuple[float, float]:
    need_not_negative(start=start, end=end)
    need_positive(ambient=ambient)
    if end > start:
        raise out_of_range("end", "A vent cannot end above its start.")
    return start + ambient, end + ambient


def _even(_pressure: float) -> float:
    return 1.0


def _tail(low: float, high: float, ambient: float, weight: Callable[[float], float]) -> float:
    """Integrate the part under the speed of sound; p = p_a + u squared takes the root out of it."""
    first, last = sqrt(low - ambient), sqrt(high - ambient)
    if last <= first:
        return 0.0

    def slope(root: float) -> float:
        pressure = ambient + root * root
        if root < 1e-6 * last:
            # the flow function goes as the root itself: the limit of 2 u / psi
            return 2 * sqrt(ambient / 2) * CHOKED * weight(pressure) / pressure
        flow = flow_function(Ratio(ambient / pressure))
        return 2 * root * CHOKED / flow * weight(pressure) / pressure

    width = (last - first) / STEPS
    inner = sum((4 if step % 2 else 2) * slope(first + step * width) for step in range(1, STEPS))
    return (slope(first) + inner + slope(last)) * width / 3
