"""What a vacuum dial is worth here, what boils, and how long it takes."""

import pytest

from shopassist.core.atmosphere import air_pressure
from shopassist.core.errors import ShopError
from shopassist.core.humidity import saturation_pressure
from shopassist.core.pumping import (
    AFTER_A_POWER_CUT,
    SHUT_DOWN,
    STEPS,
    is_slow,
    judge_vacuum,
    pump_down_time,
    soak_minimum,
    stall_causes,
)
from shopassist.core.quantities import (
    CubicMetre,
    CubicMetrePerSecond,
    Kelvin,
    Metre,
    PascalAbsolute,
    PascalVacuum,
    Second,
)

INHG = 3386.389
BATH = Kelvin(293.15)


def test_a_pump_of_27_inches_that_reads_22_high_up_is_at_its_best() -> None:
    """Case S11: near 5000 ft the air is 24.89 inHg."""
    ambient = air_pressure(Metre(1524.0))
    assert ambient / INHG == pytest.approx(24.89, abs=0.02)
    best = PascalAbsolute(29.92 * INHG - 27 * INHG)
    verdict = judge_vacuum(PascalVacuum(22 * INHG), ambient, best)
    assert verdict.deep_enough
    assert verdict.share == pytest.approx(0.884, abs=0.001)
    assert verdict.absolute / 133.322 == pytest.approx(73.5, abs=0.7)


def test_the_same_dial_at_the_sea_is_not_deep() -> None:
    best = PascalAbsolute(2.92 * INHG)
    verdict = judge_vacuum(PascalVacuum(22 * INHG), PascalAbsolute(101325.0), best)
    assert not verdict.deep_enough
    assert "can reach" in verdict.text.template


def test_a_dial_deeper_than_the_air_is_refused() -> None:
    with pytest.raises(ShopError):
        judge_vacuum(PascalVacuum(27 * INHG), PascalAbsolute(24.89 * INHG), PascalAbsolute(1e3))


@pytest.mark.parametrize(("goal", "ultimate"), [(1e3, 1e3), (2e5, 0.0)])
def test_a_goal_that_cannot_be_is_refused(goal: float, ultimate: float) -> None:
    with pytest.raises(ShopError) as refused:
        pump_down_time(
            CubicMetre(0.01), CubicMetrePerSecond(1e-3), PascalAbsolute(1e5),
            PascalAbsolute(goal), PascalAbsolute(ultimate),
        )  # fmt: skip
    assert refused.value.field == "goal"


def templates(absolute: float, ultimate: float, monomer: float | None = None) -> list[str]:
    found = stall_causes(
        PascalAbsolute(absolute), PascalAbsolute(ultimate), BATH,
        PascalAbsolute(monomer) if monomer else None,
    )  # fmt: skip
    return [each.template for each in found]


def test_a_dial_that_stands_at_the_boiling_point_of_water_says_wet_wood() -> None:
    causes = templates(saturation_pressure(BATH), 300.0)
    assert "wet" in causes[0]
    assert "leak" in causes[-1]


def test_a_dial_at_the_best_of_the_pump_is_not_called_a_leak() -> None:
    assert templates(500.0, 500.0) == ["This is as deep as the pump goes."]


def test_a_dial_at_the_boiling_point_of_the_monomer_says_so() -> None:
    assert any("monomer" in each for each in templates(3900.0, 500.0, 3900.0))
    assert not any("monomer" in each for each in templates(3900.0, 500.0))


def test_a_dial_anywhere_else_asks_for_a_leak_first() -> None:
    assert "leak" in templates(20000.0, 500.0)[0]


def test_three_times_the_expected_time_is_slow() -> None:
    assert is_slow(Second(61.0), Second(20.0))
    assert not is_slow(Second(59.0), Second(20.0))


def test_the_soak_is_twice_the_vacuum_or_the_sheet() -> None:
    """Case S13."""
    assert soak_minimum(Second(9000.0), None) == pytest.approx(5 * 3600)
    assert soak_minimum(Second(3600.0), Second(43200.0)) == pytest.approx(12 * 3600)


def test_the_valve_is_closed_before_the_pump_stops() -> None:
    """Case S16: in this order no oil is drawn back."""
    order = [each.template for each in SHUT_DOWN]
    assert order[0].startswith("Close the valve")
    assert order.index("Switch the pump off.") > order.index("Open the pump's inlet to the air.")
    assert "not known" in AFTER_A_POWER_CUT[0].template


def test_the_stepped_start_goes_deeper_each_time() -> None:
    assert list(STEPS) == sorted(STEPS)
