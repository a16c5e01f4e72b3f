"""Volumes and areas of turned, bored, grooved and cast shapes."""

from math import hypot, pi, tan

from shopassist.core.bounds import need_not_negative
from shopassist.core.errors import out_of_range
from shopassist.core.quantities import CubicMetre, Metre, Radian, SquareMetre


def circle_area(diameter: Metre) -> SquareMetre:
    r"""Area of a circle.

    .. math:: A = \frac{\pi d^2}{4}

    Plain: area = π × diameter² ÷ 4

    Parameters
    ----------
    diameter
        Diameter, [m].

    Returns
    -------
    SquareMetre
        Area, [m2].

    Raises
    ------
    OutOfRangeError
        If the diameter is negative.

    Notes
    -----
    Exact.

    Sources
    -------
    GEOMETRY

    Examples
    --------
    >>> round(circle_area(Metre(0.076)) * 1e4, 3)
    45.365
    """
    need_not_negative(diameter=diameter)
    return SquareMetre(pi * diameter**2 / 4)


def cylinder_volume(diameter: Metre, length: Metre) -> CubicMetre:
    r"""Volume of a cylinder.

    .. math:: V = \frac{\pi d^2}{4} L

    Plain: volume = π × diameter² ÷ 4 × length

    Parameters
    ----------
    diameter
        Diameter, [m].
    length
        Length along the axis, [m].

    Returns
    -------
    CubicMetre
        Volume, [m3].

    Raises
    ------
    OutOfRangeError
        If a dimension is negative.

    Notes
    -----
    Exact for a true cylinder; out-of-round enters squared.

    Sources
    -------
    GEOMETRY

    Examples
    --------
    >>> round(cylinder_volume(Metre(0.076), Metre(0.2)) * 1e6, 1)
    907.3
    """
    need_not_negative(length=length)
    return CubicMetre(circle_area(diameter) * length)


def box_volume(length: Metre, width: Metre, height: Metre) -> CubicMetre:
    r"""Volume of a box.

    .. math:: V = L w h

    Plain: volume = length × width × height

    Parameters
    ----------
    length
        Length inside, [m].
    width
        Width inside, [m].
    height
        Height inside, [m].

    Returns
    -------
    CubicMetre
        Volume, [m3].

    Raises
    ------
    OutOfRangeError
        If a dimension is negative.

    Notes
    -----
    Exact for square corners; a corner radius takes a little away.

    Sources
    -------
    GEOMETRY

    Examples
    --------
    >>> round(box_volume(Metre(0.6), Metre(0.1), Metre(0.075)) * 1e6)
    4500
    """
    need_not_negative(length=length, width=width, height=height)
    return CubicMetre(length * width * height)


def frustum_volume(diameter_a: Metre, diameter_b: Metre, length: Metre) -> CubicMetre:
    r"""Volume of a straight taper between two diameters.

    .. math:: V = \frac{\pi L}{12}\left(d_a^2 + d_a d_b + d_b^2\right)

    Plain: volume = π × length ÷ 12 × (a² + a × b + b²), a and b the diameters

    Parameters
    ----------
    diameter_a
        Diameter at one end, [m].
    diameter_b
        Diameter at the other end, [m].
    length
        Length along the axis, [m].

    Returns
    -------
    CubicMetre
        Volume, [m3].

    Raises
    ------
    OutOfRangeError
        If a dimension is negative.

    Notes
    -----
    Exact for a straight taper; zero at one end makes a cone.

    Sources
    -------
    GEOMETRY

    Examples
    --------
    >>> round(frustum_volume(Metre(0.06), Metre(0.04), Metre(0.08)) * 1e9)
    159174
    """
    need_not_negative(diameter_a=diameter_a, diameter_b=diameter_b, length=length)
    squares = diameter_a**2 + diameter_a * diameter_b + diameter_b**2
    return CubicMetre(pi * length / 12 * squares)


def frustum_side_area(diameter_a: Metre, diameter_b: Metre, length: Metre) -> SquareMetre:
    r"""Area of the side of a straight taper, ends not counted.

    .. math:: A = \frac{\pi}{2}(d_a + d_b)\sqrt{L^2 + \left(\frac{d_a - d_b}{2}\right)^2}

    Plain: area = π × half the sum of the diameters × slant length

    Parameters
    ----------
    diameter_a
        Diameter at one end, [m].
    diameter_b
        Diameter at the other end, [m].
    length
        Length along the axis, [m].

    Returns
    -------
    SquareMetre
        Area of the side, [m2].

    Raises
    ------
    OutOfRangeError
        If a dimension is negative.

    Notes
    -----
    Exact; with no length it is the ring of a square shoulder.

    Sources
    -------
    GEOMETRY

    Examples
    --------
    >>> round(frustum_side_area(Metre(0.06), Metre(0.06), Metre(0.15)) * 1e4, 1)
    282.7
    """
    need_not_negative(diameter_a=diameter_a, diameter_b=diameter_b, length=length)
    slant = hypot(length, (diameter_a - diameter_b) / 2)
    return SquareMetre(pi * (diameter_a + diameter_b) / 2 * slant)


def drill_point_length(diameter: Metre, point_angle: Radian) -> Metre:
    r"""Length of a drill's cone beyond its full diameter.

    .. math:: p = \frac{d}{2 \tan(\theta / 2)}

    Plain: point = half the diameter ÷ tangent of half the point angle

    Parameters
    ----------
    diameter
        Drill diameter, [m].
    point_angle
        Full angle at the point; half a turn for a flat bit, [rad].

    Returns
    -------
    Metre
        Length of the cone, [m].

    Raises
    ------
    OutOfRangeError
        If the diameter is negative or the angle is not between nothing and half a turn.

    Notes
    -----
    Spurs and lead points of wood bits are left out.

    Sources
    -------
    GEOMETRY

    Examples
    --------
    >>> from math import radians
    >>> round(drill_point_length(Metre(0.008), Radian(radians(118))) * 1e3, 2)
    2.4
    """
    need_not_negative(diameter=diameter)
    if not 0.0 < point_angle <= pi:
        raise out_of_range("point_angle", "Give a point angle over 0° and up to 180°.")
    return Metre(diameter / 2 / tan(point_angle / 2))


def bore_volume(diameter: Metre, depth: Metre, point_angle: Radian) -> CubicMetre:
    r"""Volume of a blind hole with a drill's cone at its end.

    .. math:: V = \frac{\pi d^2}{4}\left(L + \frac{p}{3}\right)

    Plain: volume = π × diameter² ÷ 4 × (depth + a third of the point)

    Parameters
    ----------
    diameter
        Drill diameter, [m].
    depth
        Depth at full diameter, [m].
    point_angle
        Full angle at the point; half a turn for a flat bottom, [rad].

    Returns
    -------
    CubicMetre
        Volume of the hole, [m3].

    Raises
    ------
    OutOfRangeError
        If a dimension is negative or the angle is impossible.

    Notes
    -----
    A hole right through has no cone: give half a turn.

    Sources
    -------
    GEOMETRY

    Examples
    --------
    >>> from math import pi
    >>> round(bore_volume(Metre(0.007), Metre(0.016), Radian(pi)) * 1e9)
    616
    """
    need_not_negative(depth=depth)
    point = drill_point_length(diameter, point_angle)
    return CubicMetre(circle_area(diameter) * (depth + point / 3))
