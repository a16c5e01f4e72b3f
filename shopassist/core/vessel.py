"""What pressure does to a pot: force on the lid, stored energy, a picture of its scale."""

from math import pi

from shopassist.core.atmosphere import absolute_pressure
from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.quantities import (
    STANDARD_GRAVITY,
    CubicMetre,
    Joule,
    Kilogram,
    Metre,
    Newton,
    PascalAbsolute,
    PascalGauge,
)

AIR_GAMMA = 1.4
"""Ratio of heat capacities of air; GAS-DYNAMICS."""


def lid_force(gauge: PascalGauge, seal_diameter: Metre) -> Newton:
    r"""Force with which pressure lifts a lid.

    .. math:: F = p\,\frac{\pi D^2}{4}

    Plain: force = gauge pressure × area inside the seal line

    Parameters
    ----------
    gauge
        Gauge pressure inside, [Pa gauge].
    seal_diameter
        Diameter of the seal line, [m].

    Returns
    -------
    Newton
        Force on the whole lid, [N].

    Raises
    ------
    OutOfRangeError
        If the diameter is zero or negative, or the pressure is negative.

    Notes
    -----
    The diameter is that of the seal line, not of the inside; it counts squared.

    Sources
    -------
    FORCE-AREA

    Examples
    --------
    >>> round(lid_force(PascalGauge(413685.4), Metre(0.3048)))
    30185
    """
    need_positive(seal_diameter=seal_diameter)
    need_not_negative(gauge=gauge)
    return Newton(gauge * pi * seal_diameter**2 / 4)


def clamp_share(force: Newton, clamps: int) -> Newton:
    r"""Force on each clamp when all are evenly tight.

    .. math:: F_1 = \frac{F}{n}

    Plain: each = force on the lid ÷ number of clamps

    Parameters
    ----------
    force
        Force on the whole lid, [N].
    clamps
        Number of clamps.

    Returns
    -------
    Newton
        Force on one clamp, [N].

    Raises
    ------
    OutOfRangeError
        If there is no clamp, or the force is negative.

    Notes
    -----
    One slack clamp loads its neighbours far above this: none may be missing.

    Sources
    -------
    FORCE-AREA

    Examples
    --------
    >>> round(clamp_share(Newton(20961.0), 6))
    3494
    """
    need_positive(clamps=clamps)
    need_not_negative(force=force)
    return Newton(force / clamps)


def stored_energy(gauge: PascalGauge, volume: CubicMetre, ambient: PascalAbsolute) -> Joule:
    r"""Energy that compressed air gives back when it bursts out.

    .. math:: E = \frac{p V}{\gamma - 1}\left[1 - (p_a/p)^{(\gamma - 1)/\gamma}\right]

    Plain: energy = p × V ÷ 0.4 × (1 − (air pressure ÷ p)^0.286), p absolute

    Parameters
    ----------
    gauge
        Gauge pressure inside, [Pa gauge].
    volume
        Inside volume, [m3].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    Joule
        Energy, isentropic, [J].

    Raises
    ------
    OutOfRangeError
        If the volume is zero or negative, or the gauge pressure is negative.

    Notes
    -----
    Air without friction or heat from the walls; the whole inside counts as air. It shows scale;
    it is no licence.

    Sources
    -------
    CROWL-2003
    PCC-2-2008

    Examples
    --------
    >>> sea = PascalAbsolute(101325.0)
    >>> round(stored_energy(PascalGauge(413685.4), CubicMetre(0.010), sea))
    4784
    """
    need_positive(volume=volume)
    need_not_negative(gauge=gauge)
    absolute = absolute_pressure(gauge, ambient)
    share = 1 - (ambient / absolute) ** ((AIR_GAMMA - 1) / AIR_GAMMA)
    return Joule(absolute * volume / (AIR_GAMMA - 1) * share)


def stored_energy_bound(gauge: PascalGauge, volume: CubicMetre) -> Joule:
    r"""Upper bound of the energy of compressed air.

    .. math:: E = \frac{p_g V}{\gamma - 1}

    Plain: bound = gauge pressure × volume ÷ 0.4

    Parameters
    ----------
    gauge
        Gauge pressure inside, [Pa gauge].
    volume
        Inside volume, [m3].

    Returns
    -------
    Joule
        Energy, upper bound, [J].

    Raises
    ------
    OutOfRangeError
        If the volume is zero or negative, or the gauge pressure is negative.

    Notes
    -----
    After Brode: all of the internal energy above that of the air around.

    Sources
    -------
    CROWL-2003

    Examples
    --------
    >>> round(stored_energy_bound(PascalGauge(413685.4), CubicMetre(0.037854)))
    39149
    """
    need_positive(volume=volume)
    need_not_negative(gauge=gauge)
    return Joule(gauge * volume / (AIR_GAMMA - 1))


def drop_height(energy: Joule, mass: Kilogram) -> Metre:
    r"""Height from which a weight falls with the same energy.

    .. math:: h = \frac{E}{m g}

    Plain: height = energy ÷ (mass × 9.80665 m/s²)

    Parameters
    ----------
    energy
        Energy stored, [J].
    mass
        Mass of the weight, [kg].

    Returns
    -------
    Metre
        Height of the fall, [m].

    Raises
    ------
    OutOfRangeError
        If the mass is zero or negative, or the energy is negative.

    Notes
    -----
    A picture of scale, nothing else.

    Sources
    -------
    FORCE-AREA

    Examples
    --------
    >>> round(drop_height(Joule(18110.0), Kilogram(10.0)))
    185
    """
    need_positive(mass=mass)
    need_not_negative(energy=energy)
    return Metre(energy / (mass * STANDARD_GRAVITY))


def pressure_volume(rating: PascalGauge, volume: CubicMetre) -> Joule:
    r"""Product of rating and volume, by which rules sort vessels.

    .. math:: PV = p V

    Plain: product = rating × volume (1 bar litre = 100 J)

    Parameters
    ----------
    rating
        Rated gauge pressure, [Pa gauge].
    volume
        Inside volume, [m3].

    Returns
    -------
    Joule
        Product, [J].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    No ruling: look up the rules of your country.

    Sources
    -------
    PSSR-2000

    Examples
    --------
    >>> round(pressure_volume(PascalGauge(551580.6), CubicMetre(0.037854)) / 100, 1)
    208.8
    """
    need_positive(rating=rating, volume=volume)
    return Joule(rating * volume)
