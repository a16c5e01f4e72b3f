from dataclasses import replace

import pytest

from shopassist.core.messages import Amount, Text
from shopassist.core.pot.leak import Verdict, judge, leak_notes, should_read
from shopassist.core.pot.state import Evidence
from shopassist.core.pot.words import Item
from shopassist.core.quantities import PascalAbsolute
from tests.core.pot.bench import BAR, Sitting

PSI = 6894.757293168
AMBIENT = PascalAbsolute(101325.0)


def checked(
    fall: float, seconds: float, second: float = 293.15, supply: str = "isolated"
) -> Sitting:
    sitting = Sitting().held()
    sitting.answer(Item.SUPPLY, supply)
    sitting.typed(Item.READING, 4 * BAR)
    sitting.typed(Item.LEAK_START, 4 * BAR, temperature=293.15)
    sitting.wait(seconds)
    sitting.typed(Item.LEAK_END, 4 * BAR - fall, temperature=second)
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
