"""Numbers of vessel and air: forces, limits, falls, bubbles, each as a figure with its inputs."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from shopassist.core.checks import formula
from shopassist.core.explain import explain
from shopassist.core.figures import Figure, Origin
from shopassist.core.messages import say
from shopassist.core.pot.course import Course, Point
from shopassist.core.pot.events import Answer, Press, Typed
from shopassist.core.pot.plate import Gauge, Plate, Supply
from shopassist.core.pot.words import Act, Item
from shopassist.core.quantities import (
    CubicMetre,
    CubicMetrePerSecond,
    Kelvin,
    Metre,
    PascalAbsolute,
    PascalGauge,
    SquareMetre,
)
from shopassist.core.wording import US, Wording
from shopassist.services.pot_air import Air, air_figures
from shopassist.services.pot_numbers import air_of, course_of, vessel_of
from shopassist.services.pot_vessel import LOOK_UP, Vessel, vessel_figures
from tests.core.pot.bench import HOLES
from tests.shops import Shop

PSI, SEA, BAR = 6894.757293168, PascalAbsolute(101325.0), 1e5
SAID = Origin(60 * PSI, "PascalGauge", "typed")


def plate(**changes: Any) -> Plate:
    made = Plate(
        "Pot", rating=PascalGauge(60 * PSI), volume=0.037854, seal_diameter=Metre(0.3048),
        clamps=6, relief_set=PascalGauge(60 * PSI), holes=HOLES,
        gauge=Gauge(PascalGauge(100 * PSI), PascalGauge(2 * PSI), accuracy=3.0),
        warmest=Kelvin(318.15), coldest_fill=Kelvin(293.15), relief_bore=Metre(0.006),
        supply=Supply(
            PascalGauge(8 * BAR), Metre(0.005), CubicMetrePerSecond(85e-3 / 60), CubicMetre(0.024)
        ),
    )  # fmt: skip
    return replace(made, **changes)


def vessel(pressure: float | None = 60 * PSI, **changes: Any) -> dict[str, Figure]:
    gauge = None if pressure is None else PascalGauge(pressure)
    found = vessel_figures(Vessel(plate(**changes), SEA, gauge, SAID if gauge else None))
    return {figure.id.removeprefix("pot.vessel."): figure for figure in found}


def air(run: Course | None = None, **changes: Any) -> dict[str, Figure]:
    made = Air(plate(), SEA, PascalGauge(40 * PSI), run)
    found = air_figures(replace(made, **changes))
    return {figure.id.removeprefix("pot.air."): figure for figure in found}


def value(figure: Figure) -> float:
    assert figure.value is not None, figure.id
    return figure.value


def words(text: object) -> str:
    return str(getattr(text, "template", ""))


# -- vessel ------------------------------------------------------------------------------------


def test_the_force_on_the_lid_and_on_each_clamp() -> None:
    found = vessel()
    assert value(found["force"]) == pytest.approx(30_185, rel=1e-3)
    assert value(found["clamp"]) == pytest.approx(30_185 / 6, rel=1e-3)
    assert value(vessel(50 * PSI, seal_diameter=Metre(0.2413))["force"]) == pytest.approx(
        15.8e3, rel=5e-3
    )


def test_a_little_pressure_pushes_like_a_person_and_more() -> None:
    assert value(vessel()["little"]) / 9.80665 == pytest.approx(148.8, rel=1e-3)


def test_a_zero_can_hide_half_a_division_and_the_class() -> None:
    assert value(vessel()["hidden"]) == pytest.approx(4 / 60 * 30_185, rel=1e-3)
    unknown = Gauge(PascalGauge(100 * PSI), PascalGauge(2 * PSI))
    found = vessel(gauge=unknown)
    assert value(found["hidden"]) == pytest.approx(1 / 60 * 30_185, rel=1e-3)
    assert "class" not in found["hidden"].inputs
    assert words(found["dial"].rounding).startswith("Class not known")


def test_the_stored_energy_has_an_upper_bound() -> None:
    energy = vessel()["energy"]
    assert value(energy) == pytest.approx(18_110, rel=1e-3)
    assert energy.high == pytest.approx(39_150, rel=1e-3)


def test_the_limit_says_what_governs() -> None:
    assert words(vessel()["limit"].rounding).startswith("Warming up")
    cold = vessel(warmest=Kelvin(293.15))
    assert value(cold["limit"]) == pytest.approx(54 * PSI)
    assert words(cold["limit"].rounding).startswith("The relief valve")


def test_a_warm_pot_reads_above_its_rating() -> None:
    found = vessel()
    assert value(found["warm"]) / PSI == pytest.approx(66.37, abs=0.01)
    assert words(found["warm"].rounding).startswith("Above the rating")
    assert words(vessel(50 * PSI)["warm"].rounding).startswith("So near")
    assert words(vessel(20 * PSI)["warm"].rounding).startswith("Never put the pot in an oven")
    assert "warm" not in vessel(warmest=None)


def test_the_relief_valve_against_the_rating_with_its_tolerance() -> None:
    relief = vessel()["relief"]
    assert relief.low is not None
    assert relief.high is not None
    assert [relief.low / PSI, relief.high / PSI] == pytest.approx([58, 62])
    assert words(relief.rounding).startswith("It may open above the rating")
    assert words(vessel(rating=PascalGauge(80 * PSI))["relief"].rounding).startswith("Below")
    assert words(vessel(rating=None)["relief"].rounding).startswith("No rating")


def test_a_supply_that_flows_more_than_the_valve_lets_out_wants_a_restrictor() -> None:
    found = vessel()
    assert value(found["supply"]) > value(found["relieved"])
    assert "restrictor" in words(found["relieved"].rounding)
    wide = vessel(relief_bore=Metre(0.012))
    assert words(wide["relieved"].rounding) == "More than flows in."


def test_what_is_missing_is_named_beside_its_number() -> None:
    bare = Plate("Pot")
    found = {
        figure.id: words(figure.missing)
        for figure in vessel_figures(Vessel(bare, SEA, None, None))
        if figure.value is None
    }
    assert found == {
        "pot.vessel.force": "needs the seal line",
        "pot.vessel.energy": "needs the inside volume",
        "pot.vessel.limit": "needs rating and relief valve",
        "pot.vessel.relief": "needs the relief valve",
        "pot.vessel.supply": "needs pressure and bore of the supply",
        "pot.vessel.product": "needs rating and volume",
    }
    assert words(vessel(None)["force"].missing) == "needs a pressure"
    assert words(vessel(None)["energy"].missing) == "needs a pressure"
    assert words(vessel(gauge=None)["hidden"].missing) == "needs the gauge"
    assert words(vessel(relief_bore=None)["relieved"].missing).startswith("needs bore")
    assert "clamp" not in vessel(clamps=0)


def test_rules_are_never_ruled_on() -> None:
    assert all(line.template.startswith("Look this up") for line in LOOK_UP)
    assert value(vessel(rating=PascalGauge(80 * PSI))["product"]) == pytest.approx(20_880, rel=1e-3)


# -- air ---------------------------------------------------------------------------------------


def held(*readings: tuple[float, float, float | None]) -> Course:
    """A run with readings in psi at so many hours, each with its temperature in °C."""
    points = tuple(
        Point(h * 3600, psi * PSI, Item.READING, None if c is None else c + 273.15)
        for h, psi, c in readings
    )
    warmth = tuple((h * 3600, c + 273.15) for h, _, c in readings if c is not None)
    return Course(0.0, points, warmth)


def test_a_cold_night_explains_the_fall_and_no_leak_is_left() -> None:
    found = air(held((0, 50, 25), (8, 46.75, 10)))
    assert value(found["should"]) / PSI == pytest.approx(46.75, abs=0.02)
    assert value(found["explained"]) / PSI == pytest.approx(3.25, abs=0.01)
    assert value(found["unexplained"]) / PSI == pytest.approx(0.0, abs=0.02)


def test_only_the_rest_of_a_fall_is_a_leak() -> None:
    found = air(held((0, 60, 24), (0.5, 58.5, 20)))
    assert value(found["unexplained"]) / PSI == pytest.approx(0.49, abs=0.01)


def test_a_leak_is_forecast_to_the_hold_pressure_and_held_against_gel() -> None:
    run = held((0, 50, 20), (1, 47, 20))
    below = air(run)["below"]
    assert below.low is not None
    assert below.high is not None
    assert [below.low / 3600, below.high / 3600] == pytest.approx([3.33, 3.61], abs=0.01)
    for gel, hard, start in (
        (None, None, "Start a cure"), (5.0, 8.0, "Before gel"), (3.0, 8.0, "After gel, before hard"),
        (2.0, 3.0, "After gel at"), (2.0, None, "After gel at"),
    ):  # fmt: skip
        hours = [None if each is None else each * 3600 for each in (gel, hard)]
        told = words(air(run, gel=hours[0], hard=hours[1])["below"].rounding)
        assert told.startswith(start), (gel, hard, told)


def test_a_pot_that_the_cold_took_below_its_hold_is_told_so() -> None:
    """40 psi at 25 °C are 37.3 at 10 °C: below the hold at the reading, by no leak."""
    told = air(held((0, 40, 25), (8, 37, 10)))["below"].rounding
    assert words(told) == "It was below already. {then}"
    assert words(air(held((0, 50, 20), (1, 40, 20)))["below"].rounding) == (
        "Start a cure to hold it against gel."
    )


def test_a_rise_that_no_warmth_explains_is_air_that_comes_in() -> None:
    creeping = air(held((0, 50, 20), (8, 53, 20)))["unexplained"].rounding
    assert words(creeping).startswith("It rose more than warmth explains")
    for run in (held((0, 50, 20), (8, 51, 20)), held((0, 50, 20), (8, 53.5, 30))):
        told = air(run)["unexplained"].rounding
        assert words(told).startswith("Only this part is a leak")
        assert told is not None
        assert "weather makes 0.29 psi of it" in Wording(units=US).say(told)
    blank = air(held((0, 50, 20), (8, 53, 20)), plate=plate(gauge=None))
    assert words(blank["unexplained"].rounding).startswith("Only this part is a leak")


def test_a_supply_that_ends_below_the_hold_never_fills_it() -> None:
    supply = replace(plate().supply, pressure=PascalGauge(2 * BAR))
    fill = air(plate=plate(supply=supply))["fill"]
    assert (fill.value, words(fill.missing)) == (
        None, "the supply ends at {most}, below the hold pressure"
    )  # fmt: skip
    unknown = replace(plate().supply, pressure=None)
    assert value(air(plate=plate(supply=unknown))["fill"]) > 0


def test_a_tank_that_alone_goes_over_the_rating_is_told() -> None:
    """24 l at 8 bar into 20 l are 4.36 bar: more than the 60 psi, 4.14 bar, of the rating."""
    shared = air(plate=plate(volume=0.020))["shared"]
    assert value(shared) / BAR == pytest.approx(4.36, abs=0.01)
    assert words(shared.rounding).startswith("More than the rating")
    blank = air(plate=plate(volume=0.020, rating=None))["shared"]
    assert words(blank.rounding) == "More than the hold pressure."


def test_no_leak_forecasts_nothing() -> None:
    assert air(held((0, 50, 20), (1, 50, 20)))["below"].value is None
    assert "below" not in air(held((0, 50, 20), (1, 50, 20)), hold=None)
    assert "below" not in air(held((0, 50, 20), (1, 0, 20)))
    assert "below" not in air(held((0, 50, 20), (0, 49, 20)))


def test_a_fall_needs_a_temperature_at_both_ends_and_a_shut_vent() -> None:
    for run in (None, held((0, 50, 20), (8, 49, None)), held((0, 50, 20))):
        assert air(run)["explained"].value is None
        assert words(air(run)["unexplained"].missing).startswith("needs two readings")
    topped = replace(held((0, 50, 20), (1, 48, 20), (2, 50, 20), (3, 49, 20)), filled=7200.0)
    assert value(air(topped)["unexplained"]) / PSI == pytest.approx(1.0, abs=0.01)
    vented = replace(held((0, 50, 20), (1, 48, 20), (2, 20, 20)), vented=5400.0)
    assert value(air(vented)["unexplained"]) / PSI == pytest.approx(2.0, abs=0.01)


def test_filling_by_pump_and_tank_and_what_a_fast_fill_settles_to() -> None:
    found = air(hold=PascalGauge(60 * PSI))
    assert value(found["fill"]) == pytest.approx(109.1, abs=0.2)
    assert value(found["shared"]) / BAR == pytest.approx(3.10, abs=0.01)
    assert words(found["shared"].rounding) == "The pump has to run."
    assert value(found["settled"]) / PSI == pytest.approx(42.9, abs=0.1)
    assert words(air(hold=PascalGauge(30 * PSI))["shared"].rounding).startswith("More")
    none = air(plate=plate(supply=Supply()))
    assert "shared" not in none
    assert words(none["fill"].missing) == "needs the compressor's free air"
    assert words(air(plate=plate(volume=None))["fill"].missing) == "needs the inside volume"
    assert words(air(hold=None)["fill"].missing) == "needs a hold pressure"


@pytest.mark.parametrize(
    ("psi", "share", "growth"), [(40, 0.645, 3.72), (50, 0.610, 4.40), (60, 0.582, 5.08)]
)
def test_bubbles_are_squeezed_and_grow_back(psi: float, share: float, growth: float) -> None:
    found = air(hold=PascalGauge(psi * PSI))
    assert value(found["bubble"]) == pytest.approx(share, abs=1e-3)
    assert value(found["regrow"]) == pytest.approx(growth, abs=6e-3)
    assert "bubble" not in air(hold=None)


def test_the_vents_usual_time_is_learnt_and_is_no_countdown() -> None:
    assert words(air()["vent"].missing).startswith("learnt")
    usual = air(area=SquareMetre(4.5e-6))["vent"]
    assert usual.low is not None
    assert usual.low < value(usual)
    assert "no sign" in words(usual.rounding)
    assert air(area=SquareMetre(4.5e-6), hold=PascalGauge(1e3))["vent"].value is None


def test_a_vent_shut_on_cold_air_brings_pressure_back() -> None:
    assert value(air()["rebound"]) / PSI == pytest.approx(1.675, abs=1e-3)


def test_every_number_explains_itself() -> None:
    run = held((0, 50, 20), (1, 47, 20))
    figures = [*vessel().values(), *air(run, area=SquareMetre(4.5e-6)).values()]
    for figure in figures:
        assert formula(figure.formula).__doc__, figure.id
        told = explain(figure)
        assert told.sections, figure.id
        assert figure.value is not None, figure.id
        assert figure.inputs, figure.id


# -- from the record ---------------------------------------------------------------------------


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    made = Shop(tmp_path)
    yield made
    made.close()


def test_numbers_are_for_the_last_reading_else_for_the_hold_else_for_the_limit(shop: Shop) -> None:
    pot = shop.plate()

    def kind() -> tuple[float, str]:
        given = vessel_of(shop.pots, pot)[0].inputs["gauge"]
        assert isinstance(given, Origin)
        return round(float(given.value) / BAR, 2), given.kind

    assert kind() == (3.43, "computed")
    shop.pots.act(pot, Answer(Item.LID_OFF_NOW, "inside_seen"))
    shop.pots.act(pot, Answer(Item.AFTERCARE, "cleaned"))
    shop.pots.act(pot, Answer(Item.RUN, "casting"))
    shop.pots.act(pot, Typed(Item.HOLD_PRESSURE, 2.5 * BAR, "2.5", "bar"))
    assert kind() == (2.5, "typed")
    shop.pots.act(pot, Press(Act.AIR_IN))
    shop.pots.act(pot, Typed(Item.READING, 2.2 * BAR, "2.2", "bar"))
    assert kind() == (2.2, "typed")
    assert course_of(shop.pots, pot) is not None
    assert any(figure.id == "pot.air.fill" for figure in air_of(shop.pots, pot))


def test_without_a_plate_there_are_no_numbers(shop: Shop) -> None:
    pot = shop.plate()
    version = shop.plates.newest(pot)
    assert version is not None
    shop.pots._records[pot] = replace(
        shop.pots._records[pot], state=replace(shop.pots.state(pot), plate=None)
    )
    assert vessel_of(shop.pots, pot) == ()
    assert air_of(shop.pots, pot) == ()
    assert course_of(shop.pots, pot) is None


def test_a_plate_without_a_limit_has_no_pressure(shop: Shop) -> None:
    version, problems = shop.plates.save(
        {"name": "Bare", "rating": {"warmest": "30 °C"}, "lid": {"clamps": 4},
         "size": {"seal_diameter": "200 mm"}}
    )  # fmt: skip
    assert version is not None, problems
    figures = vessel_of(shop.pots, version.id)
    assert figures[0].missing == say("needs a pressure")
    assert air_of(shop.pots, version.id)[0].value is None
