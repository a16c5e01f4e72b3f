"""How much to mix: from a volume, with waste, by density; and a check of cups by water."""

from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.quantities import CubicMetre, Kilogram, KilogramPerCubicMetre, Ratio

WASTE_DEFAULT = Ratio(0.08)
"""Share left in cups and on sticks where nothing else is typed; ours."""


def mixed_density(
    ratio: Ratio, density_a: KilogramPerCubicMetre, density_b: KilogramPerCubicMetre
) -> KilogramPerCubicMetre:
    r"""Density of the fresh mix from the densities of its parts.

    .. math:: \rho = \frac{1 + r}{1/\rho_A + r/\rho_B}

    Plain: density = (1 + B per A) ÷ (1 ÷ density of A + B per A ÷ density of B)

    Parameters
    ----------
    ratio
        Masses of B per mass of A, [1].
    density_a
        Density of A, [kg/m3].
    density_b
        Density of B, [kg/m3].

    Returns
    -------
    KilogramPerCubicMetre
        Density before curing, [kg/m3].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    Volumes are taken to add up. Shrink while curing comes later and is left out.

    Sources
    -------
    VOLUMES-ADD

    Examples
    --------
    >>> resin, hardener = KilogramPerCubicMetre(1120.0), KilogramPerCubicMetre(985.6)
    >>> round(mixed_density(Ratio(0.44), resin, hardener), 1)
    1075.2
    """
    need_positive(ratio=ratio, density_a=density_a, density_b=density_b)
    return KilogramPerCubicMetre((1 + ratio) / (1 / density_a + ratio / density_b))


def mass_to_mix(volume: CubicMetre, density: KilogramPerCubicMetre, waste: Ratio) -> Kilogram:
    r"""Mass to mix for a volume, with what stays in the cup.

    .. math:: m = V \rho\, (1 + w)

    Plain: mass = volume × density × (1 + waste)

    Parameters
    ----------
    volume
        Volume to fill, [m3].
    density
        Density of the mix, [kg/m3].
    waste
        Share added for cups and sticks, [1].

    Returns
    -------
    Kilogram
        Mass of the mix without colour, [kg].

    Raises
    ------
    OutOfRangeError
        If volume or density is zero or negative, or the waste is negative.

    Notes
    -----
    Shrink, soak-in and facing off belong into the volume, not here.

    Sources
    -------
    VOLUMES-ADD
    PRACTICE

    Examples
    --------
    >>> mix = KilogramPerCubicMetre(1075.2)
    >>> round(mass_to_mix(CubicMetre(650e-6), mix, Ratio(0.10)) * 1e3, 2)
    768.77
    """
    need_positive(volume=volume, density=density)
    need_not_negative(waste=waste)
    return Kilogram(volume * density * (1 + waste))


def mass_of_volume(volume: CubicMetre, density: KilogramPerCubicMetre) -> Kilogram:
    r"""Mass of a measured volume.

    .. math:: m = V \rho

    Plain: mass = volume × density

    Parameters
    ----------
    volume
        Volume measured, [m3].
    density
        Density of what was measured, [kg/m3].

    Returns
    -------
    Kilogram
        Its mass, [kg].

    Raises
    ------
    OutOfRangeError
        If the density is zero or negative, or the volume is negative.

    Notes
    -----
    A kitchen scale that reads in millilitres weighs water: its figure is grams, not a volume.

    Sources
    -------
    VOLUMES-ADD

    Examples
    --------
    >>> round(mass_of_volume(CubicMetre(236.588e-6), KilogramPerCubicMetre(1100.0)) * 1e3, 1)
    260.2
    """
    need_positive(density=density)
    need_not_negative(volume=volume)
    return Kilogram(volume * density)


def line_volume(water: Kilogram, density: KilogramPerCubicMetre) -> CubicMetre:
    r"""Volume that a line on a cup really holds, found by weighing water.

    .. math:: V = \frac{m}{\rho_w}

    Plain: volume = mass of the water ÷ its density

    Parameters
    ----------
    water
        Mass of water up to the line, [kg].
    density
        Density of the water at its temperature, [kg/m3].

    Returns
    -------
    CubicMetre
        Volume up to the line, [m3].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    Good to what an eye can read at the line, a millimetre or so; resin climbs less than water.

    Sources
    -------
    CUP-BLOG

    Examples
    --------
    >>> round(line_volume(Kilogram(0.0299), KilogramPerCubicMetre(998.21)) * 1e6, 1)
    30.0
    """
    need_positive(water=water, density=density)
    return CubicMetre(water / density)


def strokes_for(volume: CubicMetre, stroke: CubicMetre) -> Ratio:
    r"""Strokes of a metered pump for a volume.

    .. math:: n = \frac{V}{v}

    Plain: strokes = volume ÷ volume of one stroke

    Parameters
    ----------
    volume
        Volume of that part, [m3].
    stroke
        Volume of one full stroke, [m3].

    Returns
    -------
    Ratio
        Strokes, not rounded, [1].

    Raises
    ------
    OutOfRangeError
        If the stroke is zero or negative, or the volume is negative.

    Notes
    -----
    A part of a stroke is not metered: make the amount fit whole strokes.

    Sources
    -------
    PUMP-LOGS

    Examples
    --------
    >>> round(strokes_for(CubicMetre(80e-6), CubicMetre(16e-6)), 6)
    5.0
    """
    need_positive(stroke=stroke)
    need_not_negative(volume=volume)
    return Ratio(volume / stroke)


def waste_left(mixed: Kilogram, poured: Kilogram) -> Ratio:
    """Share of what was poured that stayed behind: the waste to expect next time."""
    need_positive(mixed=mixed, poured=poured)
    return Ratio(max(mixed / poured - 1, 0.0))
