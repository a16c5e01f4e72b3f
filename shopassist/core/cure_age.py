"""Age of a cure at its reference temperature, and how sure a forecast from it is."""

from math import exp, sqrt

from shopassist.core.arrhenius import arrhenius_rate
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

GATE = 1.96
"""Standard deviations between the likely time and the gate: 1 in 40 lies beyond."""
SUB_STEP = Second(900.0)
"""Longest piece of a ramp that is integrated in one go: 15 minutes."""


def equivalent_age(
    times: tuple[Second, ...], temps: tuple[Kelvin, ...], reference: Kelvin, energy: JoulePerMole
) -> Second:
    r"""Age at the reference temperature of a cure that stood so long at each temperature.

    .. math:: t_e = \sum_i t_i \exp\left[\frac{E_a}{R}(\frac{1}{T_0} - \frac{1}{T_i})\right]

    Plain: age = sum of each time × its rate

    Parameters
    ----------
    times
        Times spent, in order, [s].
    temps
        Temperature during each of them, [K].
    reference
        Temperature that the time of the sheet is given for, [K].
    energy
        Activation energy, [J/mol].

    Returns
    -------
    Second
        Age: time at the reference that does as much, [s].

    Raises
    ------
    OutOfRangeError
        If the lists differ in length, or a value is out of range.

    Notes
    -----
    Rates are averaged, never temperatures. Limits of use are left out here; the running fold
    keeps them.

    Sources
    -------
    FHP-1977
    ASTM-C1074

    Examples
    --------
    >>> hours = tuple(Second(h * 3600.0) for h in (10, 3, 5))
    >>> warmth = (Kelvin(292.15), Kelvin(301.15), Kelvin(313.15))
    >>> round(equivalent_age(hours, warmth, Kelvin(298.15), JoulePerMole(55e3)) / 3600, 3)
    24.554
    """
    if len(times) != len(temps):
        raise out_of_range("temps", "Give one temperature for each time.")
    for time in times:
        need_not_negative(times=time)
    steps = zip(times, temps, strict=True)
    return Second(sum(time * arrhenius_rate(energy, temp, reference) for time, temp in steps))


