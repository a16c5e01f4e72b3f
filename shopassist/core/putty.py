"""Two-part putty for the grooves: equal volumes, and what they weigh."""

from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.quantities import CubicMetre, Kilogram, KilogramPerCubicMetre, Ratio, Second

PROUD_DEFAULT = Ratio(0.10)
"""Allowance for filling proud; ours."""
KNEAD_DEFAULT = Second(300.0)
"""Until one even colour: five minutes, common practice, no source; small lots take 1 to 3."""
SET_DEFAULT = Second(12 * 3600.0)
"""Before turning or sanding: overnight, common practice."""


@frozen
class PuttyTimes:
    """Waits of a putty, counted from the start of kneading."""

    knead: Second = KNEAD_DEFAULT
    work: Second | None = None
    """How long it can be pressed in; None: not on the sheet."""
    set: Second = SET_DEFAULT

    def problem(self) -> str:
        """Field whose time cannot be right beside the others; empty when all agree."""
        if self.work is not None and self.work <= self.knead:
            return "work"
        return "set" if self.set <= (self.work or self.knead) else ""

    def need_order(self) -> None:
        """Refuse waits that cannot follow one another."""
        field = self.problem()
        if field:
            raise out_of_range(field, "This time must be longer than the one before it.")


def putty_volume(grooves: CubicMetre, proud: Ratio) -> CubicMetre:
    r"""Putty needed for the grooves.

    .. math:: V = V_g (1 + p)

    Plain: putty = groove volume × (1 + proud allowance)

    Parameters
    ----------
    grooves
        Volume of the grooves to be filled, [m3].
    proud
        Allowance for filling proud, [1].

    Returns
    -------
    CubicMetre
        Mixed putty, [m3].

    Raises
    ------
    OutOfRangeError
        If there is no groove or the allowance is negative.

    Notes
    -----
    What sticks to gloves is not in it.

    Sources
    -------
    PRACTICE

    Examples
    --------
    >>> round(putty_volume(CubicMetre(6.635e-6), Ratio(0.1)) * 1e6, 2)
    7.3
    """
    need_positive(grooves=grooves)
    need_not_negative(proud=proud)
    return CubicMetre(grooves * (1 + proud))


def equal_part(total: CubicMetre) -> CubicMetre:
    r"""Volume of each part of an equal-parts putty.

    .. math:: V_A = V_B = \frac{V}{2}

    Plain: each part = half of the putty

    Parameters
    ----------
    total
        Mixed putty, [m3].

    Returns
    -------
    CubicMetre
        Volume of one part, [m3].

    Raises
    ------
    OutOfRangeError
        If there is no putty.

    Notes
    -----
    Equal by volume: two ropes of one thickness cut to one length. Not by weight.

    Sources
    -------
    PRACTICE

    Examples
    --------
    >>> round(equal_part(CubicMetre(7.3e-6)) * 1e6, 2)
    3.65
    """
    need_positive(total=total)
    return CubicMetre(total / 2)


def part_mass(volume: CubicMetre, density: KilogramPerCubicMetre) -> Kilogram:
    r"""Mass of one part of putty.

    .. math:: m = \rho V

    Plain: mass = density × volume

    Parameters
    ----------
    volume
        Volume of the part, [m3].
    density
        Density of that part, [kg/m3].

    Returns
    -------
    Kilogram
        Mass, [kg].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    Each part has a density of its own; equal grams would be off ratio.

    Sources
    -------
    PUTTY-SHEET

    Examples
    --------
    >>> round(part_mass(CubicMetre(3.65e-6), KilogramPerCubicMetre(1700.0)) * 1e3, 1)
    6.2
    """
    need_positive(volume=volume, density=density)
    return Kilogram(volume * density)


def equal_grams_error(density_a: KilogramPerCubicMetre, density_b: KilogramPerCubicMetre) -> Ratio:
    r"""How far off ratio equal grams would be.

    .. math:: d = \frac{\rho_A}{\rho_B} - 1

    Plain: error = density of A ÷ density of B - 1

    Parameters
    ----------
    density_a
        Density of part A, [kg/m3].
    density_b
        Density of part B, [kg/m3].

    Returns
    -------
    Ratio
        Too much of B, as a share; negative: too little, [1].

    Raises
    ------
    OutOfRangeError
        If a density is zero or negative.

    Notes
    -----
    For a putty that is equal by volume.

    Sources
    -------
    PUTTY-SHEET

    Examples
    --------
    >>> round(equal_grams_error(KilogramPerCubicMetre(1400.0), KilogramPerCubicMetre(1000.0)), 2)
    0.4
    """
    need_positive(density_a=density_a, density_b=density_b)
    return Ratio(density_a / density_b - 1)
