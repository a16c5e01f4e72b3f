"""What a pour needs beyond the empty space: shrink, facing off, soak-in, waste, layers."""

from math import ceil
from typing import Literal

from shopassist.core.bounds import need_not_negative, need_positive, need_share
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.quantities import (
    CubicMetre,
    KilogramPerCubicMetre,
    Metre,
    Ratio,
    Second,
    SquareMetre,
)

RecoatStep = Literal["wait", "pour", "sand, then pour"]

CELL_WALL_DENSITY = KilogramPerCubicMetre(1500.0)
"""Density of wood without its voids (CELL-WALL, from memory: 1460 to 1530 by method)."""

OVERFILL_DEFAULT = Ratio(0.05)
"""Taken where the sheet gives no shrink figure; ours."""
FACING_DEFAULT = Metre(0.003)
"""Height left for facing off; ours."""
WASTE_DEFAULT = Ratio(0.08)
"""Share that stays in the cup and on the stick; ours."""
LIP = Metre(0.025)
"""Height to leave between resin and rim; common practice."""


@frozen
class RecoatWindow:
    """When the next layer may follow, counted from mixing the one before."""

    opens: Second
    shuts: Second
    """From here on: sand first."""

    def step(self, elapsed: Second) -> RecoatStep:
        """What to do at a time since the layer before was mixed."""
        if elapsed < self.opens:
            return "wait"
        return "pour" if elapsed < self.shuts else "sand, then pour"


def shrink_overfill(net: CubicMetre, shrink: Ratio) -> CubicMetre:
    r"""Extra resin that makes up for shrinking in cure.

    .. math:: \Delta V = V\left(\frac{1}{1 - s} - 1\right)

    Plain: extra = volume ÷ (1 - shrink) - volume

    Parameters
    ----------
    net
        Volume that the cured resin is to fill, [m3].
    shrink
        Volume lost in cure as a share of the liquid's volume, [1].

    Returns
    -------
    CubicMetre
        Extra liquid, [m3].

    Raises
    ------
    OutOfRangeError
        If the volume is negative or the share is not below the whole.

    Notes
    -----
    Shrink after gel shows as stress or gaps rather than as a sunken face; it is counted all the
    same.

    Sources
    -------
    GROOVE-INTEGRALS

    Examples
    --------
    >>> round(shrink_overfill(CubicMetre(574e-6), Ratio(0.03)) * 1e6, 2)
    17.75
    """
    need_not_negative(net=net)
    need_share(shrink=shrink)
    return CubicMetre(net / (1 - shrink) - net)


def sink_depth(lost: CubicMetre, area: SquareMetre) -> Metre:
    r"""How far an open face sinks when volume is lost below it.

    .. math:: h = \frac{V}{A}

    Plain: sink = lost volume ÷ open area

    Parameters
    ----------
    lost
        Volume lost, [m3].
    area
        Open area at the level, [m2].

    Returns
    -------
    Metre
        Sink of the level, [m].

    Raises
    ------
    OutOfRangeError
        If there is no open area or the volume is negative.

    Notes
    -----
    Taken as even over the area; a real face dishes.

    Sources
    -------
    GROOVE-INTEGRALS

    Examples
    --------
    >>> round(sink_depth(CubicMetre(17.22e-6), SquareMetre(45.36e-4)) * 1e3, 2)
    3.8
    """
    need_positive(area=area)
    need_not_negative(lost=lost)
    return Metre(lost / area)


def level_loss(drop: Metre, area: SquareMetre) -> CubicMetre:
    r"""Resin that left through a leak or into the wood, from the drop of its level.

    .. math:: V = h A

    Plain: lost = drop of the level × open area

    Parameters
    ----------
    drop
        Drop of the level since the pour, [m].
    area
        Open area at the level, [m2].

    Returns
    -------
    CubicMetre
        Volume lost, which is also the top-up, [m3].

    Raises
    ------
    OutOfRangeError
        If a value is negative.

    Notes
    -----
    Air that came out of the wood lowers the level as well.

    Sources
    -------
    GROOVE-INTEGRALS

    Examples
    --------
    >>> round(level_loss(Metre(0.004), SquareMetre(0.03)) * 1e6)
    120
    """
    need_not_negative(drop=drop, area=area)
    return CubicMetre(drop * area)


