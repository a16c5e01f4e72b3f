"""A long series folded by columns is the fold reading by reading."""

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core.cure import Course, Progress, Warmth, fold
from shopassist.core.cure_law import EnergyLaw, FactorLaw, Law, TableLaw
from shopassist.core.quantities import JoulePerMole, Kelvin, Ratio, Second

pytest.importorskip("numpy")
from shopassist.services import cure_bulk

TABLE = TableLaw(
    (
        (Kelvin(278.15), Second(90_000.0)),
        (Kelvin(290.15), Second(40_000.0)),
        (Kelvin(313.15), Second(30_000.0)),
    )
)
LAWS: tuple[Law, ...] = (
    EnergyLaw(JoulePerMole(55e3), JoulePerMole(8e3)), FactorLaw(Ratio(2.0)), TABLE,
)  # fmt: skip


def series(seed: int, count: int, wide: float) -> list[Warmth]:
    """A shop whose temperature wanders over the limits of use, with gaps and jumps."""
    rng = random.Random(seed)
    at, temp, found = 0.0, rng.uniform(280.0, 300.0), []
    for _ in range(count):
        at += rng.choice((0.0, 60.0, 60.0, 60.0, 600.0, 5000.0, 40_000.0))
        temp = min(325.0, max(265.0, temp + rng.choice((0.0, 0.1, -0.1, 2.0, -2.0, 9.0, -9.0))))
        found.append(Warmth(Second(at), Kelvin(temp - wide), Kelvin(temp + wide)))
    return found


def flat(progress: Progress) -> list[float]:
    ages = [age for side in (progress.release, progress.hazard) for one in side for age in one]
    last = progress.last or ()
    return [*ages, progress.frozen, progress.hot, progress.unknown, progress.warmest or 0.0,
            progress.at, progress.read_at, *last]  # fmt: skip


@settings(max_examples=30, deadline=None)
@given(
    st.integers(0, 2**31), st.integers(1, 80), st.sampled_from((0.0, 1.0)),
    st.sampled_from(LAWS), st.sampled_from((None, 283.15)), st.sampled_from((None, 308.15)),
)  # fmt: skip
def test_by_columns_is_reading_by_reading(
    seed: int, count: int, wide: float, law: Law, lowest: float | None, highest: float | None
) -> None:
    course = Course(
        law, Kelvin(296.15),
        None if lowest is None else Kelvin(lowest), None if highest is None else Kelvin(highest),
    )  # fmt: skip
    readings = series(seed, count, wide)
    begun = fold(course, Progress(), Warmth(Second(0.0), Kelvin(290.0), Kelvin(291.0)))
    plain = begun
    for reading in readings:
        plain = fold(course, plain, reading)
    found = cure_bulk.fold_columns(course, begun, *cure_bulk.columns(readings))
    assert flat(found) == pytest.approx(flat(plain), rel=1e-9, abs=1e-6)


@pytest.mark.parametrize("count", [cure_bulk.BLOCK, cure_bulk.BLOCK + 1, cure_bulk.BLOCK + 2])
def test_nothing_is_lost_where_two_blocks_meet(count: int) -> None:
    course = Course(LAWS[0], Kelvin(296.15))
    temps = [Kelvin(290.0 + n % 7 / 10) for n in range(count)]
    readings = [Warmth(Second(60.0 * n), temp, temp) for n, temp in enumerate(temps)]
    plain = Progress()
    for reading in readings:
        plain = fold(course, plain, reading)
    found = cure_bulk.fold_columns(course, Progress(), *cure_bulk.columns(readings))
    assert flat(found) == pytest.approx(flat(plain), rel=1e-9, abs=1e-6)


def test_a_law_without_columns_is_known() -> None:
    assert not cure_bulk.can(Course(EnergyLaw(JoulePerMole(9e3), JoulePerMole(9e3)), Kelvin(298.0)))
    assert all(cure_bulk.can(Course(law, Kelvin(298.15))) for law in LAWS)
