"""How fast the core of a piece follows the air or oven around it: exact series and lumps."""

from math import exp, log

from shopassist.core.bounds import need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.heat_series import FIXED, cylinder_share, root_between, slab_share
from shopassist.core.quantities import (
    JoulePerKilogramKelvin,
    Kelvin,
    KilogramPerCubicMetre,
    Metre,
    Ratio,
    Second,
    SquareMetrePerSecond,
    WattPerMetreKelvin,
    WattPerSquareMetreKelvin,
)


@frozen
class Piece:
    """A round or square piece, long or short, as the product of simple shapes."""

    conductivity: WattPerMetreKelvin
    diffusivity: SquareMetrePerSecond
    diameter: Metre | None = None
    """Of a round piece; None for a board or a square bar."""
    sides: tuple[Metre, ...] = ()
    """Thicknesses between flat faces: the length of a short cylinder, both sides of a bar."""
    film: WattPerSquareMetreKelvin | None = None
    """Heat through the surface; None where the surface takes the warmth around it at once."""


def core_temperature(piece: Piece, start: Kelvin, around: Kelvin, time: Second) -> Kelvin:
    r"""Temperature in the middle of a piece some time after it went into other surroundings.

    .. math:: T = T_\infty + (T_0 - T_\infty)\,\theta_{round}\,\theta_{flat}\ldots

    Plain: around + (start − around) × share left between each pair of faces, multiplied

    Parameters
    ----------
    piece
        Shape, stuff and film.
    start
        Temperature all through at first, [K].
    around
        Air, oven or bath, [K].
    time
        Time since, [s].

    Returns
    -------
    Kelvin
        Temperature in the middle, [K].

    Raises
    ------
    OutOfRangeError
        If a size, the stuff or a temperature is not positive.

    Notes
    -----
    Leaves out heat of setting, evaporation, touching packets, an oven that recovers slowly and
    the faster way along the grain.

    Sources
    -------
    CENGEL-HT, WH190-HEATING

    Examples
    --------
    >>> stuff = (WattPerMetreKelvin(0.219), SquareMetrePerSecond(1.355e-7))
    >>> piece = Piece(*stuff, Metre(0.06), (Metre(0.15),), WattPerSquareMetreKelvin(10.0))
    >>> round(core_temperature(piece, Kelvin(293.15), Kelvin(373.15), Second(3600.0)) - 273.15, 1)
    66.1
    """
    need_positive(start=start, around=around)
    return Kelvin(around + (start - around) * _left(piece, time))


def _left(piece: Piece, time: float) -> float:
    need_positive(conductivity=piece.conductivity, diffusivity=piece.diffusivity)
    if piece.diameter is None and not piece.sides:
        raise out_of_range("diameter", "Give a diameter or a thickness.")
    left = 1.0
    if piece.diameter is not None:
        left *= cylinder_share(*_numbers(piece, piece.diameter, time))
    for side in piece.sides:
        left *= slab_share(*_numbers(piece, side, time))
    return left


def _numbers(piece: Piece, across: Metre, time: float) -> tuple[Ratio, Ratio]:
    """Fourier and Biot number for one thickness or diameter."""
    need_positive(across=across)
    half = across / 2
    fourier = Ratio(piece.diffusivity * time / half**2)
    if piece.film is None:
        return fourier, FIXED
    return fourier, Ratio(piece.film * half / piece.conductivity)


def time_to_core(piece: Piece, start: Kelvin, around: Kelvin, goal: Kelvin) -> Second:
    r"""Time until the middle of a piece has come to a temperature.

    .. math:: T(t) = T_{goal}

    Plain: the time at which the temperature in the middle equals the goal

    Parameters
    ----------
    piece
        Shape, stuff and film.
    start
        Temperature all through at first, [K].
    around
        Air, oven or bath, [K].
    goal
        Temperature asked for in the middle, [K].

    Returns
    -------
    Second
        Time, [s].

    Raises
    ------
    OutOfRangeError
        If the middle never comes to the goal.

    Notes
    -----
    Start a bake's own time only after this one: a piece in a hot oven is not yet a hot piece.

    Sources
    -------
    CENGEL-HT, WH190-HEATING

    Examples
    --------
    >>> stuff = (WattPerMetreKelvin(0.219), SquareMetrePerSecond(1.355e-7))
    >>> foil = Piece(*stuff, Metre(0.06), (Metre(0.15),), WattPerSquareMetreKelvin(6.0))
    >>> oven, goal = Kelvin(373.15), Kelvin(363.15)
    >>> round(time_to_core(foil, Kelvin(293.15), oven, goal) / 60)
    173
    """
    need_positive(start=start, around=around, goal=goal)
    if start == goal:
        return Second(0.0)
    if not min(start, around) < goal < max(start, around):
        raise out_of_range("goal", "The middle never comes to that: it must lie on the way.")
    share, high = (goal - around) / (start - around), 1.0
    while _left(piece, high) >= share:
        high *= 2
    return Second(root_between(lambda time: share - _left(piece, time), 0.0, high))