def ramp_age(
    time: Second, temp_start: Kelvin, temp_end: Kelvin, reference: Kelvin, energy: JoulePerMole
) -> Second:
    r"""Age at the reference temperature that an even rise or fall of temperature brings.

    .. math:: t_e = \int_0^t \exp\left[\frac{E_a}{R}(\frac{1}{T_0} - \frac{1}{T(s)})\right] ds

    Plain: age = integral of the rate over the time, T changing evenly

    Parameters
    ----------
    time
        Time of the ramp, [s].
    temp_start
        Temperature at its start, [K].
    temp_end
        Temperature at its end, [K].
    reference
        Temperature that the time of the sheet is given for, [K].
    energy
        Activation energy, [J/mol].

    Returns
    -------
    Second
        Age: time at the reference that does as much, [s].

    Raises
    ------
    OutOfRangeError
        If a value is out of range.

    Notes
    -----
    By Simpson's rule on the rates, in pieces of 15 minutes at most.

    Sources
    -------
    FHP-1977
    RUN-ON-SHEET

    Examples
    --------
    >>> cool, warm, reference = Kelvin(291.15), Kelvin(308.15), Kelvin(298.15)
    >>> round(ramp_age(Second(7200.0), cool, warm, reference, JoulePerMole(57e3)) / 3600, 4)
    2.3895
    """
    need_positive(time=time)
    pieces = int(-(-time // SUB_STEP))
    width, total = time / pieces, 0.0
    for piece in range(pieces):
        for place, weight in ((0.0, 1), (0.5, 4), (1.0, 1)):
            temp = temp_start + (temp_end - temp_start) * (piece + place) / pieces
            total += weight * arrhenius_rate(energy, Kelvin(temp), reference)
    return Second(total * width / 6)


def remaining_time(required: Second, age: Second, rate: Ratio) -> Second:
    r"""Time still to go at a steady temperature.

    .. math:: t = \max\left(0, \frac{t_0 - t_e}{k}\right)

    Plain: to go = (age needed − age so far) ÷ rate, never under nothing

    Parameters
    ----------
    required
        Age at which the step is reached, [s].
    age
        Age so far, [s].
    rate
        Rate at the forecast temperature, [1].

    Returns
    -------
    Second
        Time to go, [s].

    Raises
    ------
    OutOfRangeError
        If the rate is zero or negative.

    Notes
    -----
    If it stays as warm as forecast.

    Sources
    -------
    FHP-1977

    Examples
    --------
    >>> round(remaining_time(Second(86400.0), Second(35280.0), Ratio(1.0)) / 3600, 1)
    14.2
    """
    need_positive(rate=rate)
    return Second(max(0.0, (required - age) / rate))


def time_spread(
    error: Ratio,
    energy: JoulePerMole,
    energy_sigma: JoulePerMole,
    temp: Kelvin,
    reference: Kelvin,
    temp_sigma: KelvinDelta,
) -> Ratio:
    r"""Standard deviation of a forecast time, as a share of it.

    .. math:: \sigma^2 = \epsilon^2 + (\tfrac{\sigma_E}{R}(\tfrac1T - \tfrac{1}{T_0}))^2
        + (\tfrac{E_a \sigma_T}{R T^2})^2

    Plain: σ² = (error of the sheet)² + (σ of E ÷ R × (1 ÷ T − 1 ÷ T0))² + (E × σ of T ÷ R ÷ T²)²

    Parameters
    ----------
    error
        Relative error of the time on the sheet, [1].
    energy
        Activation energy, [J/mol].
    energy_sigma
        Its standard deviation, [J/mol].
    temp
        Temperature of the resin, [K].
    reference
        Temperature that the time is given for, [K].
    temp_sigma
        Standard deviation of the thermometer, [K difference].

    Returns
    -------
    Ratio
        Spread of the logarithm of the time, [1].

    Raises
    ------
    OutOfRangeError
        If a temperature is zero or negative, or a spread is negative.

    Notes
    -----
    Three independent doubts: the figure on the sheet, the energy, the thermometer.

    Sources
    -------
    TWO-PAIR
    EPOXY-ENERGIES

    Examples
    --------
    >>> energy, sigma, kelvin = JoulePerMole(55e3), JoulePerMole(8e3), KelvinDelta(1.0)
    >>> round(time_spread(Ratio(0.15), energy, sigma, Kelvin(288.15), Kelvin(296.15), kelvin), 4)
    0.1923
    """
    need_positive(temp=temp, reference=reference)
    need_not_negative(error=error, energy=energy, energy_sigma=energy_sigma, temp_sigma=temp_sigma)
    by_energy = energy_sigma / GAS_CONSTANT * (1 / temp - 1 / reference)
    by_warmth = energy * temp_sigma / (GAS_CONSTANT * temp**2)
    return Ratio(sqrt(error**2 + by_energy**2 + by_warmth**2))


def release_gate(time: Second, spread: Ratio) -> Second:
    r"""Time to wait at least, before something may be taken from its hold.

    .. math:: t_{gate} = t\, e^{1.96\sigma}

    Plain: wait at least = likely time × e^(1.96 × σ)

    Parameters
    ----------
    time
        Likely time, [s].
    spread
        Standard deviation of its logarithm, [1].

    Returns
    -------
    Second
        Later end of the range that holds 95 of 100 cases, [s].

    Raises
    ------
    OutOfRangeError
        If the time is zero or negative, or the spread is negative.

    Notes
    -----
    Then still the test by hand: fingernail, witness cup.

    Sources
    -------
    TWO-PAIR

    Examples
    --------
    >>> round(release_gate(Second(133.86 * 3600), Ratio(0.1923)) / 3600)
    195
    """
    need_positive(time=time)
    need_not_negative(spread=spread)
    return Second(time * exp(GATE * spread))


def hazard_gate(time: Second, spread: Ratio) -> Second:
    r"""Time by which something must be done, early enough.

    .. math:: t_{gate} = t\, e^{-1.96\sigma}

    Plain: do it before = likely time × e^(−1.96 × σ)

    Parameters
    ----------
    time
        Likely time, [s].
    spread
        Standard deviation of its logarithm, [1].

    Returns
    -------
    Second
        Earlier end of the range that holds 95 of 100 cases, [s].

    Raises
    ------
    OutOfRangeError
        If the time is zero or negative, or the spread is negative.

    Notes
    -----
    Self-heating of a big cup comes on top and is not counted.

    Sources
    -------
    TWO-PAIR

    Examples
    --------
    >>> round(hazard_gate(Second(133.86 * 3600), Ratio(0.1923)) / 3600)
    92
    """
    need_positive(time=time)
    need_not_negative(spread=spread)
    return Second(time * exp(-GATE * spread))
