"""A piece of wood with its resin, after the bake."""

from shopassist.core.bounds import need_positive
from shopassist.core.quantities import CubicMetre, Kilogram, KilogramPerCubicMetre


def filled_density(after: Kilogram, volume: CubicMetre) -> KilogramPerCubicMetre:
    r"""Density of a piece as it is after the bake.

    .. math:: \rho = \frac{m_2}{V}

    Plain: mass after ÷ volume of the piece

    Parameters
    ----------
    after
        Mass after the bake, [kg].
    volume
        Bulk volume of the piece, [m3].

    Returns
    -------
    KilogramPerCubicMetre
        Density of wood and resin together, [kg/m3].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    The volume is that of the piece as measured; size changes of drying and baking are left out.

    Sources
    -------
    PORE-FILLING

    Examples
    --------
    >>> round(filled_density(Kilogram(0.480), CubicMetre(5e-4)))
    960
    """
    need_positive(after=after, volume=volume)
    return KilogramPerCubicMetre(after / volume)
