"""Spinning work: speeds at the rim, energy, drilling, how long to cut a blank."""

from math import pi

from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.quantities import (
    Joule,
    Kilogram,
    Metre,
    MetrePerSecond,
    Newton,
    PerSecond,
    Ratio,
)

INCH = 0.0254
ROUGH, FINE = 6000.0, 9000.0
"""Turners' rule: inches of diameter × revolutions a minute; common practice, called cautious."""
CAUTION = Ratio(0.5)
"""Share of the band that is left for voids, cracks and joints of resin and wood; ours."""
PECK_SOLID = Ratio(1.5)
"""Depth of one peck in drill diameters, in sound wood; common practice says 1 to 2."""
PECK_FILLED = Metre(0.006)
"""Deepest peck in stabilised wood and resin; a supplier's advice."""
DRILL_SPEED = {
    "softwood": MetrePerSecond(75.0 / 60),
    "hardwood": MetrePerSecond(40.0 / 60),
    "stabilised or resin": MetrePerSecond(20.0 / 60),
}
"""Speed at the drill's edge; the first two from a drill chart, the last our half of hardwood."""
TRIM = Metre(0.0015875)
"""Left at each end for trimming; common practice, 1/16 in."""
THIN_WALL = Metre(0.004)
"""A wall of resin thinner than this tends to split; ours."""


def revolutions(speed: MetrePerSecond, diameter: Metre) -> PerSecond:
    r"""Speed of the spindle for a speed at the rim.

    .. math:: n = \frac{v}{\pi D}

    Plain: rim speed ÷ (pi × diameter)

    Parameters
    ----------
    speed
        Speed at the rim, [m/s].
    diameter
        Greatest diameter, [m].

    Returns
    -------
    PerSecond
        Revolutions, [1/s].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    The greatest diameter counts, corners of square stock too.

    Sources
    -------
    GEOMETRY

    Examples
    --------
    >>> round(revolutions(MetrePerSecond(48.0 / 60), Metre(0.060)) * 60)
    255
    """
    need_positive(speed=speed, diameter=diameter)
    return PerSecond(speed / (pi * diameter))


def rim_speed(turns: PerSecond, diameter: Metre) -> MetrePerSecond:
    r"""Speed at the rim.

    .. math:: v = \pi D n

    Plain: pi × diameter × revolutions

    Parameters
    ----------
    turns
        Revolutions, [1/s].
    diameter
        Greatest diameter, [m].

    Returns
    -------
    MetrePerSecond
        Speed at the rim, [m/s].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    What a piece that comes off flies away with.

    Sources
    -------
    GEOMETRY

    Examples
    --------
    >>> round(rim_speed(PerSecond(1000 / 60), Metre(12 * 0.0254)), 1)
    16.0
    """
    need_positive(turns=turns, diameter=diameter)
    return MetrePerSecond(pi * diameter * turns)


def rule_speed(diameter: Metre, product: Ratio) -> PerSecond:
    r"""Turners' rule of thumb for the speed of the spindle.

    .. math:: n = \frac{c}{D_{in}}

    Plain: 6000 (rough) to 9000 (balanced) ÷ diameter in inches, in revolutions a minute

    Parameters
    ----------
    diameter
        Greatest diameter, [m].
    product
        Diameter in inches × revolutions a minute, [1].

    Returns
    -------
    PerSecond
        Revolutions, [1/s].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    Between 8 and 12 m/s at any rim. A ceiling for sound, balanced work, not a goal.

    Sources
    -------
    TURNERS-RULE

    Examples
    --------
    >>> round(rule_speed(Metre(0.060), Ratio(6000.0)) * 60)
    2540
    """
    need_positive(diameter=diameter, product=product)
    return PerSecond(product / (diameter / INCH) / 60)


@frozen
class SpeedBand:
    """Where the speed knob belongs."""

    low: PerSecond
    high: PerSecond
    rim: MetrePerSecond
    """Speed at the rim at the upper end."""
    reasons: tuple[Text, ...] = ()
    """Why the band was lowered."""


def speed_band(diameter: Metre, faults: frozenset[str] = frozenset()) -> SpeedBand:
    """Speed band by the turners' rule, at its lower end or under it for work that may part."""
    unknown = faults - FAULTS.keys()
    if unknown:
        raise out_of_range("faults", "There is no such fault in the list.")
    low, high = rule_speed(diameter, Ratio(ROUGH)), rule_speed(diameter, Ratio(FINE))
    if faults:
        low, high = PerSecond(low * CAUTION), low
    return SpeedBand(low, high, rim_speed(high, diameter),
                     tuple(FAULTS[each] for each in sorted(faults)))  # fmt: skip


FAULTS: dict[str, Text] = {
    "cracks": say("Cracks can open at speed."),
    "joint": say("Resin and wood can part at their joint."),
    "off centre": say("Work that is not round yet shakes."),
    "hollow": say("A bored piece holds less."),
    "voids": say("Voids unbalance it and can break out."),
}


