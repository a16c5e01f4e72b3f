"""Exact series for the warmth in a round or flat piece: share of the first difference left."""

from collections.abc import Callable, Iterator
from functools import cache
from math import cos, exp, inf, pi, sin

from shopassist.core.bessel import j0, j1, zero_of_j0, zero_of_j1
from shopassist.core.bounds import need_not_negative
from shopassist.core.errors import out_of_range
from shopassist.core.quantities import Ratio

FIXED = Ratio(inf)
"""Biot number of a surface that takes the warmth around it at once."""
EARLY = 0.01
"""Fourier number under which the middle has not noticed anything, to 11 places."""
FAINT = 1e-13
HALVINGS = 60


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
    root = high if biot == inf else root_between(lambda z: z * j1(z) - biot * j0(z), low, high)
    first, second = j0(root), j1(root)
    return root, 2 / root * second / (first * first + second * second)


@cache
def _flat_terms(n: int, biot: float) -> tuple[float, float]:
    """Root and size of the n-th wave in a board."""
    low, high = (n - 1) * pi, (n - 0.5) * pi
    sign = -1.0 if n % 2 == 0 else 1.0
    root = (
        high
        if biot == inf
        else root_between(lambda z: sign * (z * sin(z) - biot * cos(z)), low, high)
    )
    return root, 4 * sin(root) / (2 * root + sin(2 * root))


def root_between(function: Callable[[float], float], low: float, high: float) -> float:
    """Halve a bracket in which a function rises or falls through zero once."""
    rising = function(high) > 0
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        if (function(middle) > 0) == rising:
            high = middle
        else:
            low = middle
    return 0.5 * (low + high)
