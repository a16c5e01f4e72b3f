"""Open cases of curing and of timers, with their numbers."""

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from shopassist.clock.manual import ManualClock
from shopassist.core.cabinet_watch import Setting
from shopassist.core.cure import Course, Warmth, trail
from shopassist.core.cure_law import FactorLaw, rate
from shopassist.core.milestones import Ahead, Milestone, forecast
from shopassist.core.quantities import Kelvin, KelvinDelta, Second
from tests.services.alarm_bench import HOUR, Bench

DAY = 86_400.0
MINUTE = 60.0


def fahrenheit(degrees: float) -> Kelvin:
    return Kelvin((degrees - 32) / 1.8 + 273.15)


REFERENCE = Kelvin(298.15)


def deck(floor: float | None) -> tuple[float, float]:
    """Hours done of 24, and hours still to go at 25 °C: ten at 65 °F, then twelve at 45 °F."""
    course = Course(FactorLaw(), REFERENCE, None if floor is None else Kelvin(floor + 273.15))
    mild, cold = fahrenheit(65), fahrenheit(45)
    readings = [
        Warmth(Second(10 * HOUR), mild, mild, Second(0.0)),
        Warmth(Second(22 * HOUR), cold, cold, Second(10 * HOUR)),
    ]
    past = trail(course, readings, Second(22 * HOUR))
    hard = Milestone("hard", "hazard" if floor is None else "release", Second(24 * HOUR), course)
    found = forecast(hard, past, Ahead(REFERENCE, REFERENCE), KelvinDelta(0.0))
    assert found.likely is not None
    return past[-1].age / HOUR, (found.likely - past[-1].at) / HOUR


@pytest.mark.parametrize(("floor", "done", "left"), [(None, 9.8, 14.2), (10.0, 6.3, 17.7)])
def test_c02_a_deck_that_met_the_cold_goes_on_when_it_is_warm(
    floor: float | None, done: float, left: float
) -> None:
    found, to_go = deck(floor)
    assert found == pytest.approx(done, abs=0.05)
    assert to_go == pytest.approx(left, abs=0.05)


def test_c04_a_hot_box_at_a_hundred_fahrenheit_is_two_and_a_half_times_as_fast() -> None:
    """24 h are 9.9 h."""
    speed = rate(FactorLaw(), fahrenheit(100), REFERENCE)
    assert speed == pytest.approx(2.42, abs=0.01)
    assert 24 / speed == pytest.approx(9.9, abs=0.05)


def test_c04_two_hundred_fahrenheit_are_no_cure_at_all() -> None:
    hot = fahrenheit(200)
    course = Course(FactorLaw(), REFERENCE, Kelvin(283.15), Kelvin(313.15))
    past = trail(course, [Warmth(Second(HOUR), hot, hot, Second(0.0))], Second(HOUR))
    found = forecast(Milestone("demould", "release", Second(DAY), course), past, Ahead(hot, hot))
    assert past[-1].age == Second(0)
    assert found.gate is None


@pytest.fixture
def box(tmp_path: Path) -> Iterator[Bench]:
    """A hot box set to 70 °F, with something curing in it."""
    made = Bench(tmp_path)
    made.setting = Setting("box", "Hot box", fahrenheit(70))
    made.plate()
    yield made
    made.close()


def celsius(degrees: float) -> float:
    return float(fahrenheit(degrees)) - 273.15


def cabinet_alarms(box: Bench) -> list[str]:
    return [kind for kind in box.kinds() if kind.startswith("cabinet")]


def test_c04_a_probe_that_disagrees_with_the_setting_calls_after_a_quarter_of_an_hour(
    box: Bench,
) -> None:
    batch = box.mixed(celsius=None)
    box.warm(batch, celsius(70) + 3.2, "cabinet air")
    box.live(14 * MINUTE, 5.0)
    box.warm(batch, celsius(78), "cabinet air")
    box.live(58)
    assert cabinet_alarms(box) == []
    box.live(4)
    assert cabinet_alarms(box) == ["cabinet_hot"]
    cause = box.alarms.cause("cabinet_hot/box")
    assert cause is not None
    assert cause.detail is not None
    assert box.words.say(cause.detail) == "25.6 °C read, set to 21.1 °C"
    box.warm(batch, celsius(72), "cabinet air")
    box.live(2)
    assert cabinet_alarms(box) == []


def test_c04_within_three_degrees_or_elsewhere_nobody_is_called(box: Bench) -> None:
    batch = box.mixed(celsius=None)
    box.warm(batch, celsius(70) + 2.9, "cabinet air")
    box.warm(batch, celsius(90), "resin")
    box.live(20 * MINUTE, 10.0)
    assert cabinet_alarms(box) == []


def test_c04_above_the_sheets_highest_it_calls_at_once(box: Bench) -> None:
    """A hundred watts in a cooler box: 200 °F."""
    batch = box.mixed(celsius=None)
    box.warm(batch, celsius(200), "cabinet air")
    box.live(2)
    assert "too_warm" in box.kinds()
    view = box.cure.view(batch)
    assert view is not None
    out = view.stage("demould")
    assert out is not None
    assert out.gate is None


@pytest.fixture
def night(tmp_path: Path) -> Iterator[Bench]:
    """Five to one in the night in which the clocks go forward."""
    at = datetime(2027, 3, 28, 0, 55, tzinfo=ZoneInfo("Europe/Berlin"))
    made = Bench(tmp_path, ManualClock(at.timestamp(), "Europe/Berlin"))
    yield made
    made.close()


def test_x03_two_hours_over_the_change_of_the_clocks_are_two_hours(night: Bench) -> None:
    sheet = night.bare(demould={"time": "2 h", "at": "23 °C"})
    batch = night.mixed(sheet=sheet)
    view = night.cure.view(batch)
    assert view is not None
    out = view.stage("demould")
    assert out is not None
    assert out.likely is not None
    assert out.likely - night.now == pytest.approx(2 * HOUR, abs=1.0)
    assert night.words.clock(out.likely, night.now) == "03:55"
    night.live(2 * HOUR, 10.0)
    contact = night.batches.get(batch).cups[0].contact_row
    assert contact is not None
    assert night.session.elapsed(contact).likely == pytest.approx(2 * HOUR, abs=1.0)


def test_x14_a_step_of_seven_days_rings_within_two_seconds(tmp_path: Path) -> None:
    """A single timer could be eight hours out, by the toolkit's word; awake all the week."""
    week = Bench(tmp_path)
    week.waits.start("Full cure", Second(7 * DAY))
    due = week.now + 7 * DAY
    week.live(7 * DAY - 100, 100.0)
    week.live(98, 7.0)
    assert week.kinds() == []
    week.live(3)
    (alarm,) = week.alarms.book.alarms.values()
    assert 0.0 <= alarm.row.recorded.utc - due <= 2.0
    week.close()
