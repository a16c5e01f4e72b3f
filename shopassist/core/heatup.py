"""How fast the core of a piece follows the air or oven around it: exact series and lumps."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from math import cos, exp, inf, log, pi, sin

from shopassist.core.bessel import j0, j1, zero_of_j0, zero_of_j1
from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.errors import out_of_range
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

FIXED = Ratio(inf)
"""Biot number of a surface that takes the warmth around it at once."""
EARLY = 0.01
"""Fourier number under which the middle has not noticed anything, to 11 places."""
FAINT = 1e-13
HALVINGS = 60


@dataclass(frozen=True, slots=True)
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


def cylinder_share(fourier: Ratio, biot: Ratio, position: Ratio = Ratio(0.0)) -> Ratio:
    r"""Share of the first difference of temperature that is left in a long cylinder.

    .. math:: \theta = \sum_n \frac{2}{\zeta_n}\frac{J_1(\zeta_n)}{J_0^2 + J_1^2}
        e^{-\zeta_n^2 Fo} J_0(\zeta_n r/R), \quad \zeta_n J_1 = Bi\, J_0

    Plain: sum of fading waves; each fades with e to the −(root² × Fourier number)

    Parameters
    ----------
    fourier
        Fourier number, diffusivity × time ÷ radius², [1].
    biot
        Biot number, film × radius ÷ conductivity; without end for a fixed surface, [1].
    position
        Place from the axis, 0, to the surface, 1, [1].

    Returns
    -------
    Ratio
        Share left, [1].

    Raises
    ------
    OutOfRangeError
        If a number is negative, or it is too early for a place outside the axis.

    Notes
    -----
    The same warmth all through at first, the same film all round, nothing that sets inside.

    Sources
    -------
    CENGEL-HT, WH190-HEATING

    Examples
    --------
    >>> round(cylinder_share(Ratio(1.0), Ratio(1.0)), 4)
    0.2494
    """
    return _share(_round_terms, fourier, biot, position)


def slab_share(fourier: Ratio, biot: Ratio, position: Ratio = Ratio(0.0)) -> Ratio:
    r"""Share of the first difference of temperature that is left in a wide board.

    .. math:: \theta = \sum_n \frac{4\sin\zeta_n}{2\zeta_n + \sin 2\zeta_n}
        e^{-\zeta_n^2 Fo} \cos(\zeta_n x/L), \quad \zeta_n \tan\zeta_n = Bi

    Plain: sum of fading waves; each fades with e to the −(root² × Fourier number)

    Parameters
    ----------
    fourier
        Fourier number, diffusivity × time ÷ half thickness², [1].
    biot
        Biot number, film × half thickness ÷ conductivity; without end for a fixed surface, [1].
    position
        Place from the middle, 0, to the face, 1, [1].

    Returns
    -------
    Ratio
        Share left, [1].

    Raises
    ------
    OutOfRangeError
        If a number is negative, or it is too early for a place outside the middle.

    Notes
    -----
    The same warmth all through at first, the same film on both faces, nothing that sets inside.

    Sources
    -------
    CENGEL-HT, WH190-HEATING

    Examples
    --------
    >>> round(slab_share(Ratio(1.0), Ratio(1.0)), 4)
    0.5339
    """
    return _share(_flat_terms, fourier, biot, position)


_Terms = Callable[[int, float], tuple[float, float]]


def _share(terms: _Terms, fourier: Ratio, biot: Ratio, position: Ratio) -> Ratio:
    need_not_negative(fourier=fourier, position=position)
    if not biot > 0 or position > 1:
        raise out_of_range("biot", "The surface must take some heat, and the place lie inside.")
    if fourier < EARLY:
        if position:
            raise out_of_range("fourier", "It is too early to tell anything but the middle.")
        return Ratio(1.0)
    shape = j0 if terms is _round_terms else cos
    waves = (
        size * exp(-root * root * fourier) * shape(root * position)
        for root, size in _until_faint(terms, fourier, biot)
    )
    return Ratio(sum(waves))


def _until_faint(terms: _Terms, fourier: float, biot: float) -> Iterator[tuple[float, float]]:
    n, faint = 1, False
    while not faint:
        root, size = terms(n, biot)
        yield root, size
        faint = exp(-root * root * fourier) < FAINT
        n += 1


@cache
def _round_terms(n: int, biot: float) -> tuple[float, float]:
    """Root and size of the n-th wave in a cylinder."""
    low, high = zero_of_j1(n - 1), zero_of_j0(n)
    root = high if biot == inf else _root(lambda z: z * j1(z) - biot * j0(z), low, high)
    first, second = j0(root), j1(root)
    return root, 2 / root * second / (first * first + second * second)


@cache
def _flat_terms(n: int, biot: float) -> tuple[float, float]:
    """Root and size of the n-th wave in a board."""
    low, high = (n - 1) * pi, (n - 0.5) * pi
    sign = -1.0 if n % 2 == 0 else 1.0
    root = high if biot == inf else _root(lambda z: sign * (z * sin(z) - biot * cos(z)), low, high)
    return root, 4 * sin(root) / (2 * root + sin(2 * root))


def _root(function: Callable[[float], float], low: float, high: float) -> float:
    """Halve a bracket in which a function rises or falls through zero once."""
    rising = function(high) > 0
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        if (function(middle) > 0) == rising:
            high = middle
        else:
            low = middle
    return 0.5 * (low + high)


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
    return Second(_root(lambda time: share - _left(piece, time), 0.0, high))


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
