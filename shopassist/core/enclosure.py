"""Heat through the walls of a heated box: films, layers, loss, duty of the heater."""

from math import sqrt

from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.quantities import (
    JoulePerKelvin,
    Kelvin,
    KelvinDelta,
    Metre,
    Ratio,
    Second,
    SquareMetre,
    Watt,
    WattPerKelvin,
    WattPerMetreKelvin,
    WattPerSquareMetreKelvin,
)

STEFAN_BOLTZMANN = 5.670374419e-8
"""[W/(m2 K4)]; exact product of SI constants, CODATA 2018."""


@frozen
class Layer:
    """One layer of a wall."""

    thickness: Metre
    conductivity: WattPerMetreKelvin


def surface_film(
    emissivity: Ratio, convection: WattPerSquareMetreKelvin, temp: Kelvin
) -> WattPerSquareMetreKelvin:
    r"""Heat that passes between a surface and the still air and walls it faces.

    .. math:: h = h_c + 4 \varepsilon \sigma T^3

    Plain: film = moving air + 4 × emissivity × radiation constant × T³, T in kelvin

    Parameters
    ----------
    emissivity
        Emissivity of the surface: bright foil 0.05, wood and paint 0.9, [1].
    convection
        Part of the moving air: 2.5 upright, 5 upward, 0.7 downward, [W/(m2 K)].
    temp
        Mean temperature there, [K].

    Returns
    -------
    WattPerSquareMetreKelvin
        Film, the inverse of the surface resistance, [W/(m2 K)].

    Raises
    ------
    OutOfRangeError
        If the temperature or the moving air's part is not positive, the emissivity beyond 0 to 1.

    Notes
    -----
    Foil counts only where it faces air; glued between two boards it does nothing.

    Sources
    -------
    ISO6946

    Examples
    --------
    >>> round(1 / surface_film(Ratio(0.05), WattPerSquareMetreKelvin(2.5), Kelvin(318.15)), 3)
    0.349
    """
    need_positive(convection=convection, temp=temp)
    if not 0 <= emissivity <= 1:
        raise out_of_range("emissivity", "Give a share from 0 to 1.")
    return WattPerSquareMetreKelvin(convection + 4 * emissivity * STEFAN_BOLTZMANN * temp**3)


def wall_transmittance(
    layers: tuple[Layer, ...], inner: WattPerSquareMetreKelvin, outer: WattPerSquareMetreKelvin
) -> WattPerSquareMetreKelvin:
    r"""Heat through each square metre of a wall for each degree between the air on both sides.

    .. math:: U = \left(\frac{1}{h_i} + \sum \frac{d}{\lambda} + \frac{1}{h_o}\right)^{-1}

    Plain: 1 ÷ (1 ÷ inner film + thickness ÷ conductivity of each layer + 1 ÷ outer film)

    Parameters
    ----------
    layers
        Layers of the wall.
    inner
        Film inside, [W/(m2 K)].
    outer
        Film outside, [W/(m2 K)].

    Returns
    -------
    WattPerSquareMetreKelvin
        Transmittance U, [W/(m2 K)].

    Raises
    ------
    OutOfRangeError
        If a thickness, conductivity or film is not positive.

    Notes
    -----
    Flat wall without battens, screws or gaps: those are added to the loss as a share.

    Sources
    -------
    ISO6946

    Examples
    --------
    >>> ply = Layer(Metre(0.018), WattPerMetreKelvin(0.13))
    >>> foam = Layer(Metre(0.025), WattPerMetreKelvin(0.036))
    >>> still = WattPerSquareMetreKelvin(1 / 0.13)
    >>> round(wall_transmittance((ply, foam), still, still), 3)
    0.915
    """
    need_positive(inner=inner, outer=outer)
    resistance = 1 / inner + 1 / outer
    for layer in layers:
        need_positive(thickness=layer.thickness, conductivity=layer.conductivity)
        resistance += layer.thickness / layer.conductivity
    return WattPerSquareMetreKelvin(1 / resistance)


def mean_area(width: Metre, depth: Metre, height: Metre, wall: Metre) -> SquareMetre:
    r"""Area that a box loses its heat through: between its inside and its outside.

    .. math:: A = \sqrt{A_{in} A_{out}}

    Plain: area = √(area inside × area outside)

    Parameters
    ----------
    width
        Width inside, [m].
    depth
        Depth inside, [m].
    height
        Height inside, [m].
    wall
        Thickness of the wall, all layers, [m].

    Returns
    -------
    SquareMetre
        Area, [m2].

    Raises
    ------
    OutOfRangeError
        If a length is not positive.

    Notes
    -----
    All six sides alike.

    Sources
    -------
    HEAT-LUMPS

    Examples
    --------
    >>> round(mean_area(Metre(0.45), Metre(0.45), Metre(0.6), Metre(0.043)), 3)
    1.743
    """
    need_positive(width=width, depth=depth, height=height, wall=wall)
    inside = (width, depth, height)
    outside = tuple(side + 2 * wall for side in inside)
    return SquareMetre(sqrt(_faces(*inside) * _faces(*outside)))


