"""How wood, dry or soaked with resin, takes up and passes on heat."""

from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.quantities import (
    JoulePerKilogramKelvin,
    Kelvin,
    KilogramPerCubicMetre,
    Ratio,
    SquareMetrePerSecond,
    WattPerMetreKelvin,
    WattPerSquareMetreKelvin,
)
from shopassist.core.wood import voids

RESIN_HEAT = JoulePerKilogramKelvin(1800.0)
RESIN_CONDUCTIVITY = WattPerMetreKelvin(0.17)
"""Liquid methacrylate class, from memory."""
WARMER = 0.0025
"""Rise of the conductivity of wood, [1/K]; the handbook says 2 to 3 % for 10 °C."""
READ_AT = Kelvin(297.15)
"""Temperature that the handbook's line holds at."""
FILMS: dict[str, WattPerSquareMetreKelvin] = {
    "still air, foil": WattPerSquareMetreKelvin(6.0),
    "still air, bare or dull": WattPerSquareMetreKelvin(14.0),
    "fan, foil": WattPerSquareMetreKelvin(15.0),
    "strong fan": WattPerSquareMetreKelvin(20.0),
}
"""Heat through the surface of a packet in an oven; computed by us from handbook correlations."""


def wood_conductivity(gravity: Ratio, moisture: Ratio) -> WattPerMetreKelvin:
    r"""Conductivity of wood across the grain.

    .. math:: k = G (0.1941 + 0.4064 M) + 0.01864

    Plain: specific gravity × (0.1941 + 0.4064 × moisture) + 0.01864

    Parameters
    ----------
    gravity
        Specific gravity at that moisture, [1].
    moisture
        Moisture content on the dry basis, [1].

    Returns
    -------
    WattPerMetreKelvin
        Conductivity, [W/(m K)].

    Raises
    ------
    OutOfRangeError
        If the gravity is not positive or the moisture above 25 %.

    Notes
    -----
    Near 24 °C; a fifth either way by piece; along the grain about 1.8 times as much.

    Sources
    -------
    WH190

    Examples
    --------
    >>> round(wood_conductivity(Ratio(0.60), Ratio(0.0)), 4)
    0.1351
    """
    need_positive(gravity=gravity)
    if not 0 <= moisture <= 0.25:  # noqa: PLR2004 - the handbook's range
        raise out_of_range("moisture", "The handbook's line holds from 0 % to 25 % moisture.")
    return WattPerMetreKelvin(gravity * (0.1941 + 0.4064 * moisture) + 0.01864)


def dry_wood_heat(temp: Kelvin) -> JoulePerKilogramKelvin:
    r"""Heat capacity of oven-dry wood.

    .. math:: c = 103.1 + 3.867\,T

    Plain: 103.1 + 3.867 × kelvin

    Parameters
    ----------
    temp
        Temperature, [K].

    Returns
    -------
    JoulePerKilogramKelvin
        Heat capacity, [J/(kg K)].

    Raises
    ------
    OutOfRangeError
        If the temperature is not positive.

    Notes
    -----
    The same for all species.

    Sources
    -------
    WH190-HEAT

    Examples
    --------
    >>> round(dry_wood_heat(Kelvin(300.0)), 1)
    1263.2
    """
    need_positive(temp=temp)
    return JoulePerKilogramKelvin(103.1 + 3.867 * temp)


def soaked_conductivity(
    dry: KilogramPerCubicMetre, fill: Ratio, temp: Kelvin
) -> WattPerMetreKelvin:
    r"""Conductivity of wood soaked with liquid resin.

    .. math:: k = k_{wood} (1 + 0.0025 (T - 297)) + \varphi f k_r

    Plain: conductivity of dry wood, 2.5 % more for each 10 K above 24 °C, + voids × filled share
    × conductivity of the resin

    Parameters
    ----------
    dry
        Oven-dry density, [kg/m3].
    fill
        Filled share of the voids, [1].
    temp
        Mean temperature on the way, [K].

    Returns
    -------
    WattPerMetreKelvin
        Conductivity across the grain, [W/(m K)].

    Raises
    ------
    OutOfRangeError
        If the density is outside its range or the fill negative.

    Notes
    -----
    Wood and resin side by side: an upper bound.

    Sources
    -------
    WH190, SOAKED-ESTIMATE

    Examples
    --------
    >>> dry = KilogramPerCubicMetre(600.0)
    >>> round(soaked_conductivity(dry, Ratio(0.7), Kelvin(333.15)), 3)
    0.219
    """
    need_not_negative(fill=fill)
    wood = wood_conductivity(Ratio(dry / 1000), Ratio(0.0))
    wood = WattPerMetreKelvin(wood * (1 + WARMER * (temp - READ_AT)))
    return WattPerMetreKelvin(wood + voids(dry) * fill * RESIN_CONDUCTIVITY)


def soaked_diffusivity(
    dry: KilogramPerCubicMetre, fill: Ratio, resin: KilogramPerCubicMetre, temp: Kelvin
) -> SquareMetrePerSecond:
    r"""How fast warmth spreads in wood soaked with liquid resin.

    .. math:: \alpha = \frac{k}{\rho_0 c_0 + \varphi f \rho_r c_r}

    Plain: conductivity ÷ (heat capacity of the wood + that of the resin in it), by volume

    Parameters
    ----------
    dry
        Oven-dry density, [kg/m3].
    fill
        Filled share of the voids, [1].
    resin
        Density of the liquid resin, [kg/m3].
    temp
        Mean temperature on the way, [K].

    Returns
    -------
    SquareMetrePerSecond
        Diffusivity, [m2/s].

    Raises
    ------
    OutOfRangeError
        If a density is outside its range or the fill negative.

    Notes
    -----
    Heat of setting left out: it shortens the way.

    Sources
    -------
    WH190-HEAT, SOAKED-ESTIMATE

    Examples
    --------
    >>> dry, resin = KilogramPerCubicMetre(600.0), KilogramPerCubicMetre(1030.0)
    >>> round(soaked_diffusivity(dry, Ratio(0.7), resin, Kelvin(333.15)) * 1e6, 3)
    0.136
    """
    need_positive(resin=resin)
    stored = dry * dry_wood_heat(temp) + voids(dry) * fill * resin * RESIN_HEAT
    return SquareMetrePerSecond(soaked_conductivity(dry, fill, temp) / stored)