def void_share(density: KilogramPerCubicMetre) -> Ratio:
    r"""Share of dry wood that is empty.

    .. math:: \varphi = 1 - \frac{\rho_0}{\rho_w}

    Plain: voids = 1 - density of the dry wood ÷ density of the cell wall

    Parameters
    ----------
    density
        Density of the oven-dry wood, [kg/m3].

    Returns
    -------
    Ratio
        Share of the volume that is void, [1].

    Raises
    ------
    OutOfRangeError
        If the wood would be denser than its own cell wall.

    Notes
    -----
    Cell wall 1500 kg/m3. Moist wood has less room than this says.

    Sources
    -------
    CELL-WALL

    Examples
    --------
    >>> round(void_share(KilogramPerCubicMetre(600.0)), 3)
    0.6
    """
    need_positive(density=density)
    if density > CELL_WALL_DENSITY:
        raise out_of_range("density", "No wood is this dense: check mass and volume.")
    return Ratio(1 - density / CELL_WALL_DENSITY)


def soak_in_limit(volume: CubicMetre, density: KilogramPerCubicMetre) -> CubicMetre:
    r"""Most resin that unstabilised wood could take up.

    .. math:: V_s = V \left(1 - \frac{\rho_0}{\rho_w}\right)

    Plain: at most = volume of the wood × its voids

    Parameters
    ----------
    volume
        Volume of the wood, [m3].
    density
        Density of the oven-dry wood, [kg/m3].

    Returns
    -------
    CubicMetre
        Upper bound of the soak-in, [m3].

    Raises
    ------
    OutOfRangeError
        If the wood would be denser than its own cell wall or its volume is negative.

    Notes
    -----
    Real soak-in is less: closed cells stay empty and the resin gels.

    Sources
    -------
    CELL-WALL

    Examples
    --------
    >>> round(soak_in_limit(CubicMetre(46.1e-6), KilogramPerCubicMetre(350.0)) * 1e6, 1)
    35.3
    """
    need_not_negative(volume=volume)
    return CubicMetre(volume * void_share(density))


def layers(depth: Metre, deepest: Metre) -> int:
    r"""Number of pours for a depth.

    .. math:: n = \left\lceil \frac{h}{h_{max}} \right\rceil

    Plain: layers = depth ÷ deepest layer, rounded up

    Parameters
    ----------
    depth
        Depth to be filled, [m].
    deepest
        Deepest layer allowed today, [m].

    Returns
    -------
    int
        Whole number of layers of even depth.

    Raises
    ------
    OutOfRangeError
        If a depth is zero or negative.

    Notes
    -----
    A depth over the limit by less than a millionth is taken as the limit.

    Sources
    -------
    OWN

    Examples
    --------
    >>> layers(Metre(0.045), Metre(0.025))
    2
    """
    need_positive(depth=depth, deepest=deepest)
    return max(1, ceil(depth / deepest * (1 - 1e-6)))


def recoat_window(opens: Second, stays: Second, factor: Ratio) -> "RecoatWindow":
    r"""When the next layer may go on, and until when it does so without sanding.

    .. math:: t_1 = f\, t_o,\quad t_2 = f\,(t_o + t_s)

    Plain: opens = sheet's time × factor; shuts = (sheet's time + stay) × factor

    Parameters
    ----------
    opens
        Time from mixing to gel at the sheet's temperature, [s].
    stays
        How long the window stays open at that temperature, [s].
    factor
        Times longer at today's temperature, [1].

    Returns
    -------
    RecoatWindow
        Opening and shutting, counted from mixing.

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    After it has shut the step is: sand, then pour. One factor for both times is an estimate.

    Sources
    -------
    PRACTICE

    Examples
    --------
    >>> window = recoat_window(Second(6 * 3600.0), Second(18 * 3600.0), Ratio(2**0.7))
    >>> round(window.opens / 3600, 1), round((window.shuts - window.opens) / 3600)
    (9.7, 29)
    """
    need_positive(opens=opens, stays=stays, factor=factor)
    return RecoatWindow(Second(opens * factor), Second((opens + stays) * factor))
