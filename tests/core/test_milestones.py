from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core.arrhenius import arrhenius_rate, time_at
from shopassist.core.cure import Course, Progress, Warmth, fold, trail
from shopassist.core.cure_age import hazard_gate, release_gate, time_spread
from shopassist.core.cure_law import EnergyLaw, FactorLaw
from shopassist.core.milestones import (
    STALL_SHARE,
    Ahead,
    Forecast,
    Kind,
    Milestone,
    forecast,
)
from shopassist.core.quantities import JoulePerMole, Kelvin, KelvinDelta, Ratio, Second
from shopassist.core.sheet_milestones import milestones_of, without_temperature
from shopassist.core.sheets import CureLawEntry, ResinSheet, StageTime

HOUR = 3600.0
LAW = EnergyLaw(JoulePerMole(55e3), JoulePerMole(8e3))
START = (Progress(),)
quick = settings(max_examples=40, deadline=None)


def celsius(degrees: float) -> Kelvin:
    return Kelvin(degrees + 273.15)


def steady(degrees: float, spread: float = 0.0) -> Ahead:
    return Ahead(celsius(degrees - spread), celsius(degrees + spread))


def milestone(kind: Kind = "release", hours: float = 72.0, **course: Kelvin) -> Milestone:
    return Milestone("demould", kind, Second(hours * HOUR), Course(LAW, celsius(23), **course))


def hours(time: Second | None) -> float:
    assert time is not None
    return time / HOUR


def said(found: Forecast) -> str:
    return " ".join(note.template for note in found.notes)


@pytest.mark.parametrize(
    ("degrees", "best", "early", "late", "hazard", "release"),
    [
        (10, 200.8, 160, 252, 129, 313), (15, 133.9, 110, 162, 92, 195),
        (18, 105.7, 88, 126, 75, 150), (20, 90.5, 76, 108, 65, 127), (25, 62.0, 52, 73, 45, 86),
        (30, 43.0, 36, 52, 30, 62), (40, 21.4, 17, 27, 13, 34),
    ],
)  # fmt: skip
def test_bands_and_gates_of_72_hours_at_other_temperatures(
    degrees: float, best: float, early: float, late: float, hazard: float, release: float
) -> None:
    found = forecast(milestone(), START, steady(degrees))
    assert hours(found.likely) == pytest.approx(best, abs=0.06)
    assert hours(found.early) == pytest.approx(early, abs=0.6)
    assert hours(found.late) == pytest.approx(late, abs=0.6)
    assert hours(found.gate) == pytest.approx(release, abs=0.7)
    other = forecast(milestone("hazard"), START, steady(degrees))
    assert hours(other.gate) == pytest.approx(hazard, abs=0.6)


@quick
@given(st.floats(-5, 60), st.floats(0.5, 400), st.floats(0.0, 3.0))
def test_a_steady_forecast_is_the_closed_formula(
    degrees: float, needed: float, sigma: float
) -> None:
    temp, kelvins = celsius(degrees), KelvinDelta(sigma)
    time = time_at(Second(needed * HOUR), arrhenius_rate(LAW.energy, temp, celsius(23)))
    spread = time_spread(Ratio(0.15), LAW.energy, LAW.sigma, temp, celsius(23), kelvins)
    found = forecast(milestone("hazard", needed), START, steady(degrees), kelvins)
    assert found.likely == pytest.approx(time, rel=1e-9)
    assert found.gate == pytest.approx(hazard_gate(time, spread), rel=1e-6)
    if degrees > 23.1:
        found = forecast(milestone("release", needed), START, steady(degrees), kelvins)
        assert found.gate == pytest.approx(release_gate(time, spread), rel=1e-6)


@quick
@given(st.floats(5, 35), st.floats(0, 5), st.floats(0.1, 60), st.floats(5, 35))
def test_early_comes_before_likely_before_late_before_the_gate(
    degrees: float, spread: float, spent: float, later: float
) -> None:
    reading = Warmth(Second(spent * HOUR), celsius(degrees - spread), celsius(degrees), Second(0.0))
    past = trail(milestone().course, [reading], reading.at)
    release = forecast(milestone(), past, steady(later, spread))
    hazard = forecast(milestone("hazard"), past, steady(later, spread))
    order = [hours(each) for each in (release.early, release.likely, release.late, release.gate)]
    assert order == sorted(order)
    assert hours(hazard.gate) <= hours(hazard.early) <= hours(hazard.likely)


