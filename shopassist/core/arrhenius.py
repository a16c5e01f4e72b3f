"""How much faster or slower a cure goes at another temperature.

Rates are shares of the rate at a reference temperature, so a time of the sheet divided by the
rate is the time today.
"""

from math import exp, log, sqrt

from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.quantities import (
    GAS_CONSTANT,
    JoulePerMole,
    Kelvin,
    KelvinDelta,
    Ratio,
    Second,
)

TEN = KelvinDelta(10.0)


def arrhenius_rate(energy: JoulePerMole, temp: Kelvin, reference: Kelvin) -> Ratio:
    r"""Rate of cure over the rate at a reference temperature, by activation energy.

    .. math:: k = \exp\left[\frac{E_a}{R}\left(\frac{1}{T_0} - \frac{1}{T}\right)\right]

    Plain: rate = e^(E ÷ R × (1 ÷ T of the sheet − 1 ÷ T)), T in kelvin

    Parameters
    ----------
    energy
        Activation energy, [J/mol].
    temp
        Temperature of the resin, [K].
    reference
        Temperature that the time is given for, [K].

    Returns
    -------
    Ratio
        Times as fast as at the reference, [1].

    Raises
    ------
    OutOfRangeError
        If a temperature is zero or negative, or the energy is negative.

    Notes
    -----
    For one step that sets the pace. It fails where the resin turns to glass before it is done.

    Sources
    -------
    FHP-1977
    ASTM-C1074

    Examples
    --------
    >>> round(arrhenius_rate(JoulePerMole(55e3), Kelvin(303.15), Kelvin(293.15)), 3)
    2.105
    """
    need_positive(temp=temp, reference=reference)
    need_not_negative(energy=energy)
    return Ratio(exp(energy / GAS_CONSTANT * (1 / reference - 1 / temp)))


def factor_rate(factor: Ratio, temp: Kelvin, reference: Kelvin) -> Ratio:
    r"""Rate of cure over the rate at a reference temperature, by a factor per 10 degrees.

    .. math:: k = q^{(T - T_0)/10}

    Plain: rate = factor ^ ((T − T of the sheet) ÷ 10 °C)

    Parameters
    ----------
    factor
        Factor for each 10 degrees, [1].
    temp
        Temperature of the resin, [K].
    reference
        Temperature that the time is given for, [K].

    Returns
    -------
    Ratio
        Times as fast as at the reference, [1].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    A rule of thumb unless the sheet says so: doubling is right in size, not exact, and breaks
    down near the lowest temperature of use.

    Sources
    -------
    DOUBLING-RULE

    Examples
    --------
    >>> round(factor_rate(Ratio(2.0), Kelvin(291.15), Kelvin(298.15)) ** -1, 2)
    1.62
    """
    need_positive(factor=factor, temp=temp, reference=reference)
    return Ratio(factor ** ((temp - reference) / TEN))


def time_at(time: Second, rate: Ratio) -> Second:
    r"""Time that a step of the sheet takes at another temperature.

    .. math:: t = \frac{t_0}{k}

    Plain: time = time on the sheet ÷ rate

    Parameters
    ----------
    time
        Time at the reference temperature, [s].
    rate
        Times as fast as at the reference, [1].

    Returns
    -------
    Second
        Time at that temperature, [s].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    For resin of one even temperature that does not warm itself.

    Sources
    -------
    FHP-1977

    Examples
    --------
    >>> rate = arrhenius_rate(JoulePerMole(55e3), Kelvin(288.15), Kelvin(298.15))
    >>> round(time_at(Second(24 * 3600.0), rate) / 3600, 2)
    51.83
    """
    need_positive(time=time, rate=rate)
    return Second(time / rate)


