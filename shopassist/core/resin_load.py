"""What liquid resin pushes at: cores that float, walls that bow."""

from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.quantities import (
    STANDARD_GRAVITY,
    CubicMetre,
    Kilogram,
    KilogramPerCubicMetre,
    Metre,
    Newton,
    PascalDelta,
    Ratio,
)

HOLD_DOWN_DEFAULT = Ratio(2.0)
"""Times the bare lift; ours."""
FLOAT_RESERVE = Ratio(0.20)
"""Spare resin to have at hand where a core could break loose; common practice."""
BOW_SHAPE = Ratio(2.0 / 3.0)
"""Mean of a parabolic bow over its greatest depth."""
BALLAST: dict[str, KilogramPerCubicMetre] = {
    "steel": KilogramPerCubicMetre(7850.0),
    "stone or glass": KilogramPerCubicMetre(2500.0),
    "lead, sealed": KilogramPerCubicMetre(11340.0),
}
"""Usual densities; handbook values from memory."""


def lift(volume: CubicMetre, mass: Kilogram, liquid: KilogramPerCubicMetre) -> Kilogram:
    r"""Weight that would just hold a wholly covered piece down.

    .. math:: m_l = \rho V - m

    Plain: lift = density of the liquid × volume of the piece - mass of the piece

    Parameters
    ----------
    volume
        Volume of the piece, [m3].
    mass
        Mass of the piece, [kg].
    liquid
        Density of the liquid resin, [kg/m3].

    Returns
    -------
    Kilogram
        Lift as a mass above the liquid; negative where the piece sinks, [kg].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    Without any hold of the resin; a piece that soaks up resin loses lift.

    Sources
    -------
    ARCHIMEDES

    Examples
    --------
    >>> round(lift(CubicMetre(600e-6), Kilogram(0.4), KilogramPerCubicMetre(1100.0)), 3)
    0.26
    """
    need_positive(volume=volume, mass=mass, liquid=liquid)
    return Kilogram(liquid * volume - mass)


def lift_force(net_lift: Kilogram) -> Newton:
    r"""Force of a lift given as a mass.

    .. math:: F = m g

    Plain: force = lift × standard gravity

    Parameters
    ----------
    net_lift
        Lift as a mass, [kg].

    Returns
    -------
    Newton
        Force upward, [N].

    Raises
    ------
    OutOfRangeError
        Never.

    Notes
    -----
    Standard gravity; local gravity differs by less than 0.3 %.

    Sources
    -------
    ARCHIMEDES

    Examples
    --------
    >>> round(lift_force(Kilogram(0.26)), 2)
    2.55
    """
    return Newton(net_lift * STANDARD_GRAVITY)


def hold_down(net_lift: Kilogram, times: Ratio) -> Kilogram:
    r"""Weight to hold a piece down with from above the liquid.

    .. math:: m_h = k\, m_l

    Plain: hold-down = lift × a reserve

    Parameters
    ----------
    net_lift
        Lift as a mass, [kg].
    times
        Reserve, at least 1, [1].

    Returns
    -------
    Kilogram
        Mass that stays out of the liquid; none where the piece sinks, [kg].

    Raises
    ------
    OutOfRangeError
        If the reserve is below 1.

    Notes
    -----
    The reserve covers knocks, stirring and soft tape; 2 is our default.

    Sources
    -------
    ARCHIMEDES

    Examples
    --------
    >>> round(hold_down(Kilogram(0.26), Ratio(2.0)), 2)
    0.52
    """
    if not times >= 1:
        raise out_of_range("times", "The hold-down must be at least once the lift.")
    return Kilogram(max(times * net_lift, 0.0))


