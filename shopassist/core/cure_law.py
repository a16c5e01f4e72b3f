"""The law that a milestone carries: activation energy, factor per 10 degrees, or a table."""

from bisect import bisect_left
from math import exp, log, sqrt
from typing import TypeAlias

from shopassist.core.arrhenius import arrhenius_rate, factor_rate
from shopassist.core.bounds import need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.quantities import (
    GAS_CONSTANT,
    JoulePerMole,
    Kelvin,
    Ratio,
    Second,
)
from shopassist.core.sheet_pairs import FIGURE_ERROR
from shopassist.core.sheets import FACTOR, CureLawEntry, Family

FACTOR_SIGMA = 0.13
"""Spread of ln(factor) per 10 degrees where a factor is a rule of thumb; ours, after a report of
times 4 where doubling says times 3.2."""
TABLE_SIGMA = JoulePerMole(4e3)
"""Spread given to a table, as if it were an energy; ours."""
DOUBLING = Ratio(2.0)
"""Factor where a sheet says *factor* and gives none; common practice."""
LEAST_ENERGY = JoulePerMole(30e3)
"""An energy under this is mostly a slip of the keys or two different steps; ours."""
BELIEVED = 3.0
"""Standard deviations of a family's default within which an energy is believed; ours. It puts the
limits of epoxies at 31 and 79 kJ/mol, so that 72 h at 20 and 24 h at 30 °C are asked about."""


@frozen
class EnergyLaw:
    """Arrhenius law with the uncertainty of its energy."""

    energy: JoulePerMole
    sigma: JoulePerMole


@frozen
class FactorLaw:
    """So many times as fast for each 10 degrees."""

    factor: Ratio = DOUBLING
    sigma: float = FACTOR_SIGMA
    """Spread of ln(factor)."""


@frozen
class TableLaw:
    """Times of one step at several temperatures, coldest first."""

    points: tuple[tuple[Kelvin, Second], ...]
    sigma: JoulePerMole = TABLE_SIGMA

    def __post_init__(self) -> None:
        if len(self.points) < 2:  # noqa: PLR2004
            raise out_of_range("table", "A table needs times at two temperatures or more.")
        for (cold, long), (warm, short) in zip(self.points, self.points[1:], strict=False):
            need_positive(table=cold)
            if warm <= cold or not 0 < short <= long:
                raise out_of_range("table", "Warmer must never take longer. Look at the table.")


Law: TypeAlias = EnergyLaw | FactorLaw | TableLaw

PRIORS: dict[Family, EnergyLaw] = {
    "amine epoxy": EnergyLaw(JoulePerMole(55e3), JoulePerMole(8e3)),
    "polyurethane": EnergyLaw(JoulePerMole(50e3), JoulePerMole(12e3)),
    "heat-cured methacrylate": EnergyLaw(JoulePerMole(83e3), JoulePerMole(10e3)),
    "other": EnergyLaw(JoulePerMole(55e3), JoulePerMole(12e3)),
}
"""Energy of each family where the sheet is silent. Epoxy: middle of published values, 44 to 67
kJ/mol; polyurethane and methacrylate from memory; other: ours."""


def rate(law: Law, temp: Kelvin, reference: Kelvin, tilt: float = 0.0) -> Ratio:
    """Rate over the rate at the reference; ``tilt`` moves the law by so many sigma."""
    if isinstance(law, EnergyLaw):
        return arrhenius_rate(_energy(law, tilt), temp, reference)
    if isinstance(law, FactorLaw):
        return factor_rate(Ratio(law.factor * exp(tilt * law.sigma)), temp, reference)
    tilted = exp(tilt * law.sigma / GAS_CONSTANT * (1 / reference - 1 / temp))
    return Ratio(exp(log_time(law, reference) - log_time(law, temp)) * tilted)


def sensitivity(law: Law, temp: Kelvin) -> float:
    """Share by which the rate grows for each kelvin, [1/K]."""
    if isinstance(law, EnergyLaw):
        return law.energy / (GAS_CONSTANT * temp**2)
    if isinstance(law, FactorLaw):
        return log(law.factor) / 10
    half = Kelvin(0.5)
    return log_time(law, Kelvin(temp - half)) - log_time(law, Kelvin(temp + half))


def in_table(law: Law, temp: Kelvin) -> bool:
    """False where a table has to be stretched beyond its own temperatures."""
    return not isinstance(law, TableLaw) or law.points[0][0] <= temp <= law.points[-1][0]


def _energy(law: EnergyLaw, tilt: float) -> JoulePerMole:
    return JoulePerMole(max(law.energy + tilt * law.sigma, 0.0))


def log_time(law: TableLaw, temp: Kelvin) -> float:
    """Logarithm of a table's time, straight between its points over 1/T and on beyond them."""
    place = bisect_left([point[0] for point in law.points], temp)
    place = min(max(place, 1), len(law.points) - 1)
    (cold, long), (warm, short) = law.points[place - 1], law.points[place]
    share = (1 / cold - 1 / temp) / (1 / cold - 1 / warm)
    return log(long) + share * log(short / long)


def law_of(entry: CureLawEntry, family: Family) -> Law:
    """Law of a sheet: its own figures, else the default of its family."""
    if entry.kind == FACTOR:
        if entry.factor is None:
            return FactorLaw()
        return FactorLaw(entry.factor, FACTOR_SIGMA / 2)
    prior = PRIORS[family]
    if entry.energy is None:
        return prior
    return EnergyLaw(
        entry.energy, prior.sigma if entry.energy_sigma is None else entry.energy_sigma
    )


