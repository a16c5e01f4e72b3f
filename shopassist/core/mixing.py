"""Ratios by weight, volume and stroke, and the masses of both parts.

A ratio is always B per A by weight unless its name says otherwise; colour never enters it.
"""

from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.frozen import frozen
from shopassist.core.quantities import CubicMetre, Kilogram, KilogramPerCubicMetre, Ratio


@frozen
class PartMasses:
    """What goes into one cup, before rounding."""

    a: Kilogram
    b: Kilogram

    @property
    def total(self) -> Kilogram:
        """Both together; colour is not counted."""
        return Kilogram(self.a + self.b)


def weight_ratio(
    volume_ratio: Ratio, density_a: KilogramPerCubicMetre, density_b: KilogramPerCubicMetre
) -> Ratio:
    r"""Ratio B to A by weight from the ratio by volume.

    .. math:: \frac{m_B}{m_A} = \frac{V_B}{V_A}\,\frac{\rho_B}{\rho_A}

    Plain: B per A by weight = B per A by volume × density of B ÷ density of A

    Parameters
    ----------
    volume_ratio
        Volumes of B per volume of A, [1].
    density_a
        Density of A, [kg/m3].
    density_b
        Density of B, [kg/m3].

    Returns
    -------
    Ratio
        Masses of B per mass of A, [1].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    Both densities at the temperature at which the volumes are measured.

    Sources
    -------
    BOAT-RATIO

    Examples
    --------
    >>> resin, hardener = KilogramPerCubicMetre(1120.0), KilogramPerCubicMetre(985.6)
    >>> round(weight_ratio(Ratio(0.5), resin, hardener), 4)
    0.44
    """
    need_positive(volume_ratio=volume_ratio, density_a=density_a, density_b=density_b)
    return Ratio(volume_ratio * density_b / density_a)


def volume_ratio(
    weight_ratio: Ratio, density_a: KilogramPerCubicMetre, density_b: KilogramPerCubicMetre
) -> Ratio:
    r"""Ratio B to A by volume from the ratio by weight.

    .. math:: \frac{V_B}{V_A} = \frac{m_B}{m_A}\,\frac{\rho_A}{\rho_B}

    Plain: B per A by volume = B per A by weight × density of A ÷ density of B

    Parameters
    ----------
    weight_ratio
        Masses of B per mass of A, [1].
    density_a
        Density of A, [kg/m3].
    density_b
        Density of B, [kg/m3].

    Returns
    -------
    Ratio
        Volumes of B per volume of A, [1].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    Both densities at the temperature at which the volumes are measured.

    Sources
    -------
    BOAT-RATIO

    Examples
    --------
    >>> resin, hardener = KilogramPerCubicMetre(1130.0), KilogramPerCubicMetre(980.0)
    >>> round(volume_ratio(Ratio(0.30), resin, hardener), 3)
    0.346
    """
    need_positive(weight_ratio=weight_ratio, density_a=density_a, density_b=density_b)
    return Ratio(weight_ratio * density_a / density_b)


def pair_mismatch(
    weight_ratio: Ratio,
    volume_ratio: Ratio,
    density_a: KilogramPerCubicMetre,
    density_b: KilogramPerCubicMetre,
) -> Ratio:
    r"""How far the two ratios of a label are apart, seen through the densities.

    .. math:: d = \frac{r_m}{r_V\, \rho_B / \rho_A} - 1

    Plain: apart by = (B per A by weight) ÷ (B per A by volume × density of B ÷ density of A) − 1

    Parameters
    ----------
    weight_ratio
        Masses of B per mass of A, [1].
    volume_ratio
        Volumes of B per volume of A, [1].
    density_a
        Density of A, [kg/m3].
    density_b
        Density of B, [kg/m3].

    Returns
    -------
    Ratio
        Share by which the ratio by weight asks for more B than that by volume, [1].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    Labels round both ratios, so a per cent or two is nothing; more is a slip somewhere.

    Sources
    -------
    BOAT-RATIO

    Examples
    --------
    >>> resin, hardener = KilogramPerCubicMetre(1150.0), KilogramPerCubicMetre(954.5)
    >>> round(pair_mismatch(Ratio(0.83), Ratio(1.0), resin, hardener), 3)
    0.0
    """
    need_positive(weight_ratio=weight_ratio, volume_ratio=volume_ratio)
    need_positive(density_a=density_a, density_b=density_b)
    return Ratio(weight_ratio / (volume_ratio * density_b / density_a) - 1)


