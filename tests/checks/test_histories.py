"""Ages of many random histories against scipy: adaptive quadrature, and a solver of equations."""

import random
from collections.abc import Callable, Iterator
from itertools import pairwise
from math import exp

import pytest

from shopassist.core.cure import GAP, WIDEN, Course, Progress, Warmth, fold, trail
from shopassist.core.cure_law import EnergyLaw
from shopassist.core.quantities import GAS_CONSTANT, JoulePerMole, Kelvin, Second
from tests.checks.histories import DAY, KINDS, ZERO, sampled, wave

NEAR = 1e-5
"""Share of its age that a fold may be off: Simpson's rule over 15 minutes and 5 K at most."""
SAMPLED = 3e-4
"""The same where a smooth wave is known by a reading every ten minutes alone."""
Line = tuple[float, float, float, float]
"""From when to when, from how warm to how warm."""


def course(rng: random.Random, *, limits: bool = True) -> Course:
    """A law, a reference and temperatures of use, any of them."""
    law = EnergyLaw(JoulePerMole(rng.uniform(35e3, 95e3)), JoulePerMole(8e3))
    low = rng.choice((None, 10.0, 15.0)) if limits else None
    high = rng.choice((None, 28.0, 32.0)) if limits else None
    return Course(
        law, Kelvin(rng.uniform(15, 30) + ZERO),
        None if low is None else Kelvin(low + ZERO), None if high is None else Kelvin(high + ZERO),
    )  # fmt: skip


def speed(each: Course, temp: float) -> float:
    """The Arrhenius law, written here once more."""
    assert isinstance(each.law, EnergyLaw)
    return exp(each.law.energy / GAS_CONSTANT * (1 / each.reference - 1 / temp))


def lines(readings: list[Warmth], branch: int) -> Iterator[Line]:
    """Coldest, middle or warmest that the readings allow, as straight lines.

    Where they lie more than three hours apart the ends take the extremes, 2 K wider.
    """
    for one, other in pairwise(readings):
        first, last = one.temps[branch], other.temps[branch]
        if other.at - one.at > GAP and branch == 0:
            first = last = Kelvin(min(one.low, other.low) - WIDEN)
        if other.at - one.at > GAP and branch == 2:
            first = last = Kelvin(max(one.high, other.high) + WIDEN)
        yield one.at, other.at, first, last


def integral(each: Course, line: Line, *, credited: bool) -> float:
    """One line by adaptive quadrature, told where it crosses a temperature of use."""
    quad = pytest.importorskip("scipy.integrate").quad
    start, end, first, last = line
    if end <= start:
        return 0.0

    def temp(at: float) -> float:
        return first + (last - first) * (at - start) / (end - start)

    def rate(at: float) -> float:
        warm = temp(at)
        if credited and not (each.lowest or 0.0) <= warm <= (each.highest or 1e9):
            return 0.0
        return speed(each, warm)

    limits = [limit for limit in (each.lowest, each.highest) if limit is not None]
    crossed = [
        start + (limit - first) / (last - first) * (end - start)
        for limit in limits
        if credited and min(first, last) < limit < max(first, last)
    ]
    edges = [start, *sorted(crossed), end]
    return float(sum(quad(rate, a, b, epsrel=1e-10)[0] for a, b in pairwise(edges)))


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
def test_every_branch_of_a_dozen_histories_is_the_integral_of_its_rates(
    kind: Callable[[random.Random], list[Warmth]],
) -> None:
    for seed in range(12):
        rng = random.Random(f"{kind.__name__} {seed}")
        readings, each = kind(rng), course(rng)
        found = trail(each, readings, readings[-1].at)[-1]
        for branch in range(3):
            drawn = list(lines(readings, branch))
            counted = sum(integral(each, line, credited=False) for line in drawn)
            credited = sum(integral(each, line, credited=True) for line in drawn)
            assert found.hazard[branch][1] == pytest.approx(counted, rel=NEAR), seed
            slack = NEAR * counted
            assert found.release[branch][1] == pytest.approx(credited, rel=NEAR, abs=slack), seed


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
def test_a_solver_of_equations_comes_to_the_same_ages(
    kind: Callable[[random.Random], list[Warmth]],
) -> None:
    solve = pytest.importorskip("scipy.integrate").solve_ivp
    for seed in range(3):
        rng = random.Random(f"{kind.__name__} {seed} solved")
        readings, each = kind(rng), course(rng, limits=False)
        ages = [0.0, 0.0, 0.0]
        for parts in zip(*(lines(readings, branch) for branch in range(3)), strict=True):
            start, end = parts[0][:2]

            def slopes(at: float, _: object, parts: tuple[Line, ...] = parts) -> list[float]:
                share = (at - parts[0][0]) / (parts[0][1] - parts[0][0])
                return [speed(each, a + (b - a) * share) for _, _, a, b in parts]  # noqa: B023

            if end > start:
                run = solve(slopes, (start, end), ages, rtol=1e-9, atol=1e-6)
                ages = [float(row[-1]) for row in run.y]
        found = trail(each, readings, readings[-1].at)[-1]
        assert [branch[1] for branch in found.hazard] == pytest.approx(ages, rel=NEAR)


def test_a_smooth_wave_is_known_well_enough_by_a_reading_every_ten_minutes() -> None:
    quad = pytest.importorskip("scipy.integrate").quad
    for seed in range(12):
        rng = random.Random(f"smooth {seed}")
        curve, each = wave(rng), course(rng, limits=False)
        expected = quad(lambda at: speed(each, curve(at) + ZERO), 0, DAY, epsrel=1e-10)[0]  # noqa: B023
        ours = trail(each, sampled(curve, DAY, 600.0), Second(DAY))[-1].age
        assert ours == pytest.approx(expected, rel=SAMPLED)


def test_the_columns_of_a_long_series_hold_the_same_ages() -> None:
    pytest.importorskip("numpy")
    from shopassist.services.cure_bulk import columns, fold_columns

    for seed in range(12):
        rng = random.Random(f"columns {seed}")
        readings, each = sampled(wave(rng), DAY, 300.0), course(rng)
        one_by_one = Progress()
        for each_reading in readings:
            one_by_one = fold(each, one_by_one, each_reading)
        bulk = fold_columns(each, Progress(), *columns(readings))
        assert bulk.release[1] == pytest.approx(one_by_one.release[1], rel=1e-9, abs=1e-6)
        assert bulk.hazard[1] == pytest.approx(one_by_one.hazard[1], rel=1e-9)


def test_an_average_of_the_warmth_would_be_found_out() -> None:
    """The histories tell a wrong integrator: a day taken at its mean is more than one in 300 off."""
    quad = pytest.importorskip("scipy.integrate").quad
    rng = random.Random("smooth 0")
    curve, each = wave(rng), course(rng, limits=False)
    expected = quad(lambda at: speed(each, curve(at) + ZERO), 0, DAY)[0]
    mean = quad(curve, 0, DAY)[0] / DAY
    assert abs(speed(each, mean + ZERO) * DAY / expected - 1) > 1 / 300
