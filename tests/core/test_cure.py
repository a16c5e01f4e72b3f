from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core.cure import GAP, WIDEN, Course, Progress, Warmth, fold, hold, trail
from shopassist.core.cure_law import EnergyLaw, FactorLaw, rate
from shopassist.core.errors import OutOfRangeError
from shopassist.core.quantities import JoulePerMole, Kelvin, Ratio, Second

HOUR = 3600.0
LAW = EnergyLaw(JoulePerMole(55e3), JoulePerMole(8e3))
quick = settings(max_examples=40, deadline=None)


def celsius(degrees: float) -> Kelvin:
    return Kelvin(degrees + 273.15)


OPEN = Course(LAW, celsius(25))
BOUND = Course(LAW, celsius(25), celsius(10), celsius(40))
DOUBLING = Course(FactorLaw(), celsius(25), celsius(10), celsius(35))


def stood(*steps: tuple[float, float]) -> list[Warmth]:
    """Hours and degrees, one steady step after another."""
    found, at = [], 0.0
    for hours, degrees in steps:
        start, at = at, at + hours * HOUR
        temp = celsius(degrees)
        found.append(Warmth(Second(at), temp, temp, Second(start)))
    return found


def read(hours: float, degrees: float) -> Warmth:
    return Warmth(Second(hours * HOUR), celsius(degrees), celsius(degrees))


def end(course: Course, readings: list[Warmth]) -> Progress:
    return trail(course, readings, readings[-1].at)[-1]


def test_cv16_age_of_a_history_with_the_energy_in_doubt() -> None:
    less, middle, more, _ = end(OPEN, stood((10, 19), (3, 28), (5, 40))).release[1]
    assert middle / HOUR == pytest.approx(24.554, rel=1e-4)
    assert less / HOUR == pytest.approx(22.797, rel=1e-4)
    assert more / HOUR == pytest.approx(26.689, rel=1e-4)


def test_cv17_age_of_a_ramp() -> None:
    course = Course(EnergyLaw(JoulePerMole(57e3), JoulePerMole(8e3)), celsius(25))
    readings = [
        *stood((4, 18)),
        read(6, 35),
        *[Warmth(Second(12 * HOUR), celsius(35), celsius(35))],
    ]
    readings[2] = Warmth(Second(12 * HOUR), celsius(35), celsius(35), Second(6 * HOUR))
    assert end(course, readings).age / HOUR == pytest.approx(17.3444, rel=1e-4)


def test_c02_a_cold_spell_under_the_floor_counts_nothing() -> None:
    warm, cold = (65 - 32) / 1.8, (45 - 32) / 1.8
    free = Course(FactorLaw(), celsius(25))
    assert end(free, stood((10, warm), (12, cold))).age / HOUR == pytest.approx(9.8, abs=0.02)
    floored = end(DOUBLING, stood((10, warm), (12, cold)))
    assert floored.age / HOUR == pytest.approx(6.30, abs=0.01)
    assert floored.frozen == 12 * HOUR


@quick
@given(st.lists(st.tuples(st.floats(0.1, 8), st.floats(-5, 60)), min_size=1, max_size=6))
def test_at_the_reference_age_is_time_and_everywhere_it_only_grows(
    steps: list[tuple[float, float]],
) -> None:
    found = trail(BOUND, stood(*steps), Second(0.0))
    for one, other in pairwise(found):
        assert other.at >= one.at
        for before, after in zip(
            (*one.release, *one.hazard), (*other.release, *other.hazard), strict=True
        ):
            assert all(b >= a for a, b in zip(before, after, strict=True))
    steady = end(OPEN, stood(*((hours, 25.0) for hours, _ in steps)))
    assert steady.age == pytest.approx(steady.at)


@quick
@given(
    st.lists(st.tuples(st.floats(0.05, 2.9), st.floats(-5, 60)), min_size=2, max_size=8),
    st.floats(0.01, 0.99),
)
def test_a_reading_on_the_way_between_two_others_changes_nothing(
    gaps: list[tuple[float, float]], share: float
) -> None:
    """Also where the temperature jumps and where it crosses a limit of use."""
    at, readings = 0.0, []
    for hours, degrees in gaps:
        at += hours
        readings.append(read(at, degrees))
    first, second = readings[-2], readings[-1]
    temp = Kelvin(first.low + share * (second.low - first.low))
    on_the_way = Warmth(Second(first.at + share * (second.at - first.at)), temp, temp)
    with_it = end(BOUND, [*readings[:-1], on_the_way, second])
    assert with_it.age == pytest.approx(end(BOUND, readings).age, rel=1e-5, abs=1e-3)
    assert with_it.frozen == pytest.approx(end(BOUND, readings).frozen, abs=1e-3)


def test_crossing_the_floor_is_cut_where_it_crosses() -> None:
    ramp = end(Course(LAW, celsius(25), celsius(10)), [read(0, 0), read(2, 20)])
    assert ramp.frozen == pytest.approx(HOUR)
    upper = end(Course(LAW, celsius(25)), [read(0, 10), read(1, 20)])
    assert ramp.age == pytest.approx(upper.age, rel=1e-6)


