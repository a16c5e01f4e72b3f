from itertools import pairwise

import pytest

from shopassist.core.cure import Course, Warmth, trail
from shopassist.core.cure_law import EnergyLaw, FactorLaw
from shopassist.core.milestones import Ahead, Milestone, aged, forecast, level
from shopassist.core.quantities import JoulePerMole, Kelvin, Ratio, Second

HOUR = 3600.0
LAW = EnergyLaw(JoulePerMole(55e3), JoulePerMole(8e3))
COURSE = Course(LAW, Kelvin(296.15))
DEMOULD = Milestone("demould", "release", Second(18 * HOUR), COURSE)
AHEAD = Ahead(Kelvin(290.15), Kelvin(292.15))
PAST = trail(
    COURSE,
    [
        Warmth(Second(0.0), Kelvin(296.15), Kelvin(296.15)),
        Warmth(Second(6000.0), Kelvin(290.15), Kelvin(292.15)),
    ],
    Second(9000.0),
)


@pytest.mark.parametrize("place", [0, 1, 2])
def test_a_forecast_time_is_when_the_age_is_enough(place: int) -> None:
    found = forecast(DEMOULD, PAST, AHEAD)
    at = (found.late, found.likely, found.early)[place]
    assert at is not None
    assert aged(DEMOULD, PAST, AHEAD, at)[place] == pytest.approx(18 * HOUR, rel=1e-6)


def test_ages_behind_and_ahead_join_without_a_step() -> None:
    now = PAST[-1].at
    before, at, after = (
        aged(DEMOULD, PAST, AHEAD, Second(now + shift))[1] for shift in (-1e-3, 0.0, 1e-3)
    )
    assert at - before == pytest.approx(after - at, abs=1e-3)


def test_ages_only_rise_and_keep_their_order() -> None:
    found = [aged(DEMOULD, PAST, AHEAD, Second(at)) for at in range(0, 40_000, 500)]
    for earlier, later in pairwise(found):
        assert all(b >= a for a, b in zip(earlier, later, strict=True))
    assert all(slow <= likely <= fast for slow, likely, fast in found)


def test_at_hardener_in_everything_is_nothing_old() -> None:
    assert aged(DEMOULD, PAST, AHEAD, Second(0.0)) == (0.0, 0.0, 0.0)


def test_two_checkpoints_at_one_moment_do_no_harm() -> None:
    past = (PAST[0], PAST[0], *PAST)
    assert aged(DEMOULD, past, AHEAD, Second(0.0)) == (0.0, 0.0, 0.0)


def test_a_milestone_of_another_temperature_has_its_level_on_this_course() -> None:
    warmer = Milestone("gel", "release", Second(HOUR), Course(LAW, Kelvin(306.15)))
    found = level(warmer, COURSE)
    assert found is not None
    assert found > HOUR
    assert level(DEMOULD, COURSE) == pytest.approx(18 * HOUR)


def test_a_milestone_under_another_law_has_no_level() -> None:
    other = Milestone("gel", "release", Second(HOUR), Course(FactorLaw(Ratio(1.3)), Kelvin(296.15)))
    assert level(other, COURSE) is None