@quick
@given(st.floats(-5, 23), st.floats(0, 40), st.floats(-5, 23))
def test_a_release_is_never_sooner_than_the_sheet_at_or_under_its_temperature(
    degrees: float, spent: float, later: float
) -> None:
    at = Second(spent * HOUR)
    reading = Warmth(at, celsius(degrees), celsius(degrees), Second(0.0))
    past = trail(milestone(hours=24.0).course, [reading], at)
    found = forecast(milestone(hours=24.0), past, steady(later))
    for time in (found.early, found.likely, found.late, found.gate):
        assert hours(time) >= 24 - 1e-9


@quick
@given(st.floats(1, 80), st.floats(15, 30))
def test_a_forecast_that_comes_true_stays_where_it_was(spent: float, degrees: float) -> None:
    """Looking from the start and looking back from later agree while the warmth is as foretold."""
    before = forecast(milestone(hours=10), START, steady(degrees))
    at = Second(spent * HOUR)
    past = trail(
        milestone().course, [Warmth(at, celsius(degrees), celsius(degrees), Second(0.0))], at
    )
    after = forecast(milestone(hours=10), past, steady(degrees))
    for one, other in ((before.likely, after.likely), (before.gate, after.gate)):
        assert hours(one) == pytest.approx(hours(other), rel=2e-4)
    assert after.passed == (hours(after.gate) <= spent)


def test_a_warmer_outlook_is_never_later() -> None:
    times = [hours(forecast(milestone(), START, steady(t)).gate) for t in range(0, 50, 5)]
    assert times == sorted(times, reverse=True)


def test_c01_under_the_lowest_temperature_there_is_no_finish_time() -> None:
    cold = milestone(lowest=celsius(15))
    found = forecast(cold, START, steady(12))
    assert (found.early, found.likely, found.late, found.gate) == (None, None, None, None)
    assert "Stalled: no finish time" in said(found)


def test_a_low_outlook_under_the_lowest_leaves_no_latest_time() -> None:
    found = forecast(milestone(lowest=celsius(15)), START, steady(16, 2))
    assert found.likely is not None
    assert found.gate is None
    assert "no latest time" in said(found)


def test_too_warm_gives_no_release_and_says_so() -> None:
    hot = milestone(highest=celsius(40))
    reading = Warmth(Second(HOUR), celsius(45), celsius(45), Second(0.0))
    past = trail(hot.course, [reading], reading.at)
    found = forecast(hot, past, steady(45))
    assert found.likely is None
    assert "Too warm" in said(found)
    assert "too warm to count" in said(found)


def test_a_hazard_in_the_cold_keeps_its_time_and_says_what_that_is_worth() -> None:
    found = forecast(milestone("hazard", lowest=celsius(15)), START, steady(12))
    assert found.gate is not None
    assert "still sets" in said(found)


def test_time_that_was_too_cold_is_told() -> None:
    course = milestone(lowest=celsius(15)).course
    past = trail(course, [Warmth(Second(HOUR), celsius(5), celsius(5), Second(0.0))], Second(HOUR))
    assert "too cold to count" in said(forecast(milestone(lowest=celsius(15)), past, steady(20)))


def test_unknown_time_is_told() -> None:
    progress = fold(milestone().course, Progress(), Warmth(Second(0.0), celsius(20), celsius(20)))
    dark = Warmth(Second(HOUR), celsius(10), celsius(25), known=False)
    past = (progress, fold(milestone().course, progress, dark))
    assert "without a known temperature" in said(forecast(milestone(), past, steady(20)))


def test_without_a_reading_the_outlook_is_taken_for_the_past_and_called_a_guess() -> None:
    past = trail(milestone().course, [], Second(5 * HOUR))
    found = forecast(milestone(), past, steady(20))
    assert found.done > 0
    assert "is a guess" in said(found)
    sure = trail(
        milestone().course,
        [Warmth(Second(5 * HOUR), celsius(20), celsius(20), Second(0.0))],
        Second(5 * HOUR),
    )
    assert hours(found.gate) > hours(forecast(milestone(), sure, steady(20)).gate)


