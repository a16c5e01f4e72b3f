"""Water vapour in air: saturation, dew point, what heating does to the humidity."""

import math

from shopassist.core.bounds import need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.quantities import (
    GAS_CONSTANT,
    ZERO_CELSIUS,
    CubicMetre,
    Kelvin,
    Kilogram,
    PascalAbsolute,
    Ratio,
)

WATER_MOLAR_MASS = 0.01801528
"""Molar mass of water, [kg/mol]."""
COLDEST = ZERO_CELSIUS
HOTTEST = Kelvin(ZERO_CELSIUS + 200.0)
NEAR_ENOUGH = 1e-6
"""Boiling temperatures are found to this, [K]."""
PSYCHROMETER = 0.000662
"""Constant of an aspirated psychrometer, [1/K]."""
LIQUID = (-5800.2206, 1.3914993, -0.048640239, 4.1764768e-5, -1.4452093e-8, 6.5459673)


def _need_liquid(temp: float, field: str = "temp") -> None:
    if not COLDEST <= temp <= HOTTEST:
        raise out_of_range(field, "Give a temperature from 0 °C to 200 °C.")


def need_humidity(humidity: float) -> None:
    """Refuse a relative humidity that air cannot have."""
    if not 0.0 < humidity <= 1.0:
        raise out_of_range("humidity", "Relative humidity lies above 0 % and up to 100 %.")


def saturation_pressure(temp: Kelvin) -> PascalAbsolute:
    r"""Pressure at which water boils at a temperature.

    .. math:: \ln p = \frac{c_1}{T} + c_2 + c_3 T + c_4 T^2 + c_5 T^3 + c_6 \ln T

    Plain: a fit with six constants over liquid water

    Parameters
    ----------
    temp
        Temperature of the water, [K].

    Returns
    -------
    PascalAbsolute
        Saturation vapour pressure, [Pa absolute].

    Raises
    ------
    OutOfRangeError
        Under 0 °C or above 200 °C.

    Notes
    -----
    Pure water over a flat surface; salts and sugars in wood lower it a little.

    Sources
    -------
    HYLAND-WEXLER

    Examples
    --------
    >>> round(saturation_pressure(Kelvin(293.15)))
    2339
    """
    _need_liquid(temp)
    c1, c2, c3, c4, c5, c6 = LIQUID
    power = c1 / temp + c2 + temp * (c3 + temp * (c4 + temp * c5)) + c6 * math.log(temp)
    return PascalAbsolute(math.exp(power))


def boiling_temperature(pressure: PascalAbsolute) -> Kelvin:
    r"""Temperature at which water boils under a pressure.

    .. math:: p_{sat}(T) = p

    Plain: the temperature whose saturation pressure is this one

    Parameters
    ----------
    pressure
        Absolute pressure over the water, [Pa absolute].

    Returns
    -------
    Kelvin
        Boiling temperature, [K].

    Raises
    ------
    OutOfRangeError
        Where the answer lies under 0 °C or above 200 °C.

    Notes
    -----
    Found by halving to a millionth of a kelvin.

    Sources
    -------
    HYLAND-WEXLER

    Examples
    --------
    >>> round(boiling_temperature(PascalAbsolute(2339.0)) - 273.15, 1)
    20.0
    """
    low, high = float(COLDEST), float(HOTTEST)
    if not saturation_pressure(COLDEST) <= pressure <= saturation_pressure(HOTTEST):
        raise out_of_range("pressure", "Water boils between 0 °C and 200 °C from 6.1 mbar up.")
    while high - low > NEAR_ENOUGH:
        middle = (low + high) / 2
        if saturation_pressure(Kelvin(middle)) < pressure:
            low = middle
        else:
            high = middle
    return Kelvin((low + high) / 2)


def dew_point(temp: Kelvin, humidity: Ratio) -> Kelvin:
    r"""Temperature at which the air's own water settles on a surface.

    .. math:: p_{sat}(T_d) = \varphi \, p_{sat}(T)

    Plain: the temperature whose saturation pressure is humidity × saturation pressure of the air

    Parameters
    ----------
    temp
        Temperature of the air, [K].
    humidity
        Relative humidity, [1].

    Returns
    -------
    Kelvin
        Dew point, [K].

    Raises
    ------
    OutOfRangeError
        If the humidity is impossible or the dew point lies under 0 °C.

    Notes
    -----
    Under 0 °C frost forms instead; that is refused.

    Sources
    -------
    HYLAND-WEXLER

    Examples
    --------
    >>> round(dew_point(Kelvin(289.15), Ratio(0.71)) - 273.15, 2)
    10.75
    """
    if gives_frost(temp, humidity):
        raise out_of_range("humidity", "The dew point lies under 0 °C.")
    return boiling_temperature(PascalAbsolute(humidity * saturation_pressure(temp)))