def combined(one: EnergyLaw, other: EnergyLaw) -> EnergyLaw:
    r"""Activation energy from two findings of it, each weighed by its certainty.

    .. math:: E = \frac{E_1/\sigma_1^2 + E_2/\sigma_2^2}{1/\sigma_1^2 + 1/\sigma_2^2} ,\quad
        \sigma = (1/\sigma_1^2 + 1/\sigma_2^2)^{-1/2}

    Plain: E = (E one ÷ σ one² + E two ÷ σ two²) ÷ (1 ÷ σ one² + 1 ÷ σ two²)

    Parameters
    ----------
    one
        One finding with its standard deviation.
    other
        The other one.

    Returns
    -------
    EnergyLaw
        Both together: surer than either.

    Raises
    ------
    OutOfRangeError
        If a standard deviation is zero or negative.

    Notes
    -----
    For findings that do not depend on one another: the sheet's own times, and what is usual in the
    family of the resin.

    Sources
    -------
    TWO-PAIR
    EPOXY-ENERGIES

    Examples
    --------
    >>> sheet = EnergyLaw(JoulePerMole(49830.0), JoulePerMole(9622.0))
    >>> both = combined(sheet, EnergyLaw(JoulePerMole(55e3), JoulePerMole(8e3)))
    >>> round(both.energy), round(both.sigma)
    (52887, 6152)
    """
    need_positive(one=one.sigma, other=other.sigma)
    weight_one, weight_other = one.sigma**-2, other.sigma**-2
    weight = weight_one + weight_other
    energy = (one.energy * weight_one + other.energy * weight_other) / weight
    return EnergyLaw(JoulePerMole(energy), JoulePerMole(1 / sqrt(weight)))


def limits(family: Family) -> tuple[JoulePerMole, JoulePerMole]:
    """Energies between which a sheet's own times are believed; ours."""
    prior = PRIORS[family]
    apart = BELIEVED * prior.sigma
    least = max(float(LEAST_ENERGY), prior.energy - apart)
    return JoulePerMole(least), JoulePerMole(prior.energy + apart)


def plausible(energy: JoulePerMole, family: Family) -> bool:
    """False where an energy is probably a typing slip, two different steps or a stalled cure."""
    low, high = limits(family)
    return low <= energy <= high


@frozen
class Fit:
    """A straight line of ln(time) over 1/T through two or more times of one step."""

    energy: JoulePerMole
    sigma: JoulePerMole
    """Standard deviation of the energy."""
    log_time: float
    """At 1/T of nothing."""
    worst: float
    """Greatest distance of a point from the line, in errors of its own time."""

    def time(self, temp: Kelvin) -> Second:
        """Time by the line."""
        return Second(exp(self.log_time + self.energy / (GAS_CONSTANT * temp)))


def fit(points: tuple[tuple[Kelvin, Second], ...], errors: tuple[Ratio, ...] = ()) -> Fit:
    r"""Activation energy from times of one step at several temperatures, as a line through them.

    .. math:: \ln t = a + \frac{E_a}{R T} ,\quad w = \epsilon^{-2} ,\quad
        \sigma_E = R\,s \Big/ \sqrt{\textstyle\sum w (1/T - \overline{1/T})^2}

    Plain: E = R × slope of the line of ln time over 1 ÷ T, each time weighed by 1 ÷ error²

    Parameters
    ----------
    points
        Temperature of each time, and the time, [s] at [K].
    errors
        Relative error of each time; left out, 0.15 for all of them, [1].

    Returns
    -------
    Fit
        Energy with its standard deviation, and how far the times lie from the line.

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative, or fewer than two temperatures are given.

    Notes
    -----
    The same step at each of them. Through two times it is the energy of the two. Where more than
    two scatter wider than their errors, the standard deviation is widened by that (s, else 1).

    Sources
    -------
    TWO-PAIR

    Examples
    --------
    >>> hours = ((15, 60), (25, 26), (40, 9))
    >>> points = tuple((Kelvin(t + 273.15), Second(h * 3600.0)) for t, h in hours)
    >>> line = fit(points)
    >>> round(line.energy), round(line.time(Kelvin(298.15)) / 3600, 2)
    (56808, 26.68)
    """
    if len({temp for temp, _ in points}) < 2:  # noqa: PLR2004
        raise out_of_range("table", "Give times at two different temperatures or more.")
    errors = errors or (FIGURE_ERROR,) * len(points)
    for (temp, time), error in zip(points, errors, strict=True):
        need_positive(table=temp, time=time, error=error)
    weights = [error**-2 for error in errors]
    across = [1 / temp for temp, _ in points]
    up = [log(time) for _, time in points]
    middle, height = _mean(across, weights), _mean(up, weights)
    spread = sum(w * (x - middle) ** 2 for w, x in zip(weights, across, strict=True))
    rows = list(zip(weights, across, up, strict=True))
    slope = sum(w * (x - middle) * (y - height) for w, x, y in rows) / spread
    start = height - slope * middle
    off = [abs(y - start - slope * x) * sqrt(w) for w, x, y in rows]
    free = len(points) - 2
    scatter = max(1.0, sqrt(sum(each**2 for each in off) / free)) if free else 1.0
    sigma = JoulePerMole(GAS_CONSTANT * scatter / sqrt(spread))
    return Fit(JoulePerMole(slope * GAS_CONSTANT), sigma, start, max(off))


def _mean(values: list[float], weights: list[float]) -> float:
    return sum(w * x for w, x in zip(weights, values, strict=True)) / sum(weights)