def lumped_time_constant(
    density: KilogramPerCubicMetre,
    capacity: JoulePerKilogramKelvin,
    depth: Metre,
    film: WattPerSquareMetreKelvin,
) -> Second:
    r"""Time in which a body of one temperature closes 63 % of its difference.

    .. math:: \tau = \frac{\rho c\, V/A}{h}

    Plain: time constant = density × heat capacity × (volume ÷ surface) ÷ film

    Parameters
    ----------
    density
        Density, [kg/m3].
    capacity
        Heat capacity, [J/(kg K)].
    depth
        Volume over surface: a sixth of a ball's diameter, half a sheet's thickness, [m].
    film
        Heat through the surface, [W/(m2 K)].

    Returns
    -------
    Second
        Time constant, [s].

    Raises
    ------
    OutOfRangeError
        If a value is not positive.

    Notes
    -----
    Holds where film × depth ÷ conductivity stays under 0.1.

    Sources
    -------
    INCROPERA-HT, CENGEL-HT

    Examples
    --------
    >>> tau = lumped_time_constant(
    ...     KilogramPerCubicMetre(8500.0), JoulePerKilogramKelvin(320.0), Metre(0.001 / 6),
    ...     WattPerSquareMetreKelvin(210.0))
    >>> round(tau, 3)
    2.159
    """
    need_positive(density=density, capacity=capacity, depth=depth, film=film)
    return Second(density * capacity * depth / film)


def lumped_temperature(start: Kelvin, around: Kelvin, constant: Second, time: Second) -> Kelvin:
    r"""Temperature of a body of one temperature in other surroundings.

    .. math:: T = T_\infty + (T_0 - T_\infty) e^{-t/\tau}

    Plain: around + (start − around) × e to the −(time ÷ time constant)

    Parameters
    ----------
    start
        Temperature at first, [K].
    around
        Temperature of the surroundings, [K].
    constant
        Time constant, [s].
    time
        Time since, [s].

    Returns
    -------
    Kelvin
        Temperature then, [K].

    Raises
    ------
    OutOfRangeError
        If a temperature or the time constant is not positive.

    Notes
    -----
    One temperature all through; the same film all the time.

    Sources
    -------
    INCROPERA-HT, CENGEL-HT

    Examples
    --------
    >>> warm, cold = Kelvin(314.15), Kelvin(283.15)
    >>> round(lumped_temperature(warm, cold, Second(39.3 * 60), Second(600.0)) - 273.15, 1)
    34.0
    """
    need_positive(start=start, around=around, constant=constant)
    return Kelvin(around + (start - around) * exp(-time / constant))


def lumped_time(start: Kelvin, around: Kelvin, constant: Second, goal: Kelvin) -> Second:
    r"""Time until a body of one temperature has come to a goal.

    .. math:: t = \tau \ln\frac{T_0 - T_\infty}{T - T_\infty}

    Plain: time constant × ln((start − around) ÷ (goal − around))

    Parameters
    ----------
    start
        Temperature at first, [K].
    around
        Temperature of the surroundings, [K].
    constant
        Time constant, [s].
    goal
        Temperature asked for, [K].

    Returns
    -------
    Second
        Time, [s].

    Raises
    ------
    OutOfRangeError
        If the goal does not lie on the way.

    Notes
    -----
    One temperature all through; the same film all the time.

    Sources
    -------
    INCROPERA-HT, CENGEL-HT

    Examples
    --------
    >>> gas, cold, goal = Kelvin(473.15), Kelvin(298.15), Kelvin(472.15)
    >>> round(lumped_time(cold, gas, Second(1.0), goal), 3)
    5.165
    """
    need_positive(start=start, around=around, constant=constant, goal=goal)
    if start == goal:
        return Second(0.0)
    if not min(start, around) < goal < max(start, around):
        raise out_of_range("goal", "It never comes to that: it must lie on the way.")
    return Second(constant * log((start - around) / (goal - around)))
