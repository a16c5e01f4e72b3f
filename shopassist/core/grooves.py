"""Volumes of grooves cut round a turned body or along it."""

from math import acos, asin, pi, sqrt

from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.quantities import CubicMetre, Metre, SquareMetre


def _need_inside(diameter: float, depth: float) -> None:
    need_positive(diameter=diameter)
    need_not_negative(depth=depth)
    if depth >= diameter / 2:
        raise out_of_range(
            "depth", "The groove is deeper than the wood at that place. Make it shallower."
        )


def square_ring_volume(diameter: Metre, width: Metre, depth: Metre) -> CubicMetre:
    r"""Volume of a square-cornered groove turned round a cylinder.

    .. math:: V = \pi w \left[R^2 - (R - t)^2\right]

    Plain: volume = π × width × (outer radius² - floor radius²)

    Parameters
    ----------
    diameter
        Diameter of the body at the groove, [m].
    width
        Width along the axis, [m].
    depth
        Depth below the surface, [m].

    Returns
    -------
    CubicMetre
        Volume cut away, [m3].

    Raises
    ------
    OutOfRangeError
        If the groove reaches the axis or a dimension is negative.

    Notes
    -----
    Exact on a cylinder; on a taper the diameter at the middle of the groove is taken.

    Sources
    -------
    GEOMETRY

    Examples
    --------
    >>> round(square_ring_volume(Metre(0.05), Metre(0.008), Metre(0.006)) * 1e9, 1)
    6635.0
    """
    _need_inside(diameter, depth)
    need_not_negative(width=width)
    return CubicMetre(pi * width * depth * (diameter - depth))


def vee_ring_volume(diameter: Metre, width: Metre, depth: Metre) -> CubicMetre:
    r"""Volume of a V-groove turned round a cylinder.

    .. math:: V = 2\pi\left(R - \frac{t}{3}\right)\frac{w t}{2}

    Plain: volume = 2 × π × (radius - a third of the depth) × width × depth ÷ 2

    Parameters
    ----------
    diameter
        Diameter of the body at the groove, [m].
    width
        Width at the surface, along the axis, [m].
    depth
        Depth of the point below the surface, [m].

    Returns
    -------
    CubicMetre
        Volume cut away, [m3].

    Raises
    ------
    OutOfRangeError
        If the groove reaches the axis or a dimension is negative.

    Notes
    -----
    Exact on a cylinder (Pappus: area times the way of its centroid); on a taper the diameter at
    the middle of the groove is taken.

    Sources
    -------
    PAPPUS

    Examples
    --------
    >>> round(vee_ring_volume(Metre(0.05), Metre(0.008), Metre(0.006)) * 1e9, 1)
    3468.3
    """
    _need_inside(diameter, depth)
    need_not_negative(width=width)
    return CubicMetre(pi * (diameter / 2 - depth / 3) * width * depth)


def round_ring_volume(diameter: Metre, depth: Metre) -> CubicMetre:
    r"""Volume of a half-round groove turned round a cylinder.

    .. math:: V = 2\pi\left(R - \frac{4a}{3\pi}\right)\frac{\pi a^2}{2}

    Plain: volume = π² × depth² × (radius - 4 × depth ÷ 3π)

    Parameters
    ----------
    diameter
        Diameter of the body at the groove, [m].
    depth
        Depth, which is the radius of the half round, [m].

    Returns
    -------
    CubicMetre
        Volume cut away, [m3].

    Raises
    ------
    OutOfRangeError
        If the groove reaches the axis or a dimension is negative.

    Notes
    -----
    Exact on a cylinder (Pappus); the half round is twice as wide as deep. On a taper the diameter
    at the middle of the groove is taken.

    Sources
    -------
    PAPPUS

    Examples
    --------
    >>> round(round_ring_volume(Metre(0.05), Metre(0.005)) * 1e9, 1)
    5644.9
    """
    _need_inside(diameter, depth)
    centroid = diameter / 2 - 4 * depth / (3 * pi)
    return CubicMetre(pi**2 * depth**2 * centroid)


def _cap_over(radius: float, half_width: float) -> float:
    """Area between a chord's foot lines, from the axis height up to the circle."""
    if half_width > radius:
        raise out_of_range("width", "The groove is wider than the wood. Make it narrower.")
    return half_width * sqrt(radius**2 - half_width**2) + radius**2 * asin(half_width / radius)


