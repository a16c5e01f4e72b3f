"""Only hours that the oven was really on count."""

import pytest

from shopassist.core.oven_time import OvenRun, gap_time, hot_since, hot_time, is_off
from shopassist.core.quantities import Second, UtcSecond

HOUR = 3600.0


def run(start: float, end: float | None = None) -> OvenRun:
    stop = None if end is None else UtcSecond(end * HOUR)
    return OvenRun(UtcSecond(start * HOUR), stop)


def at(hours: float) -> UtcSecond:
    return UtcSecond(hours * HOUR)


TWO = Second(2 * HOUR)


def test_six_windings_of_two_hours_make_twelve_and_a_missed_one_is_a_gap() -> None:
    """Case S06."""
    wound = [run(2 * n) for n in range(6)]
    assert hot_time(wound, TWO, at(12)) == pytest.approx(12 * HOUR)
    assert gap_time(wound, TWO, at(12)) == pytest.approx(0.0)
    late = [run(0, 2.5), run(2.5, 4.5), run(4.5)]
    assert hot_time(late, TWO, at(6.5)) == pytest.approx(6 * HOUR)
    assert gap_time(late, TWO, at(6.5)) == pytest.approx(HOUR / 2)


def test_an_oven_without_a_clock_counts_until_somebody_says_that_it_went_off() -> None:
    assert hot_time([run(0)], None, at(9)) == pytest.approx(9 * HOUR)
    assert hot_time([run(0, 3)], None, at(9)) == pytest.approx(3 * HOUR)
    assert hot_time([], None, at(9)) == pytest.approx(0.0)
    assert gap_time([], None, at(9)) == pytest.approx(0.0)
    assert hot_time([run(10)], None, at(9)) == pytest.approx(0.0)


def test_a_bake_with_a_gap_begins_anew() -> None:
    bridged = Second(300.0)
    assert hot_since([run(0, 2), run(2.05)], None, at(3), bridged) == at(0)
    assert hot_since([run(0, 2), run(2.5)], None, at(3), bridged) == at(2.5)
    assert hot_since([run(0)], TWO, at(3), bridged) is None
    assert hot_since([], None, at(3), bridged) is None
    assert hot_since([run(3)], None, at(3), bridged) == at(3)


def test_it_is_off_by_its_clock_or_by_a_report() -> None:
    assert not is_off([], TWO, at(3))
    assert not is_off([run(0)], None, at(3))
    assert not is_off([run(0)], TWO, at(1.9))
    assert is_off([run(0)], TWO, at(2))
    assert is_off([run(0, 1)], None, at(1.5))
