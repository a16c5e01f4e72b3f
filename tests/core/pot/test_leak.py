from dataclasses import replace
from math import inf, nextafter

import pytest

from shopassist.core.messages import Amount, Text
from shopassist.core.pot.leak import LIMIT, Verdict, has_risen, judge, leak_notes, should_read
from shopassist.core.pot.plate import Gauge
from shopassist.core.pot.state import Evidence
from shopassist.core.pot.words import Item
from shopassist.core.quantities import PascalAbsolute, PascalGauge
from tests.core.pot.bench import BAR, Sitting, plate

PSI = 6894.757293168
AMBIENT = PascalAbsolute(101325.0)
FINE = Gauge(PascalGauge(7 * BAR), PascalGauge(0.02 * BAR), accuracy=0.5)
"""A gauge on which the allowance shows in less than ten minutes."""


def checked(
    fall: float, seconds: float, second: float = 293.15, supply: str = "isolated",
    first: float = 4 * BAR, gauge: Gauge | None = None,
) -> Sitting:  # fmt: skip
    sitting = Sitting(plate() if gauge is None else plate(gauge=gauge)).held()
    sitting.answer(Item.SUPPLY, supply)
    sitting.typed(Item.READING, first)
    sitting.typed(Item.LEAK_START, first, temperature=293.15)
    sitting.wait(seconds)
    sitting.typed(Item.LEAK_END, first - fall, temperature=second)
    return sitting


def lines(sitting: Sitting) -> list[str]:
    return [text.template for text in leak_notes(sitting.state, sitting.now)]


def test_temperature_explains_its_part() -> None:
    # 60.0 psi at 24 degC should read 58.99 psi at 20 degC.
    first = Evidence(Item.LEAK_START, "60", 60 * PSI, "", "", 0, 0, 0, "psi", 297.15)
    expected = should_read(first, 293.15, AMBIENT)
    assert expected is not None
    assert expected / PSI == pytest.approx(58.99, abs=0.01)


def test_a_leak_cannot_be_told_until_it_shows_on_this_gauge() -> None:
    early = judge(checked(0.0, 900).state)
    assert early is not None
    assert early.verdict is Verdict.CANNOT_TELL
    assert early.wait_left == pytest.approx(20000 / (PSI / 600) - 900, rel=1e-6)


def test_a_pot_below_one_bar_should_read_something_too() -> None:
    # 0.5 bar at 20 degC: absolute 1.513 bar, less 10 K in 293.15 of it.
    first = Evidence(Item.LEAK_START, "0.5", 0.5 * BAR, "", "", 0, 0, 0, "bar", 293.15)
    expected = should_read(first, 283.15, AMBIENT)
    assert expected == pytest.approx(0.5 * BAR - 1.51325 * BAR * 10 / 293.15)


@pytest.mark.parametrize("fall", [0.0, 0.25 * BAR])
def test_a_fine_gauge_tells_after_ten_minutes_and_no_earlier(fall: float) -> None:
    early = judge(checked(fall, 599.5, gauge=FINE).state)
    assert early is not None
    assert early.verdict is Verdict.CANNOT_TELL
    assert early.wait_left == 0.5
    told = judge(checked(fall, 600, gauge=FINE).state)
    assert told is not None
    assert told.verdict is (Verdict.OVER if fall else Verdict.WITHIN)
    assert told.wait_left == 0.0


def test_the_allowance_itself_is_within_and_anything_more_is_over() -> None:
    # 1 psi in 10 min: 3 psi in half an hour.
    allowed = LIMIT * 1800
    assert allowed / PSI == pytest.approx(3.0, rel=1e-6)
    for more, verdict in ((0.0, Verdict.WITHIN), (1.0, Verdict.OVER), (-1.0, Verdict.WITHIN)):
        told = judge(checked(allowed + more, 1800, first=68947.57).state)
        assert told is not None
        assert told.verdict is verdict, more


def test_a_leak_is_judged_after_temperature() -> None:
    fall = (4 * BAR + AMBIENT) * 5 / 293.15
    cooled = judge(checked(fall, 1800, 288.15).state)
    assert cooled is not None
    assert cooled.verdict is Verdict.WITHIN
    assert cooled.unexplained == pytest.approx(0.0, abs=1e-6)
    leaking = judge(checked(0.25 * BAR, 1800).state)
    assert leaking is not None
    assert leaking.verdict is Verdict.OVER


