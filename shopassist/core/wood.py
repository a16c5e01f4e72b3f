"""Density of wood, the voids in it, and the resin that can go into them."""

from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.quantities import CubicMetre, Kilogram, KilogramPerCubicMetre, Ratio

CELL_WALL = KilogramPerCubicMetre(1500.0)
"""Density of the cell wall without voids; 1460 to 1530 by method, from memory."""
WATER = 1000.0
"""Density that specific gravity counts against, [kg/m3]."""


def density_at_moisture(gravity: Ratio, moisture: Ratio) -> KilogramPerCubicMetre:
    r"""Density of wood from its specific gravity at that moisture.

    .. math:: \rho = 1000 \, G (1 + M)

    Plain: 1000 × specific gravity × (1 + moisture)

    Parameters
    ----------
    gravity
        Specific gravity: oven-dry mass over the volume at this moisture, water 1, [1].
    moisture
        Moisture content on the dry basis, [1].

    Returns
    -------
    KilogramPerCubicMetre
        Density with its water, [kg/m3].

    Raises
    ------
    OutOfRangeError
        If the gravity is not positive or the moisture negative.

    Notes
    -----
    Within a species pieces scatter by about a tenth either way.

    Sources
    -------
    WH190

    Examples
    --------
    >>> round(density_at_moisture(Ratio(0.40), Ratio(0.12)))
    448
    """
    need_positive(gravity=gravity)
    need_not_negative(moisture=moisture)
    return KilogramPerCubicMetre(WATER * gravity * (1 + moisture))


def gravity_at_12(basic: Ratio) -> Ratio:
    r"""Specific gravity at 12 % moisture from the basic (green volume) one.

    .. math:: G_{12} = \frac{G_b}{1 - 0.265 \, G_b (1 - 12/30)}

    Plain: basic gravity ÷ (1 - 0.265 × basic gravity × 0.6)

    Parameters
    ----------
    basic
        Specific gravity on green volume, [1].

    Returns
    -------
    Ratio
        Specific gravity at 12 %, [1].

    Raises
    ------
    OutOfRangeError
        If the gravity is not positive or above that of a cell wall.

    Notes
    -----
    Shrinkage estimated as 26.5 % of the basic gravity; the species' own figure is better.

    Sources
    -------
    WH190-GRAVITY

    Examples
    --------
    >>> round(gravity_at_12(Ratio(0.55)), 3)
    0.603
    """
    _need_gravity(basic)
    return Ratio(basic / (1 - 0.265 * basic * 0.6))


def oven_dry_density(gravity_12: Ratio) -> KilogramPerCubicMetre:
    r"""Density of oven-dry wood from the specific gravity at 12 %.

    .. math:: G_b = \frac{G_{12}}{1 + 0.159 \, G_{12}}, \quad
        \rho_0 = \frac{1000 \, G_b}{1 - 0.265 \, G_b}

    Plain: back to the basic gravity, then on to the volume after full shrinkage

    Parameters
    ----------
    gravity_12
        Specific gravity at 12 % moisture, [1].

    Returns
    -------
    KilogramPerCubicMetre
        Oven-dry mass over oven-dry volume, [kg/m3].

    Raises
    ------
    OutOfRangeError
        If the gravity is not positive or above that of a cell wall.

    Notes
    -----
    A fallback: the piece's own mass and volume are better.

    Sources
    -------
    WH190-GRAVITY

    Examples
    --------
    >>> round(oven_dry_density(Ratio(0.63)))
    675
    """
    _need_gravity(gravity_12)
    basic = gravity_12 / (1 + 0.159 * gravity_12)
    return KilogramPerCubicMetre(WATER * basic / (1 - 0.265 * basic))


def _need_gravity(gravity: float) -> None:
    if not 0.0 < gravity < CELL_WALL / WATER:
        raise out_of_range("gravity", "Wood has a specific gravity between 0 and 1.5.")


def voids(dry: KilogramPerCubicMetre) -> Ratio:
    r"""Share of oven-dry wood that is not cell wall.

    .. math:: \varphi = 1 - \frac{\rho_0}{\rho_{cw}}

    Plain: 1 - oven-dry density ÷ density of the cell wall

    Parameters
    ----------
    dry
        Oven-dry density, [kg/m3].

    Returns
    -------
    Ratio
        Voids as a share of the volume, [1].

    Raises
    ------
    OutOfRangeError
        If the density is not positive or above that of a cell wall.

    Notes
    -----
    Closed cells and extractives keep part of them from resin.

    Sources
    -------
    CELL-WALL

    Examples
    --------
    >>> voids(KilogramPerCubicMetre(600.0))
    0.6
    """
    if not 0.0 < dry < CELL_WALL:
        raise out_of_range("dry", "Oven-dry wood is lighter than 1.5 g/ml: measure again.")
    return Ratio(1 - dry / CELL_WALL)


