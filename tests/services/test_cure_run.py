from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core.cure import Course, Progress, Warmth, trail
from shopassist.core.cure_law import EnergyLaw
from shopassist.core.frozen import replace
from shopassist.core.quantities import JoulePerMole, Kelvin, Second
from shopassist.services import cure_run
from shopassist.services.cure_run import Run

HOUR = 3600.0
COURSE = Course(
    EnergyLaw(JoulePerMole(55e3), JoulePerMole(8e3)), Kelvin(298.15), Kelvin(283.15), Kelvin(313.15)
)
gaps = st.lists(st.tuples(st.floats(0.0, 9.0), st.floats(275.0, 320.0)), max_size=8)


def read(*steps: tuple[float, float]) -> list[Warmth]:
    """Hours after the one before, and degrees Celsius."""
    found, at = [], 0.0
    for hours, degrees in steps:
        at += hours * HOUR
        temp = Kelvin(degrees + 273.15)
        found.append(Warmth(Second(at), temp, temp))
    return found


def plainly(readings: Sequence[Warmth], now: float) -> list[Progress]:
    return list(trail(COURSE, readings, Second(now)))


@settings(max_examples=40, deadline=None)
@given(gaps, st.integers(0, 8), gaps)
def test_a_fold_that_is_kept_is_the_fold_made_anew(
    steps: list[tuple[float, float]], cut: int, other: list[tuple[float, float]]
) -> None:
    """Whatever is taken back and read instead."""
    first = read(*((hours, temp - 273.15) for hours, temp in steps))
    second = read(*((hours, temp - 273.15) for hours, temp in (*steps[:cut], *other)))
    run = Run(COURSE)
    for readings in (first, second, first):
        now = (readings[-1].at if readings else 0.0) + 5 * HOUR
        assert list(run.upto(readings, now)) == plainly(readings, now)


def test_a_new_reading_is_folded_alone() -> None:
    run, readings = Run(COURSE), read(*[(1.0, 20.0 + n / 10) for n in range(50)])
    run.upto(readings, 50 * HOUR)
    run.upto(readings, 51 * HOUR)
    run.upto([*readings, *read((51.0, 22.0))], 52 * HOUR)
    assert run.folded == 51


def test_a_reading_set_right_is_folded_again_with_what_follows_it() -> None:
    run, readings = Run(COURSE), read(*[(1.0, 20.0 + n / 10) for n in range(50)])
    run.upto(readings, 50 * HOUR)
    run.upto([*readings[:48], *read((49.0, 30.0), (1.0, 31.0))], 52 * HOUR)
    assert run.folded == 52


def test_a_track_given_out_stays_what_it_was() -> None:
    run = Run(COURSE)
    before = run.upto(read((0.0, 20.0), (2.0, 22.0)), 3 * HOUR)
    known = list(before)
    run.upto(read((0.0, 20.0), (2.0, 30.0), (1.0, 31.0)), 4 * HOUR)
    run.upto(read((0.0, 25.0)), 4 * HOUR)
    assert list(before) == known


def test_what_is_only_supposed_is_not_kept() -> None:
    run, readings = Run(COURSE), read((0.0, 20.0), (2.0, 22.0))
    supposed = read((3.0, 40.0), (2.0, 41.0))
    beside = run.upto(readings, 5 * HOUR, supposed)
    assert list(beside) == plainly([*readings, *supposed], 5 * HOUR)
    assert list(run.upto(readings, 5 * HOUR)) == plainly(readings, 5 * HOUR)


def test_a_track_is_asked_like_a_list() -> None:
    track = Run(COURSE).upto(read((0.0, 20.0), (2.0, 22.0)), 3 * HOUR)
    assert track[-1] == track[len(track) - 1]
    assert track[1:3] == list(track)[1:3]
    with pytest.raises(IndexError):
        track[len(track)]


def minutes(count: int, gap: float = 60.0) -> list[Warmth]:
    temps = [Kelvin(290.15 + n % 97 / 50) for n in range(count)]
    return [Warmth(Second(gap * n), temp, temp) for n, temp in enumerate(temps)]


def test_a_long_series_is_folded_by_columns_to_the_same_ages() -> None:
    pytest.importorskip("numpy")
    readings = minutes(cure_run.MANY)
    by_columns = Run(COURSE).upto(readings, readings[-1].at)
    plain = plainly(readings, readings[-1].at)
    assert len(by_columns) < len(plain) / 10
    for branch, other in zip(by_columns[-1].release, plain[-1].release, strict=True):
        assert branch == pytest.approx(other, rel=1e-9)


def test_a_long_series_is_gone_on_with_one_by_one_and_taken_back_to_its_hour() -> None:
    pytest.importorskip("numpy")
    run, readings = Run(COURSE), minutes(cure_run.MANY + 1)
    run.upto(readings[:-1], readings[-1].at)
    run.upto(readings, readings[-1].at)
    assert run.folded == cure_run.MANY + 1
    before = run.folded
    changed = [*readings[:-3], *read((200.0, 30.0))]
    ages = run.upto(changed, changed[-1].at)[-1].release
    assert run.folded - before <= 60
    assert ages[1] == pytest.approx(plainly(changed, changed[-1].at)[-1].release[1], rel=1e-9)


@pytest.mark.parametrize("known", [True, False])
def test_a_series_with_stretches_is_folded_one_by_one(*, known: bool) -> None:
    readings = minutes(cure_run.MANY, 1.0)
    readings[7] = replace(readings[7], known=known, since=Second(2.0) if known else None)
    now = readings[-1].at
    assert list(Run(COURSE).upto(readings, now)) == plainly(readings, now)