def energy_of_factor(factor: Ratio, temp: Kelvin) -> JoulePerMole:
    r"""Activation energy that gives a factor over 10 degrees.

    .. math:: E_a = \frac{R \ln q}{1/T - 1/(T + 10)}

    Plain: E = R × ln factor ÷ (1 ÷ T − 1 ÷ (T + 10))

    Parameters
    ----------
    factor
        Factor for each 10 degrees, [1].
    temp
        Lower end of the 10 degrees, [K].

    Returns
    -------
    JoulePerMole
        Activation energy, [J/mol].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    One factor means another energy at each temperature.

    Sources
    -------
    DOUBLING-RULE

    Examples
    --------
    >>> round(energy_of_factor(Ratio(2.0), Kelvin(293.15)))
    51216
    """
    need_positive(factor=factor, temp=temp)
    return JoulePerMole(GAS_CONSTANT * log(factor) / (1 / temp - 1 / (temp + TEN)))


def two_pair_energy(
    time_one: Second, temp_one: Kelvin, time_two: Second, temp_two: Kelvin
) -> JoulePerMole:
    r"""Activation energy from two times of the same step at two temperatures.

    .. math:: E_a = \frac{R \ln(t_1/t_2)}{1/T_1 - 1/T_2}

    Plain: E = R × ln(time one ÷ time two) ÷ (1 ÷ T one − 1 ÷ T two)

    Parameters
    ----------
    time_one
        First time, [s].
    temp_one
        Temperature of the first time, [K].
    time_two
        Second time, [s].
    temp_two
        Temperature of the second time, [K].

    Returns
    -------
    JoulePerMole
        Activation energy, [J/mol].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative, or the temperatures are the same.

    Notes
    -----
    The same step at both, and neither a full cure that stalls in the cold. Good to 15 kJ/mol only
    where the temperatures lie 10 degrees apart: combine it with the default.

    Sources
    -------
    TWO-PAIR

    Examples
    --------
    >>> day = 86400.0
    >>> round(two_pair_energy(Second(7 * day), Kelvin(293.15), Second(3.5 * day), Kelvin(303.15)))
    51216
    """
    need_positive(time_one=time_one, temp_one=temp_one, time_two=time_two, temp_two=temp_two)
    if temp_one == temp_two:
        raise out_of_range("temp_two", "Give two different temperatures.")
    return JoulePerMole(GAS_CONSTANT * log(time_one / time_two) / (1 / temp_one - 1 / temp_two))


def two_pair_sigma(
    error_one: Ratio, temp_one: Kelvin, error_two: Ratio, temp_two: Kelvin
) -> JoulePerMole:
    r"""Uncertainty of an activation energy from two times.

    .. math:: \sigma_E = \frac{R \sqrt{\epsilon_1^2 + \epsilon_2^2}}{|1/T_1 - 1/T_2|}

    Plain: σ = R × √(error one² + error two²) ÷ |1 ÷ T one − 1 ÷ T two|

    Parameters
    ----------
    error_one
        Relative error of the first time, [1].
    temp_one
        Temperature of the first time, [K].
    error_two
        Relative error of the second time, [1].
    temp_two
        Temperature of the second time, [K].

    Returns
    -------
    JoulePerMole
        Standard deviation of the energy, [J/mol].

    Raises
    ------
    OutOfRangeError
        If a temperature is zero or negative, an error is negative, or the temperatures are the
        same.

    Notes
    -----
    Errors of the times as shares; 0.15 where the sheet gives one figure, 0.3 where it gives a
    range.

    Sources
    -------
    TWO-PAIR

    Examples
    --------
    >>> error = Ratio(0.15)
    >>> round(two_pair_sigma(error, Kelvin(293.15), error, Kelvin(303.15)))
    15674
    """
    need_positive(temp_one=temp_one, temp_two=temp_two)
    need_not_negative(error_one=error_one, error_two=error_two)
    if temp_one == temp_two:
        raise out_of_range("temp_two", "Give two different temperatures.")
    apart = abs(1 / temp_one - 1 / temp_two)
    return JoulePerMole(GAS_CONSTANT * sqrt(error_one**2 + error_two**2) / apart)
