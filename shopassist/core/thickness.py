"""Self-heating of a layer that loses its warmth through itself."""

from math import sqrt

from shopassist.core.bounds import need_positive
from shopassist.core.quantities import (
    GAS_CONSTANT,
    JoulePerKilogramKelvin,
    JoulePerMole,
    Kelvin,
    KelvinDelta,
    KilogramPerCubicMetre,
    Metre,
    PerSecond,
    Ratio,
    Second,
    SquareMetrePerSecond,
    WattPerMetreKelvin,
)

CRITICAL_SLAB = Ratio(0.878)
CRITICAL_CYLINDER = Ratio(2.0)
CRITICAL_SPHERE = Ratio(3.322)
"""Frank-Kamenetskii's critical values; the slab's length is half its thickness."""


def diffusivity(
    conductivity: WattPerMetreKelvin,
    density: KilogramPerCubicMetre,
    capacity: JoulePerKilogramKelvin,
) -> SquareMetrePerSecond:
    r"""How fast warmth spreads through the resin.

    .. math:: a = \frac{k}{\rho c_p}

    Plain: diffusivity = conductivity ÷ (density × heat capacity)

    Parameters
    ----------
    conductivity
        Conductivity, [W/(m K)].
    density
        Density, [kg/m3].
    capacity
        Heat capacity, [J/(kg K)].

    Returns
    -------
    SquareMetrePerSecond
        Thermal diffusivity, [m2/s].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    For liquid resin at rest; stirring and convection carry more.

    Sources
    -------
    FRANK-KAMENETSKII

    Examples
    --------
    >>> heavy, warm = KilogramPerCubicMetre(1100.0), JoulePerKilogramKelvin(1800.0)
    >>> round(diffusivity(WattPerMetreKelvin(0.2), heavy, warm) * 1e7, 2)
    1.01
    """
    need_positive(conductivity=conductivity, density=density, capacity=capacity)
    return SquareMetrePerSecond(conductivity / (density * capacity))


def conduction_time(depth: Metre, spreading: SquareMetrePerSecond) -> Second:
    r"""Time that warmth takes through a depth.

    .. math:: t = \frac{L^2}{a}

    Plain: time = depth² ÷ diffusivity

    Parameters
    ----------
    depth
        Depth, [m].
    spreading
        Thermal diffusivity, [m2/s].

    Returns
    -------
    Second
        Order of the time, [s].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    An order of size: twice the depth takes four times as long.

    Sources
    -------
    FRANK-KAMENETSKII

    Examples
    --------
    >>> round(conduction_time(Metre(0.025), SquareMetrePerSecond(1.0101e-7)) / 60)
    103
    """
    need_positive(depth=depth, spreading=spreading)
    return Second(depth**2 / spreading)


def layer_number(
    rise: KelvinDelta,
    rate: PerSecond,
    length: Metre,
    spreading: SquareMetrePerSecond,
    energy: JoulePerMole,
    temp: Kelvin,
) -> Ratio:
    r"""How near a layer is to running away, heat lost through itself.

    .. math:: \delta = \frac{\Delta T\, r\, L^2}{a}\,\frac{E_a}{R T^2}

    Plain: index = rise × fastest rate × length² ÷ diffusivity × activation energy ÷ (R × T²)

    Parameters
    ----------
    rise
        Adiabatic rise, [K difference].
    rate
        Fastest conversion at this temperature, [1/s].
    length
        Half thickness with both faces cool, the full one over an insulated floor; radius of a
        cylinder or a sphere, [m].
    spreading
        Thermal diffusivity, [m2/s].
    energy
        Activation energy, [J/mol].
    temp
        Temperature of resin and faces, [K].

    Returns
    -------
    Ratio
        Frank-Kamenetskii's number, critical at 0.88, 2.00 and 3.32 for slab, cylinder and
        sphere, [1].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    Faces held at one temperature; air cools less than that. Consumption is not counted.

    Sources
    -------
    FRANK-KAMENETSKII

    Examples
    --------
    >>> rise, rate, spread = KelvinDelta(222.22), PerSecond(1.715e-5), SquareMetrePerSecond(1.01e-7)
    >>> half, energy = Metre(0.01737), JoulePerMole(57e3)
    >>> round(layer_number(rise, rate, half, spread, energy, Kelvin(298.15)), 2)
    0.88
    """
    need_positive(rise=rise, rate=rate, length=length, spreading=spreading)
    need_positive(energy=energy, temp=temp)
    return Ratio(rise * rate * length**2 / spreading * energy / (GAS_CONSTANT * temp**2))


def critical_length(
    critical: Ratio,
    heating: PerSecond,
    spreading: SquareMetrePerSecond,
    energy: JoulePerMole,
    temp: Kelvin,
) -> Metre:
    r"""Length at which a layer's index is critical.

    .. math:: L = \sqrt{\delta_c \frac{a R T}{q E_a}},\quad q = \frac{\Delta T\, r}{T}

    Plain: length = √(critical value × diffusivity × R × T ÷ (heating × activation energy))

    Parameters
    ----------
    critical
        Critical value of the shape, [1].
    heating
        Adiabatic rise × fastest rate ÷ temperature: warming as a share each second, [1/s].
    spreading
        Thermal diffusivity, [m2/s].
    energy
        Activation energy, [J/mol].
    temp
        Temperature of resin and faces, [K].

    Returns
    -------
    Metre
        Half thickness of a slab, radius of a cylinder or sphere, [m].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    A screening figure. The sheet's own limit comes first.

    Sources
    -------
    FRANK-KAMENETSKII

    Examples
    --------
    >>> heating = PerSecond(222.22 * 1.715e-5 / 298.15)
    >>> spread, energy = SquareMetrePerSecond(1.0101e-7), JoulePerMole(57e3)
    >>> round(2e3 * critical_length(Ratio(0.878), heating, spread, energy, Kelvin(298.15)), 1)
    34.7
    """
    need_positive(critical=critical, heating=heating, spreading=spreading)
    need_positive(energy=energy, temp=temp)
    return Metre(sqrt(critical * spreading * GAS_CONSTANT * temp / (heating * energy)))