def _faces(a: float, b: float, c: float) -> float:
    return 2 * (a * b + b * c + c * a)


def box_loss(
    transmittance: WattPerSquareMetreKelvin, area: SquareMetre, extra: Ratio
) -> WattPerKelvin:
    r"""Heat that a box loses for each degree that it is warmer than the room.

    .. math:: H = U A (1 + x)

    Plain: loss = transmittance × area × (1 + share for gaps and corners)

    Parameters
    ----------
    transmittance
        Transmittance of the wall, [W/(m2 K)].
    area
        Mean area, [m2].
    extra
        Share on top for door gaps, corners and battens, [1].

    Returns
    -------
    WattPerKelvin
        Loss, [W/K].

    Raises
    ------
    OutOfRangeError
        If a value is not positive, or the share is negative.

    Notes
    -----
    A gap at the top and one at the foot together lose far more than their size: measure.

    Sources
    -------
    HEAT-LUMPS

    Examples
    --------
    >>> area = SquareMetre(1.7428)
    >>> round(box_loss(WattPerSquareMetreKelvin(0.915), area, Ratio(0.0)), 3)
    1.595
    """
    need_positive(transmittance=transmittance, area=area)
    need_not_negative(extra=extra)
    return WattPerKelvin(transmittance * area * (1 + extra))


def steady_rise(power: Watt, loss: WattPerKelvin) -> KelvinDelta:
    r"""How much warmer than the room a box stays under a steady heat.

    .. math:: \Delta T = \frac{P}{H}

    Plain: rise = heat ÷ loss

    Parameters
    ----------
    power
        Heat, fan and lamp counted in, [W].
    loss
        Loss of the box, [W/K].

    Returns
    -------
    KelvinDelta
        Rise over the room, [K difference].

    Raises
    ------
    OutOfRangeError
        If a value is not positive.

    Notes
    -----
    Reached after hours; the air is there long before what stands in it.

    Sources
    -------
    HEAT-LUMPS

    Examples
    --------
    >>> round(steady_rise(Watt(33.0), WattPerKelvin(1.5947)), 2)
    20.69
    """
    need_positive(power=power, loss=loss)
    return KelvinDelta(power / loss)


def duty(loss: WattPerKelvin, rise: KelvinDelta, power: Watt) -> Ratio:
    r"""Share of the time that a thermostat keeps the heater on.

    .. math:: D = \frac{H \Delta T}{P}

    Plain: duty = loss × rise ÷ heater

    Parameters
    ----------
    loss
        Loss of the box, [W/K].
    rise
        Rise over the room that is held, [K difference].
    power
        Power of the heater, [W].

    Returns
    -------
    Ratio
        Share of the time; above 1 the heater cannot hold it, [1].

    Raises
    ------
    OutOfRangeError
        If loss or heater is not positive.

    Notes
    -----
    In the long run; the band of the thermostat makes no difference.

    Sources
    -------
    HEAT-LUMPS

    Examples
    --------
    >>> round(duty(WattPerKelvin(1.5947), KelvinDelta(21.0), Watt(100.0)), 3)
    0.335
    """
    need_positive(loss=loss, power=power)
    return Ratio(loss * rise / power)


def cycle_part(capacity: JoulePerKelvin, band: KelvinDelta, flow: Watt) -> Second:
    r"""Time in which a thermostat's air crosses its band under a steady flow of heat.

    .. math:: t = \frac{C\, b}{\dot Q}

    Plain: time = heat capacity of the air and heater × band ÷ flow of heat in or out

    Parameters
    ----------
    capacity
        Heat capacity of air, heater and liner, [J/K].
    band
        Degrees between off and on, [K difference].
    flow
        Heater less loss while on; the loss while off, [W].

    Returns
    -------
    Second
        Time on, or off, [s].

    Raises
    ------
    OutOfRangeError
        If a value is not positive.

    Notes
    -----
    Too short a cycle wears out a relay: widen the band.

    Sources
    -------
    HEAT-LUMPS

    Examples
    --------
    >>> air, band = JoulePerKelvin(2000.0), KelvinDelta(1.0)
    >>> round(cycle_part(air, band, Watt(67.0)), 1), round(cycle_part(air, band, Watt(33.0)), 1)
    (29.9, 60.6)
    """
    need_positive(capacity=capacity, band=band, flow=flow)
    return Second(capacity * band / flow)