def ballast(
    held: Kilogram, liquid: KilogramPerCubicMetre, material: KilogramPerCubicMetre
) -> Kilogram:
    r"""Mass of a weight that itself hangs in the liquid.

    .. math:: m_b = \frac{m_h}{1 - \rho / \rho_b}

    Plain: ballast = hold-down ÷ (1 - density of the liquid ÷ density of the ballast)

    Parameters
    ----------
    held
        Hold-down needed above the liquid, [kg].
    liquid
        Density of the liquid resin, [kg/m3].
    material
        Density of the ballast, [kg/m3].

    Returns
    -------
    Kilogram
        Mass of the ballast out of the liquid, [kg].

    Raises
    ------
    OutOfRangeError
        If the ballast would float or a value is negative.

    Notes
    -----
    For ballast wholly covered. Its volume raises the level.

    Sources
    -------
    ARCHIMEDES

    Examples
    --------
    >>> steel, resin = KilogramPerCubicMetre(7850.0), KilogramPerCubicMetre(1100.0)
    >>> round(ballast(Kilogram(0.52), resin, steel), 3)
    0.605
    """
    need_not_negative(held=held)
    need_positive(liquid=liquid)
    if not material > liquid:
        raise out_of_range("material", "This ballast would float itself. Take something denser.")
    return Kilogram(held / (1 - liquid / material))


def base_pressure(liquid: KilogramPerCubicMetre, depth: Metre) -> PascalDelta:
    r"""Push of the resin at the foot of a mould wall.

    .. math:: p = \rho g h

    Plain: pressure = density × gravity × depth

    Parameters
    ----------
    liquid
        Density of the liquid resin, [kg/m3].
    depth
        Depth of the resin, [m].

    Returns
    -------
    PascalDelta
        Pressure over that of the air above, [Pa difference].

    Raises
    ------
    OutOfRangeError
        If a value is negative.

    Notes
    -----
    Air pressure in a pot acts on both sides of an open mould and adds nothing to this.

    Sources
    -------
    ARCHIMEDES

    Examples
    --------
    >>> round(base_pressure(KilogramPerCubicMetre(1100.0), Metre(0.075)))
    809
    """
    need_not_negative(liquid=liquid, depth=depth)
    return PascalDelta(liquid * STANDARD_GRAVITY * depth)


def side_force(liquid: KilogramPerCubicMetre, depth: Metre, length: Metre) -> Newton:
    r"""Force of the resin on one upright wall.

    .. math:: F = \tfrac12 \rho g h^2 L

    Plain: force = half the pressure at the foot × depth × length of the wall

    Parameters
    ----------
    liquid
        Density of the liquid resin, [kg/m3].
    depth
        Depth of the resin, [m].
    length
        Length of the wall, [m].

    Returns
    -------
    Newton
        Force on the wall; it acts a third of the depth above the foot, [N].

    Raises
    ------
    OutOfRangeError
        If a value is negative.

    Notes
    -----
    For a flat wall. Says nothing about how far a soft wall gives way.

    Sources
    -------
    ARCHIMEDES

    Examples
    --------
    >>> round(side_force(KilogramPerCubicMetre(1100.0), Metre(0.075), Metre(0.6)), 1)
    18.2
    """
    need_not_negative(length=length)
    return Newton(base_pressure(liquid, depth) / 2 * depth * length)


def bow_volume(bow: Metre, length: Metre, height: Metre) -> CubicMetre:
    r"""Extra resin that one bowed wall takes.

    .. math:: V = \tfrac23\, b L h

    Plain: extra = two thirds of the greatest bow × length × height of the wall

    Parameters
    ----------
    bow
        Greatest bow, measured outward, [m].
    length
        Length of the wall, [m].
    height
        Height that bows, [m].

    Returns
    -------
    CubicMetre
        Extra volume for one wall, [m3].

    Raises
    ------
    OutOfRangeError
        If a value is negative.

    Notes
    -----
    For a parabolic bow along the length, the same at every height.

    Sources
    -------
    MOULD-GUIDES

    Examples
    --------
    >>> round(2 * bow_volume(Metre(0.003), Metre(0.6), Metre(0.075)) * 1e6)
    180
    """
    need_not_negative(bow=bow, length=length, height=height)
    return CubicMetre(BOW_SHAPE * bow * length * height)