def most_uptake(dry: KilogramPerCubicMetre, resin: KilogramPerCubicMetre) -> Ratio:
    r"""Ceiling of the resin uptake: every void full.

    .. math:: u_{max} = \rho_r \left(\frac{1}{\rho_0} - \frac{1}{\rho_{cw}}\right)

    Plain: resin density × (1 ÷ oven-dry density - 1 ÷ cell-wall density)

    Parameters
    ----------
    dry
        Oven-dry density of the wood, [kg/m3].
    resin
        Density of the liquid resin, [kg/m3].

    Returns
    -------
    Ratio
        Mass of resin over oven-dry mass, [1].

    Raises
    ------
    OutOfRangeError
        If a density is outside its range.

    Notes
    -----
    A ceiling, not a forecast; real pieces stay below it.

    Sources
    -------
    CELL-WALL

    Examples
    --------
    >>> round(most_uptake(KilogramPerCubicMetre(600.0), KilogramPerCubicMetre(1030.0)), 3)
    1.03
    """
    need_positive(resin=resin)
    return Ratio(voids(dry) * resin / dry)


def uptake(before: Kilogram, after: Kilogram) -> Ratio:
    r"""Weight gain by the resin, on the oven-dry mass.

    .. math:: u = \frac{m_2 - m_1}{m_1}

    Plain: (mass after - oven-dry mass before) ÷ oven-dry mass before

    Parameters
    ----------
    before
        Oven-dry mass before the bath, [kg].
    after
        Mass after the bake, [kg].

    Returns
    -------
    Ratio
        Uptake; negative: it lost mass, [1].

    Raises
    ------
    OutOfRangeError
        If a mass is zero or negative.

    Notes
    -----
    A wet base makes it too small and not comparable; resin skin makes it too large.

    Sources
    -------
    PORE-FILLING

    Examples
    --------
    >>> round(uptake(Kilogram(0.300), Kilogram(0.480)), 3)
    0.6
    """
    need_positive(before=before, after=after)
    return Ratio(after / before - 1)


def retention(before: Kilogram, after: Kilogram, volume: CubicMetre) -> KilogramPerCubicMetre:
    r"""Resin held by each volume of wood.

    .. math:: R = \frac{m_2 - m_1}{V}

    Plain: (mass after - mass before) ÷ volume of the piece

    Parameters
    ----------
    before
        Oven-dry mass before, [kg].
    after
        Mass after, [kg].
    volume
        Bulk volume of the piece, [m3].

    Returns
    -------
    KilogramPerCubicMetre
        Resin per volume, [kg/m3].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    The trade of treated timber compares by this.

    Sources
    -------
    PORE-FILLING

    Examples
    --------
    >>> round(retention(Kilogram(0.300), Kilogram(0.480), CubicMetre(5e-4)))
    360
    """
    need_positive(before=before, after=after, volume=volume)
    return KilogramPerCubicMetre((after - before) / volume)


def void_fill(gain: Ratio, dry: KilogramPerCubicMetre, resin: KilogramPerCubicMetre) -> Ratio:
    r"""Share of the voids that the resin fills.

    .. math:: f = \frac{u \, \rho_0}{\rho_r \varphi}

    Plain: uptake ÷ ceiling of the uptake

    Parameters
    ----------
    gain
        Uptake on the oven-dry mass, [1].
    dry
        Oven-dry density, [kg/m3].
    resin
        Density of the liquid resin, [kg/m3].

    Returns
    -------
    Ratio
        Filled share of the voids; above 1 there is skin, spill or a wrong volume, [1].

    Raises
    ------
    OutOfRangeError
        If a density is outside its range.

    Notes
    -----
    By liquid resin; the cured resin shrinks, so the solid fills less.

    Sources
    -------
    PORE-FILLING

    Examples
    --------
    >>> dry, resin = KilogramPerCubicMetre(600.0), KilogramPerCubicMetre(1030.0)
    >>> round(void_fill(Ratio(0.6), dry, resin), 3)
    0.583
    """
    return Ratio(gain / most_uptake(dry, resin))


def sink_fill(dry: KilogramPerCubicMetre, resin: KilogramPerCubicMetre) -> Ratio:
    r"""Share of the voids that must be full before a piece sinks in its resin.

    .. math:: f = \frac{1 - \rho_0/\rho_r}{\varphi}

    Plain: (1 - oven-dry density ÷ resin density) ÷ voids

    Parameters
    ----------
    dry
        Oven-dry density, [kg/m3].
    resin
        Density of the liquid resin, [kg/m3].

    Returns
    -------
    Ratio
        Filled share at which it hangs in the liquid; 0 where it sinks dry, [1].

    Raises
    ------
    OutOfRangeError
        If a density is outside its range.

    Notes
    -----
    Sinking proves at least this fill; floating proves nothing about the rest.

    Sources
    -------
    ARCHIMEDES, CELL-WALL

    Examples
    --------
    >>> round(sink_fill(KilogramPerCubicMetre(620.0), KilogramPerCubicMetre(1030.0)), 3)
    0.679
    """
    need_positive(resin=resin)
    return Ratio(max(1 - dry / resin, 0.0) / voids(dry))