def test_an_isolated_leak_shows_when_it_falls_below_hold() -> None:
    sitting = checked(0.25 * BAR, 1800)
    assert any(line.startswith("Isolated: below {hold}") for line in lines(sitting))
    on_supply = checked(0.25 * BAR, 1800, supply="connected")
    assert "The supply hides it and may run all night: do not leave the pot like this." in lines(
        on_supply
    )


def test_the_notes_follow_the_check() -> None:
    assert "Leak: cannot tell yet; wait {wait} more." in lines(checked(0.0, 700))
    assert "Leak within the allowance: {fallen} unexplained." in lines(checked(0.0, 1800))
    fresh = Sitting().held()
    assert lines(fresh) == ["Fresh air cools: let it settle {wait} before a leak check."]
    fresh.wait(600)
    assert lines(fresh) == []
    fresh.tell_restart()
    assert lines(fresh) == []


@pytest.mark.parametrize(("since", "left"), [(0.0, 600.0), (200.0, 400.0), (599.5, 0.5)])
def test_fresh_air_settles_for_ten_minutes(since: float, left: float) -> None:
    sitting = Sitting().held()
    sitting.wait(since)
    (note,) = leak_notes(sitting.state, sitting.now)
    assert amount(note, "wait") == left


def test_the_gauge_should_read_less_in_the_cold() -> None:
    sitting = checked(0.0, 1800)
    sitting.typed(Item.TEMPERATURE, 283.15)
    (note,) = [t for t in leak_notes(sitting.state, sitting.now) if "should read" in t.template]
    assert amount(note, "expected") < 4 * BAR


def test_a_check_without_temperatures_judges_nothing() -> None:
    sitting = Sitting().held()
    sitting.typed(Item.LEAK_START, 4 * BAR)
    sitting.typed(Item.TEMPERATURE, 283.15)
    assert lines(sitting)[0].startswith("Fresh air")
    sitting.wait(1800)
    sitting.typed(Item.LEAK_END, 4 * BAR, temperature=293.15)
    assert judge(sitting.state) is None


def test_a_forecast_needs_a_hold_pressure_and_a_reading_above_zero() -> None:
    sitting = checked(0.25 * BAR, 1800)
    sitting.state = replace(sitting.state, hold=None)
    assert not any(line.startswith("Isolated") for line in lines(sitting))
    empty = checked(4 * BAR, 1800)
    assert not any(line.startswith("Isolated") for line in lines(empty))


def test_odd_readings_are_not_judged() -> None:
    first = Evidence(Item.LEAK_START, "-2", -2 * BAR, "", "", 0, 0, 0, "bar", 293.15)
    assert should_read(first, 293.15, AMBIENT) is None
    assert should_read(replace(first, number=BAR), 0.0, AMBIENT) is None
    assert should_read(replace(first, temperature=None), 293.15, AMBIENT) is None


def amount(text: Text, name: str) -> float:
    value = dict(text.params)[name]
    assert isinstance(value, Amount)
    return value.value


# -- what rises ------------------------------------------------------------------------------------

RISEN = "Risen {risen} more than warmth explains"


@pytest.mark.parametrize("supply", ["isolated", "connected"])
def test_a_gauge_that_rises_without_warmth_takes_air_in(supply: str) -> None:
    """A creeping regulator or an inlet that passes: no leak *within the allowance*."""
    for seconds in (3600.0, 60.0):
        (told,) = lines(checked(-0.35 * BAR, seconds, supply=supply))
        assert told.startswith(RISEN)
        assert told.endswith("Supply off, hose off, watch the gauge.")


def test_it_is_told_how_far_it_rose_and_a_whole_division_is_no_rise() -> None:
    sitting = checked(-0.35 * BAR, 3600.0)
    (told,) = leak_notes(sitting.state, sitting.now)
    risen = dict(told.params)["risen"]
    assert isinstance(risen, Amount)
    assert risen.value == pytest.approx(0.35 * BAR)
    assert not has_risen(FINE, -FINE.division)
    assert has_risen(FINE, nextafter(-FINE.division, -inf))
    assert not has_risen(None, -FINE.division)


def test_a_rise_by_warmth_or_within_a_division_is_none() -> None:
    """4.00 bar at 20 °C should read 4.17 at 30 °C: 0.25 up are 0.08 unexplained, a division 0.1."""
    for sitting in (checked(-0.25 * BAR, 3600, second=303.15), checked(-0.09 * BAR, 3600)):
        assert not any(line.startswith(RISEN) for line in lines(sitting))
    assert lines(checked(-0.30 * BAR, 3600, second=303.15))[0].startswith(RISEN)