def spin_energy(mass: Kilogram, diameter: Metre, turns: PerSecond) -> Joule:
    r"""Energy of a spinning cylinder.

    .. math:: E = \tfrac12 \cdot \tfrac12 m r^2 (2\pi n)^2

    Plain: mass × radius² ÷ 4 × (2 pi × revolutions)²

    Parameters
    ----------
    mass
        Mass of the piece, [kg].
    diameter
        Diameter, [m].
    turns
        Revolutions, [1/s].

    Returns
    -------
    Joule
        Energy, [J].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    Goes with the square of the speed: 350 to 3000 is 73 times as much.

    Sources
    -------
    GEOMETRY

    Examples
    --------
    >>> round(spin_energy(Kilogram(1.296), Metre(0.100), PerSecond(20.0)), 1)
    12.8
    """
    need_positive(mass=mass, diameter=diameter, turns=turns)
    return Joule(mass * (diameter / 2) ** 2 / 4 * (2 * pi * turns) ** 2)


def unbalance_force(mass: Kilogram, offset: Metre, turns: PerSecond) -> Newton:
    r"""Shaking force of a piece whose centre lies beside the axis.

    .. math:: F = m e (2\pi n)^2

    Plain: mass × offset × (2 pi × revolutions)²

    Parameters
    ----------
    mass
        Mass of the piece, [kg].
    offset
        Distance of its centre from the axis, [m].
    turns
        Revolutions, [1/s].

    Returns
    -------
    Newton
        Force that turns with the piece, [N].

    Raises
    ------
    OutOfRangeError
        If mass or speed is not positive or the offset negative.

    Notes
    -----
    Goes with the square of the speed.

    Sources
    -------
    GEOMETRY

    Examples
    --------
    >>> round(unbalance_force(Kilogram(1.30), Metre(0.001), PerSecond(20.0)), 1)
    20.5
    """
    need_positive(mass=mass, turns=turns)
    need_not_negative(offset=offset)
    return Newton(mass * offset * (2 * pi * turns) ** 2)


@frozen
class Drilling:
    """How to drill one bore."""

    turns: PerSecond
    peck: Metre
    pecks: int
    """How often to withdraw, the last one included."""
    stop: Metre
    """Depth at which the drill stops, at its full width: its point is deeper."""
    length: Metre
    """To cut the blank to, before drilling."""
    warnings: tuple[Text, ...] = ()


def drilling(
    drill: Metre, depth: Metre, stock: Metre, material: str, *, both_ends: bool = False
) -> Drilling:
    """Work out speed, pecks, stop depth and blank length for a bore through ``depth``."""
    need_positive(drill=drill, depth=depth, stock=stock)
    if material not in DRILL_SPEED:
        raise out_of_range("material", "Choose softwood, hardwood, or stabilised or resin.")
    if drill >= stock:
        raise out_of_range("drill", "The drill is as thick as the stock: take a thinner one.")
    filled = material == "stabilised or resin"
    peck = Metre(min(PECK_SOLID * drill, PECK_FILLED) if filled else PECK_SOLID * drill)
    # Nothing breaks out where the holes meet: both go past the middle, and no point is cut off.
    stop = Metre(depth / 2 + 2 * TRIM if both_ends else depth + TRIM)
    length = Metre(depth + 2 * TRIM) if both_ends else blank_length(depth, drill)
    warnings: list[Text] = []
    wall = Metre((stock - drill) / 2)
    if wall < THIN_WALL:
        warnings.append(say("Only {w} of wall round the drill: it may split where the drill comes"
                            " out.", w=Amount(wall, "Metre")))  # fmt: skip
    if filled:
        warnings.append(say("Let it cool between pecks; smoke or stringy chips mean too fast."))
    return Drilling(
        revolutions(DRILL_SPEED[material], drill), peck, -int(-depth // peck), stop, length,
        tuple(warnings),
    )  # fmt: skip


def blank_length(finished: Metre, drill: Metre) -> Metre:
    r"""Length to cut a blank to, so that the drill's point stays inside it.

    .. math:: L = l + d + 2 t

    Plain: finished length + one drill diameter + trim at both ends

    Parameters
    ----------
    finished
        Finished length, [m].
    drill
        Drill diameter, [m].

    Returns
    -------
    Metre
        Length to cut, [m].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    Drilled to the stop and then cut back, the exit never breaks out. One diameter covers any
    usual point.

    Sources
    -------
    DRILL-ADVICE

    Examples
    --------
    >>> round(blank_length(Metre(2.25 * 0.0254), Metre(0.375 * 0.0254)) / 0.0254, 3)
    2.75
    """
    need_positive(finished=finished, drill=drill)
    return Metre(finished + drill + 2 * TRIM)


CAUTIONS: tuple[Text, ...] = (
    say("Speed knob at its lowest before you switch on; stand out of line with the rim."),
    say("Face shield and breathing protection; a shield does not stop a large piece."),
    say("No rags, gloves or loose sleeves near spinning work."),
    say("Dust of hardwood and of half-cured resin harms: extract at the source; look up your"
        " local exposure limits."),
)  # fmt: skip
"""Usual cautions of the trade; local rules and the maker's sheet come first."""