def gives_frost(temp: Kelvin, humidity: Ratio) -> bool:
    """Whether air that is cooled gives frost before it gives dew, with no dew point to tell.

    Raises ``OutOfRangeError`` under 0 °C, above 200 °C and where the humidity is impossible.
    """
    need_humidity(humidity)
    return humidity * saturation_pressure(temp) < saturation_pressure(COLDEST)


def humidity_when_heated(temp: Kelvin, humidity: Ratio, heated: Kelvin) -> Ratio:
    r"""Relative humidity of the shop's air once an oven or a cabinet has heated it.

    .. math:: \varphi_2 = \varphi_1 \frac{p_{sat}(T_1)}{p_{sat}(T_2)}

    Plain: humidity × saturation pressure in the shop ÷ saturation pressure when heated

    Parameters
    ----------
    temp
        Temperature of the shop, [K].
    humidity
        Relative humidity of the shop, [1].
    heated
        Temperature it is heated to, [K].

    Returns
    -------
    Ratio
        Relative humidity when heated, at most 1, [1].

    Raises
    ------
    OutOfRangeError
        If a temperature or the humidity is outside its range.

    Notes
    -----
    No water is added: wet wood in a closed oven makes it more humid than this.

    Sources
    -------
    HYLAND-WEXLER

    Examples
    --------
    >>> round(humidity_when_heated(Kelvin(293.15), Ratio(0.6), Kelvin(376.15)), 4)
    0.0124
    """
    need_humidity(humidity)
    _need_liquid(heated, "heated")
    share = humidity * saturation_pressure(temp) / saturation_pressure(heated)
    return Ratio(min(share, 1.0))


def humidity_of_wet_bulb(temp: Kelvin, wet: Kelvin, pressure: PascalAbsolute) -> Ratio:
    r"""Relative humidity from a dry and a wet thermometer.

    .. math:: \varphi = \frac{p_{sat}(T_w) - A p (T - T_w)}{p_{sat}(T)}

    Plain: (saturation pressure at the wet bulb - A × air pressure × difference) ÷ saturation
    pressure at the dry bulb, A = 0.000662 per kelvin

    Parameters
    ----------
    temp
        Dry thermometer, [K].
    wet
        Wet thermometer in moving air, [K].
    pressure
        Pressure of the air, [Pa absolute].

    Returns
    -------
    Ratio
        Relative humidity, [1].

    Raises
    ------
    OutOfRangeError
        If the wet thermometer reads above the dry one or the air would be drier than dry.

    Notes
    -----
    Holds for a wick in a brisk air stream; a still one reads too humid.

    Sources
    -------
    PSYCHROMETER

    Examples
    --------
    >>> round(humidity_of_wet_bulb(Kelvin(294.15), Kelvin(290.15), PascalAbsolute(101325.0)), 2)
    0.67
    """
    need_positive(pressure=pressure)
    if wet > temp:
        raise out_of_range("wet", "The wet thermometer never reads above the dry one.")
    vapour = saturation_pressure(wet) - PSYCHROMETER * pressure * (temp - wet)
    if vapour <= 0:
        raise out_of_range("wet", "No air is that dry: wet the wick and read again.")
    return Ratio(vapour / saturation_pressure(temp))


def vapour_volume(water: Kilogram, temp: Kelvin, pressure: PascalAbsolute) -> CubicMetre:
    r"""Room that water takes as vapour in a vacuum chamber.

    .. math:: V = \frac{m R T}{M p}

    Plain: mass × gas constant × temperature ÷ (molar mass × pressure)

    Parameters
    ----------
    water
        Mass of water left in the wood, [kg].
    temp
        Temperature of the bath, [K].
    pressure
        Absolute pressure in the chamber, [Pa absolute].

    Returns
    -------
    CubicMetre
        Volume of vapour the pump must take away, [m3].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    Ideal gas; right to 1 % at these pressures.

    Sources
    -------
    IDEAL-GAS

    Examples
    --------
    >>> round(vapour_volume(Kilogram(0.003651), Kelvin(293.15), PascalAbsolute(2339.0)), 3)
    0.211
    """
    need_positive(water=water, temp=temp, pressure=pressure)
    return CubicMetre(water * GAS_CONSTANT * temp / (WATER_MOLAR_MASS * pressure))