def test_above_the_highest_releases_gain_nothing_and_hazards_do() -> None:
    hot = end(BOUND, stood((2, 50)))
    assert hot.age == Second(0)
    assert hot.hot == 2 * HOUR
    expected = 2 * HOUR * rate(LAW, celsius(50), celsius(25))
    assert hot.hazard[1][1] == pytest.approx(expected)


def test_hazards_go_on_under_the_floor() -> None:
    cold = end(BOUND, stood((2, 5)))
    assert cold.age == Second(0)
    assert cold.hazard[1][1] > 0


def test_lowest_feeds_releases_and_highest_hazards() -> None:
    span = Warmth(Second(8 * HOUR), celsius(15), celsius(25), Second(0.0))
    progress = fold(OPEN, Progress(), span)
    low, middle, high = (branch[1] for branch in progress.release)
    assert low < middle < high
    assert high == pytest.approx(8 * HOUR)
    assert low == pytest.approx(8 * HOUR * rate(LAW, celsius(15), celsius(25)))


def test_before_the_first_reading_it_is_taken_for_all_the_time_before_and_widened() -> None:
    progress = fold(OPEN, Progress(), read(2, 25))
    assert progress.age == pytest.approx(2 * HOUR)
    expected = 2 * HOUR * rate(LAW, Kelvin(celsius(25) - WIDEN), celsius(25))
    assert progress.release[0][1] == pytest.approx(expected)


def test_a_long_gap_takes_the_bracketing_extremes() -> None:
    hours = GAP / HOUR + 1
    progress = fold(OPEN, fold(OPEN, Progress(), read(0, 20)), read(hours, 25))
    slow, fast = (hours * HOUR * rate(LAW, celsius(degrees), celsius(25)) for degrees in (18, 27))
    assert progress.release[0][1] == pytest.approx(slow)
    assert progress.hazard[2][1] == pytest.approx(fast)


def test_a_short_gap_runs_evenly() -> None:
    progress = fold(OPEN, fold(OPEN, Progress(), read(0, 20)), read(1, 25))
    assert progress.release[0] == progress.release[1] == progress.release[2]


def test_holding_the_last_reading_widens_it_once_it_is_old() -> None:
    start = fold(OPEN, Progress(), read(0, 25))
    fresh = hold(OPEN, start, GAP)
    assert fresh.release[0] == fresh.release[2]
    old = hold(OPEN, start, Second(2 * GAP))
    assert old.release[0][1] < old.release[1][1] < old.release[2][1]
    assert old.age == pytest.approx(2 * GAP)


def test_holding_goes_back_for_nobody() -> None:
    start = fold(OPEN, Progress(), read(2, 25))
    assert hold(OPEN, start, Second(HOUR)) == start


def test_without_any_reading_time_is_unknown() -> None:
    progress = hold(OPEN, Progress(), Second(HOUR))
    assert progress.unknown == HOUR
    assert progress.age == Second(0)


def test_c11_hours_of_unknown_temperature_count_nothing_for_releases() -> None:
    start = fold(OPEN, Progress(), read(1, 25))
    dark = Warmth(Second(5 * HOUR), celsius(5), celsius(25), known=False)
    progress = fold(OPEN, start, dark)
    assert progress.release == start.release
    assert progress.unknown == 4 * HOUR
    assert progress.hazard[2][1] == pytest.approx(start.hazard[2][1] + 4 * HOUR)
    part = Warmth(Second(5 * HOUR), celsius(5), celsius(25), Second(3 * HOUR), known=False)
    assert fold(OPEN, start, part).unknown == 2 * HOUR


def test_an_interval_that_begins_before_the_last_reading_counts_only_what_is_new() -> None:
    start = fold(OPEN, Progress(), read(4, 25))
    late = Warmth(Second(8 * HOUR), celsius(25), celsius(25), Second(0.0))
    assert fold(OPEN, start, late).age == pytest.approx(8 * HOUR)


@pytest.mark.parametrize(
    "reading",
    [
        read(1, 25),
        Warmth(Second(9 * HOUR), celsius(25), celsius(20)),
        Warmth(Second(9 * HOUR), Kelvin(0.0), celsius(20)),
    ],
)
def test_a_reading_out_of_order_is_refused(reading: Warmth) -> None:
    start = fold(OPEN, Progress(), read(2, 25))
    with pytest.raises(OutOfRangeError):
        fold(OPEN, start, reading)


def test_folding_one_by_one_is_the_trail() -> None:
    readings = [read(0.5, 18), read(2, 22), read(9, 15), *stood()]
    progress = Progress()
    for reading in readings:
        progress = fold(BOUND, progress, reading)
    assert trail(BOUND, readings, readings[-1].at)[-1] == progress


def test_the_warmest_is_kept() -> None:
    assert end(OPEN, [read(0, 20), read(1, 31), read(2, 22)]).warmest == celsius(31)


def test_an_energy_less_certain_than_itself_still_gives_rates() -> None:
    wild = Course(EnergyLaw(JoulePerMole(5e3), JoulePerMole(8e3)), celsius(25))
    assert end(wild, stood((1, 15))).release[1][0] > 0
    assert FactorLaw().factor == Ratio(2.0)