def stroke_ratio(
    strokes_a: Ratio, strokes_b: Ratio, stroke_a: CubicMetre, stroke_b: CubicMetre
) -> Ratio:
    r"""Ratio B to A by volume that so many strokes of two pumps give.

    .. math:: \frac{V_B}{V_A} = \frac{n_B v_B}{n_A v_A}

    Plain: B per A by volume = strokes of B × its stroke ÷ (strokes of A × its stroke)

    Parameters
    ----------
    strokes_a
        Strokes of pump A, [1].
    strokes_b
        Strokes of pump B, [1].
    stroke_a
        Volume of one stroke of pump A, [m3].
    stroke_b
        Volume of one stroke of pump B, [m3].

    Returns
    -------
    Ratio
        Volumes of B per volume of A, [1].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    For full strokes of primed pumps without air. Weigh one stroke of each now and then.

    Sources
    -------
    PUMP-LOGS

    Examples
    --------
    >>> big, small = CubicMetre(20e-6), CubicMetre(10e-6)
    >>> stroke_ratio(Ratio(1), Ratio(1), big, small), stroke_ratio(Ratio(2), Ratio(1), big, small)
    (0.5, 0.25)
    """
    need_positive(strokes_a=strokes_a, strokes_b=strokes_b, stroke_a=stroke_a, stroke_b=stroke_b)
    return Ratio(strokes_b * stroke_b / (strokes_a * stroke_a))


def part_masses(total: Kilogram, ratio: Ratio) -> PartMasses:
    r"""Masses of A and B in a mix of given total.

    .. math:: m_A = \frac{m}{1 + r},\quad m_B = m - m_A

    Plain: A = total ÷ (1 + B per A); B = total − A

    Parameters
    ----------
    total
        Mass of the mix without colour, [kg].
    ratio
        Masses of B per mass of A, [1].

    Returns
    -------
    PartMasses
        Mass of each part, unrounded.

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    Nothing is rounded here; what the scale can show is decided by ``scale.round_parts``.

    Sources
    -------
    BOAT-RATIO

    Examples
    --------
    >>> parts = part_masses(Kilogram(0.2), Ratio(0.44))
    >>> round(parts.a * 1e3, 1), round(parts.b * 1e3, 1)
    (138.9, 61.1)
    """
    need_positive(total=total, ratio=ratio)
    mass_a = total / (1 + ratio)
    return PartMasses(Kilogram(mass_a), Kilogram(total - mass_a))


def hardener_for(mass_a: Kilogram, ratio: Ratio) -> Kilogram:
    r"""Mass of B that belongs to the A that was really poured.

    .. math:: m_B = r\, m_A

    Plain: B = A × B per A

    Parameters
    ----------
    mass_a
        Mass of A in the cup, [kg].
    ratio
        Masses of B per mass of A, [1].

    Returns
    -------
    Kilogram
        Mass of B, [kg].

    Raises
    ------
    OutOfRangeError
        If the ratio is zero or negative, or the mass is negative.

    Notes
    -----
    The whole of A in the cup counts; what stays on the stirrer before mixing does not.

    Sources
    -------
    BOAT-RATIO

    Examples
    --------
    >>> round(hardener_for(Kilogram(0.150), Ratio(0.44)) * 1e3, 2)
    66.0
    """
    need_positive(ratio=ratio)
    need_not_negative(mass_a=mass_a)
    return Kilogram(ratio * mass_a)


def resin_for(mass_b: Kilogram, ratio: Ratio) -> Kilogram:
    r"""Mass of A that belongs to the B that was really poured.

    .. math:: m_A = \frac{m_B}{r}

    Plain: A = B ÷ B per A

    Parameters
    ----------
    mass_b
        Mass of B in the cup, [kg].
    ratio
        Masses of B per mass of A, [1].

    Returns
    -------
    Kilogram
        Mass of A, [kg].

    Raises
    ------
    OutOfRangeError
        If the ratio is zero or negative, or the mass is negative.

    Notes
    -----
    Used when B goes in first, and for what a cup with too much B still needs.

    Sources
    -------
    BOAT-RATIO

    Examples
    --------
    >>> round(resin_for(Kilogram(0.050), Ratio(0.44)) * 1e3, 1)
    113.6
    """
    need_positive(ratio=ratio)
    need_not_negative(mass_b=mass_b)
    return Kilogram(mass_b / ratio)


def deviation(mass_a: Kilogram, mass_b: Kilogram, ratio: Ratio) -> Ratio:
    r"""How far a cup is off its ratio; positive where there is too much B.

    .. math:: d = \frac{m_B / m_A}{r} - 1

    Plain: off by = (B ÷ A) ÷ (B per A) − 1

    Parameters
    ----------
    mass_a
        Mass of A in the cup, [kg].
    mass_b
        Mass of B in the cup, [kg].
    ratio
        Masses of B per mass of A, [1].

    Returns
    -------
    Ratio
        Share by which B is over (positive) or short (negative), [1].

    Raises
    ------
    OutOfRangeError
        If A or the ratio is zero or negative, or B is negative.

    Notes
    -----
    Says nothing about how well it is stirred.

    Sources
    -------
    BUILD-LOG-SHORT

    Examples
    --------
    >>> round(deviation(Kilogram(0.144), Kilogram(0.050), Ratio(0.44)), 4)
    -0.2109
    """
    need_positive(mass_a=mass_a, ratio=ratio)
    need_not_negative(mass_b=mass_b)
    return Ratio(mass_b / mass_a / ratio - 1)
