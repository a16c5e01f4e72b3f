"""What a meter promises, pauses of the pump on a mountain, and more resin than wood has room for."""

from pathlib import Path

import pytest

from shopassist.core.explain import explain
from tests.panes.stabilise.conftest import WoodBench

# -- a meter, before the oven has told ------------------------------------------------------------


def test_by_a_meter_it_is_told_what_the_wood_should_come_to(bench: WoodBench) -> None:
    """Case S01: mass ÷ (1 + moisture); 500 g at 38 % come to 362.3 g and hold 137.7 g of water."""
    bench.type("scale_step", "0.1 g")
    bench.weigh("500 g")
    assert "Water in it now" not in bench.figures()
    bench.meter("38 %", "6 %")
    found = bench.figures()
    assert (found["By the meter it is dry at"], found["Water in it now"]) == ("362.3 g", "137.7 g")
    bench.act("Oven is at temperature, wood is in")
    bench.wait(20)
    bench.weigh("380 g")
    found = bench.figures()
    assert found["By the meter it is dry at"] == "362.3 g"
    assert "Water in it now" not in found
    figure = bench.service.figures(bench.pane.screen.batch_id).figures["by_meter"]
    told = [bench.shop.words.say(each) for each in figure.omits]
    assert told == ["The meter's own error: a mass to expect, no proof of dryness."]
    assert explain(figure).sections
    bench.wait(4)
    bench.weigh("362.4 g")
    bench.wait(4)
    bench.weigh("362.3 g")
    bench.act("Out of the oven, sealed")
    assert "By the meter it is dry at" not in bench.figures()


def test_a_meter_at_its_floor_promises_a_range_alone(bench: WoodBench) -> None:
    """Case S02: 6.0 % at its floor of 6 % is anything from 0 to 6; 383.7 g are 362.0 to 383.7 g."""
    bench.type("scale_step", "0.1 g")
    bench.weigh("383.7 g")
    bench.meter("6.0 %", "6 %")
    (shown,) = [f for f in bench.pane.screen.figures if f.label == "By the meter it is dry from"]
    assert (shown.value, shown.unit, shown.note) == ("362.0", "g", "to 383.7 g")
    assert "Water in it now" not in bench.figures()


# -- vacuum ------------------------------------------------------------------------------------


def pauses(bench: WoodBench) -> list[float]:
    words = bench.pane.screen.note.removeprefix("Pause at ").partition(" on the dial")[0]
    return [float(each.split()[0]) for each in words.split(", ")]


def test_the_pauses_of_the_pump_swell_the_foam_alike_on_a_mountain(tmp_path: Path) -> None:
    """Cases S11 and S14 together: at 1600 m the air is 835 mbar, and no dial shows 847 mbar.

    10, 15, 20 and 25 inHg of the sea's 29.92 are shares of the air: 33.4 to 83.6 %.
    """
    bench = WoodBench(tmp_path, elevation=1600.0).covered()
    bench.type("pump_best", "25 torr")
    bench.act("Pump is on")
    assert pauses(bench) == pytest.approx([279, 419, 558, 698], abs=1)
    reach = float(bench.figures()["Dial can reach here"].split()[0])
    assert max(pauses(bench)) < reach


def test_where_no_air_pressure_is_known_the_pauses_are_those_of_the_sea(tmp_path: Path) -> None:
    bench = WoodBench(tmp_path, elevation=None).covered()
    bench.act("Pump is on")
    assert pauses(bench) == pytest.approx([339, 508, 677, 847], abs=1)


# -- what went in --------------------------------------------------------------------------------


def test_more_than_the_voids_hold_is_no_uptake(bench: WoodBench) -> None:
    """0.6 g/ml has room for 1.05 × (1/0.6 - 1/1.5) = 105 %; 900 g in 510 ml would be 194 %."""
    bench.pane.on_page("compare")
    bench.type("resin_density", "1.05 g/ml")
    for name, text in (
        ("control_mass", "300 g"), ("control_volume", "500 ml"), ("treated_mass", "520 g"),
        ("treated_volume", "510 ml"),
    ):  # fmt: skip
        bench.type(name, text)
    assert bench.figures()["Share of its ceiling"] == "66.6 %"
    assert not bench.pane.screen.answers["treated_mass"].problem
    bench.type("treated_mass", "900 g")
    problem = bench.pane.screen.answers["treated_mass"].problem
    assert problem.startswith("More than its voids hold: resin on the outside")


def test_a_set_that_weighs_more_than_full_is_told_to_look_again(bench: WoodBench) -> None:
    bench.wrapped()
    bench.act("Packets are in the hot oven")
    bench.wait(6)
    bench.act("Oven off")
    bench.weigh("2400 g")
    bench.act("All are hard")
    assert "More than its voids hold" in bench.pane.screen.note