def square_flute_area(diameter: Metre, width: Metre, depth: Metre) -> SquareMetre:
    r"""Cross-section of a square groove cut along a cylinder.

    .. math:: A = b\sqrt{R^2 - b^2} + R^2 \arcsin\frac{b}{R} - 2 b (R - t),\quad b = w/2

    Plain: area under the round surface over the width, less the part below the groove's flat floor

    Parameters
    ----------
    diameter
        Diameter of the body, [m].
    width
        Width across, [m].
    depth
        Depth at the middle, below the top of the round, [m].

    Returns
    -------
    SquareMetre
        Area cut away from the round section, [m2].

    Raises
    ------
    OutOfRangeError
        If the groove reaches the axis, is wider than the body, or is so shallow that its corners
        stay in the air.

    Notes
    -----
    Exact for a flat floor across a round body. Run-outs of the cutter at the ends are left out.

    Sources
    -------
    GEOMETRY

    Examples
    --------
    >>> round(square_flute_area(Metre(0.05), Metre(0.008), Metre(0.006)) * 1e6, 2)
    47.14
    """
    _need_inside(diameter, depth)
    need_not_negative(width=width)
    radius, half = diameter / 2, width / 2
    area = _cap_over(radius, half) - 2 * half * (radius - depth)
    if depth > 0 and sqrt(radius**2 - half**2) < radius - depth:
        raise out_of_range("depth", "The groove is too shallow for its width: it has no corners.")
    return SquareMetre(area if depth > 0 else 0.0)


def vee_flute_area(diameter: Metre, width: Metre, depth: Metre) -> SquareMetre:
    r"""Cross-section of a V-groove cut along a cylinder.

    .. math:: A = R^2 \arcsin\frac{b}{R} - b (R - t),\quad b = w/2

    Plain: area under the round surface over the width, less the part below the two flanks

    Parameters
    ----------
    diameter
        Diameter of the body, [m].
    width
        Width from edge to edge, [m].
    depth
        Depth of the point below the top of the round, [m].

    Returns
    -------
    SquareMetre
        Area cut away from the round section, [m2].

    Raises
    ------
    OutOfRangeError
        If the groove reaches the axis or is wider than the body.

    Notes
    -----
    Exact for flat flanks from the edges to the point. Run-outs of the cutter are left out.

    Sources
    -------
    GEOMETRY

    Examples
    --------
    >>> round(vee_flute_area(Metre(0.05), Metre(0.008), Metre(0.006)) * 1e6, 2)
    24.43
    """
    _need_inside(diameter, depth)
    need_not_negative(width=width)
    radius, half = diameter / 2, width / 2
    flanks = half * (sqrt(max(radius**2 - half**2, 0.0)) + radius - depth)
    return SquareMetre(max(_cap_over(radius, half) - flanks, 0.0))


def round_flute_area(diameter: Metre, depth: Metre) -> SquareMetre:
    r"""Cross-section of a half-round groove cut along a cylinder.

    .. math:: A = a^2 \arccos\frac{a}{2R} + R^2 \arccos\left(1 - \frac{a^2}{2R^2}\right)
              - \frac{a}{2}\sqrt{4R^2 - a^2}

    Plain: the lens in which the cutter's circle, centred on the surface, overlaps the round

    Parameters
    ----------
    diameter
        Diameter of the body, [m].
    depth
        Depth, which is the radius of the cutter, [m].

    Returns
    -------
    SquareMetre
        Area cut away from the round section, [m2].

    Raises
    ------
    OutOfRangeError
        If the groove reaches the axis.

    Notes
    -----
    Exact for a round cutter centred on the surface. Run-outs of the cutter are left out.

    Sources
    -------
    GEOMETRY

    Examples
    --------
    >>> round(round_flute_area(Metre(0.05), Metre(0.005)) * 1e6, 2)
    37.6
    """
    _need_inside(diameter, depth)
    radius = diameter / 2
    lens = depth**2 * acos(depth / diameter) + radius**2 * acos(1 - depth**2 / (2 * radius**2))
    return SquareMetre(lens - depth / 2 * sqrt(diameter**2 - depth**2))
