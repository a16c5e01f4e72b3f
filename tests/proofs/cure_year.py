"""A year of readings, one a minute: our fold against a plain pass of numpy, in one run.

The plain pass sums the same four ages by Simpson's rule over the same columns, and knows no limits
of use, no gaps, no jumps and no warmest. Times are of the processor, the least of several turns of
each in one process; only their ratio counts. Then one more reading comes to a fold that is kept.
"""

import random
from time import process_time
from typing import TYPE_CHECKING

from shopassist.core.cure import Course, Progress, Warmth, fold
from shopassist.core.cure_law import EnergyLaw
from shopassist.core.quantities import GAS_CONSTANT, JoulePerMole, Kelvin, Second
from shopassist.services.cure_bulk import columns, fold_columns
from shopassist.services.cure_run import Run
from tests.proofs.report import Report

if TYPE_CHECKING:
    from shopassist.services.cure_bulk import Column

FULL, STRETCH = 10, 1
YEAR, MINUTE = 525_600, 60.0
TURNS = 5
MOST = 2.0
NEAR = 1e-9
LAW = EnergyLaw(JoulePerMole(55e3), JoulePerMole(8e3))
COURSE = Course(LAW, Kelvin(296.15), Kelvin(283.15), Kelvin(313.15))


def drawn(seed: int) -> tuple["Column", "Column"]:
    """Minutes of a year, and a shop with its nights, its seasons and a thermometer that trembles.

    Some of its nights are under the lowest temperature of use.
    """
    import numpy as np

    rng = np.random.default_rng(seed)
    at = np.arange(YEAR, dtype=np.float64) * MINUTE
    days = at / 86_400.0
    season, day = np.sin(2 * np.pi * days / 365.0), np.sin(2 * np.pi * days)
    noise = np.cumsum(rng.normal(0.0, 0.01, YEAR))
    return at, 292.0 + 5.0 * season + 3.0 * day + noise - noise.mean()


def plain(at: "Column", temp: "Column") -> tuple[float, ...]:
    """The four ages, summed over every ramp."""
    import numpy as np

    def rates(temps: "Column") -> "tuple[Column, ...]":
        steep = (1 / COURSE.reference - 1 / temps) / GAS_CONSTANT
        middle, tilt = np.exp(LAW.energy * steep), np.exp(LAW.sigma * steep)
        return middle / tilt, middle, middle * tilt, middle * LAW.energy / GAS_CONSTANT / temps**2

    width = np.diff(at)
    ends, between = rates(temp), rates((temp[1:] + temp[:-1]) / 2)
    return tuple(
        float(np.sum((one[1:] + one[:-1] + 4 * mid) * width)) / 6
        for one, mid in zip(ends, between, strict=True)
    )


def year(seed: int) -> tuple[float, list[str]]:
    """The ratio of one year, and what was wrong with it."""
    at, temp = drawn(seed)
    own, theirs = [], []
    ages, found = plain(at, temp), fold_columns(COURSE, Progress(), at, temp, temp)
    for _ in range(TURNS):
        begun = process_time()
        plain(at, temp)
        theirs.append(process_time() - begun)
        begun = process_time()
        fold_columns(COURSE, Progress(), at, temp, temp)
        own.append(process_time() - begun)
    failures = []
    if not near(found.hazard[1], ages):
        failures.append(f"year {seed}: {found.hazard[1]} is not {ages}")
    failures += part(seed, at, temp)
    return min(own) / min(theirs), failures


def near(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    """Whether two sets of ages are the same."""
    return all(abs(a - b) <= NEAR * abs(b) for a, b in zip(one, other, strict=True))


def part(seed: int, at: "Column", temp: "Column") -> list[str]:
    """A week of it, reading by reading: equal, and a new reading folds itself alone."""
    begin = random.Random(seed).randrange(0, YEAR - 10_080)
    readings = [
        Warmth(Second(float(a) - begin * MINUTE), Kelvin(float(t)), Kelvin(float(t)))
        for a, t in zip(at[begin : begin + 10_080], temp[begin : begin + 10_080], strict=True)
    ]
    known = Progress()
    for reading in readings:
        known = fold(COURSE, known, reading)
    bulk = fold_columns(COURSE, Progress(), *columns(readings))
    failures = []
    if not (near(bulk.release[1], known.release[1]) and near(bulk.hazard[2], known.hazard[2])):
        failures.append(f"year {seed}, minute {begin}: by columns it is {bulk}, not {known}")
    run = Run(COURSE)
    run.upto(readings[:-1], readings[-1].at)
    before = run.folded
    if not near(run.upto(readings, readings[-1].at)[-1].release[1], known.release[1]):
        failures.append(f"year {seed}: a fold that was kept is another")
    if run.folded != before + 1:
        failures.append(f"year {seed}: one reading folded {run.folded - before}")
    return failures


def run(count: int, seed: int) -> Report:
    """Fold ``count`` years."""
    ratios, failures = [], []
    for number in range(count):
        ratio, wrong = year(seed + number)
        ratios.append(ratio)
        failures += wrong
        if ratio > MOST:
            failures.append(f"year {seed + number}: {ratio:.2f} times the plain pass")
    return Report(count, seed, tuple(failures), {"most ratio of times": max(ratios, default=0.0)})
