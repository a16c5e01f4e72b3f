"""How much wood a drill leaves."""

from math import hypot

from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.quantities import Metre, Ratio


def drift_worst(
    eccentricity: Metre, start_offset: Metre, runout: Metre, wander: Ratio, depth: Metre
) -> Metre:
    r"""Sideways error of a bore with every error pointing the same way.

    .. math:: \delta = e + s_0 + \frac{T}{2} + \omega z

    Plain: drift = eccentricity + start offset + half the runout + wander × depth

    Parameters
    ----------
    eccentricity
        Axis of the core against axis of the lathe, [m].
    start_offset
        Start of the bore against the axis of the lathe, [m].
    runout
        Total indicator reading of the drill, [m].
    wander
        Sideways for each length of depth, [1].
    depth
        Depth from where the drill entered, [m].

    Returns
    -------
    Metre
        Greatest sideways error, [m].

    Raises
    ------
    OutOfRangeError
        If a value is negative.

    Notes
    -----
    A straight wander; grain and knots can bend a drill further than this.

    Sources
    -------
    OWN

    Examples
    --------
    >>> one, third, fifth = Metre(0.001), Metre(0.0003), Metre(0.0002)
    >>> round(drift_worst(one, third, fifth, Ratio(0.01), Metre(0.15)) * 1e3, 2)
    2.9
    """
    need_not_negative(eccentricity=eccentricity, start_offset=start_offset, runout=runout)
    need_not_negative(wander=wander, depth=depth)
    return Metre(eccentricity + start_offset + runout / 2 + wander * depth)


def drift_likely(
    eccentricity: Metre, start_offset: Metre, runout: Metre, wander: Ratio, depth: Metre
) -> Metre:
    r"""Sideways error of a bore with errors that point anywhere.

    .. math:: \delta = \sqrt{e^2 + s_0^2 + (T/2)^2 + (\omega z)^2}

    Plain: drift = root of the sum of the squares of the four errors

    Parameters
    ----------
    eccentricity
        Axis of the core against axis of the lathe, [m].
    start_offset
        Start of the bore against the axis of the lathe, [m].
    runout
        Total indicator reading of the drill, [m].
    wander
        Sideways for each length of depth, [1].
    depth
        Depth from where the drill entered, [m].

    Returns
    -------
    Metre
        Likely sideways error, [m].

    Raises
    ------
    OutOfRangeError
        If a value is negative.

    Notes
    -----
    Root sum square: right for independent errors, too kind for ones that go together.

    Sources
    -------
    OWN

    Examples
    --------
    >>> one, third, fifth = Metre(0.001), Metre(0.0003), Metre(0.0002)
    >>> round(drift_likely(one, third, fifth, Ratio(0.01), Metre(0.15)) * 1e3, 2)
    1.83
    """
    need_not_negative(eccentricity=eccentricity, start_offset=start_offset, runout=runout)
    need_not_negative(wander=wander, depth=depth)
    return Metre(hypot(eccentricity, start_offset, runout / 2, wander * depth))


def wall_left(floor_diameter: Metre, drill: Metre, drift: Metre) -> Metre:
    r"""Wood between a bore and the groove's floor, or the surface where there is no groove.

    .. math:: w = \frac{d_g}{2} - \frac{d_d}{2} - \delta

    Plain: wall = floor radius - drill radius - drift

    Parameters
    ----------
    floor_diameter
        Diameter at the floor of the groove; for square stock its width, [m].
    drill
        Diameter of the drill, [m].
    drift
        Sideways error of the bore, [m].

    Returns
    -------
    Metre
        Wall left on the thin side; below zero the drill breaks out, [m].

    Raises
    ------
    OutOfRangeError
        If a diameter is zero or negative.

    Notes
    -----
    A drill also cuts larger than its mark; add that to its diameter.

    Sources
    -------
    OWN

    Examples
    --------
    >>> round(wall_left(Metre(0.038), Metre(0.025), Metre(0.0029)) * 1e3, 2)
    3.6
    """
    need_positive(floor_diameter=floor_diameter, drill=drill)
    need_not_negative(drift=drift)
    return Metre((floor_diameter - drill) / 2 - drift)


def greatest_drill(floor_diameter: Metre, wall: Metre, drift: Metre) -> Metre:
    r"""Greatest drill that leaves an asked wall.

    .. math:: d_d = d_g - 2 (w + \delta)

    Plain: drill = floor diameter - 2 × (wall + drift)

    Parameters
    ----------
    floor_diameter
        Diameter at the floor of the groove, [m].
    wall
        Wall to be left, [m].
    drift
        Sideways error of the bore, [m].

    Returns
    -------
    Metre
        Drill diameter, [m].

    Raises
    ------
    OutOfRangeError
        If not even the thinnest drill would leave that wall.

    Notes
    -----
    Round down to a drill that you own.

    Sources
    -------
    OWN

    Examples
    --------
    >>> round(greatest_drill(Metre(0.038), Metre(0.003), Metre(0.0029)) * 1e3, 1)
    26.2
    """
    need_positive(floor_diameter=floor_diameter)
    need_not_negative(wall=wall, drift=drift)
    drill = floor_diameter - 2 * (wall + drift)
    if drill <= 0:
        raise out_of_range("wall", "No drill leaves this wall. Ask for less or make it thicker.")
    return Metre(drill)


def thickening(floor_diameter: Metre, drill: Metre, wall: Metre, drift: Metre) -> Metre:
    r"""How much greater a floor diameter must be for an asked wall.

    .. math:: \Delta d = \max\left(0,\ d_d + 2 (w + \delta) - d_g\right)

    Plain: thicker by = drill + 2 × (wall + drift) - floor diameter

    Parameters
    ----------
    floor_diameter
        Diameter at the floor of the groove, [m].
    drill
        Diameter of the drill, [m].
    wall
        Wall to be left, [m].
    drift
        Sideways error of the bore, [m].

    Returns
    -------
    Metre
        Missing diameter; none where there is enough, [m].

    Raises
    ------
    OutOfRangeError
        If a diameter is zero or negative.

    Notes
    -----
    Or make the groove shallower by half of it.

    Sources
    -------
    OWN

    Examples
    --------
    >>> round(thickening(Metre(0.014), Metre(0.007), Metre(0.003), Metre(0.0016)) * 1e3, 1)
    2.2
    """
    need_positive(floor_diameter=floor_diameter, drill=drill)
    need_not_negative(wall=wall, drift=drift)
    return Metre(max(drill + 2 * (wall + drift) - floor_diameter, 0.0))


def cut_length(insert: Metre, point: Metre, trim: Metre) -> Metre:
    r"""Length to cut a blank to, so that the drill does not split its end.

    .. math:: L = l + p + 2 t

    Plain: length = insert + drill point + trim at both ends

    Parameters
    ----------
    insert
        Length of the insert, [m].
    point
        Length of the drill's point, [m].
    trim
        Trimmed off each end, [m].

    Returns
    -------
    Metre
        Length of the blank, [m].

    Raises
    ------
    OutOfRangeError
        If a value is negative.

    Notes
    -----
    The drill stops inside; the end with the point's cone is cut off.

    Sources
    -------
    PRACTICE

    Examples
    --------
    >>> round(cut_length(Metre(0.05715), Metre(0.009525), Metre(0.0)) / 0.0254, 3)
    2.625
    """
    need_not_negative(insert=insert, point=point, trim=trim)
    return Metre(insert + point + 2 * trim)
