"""Water in wood: moisture on the dry basis, what the air allows, what drying takes away."""

from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.humidity import need_humidity
from shopassist.core.quantities import ZERO_CELSIUS, Kelvin, Kilogram, Ratio

FIBRE_SATURATION = Ratio(0.30)
"""Above this the cell walls are full; an average, several points either way by species."""
MOST_SHRINKAGE = Ratio(0.5)
COLDEST, HOTTEST = Kelvin(ZERO_CELSIUS - 1.2), Kelvin(ZERO_CELSIUS + 132.3)
"""Where the published table of equilibrium moisture ends."""


def moisture(mass: Kilogram, dry: Kilogram) -> Ratio:
    r"""Moisture content on the dry basis.

    .. math:: M = \frac{m - m_0}{m_0}

    Plain: (mass now - oven-dry mass) ÷ oven-dry mass

    Parameters
    ----------
    mass
        Mass now, [kg].
    dry
        Mass when oven-dry, [kg].

    Returns
    -------
    Ratio
        Moisture content; may exceed 1, [1].

    Raises
    ------
    OutOfRangeError
        If a mass is zero or negative, or the piece weighs less than when dry.

    Notes
    -----
    Dry basis, as wood is traded; not the wet basis of other trades.

    Sources
    -------
    ASTM-D4442, WH282

    Examples
    --------
    >>> round(moisture(Kilogram(0.4126), Kilogram(0.3651)), 4)
    0.1301
    """
    need_positive(mass=mass, dry=dry)
    if mass < dry:
        raise out_of_range("mass", "Lighter than oven-dry: weigh again, or the dry mass is wrong.")
    return Ratio((mass - dry) / dry)


def wet_basis(moisture: Ratio) -> Ratio:
    r"""Moisture as a share of the wet mass.

    .. math:: w = \frac{M}{1 + M}

    Plain: moisture ÷ (1 + moisture)

    Parameters
    ----------
    moisture
        Moisture content on the dry basis, [1].

    Returns
    -------
    Ratio
        Share of water in the wet piece, [1].

    Raises
    ------
    OutOfRangeError
        If the moisture is negative.

    Notes
    -----
    For comparison with instruments that show the wet basis.

    Sources
    -------
    ASTM-D4442

    Examples
    --------
    >>> round(wet_basis(Ratio(0.1301)), 4)
    0.1151
    """
    need_not_negative(moisture=moisture)
    return Ratio(moisture / (1 + moisture))


def dry_mass(mass: Kilogram, moisture: Ratio) -> Kilogram:
    r"""Oven-dry mass to expect from a piece of known moisture.

    .. math:: m_0 = \frac{m}{1 + M}

    Plain: mass ÷ (1 + moisture)

    Parameters
    ----------
    mass
        Mass now, [kg].
    moisture
        Moisture content on the dry basis, [1].

    Returns
    -------
    Kilogram
        Mass when oven-dry, [kg].

    Raises
    ------
    OutOfRangeError
        If the mass is not positive or the moisture negative.

    Notes
    -----
    As good as the moisture reading: a target to expect, no proof of dryness.

    Sources
    -------
    ASTM-D4442

    Examples
    --------
    >>> round(dry_mass(Kilogram(0.5), Ratio(0.38)), 4)
    0.3623
    """
    need_positive(mass=mass)
    need_not_negative(moisture=moisture)
    return Kilogram(mass / (1 + moisture))


def water_in(mass: Kilogram, moisture: Ratio) -> Kilogram:
    r"""Water in a piece of known moisture.

    .. math:: m_w = m \frac{M}{1 + M}

    Plain: mass × moisture ÷ (1 + moisture)

    Parameters
    ----------
    mass
        Mass now, [kg].
    moisture
        Moisture content on the dry basis, [1].

    Returns
    -------
    Kilogram
        Mass of water, [kg].

    Raises
    ------
    OutOfRangeError
        If the mass is not positive or the moisture negative.

    Notes
    -----
    Other volatiles leave with the water and are counted as water.

    Sources
    -------
    ASTM-D4442

    Examples
    --------
    >>> round(water_in(Kilogram(0.5), Ratio(0.38)), 4)
    0.1377
    """
    return Kilogram(mass - dry_mass(mass, moisture))


def equilibrium_moisture(temp: Kelvin, humidity: Ratio) -> Ratio:
    r"""Moisture that wood comes to in air of steady temperature and humidity.

    .. math:: M = \frac{18}{W}\left(\frac{Kh}{1-Kh}
        + \frac{K_1Kh + 2K_1K_2K^2h^2}{1 + K_1Kh + K_1K_2K^2h^2}\right)

    Plain: the handbook's two-hydrate sorption fit; W, K, K1, K2 are quadratics in °C

    Parameters
    ----------
    temp
        Temperature of the air, [K].
    humidity
        Relative humidity, [1].

    Returns
    -------
    Ratio
        Equilibrium moisture content on the dry basis, [1].

    Raises
    ------
    OutOfRangeError
        Outside the published table: under -1 °C, above 132 °C, or an impossible humidity.

    Notes
    -----
    One table for all species, mid-way between drying and wetting; within 0.06 of a percent point
    of the table. It takes days to weeks to get there.

    Sources
    -------
    WH190-EMC, WH282

    Examples
    --------
    >>> round(equilibrium_moisture(Kelvin(293.15), Ratio(0.65)), 4)
    0.12
    """
    need_humidity(humidity)
    if not COLDEST <= temp <= HOTTEST:
        raise out_of_range("temp", "The table of equilibrium moisture spans -1 °C to 132 °C.")
    t = temp - ZERO_CELSIUS
    w = 349 + 1.29 * t + 0.0135 * t**2
    k = 0.805 + 0.000736 * t - 0.00000273 * t**2
    k1 = 6.27 - 0.00938 * t - 0.000303 * t**2
    k2 = 1.91 + 0.0407 * t - 0.000293 * t**2
    kh = k * humidity
    second = k1 * k2 * kh**2
    return Ratio(18 / w * (kh / (1 - kh) + (k1 * kh + 2 * second) / (1 + k1 * kh + second)))


def shrinkage_between(green_to_dry: Ratio, before: Ratio, after: Ratio) -> Ratio:
    r"""Share by which wood shrinks while it dries from one moisture to another.

    .. math:: s = 1 - \frac{1 - S (1 - M_2/0.3)}{1 - S (1 - M_1/0.3)}

    Plain: 1 - size at the later moisture ÷ size at the earlier one, straight below 30 %

    Parameters
    ----------
    green_to_dry
        Shrinkage from green to oven-dry in that direction, [1].
    before
        Moisture content at the start, [1].
    after
        Moisture content at the end, [1].

    Returns
    -------
    Ratio
        Shrinkage of the size at the start; negative: it swells, [1].

    Raises
    ------
    OutOfRangeError
        If the shrinkage is no share or a moisture is negative.

    Notes
    -----
    Straight line under fibre saturation (30 %); above it nothing moves.

    Sources
    -------
    WH190

    Examples
    --------
    >>> round(shrinkage_between(Ratio(0.099), Ratio(0.12), Ratio(0.0)), 4)
    0.0421
    """
    need_not_negative(green_to_dry=green_to_dry, before=before, after=after)
    if green_to_dry >= MOST_SHRINKAGE:
        raise out_of_range("green_to_dry", "No wood shrinks by half: give the share, as 9.9 %.")

    def size(moisture: float) -> float:
        return 1 - green_to_dry * max(1 - moisture / FIBRE_SATURATION, 0.0)

    return Ratio(1 - size(after) / size(before))
