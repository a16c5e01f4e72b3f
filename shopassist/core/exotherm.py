"""Self-heating of a cup that loses its warmth at its surface: an index, never a peak."""

from math import exp, pi

from shopassist.core.bounds import need_positive
from shopassist.core.quantities import (
    GAS_CONSTANT,
    JoulePerKilogram,
    JoulePerKilogramKelvin,
    JoulePerMole,
    Kelvin,
    KelvinDelta,
    Kilogram,
    KilogramPerCubicMetre,
    PerSecond,
    Ratio,
    Second,
    SquareMetre,
    WattPerSquareMetreKelvin,
)

CRITICAL_SEMENOV = Ratio(exp(-1.0))
"""Semenov's critical value without consumption."""


def adiabatic_rise(heat: JoulePerKilogram, capacity: JoulePerKilogramKelvin) -> KelvinDelta:
    r"""Rise of temperature if no heat left at all.

    .. math:: \Delta T = \frac{H}{c_p}

    Plain: rise = heat of reaction ÷ heat capacity

    Parameters
    ----------
    heat
        Heat of reaction, [J/kg].
    capacity
        Heat capacity, [J/(kg K)].

    Returns
    -------
    KelvinDelta
        Greatest rise, for the indices only, [K difference].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    An upper bound that no cup reaches; resin boils and chars below it.

    Sources
    -------
    POLIMEROS-TETA

    Examples
    --------
    >>> round(adiabatic_rise(JoulePerKilogram(486e3), JoulePerKilogramKelvin(1800.0)))
    270
    """
    need_positive(heat=heat, capacity=capacity)
    return KelvinDelta(heat / capacity)


def peak_rate(gel_time: Second) -> PerSecond:
    r"""Fastest conversion at one temperature, from the gel time there.

    .. math:: r = \frac{0.1715 \times 4.376436}{t_{gel}}

    Plain: fastest share converted each second = 0.7506 ÷ gel time of a thin film

    Parameters
    ----------
    gel_time
        Gel time of a thin film at that temperature, [s].

    Returns
    -------
    PerSecond
        Greatest share of the reaction done each second, [1/s].

    Raises
    ------
    OutOfRangeError
        If the time is zero or negative.

    Notes
    -----
    By our reference shape; indicative. A pot life measured in a cup is no thin film's gel time and
    makes this too high.

    Sources
    -------
    REFERENCE-SHAPE

    Examples
    --------
    >>> round(peak_rate(Second(43764.4)) * 1e6, 2)
    17.15
    """
    need_positive(gel_time=gel_time)
    return PerSecond(0.1715 * 4.376436 / gel_time)


def cup_area(mass: Kilogram, density: KilogramPerCubicMetre) -> SquareMetre:
    r"""Surface of a mass that stands as high as it is wide.

    .. math:: A = \tfrac32 \pi d^2,\quad d = \left(\frac{4 m}{\pi \rho}\right)^{1/3}

    Plain: area of a cylinder as high as wide that holds the mass, both ends counted

    Parameters
    ----------
    mass
        Mass in the cup, [kg].
    density
        Density of the mix, [kg/m3].

    Returns
    -------
    SquareMetre
        Area that gives off heat, [m2].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    A cup loses less through its foot; a tray loses more.

    Sources
    -------
    LUMPED-RUNS

    Examples
    --------
    >>> round(cup_area(Kilogram(0.5), KilogramPerCubicMetre(1100.0)), 5)
    0.03273
    """
    need_positive(mass=mass, density=density)
    diameter = (4 * mass / (pi * density)) ** (1 / 3)
    return SquareMetre(1.5 * pi * diameter**2)


def cooling_time(
    mass: Kilogram,
    capacity: JoulePerKilogramKelvin,
    coefficient: WattPerSquareMetreKelvin,
    area: SquareMetre,
) -> Second:
    r"""Time constant with which a cup gives off its heat.

    .. math:: \tau = \frac{m c_p}{h A}

    Plain: time constant = mass × heat capacity ÷ (surface coefficient × area)

    Parameters
    ----------
    mass
        Mass in the cup, [kg].
    capacity
        Heat capacity, [J/(kg K)].
    coefficient
        Heat given off by the surface, [W/(m2 K)].
    area
        Area that gives off heat, [m2].

    Returns
    -------
    Second
        Time constant, [s].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    For one even temperature inside; the middle of a deep cup runs hotter. The cup is left out.

    Sources
    -------
    SEMENOV

    Examples
    --------
    >>> area, still_air = SquareMetre(0.0327265), WattPerSquareMetreKelvin(10.0)
    >>> round(cooling_time(Kilogram(0.5), JoulePerKilogramKelvin(1800.0), still_air, area))
    2750
    """
    need_positive(mass=mass, capacity=capacity, coefficient=coefficient, area=area)
    return Second(mass * capacity / (coefficient * area))


def semenov_number(
    rise: KelvinDelta, rate: PerSecond, cooling: Second, energy: JoulePerMole, temp: Kelvin
) -> Ratio:
    r"""How near a cup is to running away, heat lost at its surface.

    .. math:: \psi = \Delta T\, r\, \tau\, \frac{E_a}{R T^2}

    Plain: index = rise × fastest rate × cooling time × activation energy ÷ (R × T²)

    Parameters
    ----------
    rise
        Adiabatic rise, [K difference].
    rate
        Fastest conversion at this temperature, [1/s].
    cooling
        Time constant of the cup, [s].
    energy
        Activation energy, [J/mol].
    temp
        Temperature of resin and room, [K].

    Returns
    -------
    Ratio
        Semenov's number; 0.37 is critical in theory, [1].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    One even temperature, no cup, no wood; consumption of the resin is not counted.

    Sources
    -------
    SEMENOV
    LUMPED-RUNS

    Examples
    --------
    >>> rise, rate, energy = KelvinDelta(222.22), PerSecond(1.715e-5), JoulePerMole(57e3)
    >>> round(semenov_number(rise, rate, Second(1276.5), energy, Kelvin(298.15)), 3)
    0.375
    """
    need_positive(rise=rise, rate=rate, cooling=cooling, energy=energy, temp=temp)
    return Ratio(rise * rate * cooling * energy / (GAS_CONSTANT * temp**2))