def test_c10_lamps_are_foretold_within_the_range_of_the_report() -> None:
    course = Course(FactorLaw(), celsius(25))
    cool, warm = celsius((60 - 32) / 1.8), celsius((90 - 32) / 1.8)
    coat = Milestone("hard", "hazard", Second(96 * HOUR), replace(course, reference=cool))
    found = forecast(coat, START, Ahead(warm, warm), KelvinDelta(0.0))
    assert 96 / hours(found.likely) == pytest.approx(3.17, abs=0.01)
    assert hours(found.early) < 24 < hours(found.likely)


@pytest.mark.parametrize(
    ("glass", "degrees", "stall"),
    [(None, 20, "may"), (45, 20, "stalls"), (45, 35, "no"), (34.9, 20, "no")],
)
def test_a_full_cure_stalls_far_under_its_glass_transition(
    glass: float | None, degrees: float, stall: str
) -> None:
    full = replace(milestone(), stage="full", glass=None if glass is None else celsius(glass))
    reading = Warmth(Second(1e7), celsius(degrees), celsius(degrees), Second(0.0))
    past = trail(full.course, [reading], reading.at)
    found = forecast(full, past, steady(degrees))
    assert found.stall == stall
    assert (found.likely is None) == (stall == "stalls")
    assert found.done == (STALL_SHARE if stall == "stalls" else 1.0)


def test_a_trail_that_begins_beyond_a_milestone_tells_its_beginning() -> None:
    reading = Warmth(Second(400 * HOUR), celsius(25), celsius(25), Second(0.0))
    progress = fold(milestone().course, Progress(), reading)
    found = forecast(milestone(), (progress,), steady(25))
    assert hours(found.likely) == 400
    assert found.passed


def test_other_milestones_never_stall() -> None:
    assert forecast(milestone(), START, steady(10)).stall == "no"


# -- from a sheet ----------------------------------------------------------------------------


def sheet(**stages: StageTime) -> ResinSheet:
    return ResinSheet("Trial", "weight", 100, 44, "amine epoxy", stages=stages)  # type: ignore[arg-type]


def at(hours_: float, degrees: float | None = 23.0, high: float | None = None) -> StageTime:
    return StageTime(
        Second(hours_ * HOUR),
        None if high is None else Second(high * HOUR),
        None if degrees is None else celsius(degrees),
    )


def test_gel_is_both_a_hazard_and_a_release() -> None:
    found = milestones_of(sheet(working=at(1), gel=at(4), demould=at(24, high=48), full=at(168)))
    assert [(each.stage, each.kind) for each in found] == [
        ("working", "hazard"), ("pressurise", "hazard"), ("gel", "hazard"),
        ("gel", "release"), ("demould", "release"), ("full", "release"),
    ]  # fmt: skip


def test_a_release_waits_for_the_longest_and_a_hazard_for_the_shortest_of_a_range() -> None:
    gel_hazard, gel_release = milestones_of(sheet(gel=at(4, high=6)))
    assert hours(gel_hazard.required) == 4
    assert hours(gel_release.required) == 6


def test_pressurise_by_is_half_the_working_time_where_the_sheet_is_silent() -> None:
    pressurise = milestones_of(sheet(working=at(1)))[1]
    assert hours(pressurise.required) == 0.5
    assert pressurise.ours is not None
    assert pressurise.ours in forecast(pressurise, START, steady(23)).notes
    own = milestones_of(sheet(working=at(1), pressurise=at(0.25)))[1]
    assert hours(own.required) == 0.25
    assert own.ours is None


def test_a_time_without_a_temperature_gives_no_milestone_and_is_told() -> None:
    blind = sheet(working=at(1, None), demould=at(24))
    assert [each.stage for each in milestones_of(blind)] == ["demould"]
    assert len(without_temperature(blind)) == 1
    assert milestones_of(sheet()) == ()


def test_law_and_limits_come_from_the_sheet() -> None:
    own = replace(
        sheet(full=at(168)),
        law=CureLawEntry("factor per 10 degrees", factor=Ratio(1.8)),
        temp_lowest=celsius(15), temp_highest=celsius(35), glass=celsius(50),
    )  # fmt: skip
    (full,) = milestones_of(own)
    assert isinstance(full.course.law, FactorLaw)
    assert (full.course.lowest, full.course.highest) == (celsius(15), celsius(35))
    assert full.glass == celsius(50)
