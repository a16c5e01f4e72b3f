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
from shopassist.core.sheets import CureLawEntry, Family

FACTOR_SIGMA = 0.13
"""Spread of ln(factor) per 10 degrees where a factor is a rule of thumb; ours, after a report of
times 4 where doubling says times 3.2."""
TABLE_SIGMA = JoulePerMole(4e3)
"""Spread given to a table, as if it were an energy; ours."""
DOUBLING = Ratio(2.0)
"""Factor where a sheet says *factor* and gives none; common practice."""
PLAUSIBLE = (JoulePerMole(30e3), JoulePerMole(90e3))
"""Energies outside are mostly slips of the keys or two different steps; ours."""


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
    return Ratio(exp(_log_time(law, reference) - _log_time(law, temp)) * tilted)


def sensitivity(law: Law, temp: Kelvin) -> float:
    """Share by which the rate grows for each kelvin, [1/K]."""
    if isinstance(law, EnergyLaw):
        return law.energy / (GAS_CONSTANT * temp**2)
    if isinstance(law, FactorLaw):
        return log(law.factor) / 10
    half = Kelvin(0.5)
    return _log_time(law, Kelvin(temp - half)) - _log_time(law, Kelvin(temp + half))


def in_table(law: Law, temp: Kelvin) -> bool:
    """False where a table has to be stretched beyond its own temperatures."""
    return not isinstance(law, TableLaw) or law.points[0][0] <= temp <= law.points[-1][0]


def _energy(law: EnergyLaw, tilt: float) -> JoulePerMole:
    return JoulePerMole(max(law.energy + tilt * law.sigma, 0.0))


def _log_time(law: TableLaw, temp: Kelvin) -> float:
    """Straight between the points in ln(time) over 1/T; the end pieces are carried on."""
    place = bisect_left([point[0] for point in law.points], temp)
    place = min(max(place, 1), len(law.points) - 1)
    (cold, long), (warm, short) = law.points[place - 1], law.points[place]
    share = (1 / cold - 1 / temp) / (1 / cold - 1 / warm)
    return log(long) + share * log(short / long)


def law_of(entry: CureLawEntry, family: Family) -> Law:
    """Law of a sheet: its own figures, else the default of its family."""
    if entry.kind == "factor per 10 degrees":
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
    """Both findings of one energy, each weighed by its certainty."""
    need_positive(one=one.sigma, other=other.sigma)
    weight_one, weight_other = one.sigma**-2, other.sigma**-2
    weight = weight_one + weight_other
    energy = (one.energy * weight_one + other.energy * weight_other) / weight
    return EnergyLaw(JoulePerMole(energy), JoulePerMole(1 / sqrt(weight)))


def plausible(energy: JoulePerMole) -> bool:
    """False where an energy is probably a typing slip, two different steps or a stalled cure."""
    return PLAUSIBLE[0] <= energy <= PLAUSIBLE[1]


@frozen
class Fit:
    """A straight line of ln(time) over 1/T through three or more times of one step."""

    energy: JoulePerMole
    log_time: float
    """At 1/T of nothing."""
    worst: float
    """Greatest distance of a point from the line, as a share of its time."""

    def time(self, temp: Kelvin) -> Second:
        """Time by the line."""
        return Second(exp(self.log_time + self.energy / (GAS_CONSTANT * temp)))


def fit(points: tuple[tuple[Kelvin, Second], ...]) -> Fit:
    """Fit one energy to times at several temperatures, all weighed alike."""
    if len({temp for temp, _ in points}) < 2:  # noqa: PLR2004
        raise out_of_range("table", "Give times at two different temperatures or more.")
    for temp, time in points:
        need_positive(table=temp, time=time)
    across = [1 / temp for temp, _ in points]
    up = [log(time) for _, time in points]
    middle, height = sum(across) / len(across), sum(up) / len(up)
    spread = sum((x - middle) ** 2 for x in across)
    slope = sum((x - middle) * (y - height) for x, y in zip(across, up, strict=True)) / spread
    start = height - slope * middle
    worst = max(abs(y - start - slope * x) for x, y in zip(across, up, strict=True))
    return Fit(JoulePerMole(slope * GAS_CONSTANT), start, worst)
