import tomllib
from dataclasses import replace
from math import log
from pathlib import Path
from typing import Any

import pytest

from shopassist.core.cabinet import (
    CABINET_FIELDS,
    EXTRA_BAND,
    MATERIALS,
    STILL,
    Cabinet,
    Load,
    cabinet_from_mapping,
    outside_path,
    pot_area,
    wants,
    warmed,
)
from shopassist.core.cabinet_fit import AirReading, Fit, learn
from shopassist.core.enclosure import surface_film
from shopassist.core.errors import OutOfRangeError
from shopassist.core.quantities import (
    JoulePerKelvin,
    Kelvin,
    Kilogram,
    Ratio,
    Second,
    Watt,
    WattPerKelvin,
    WattPerSquareMetreKelvin,
)
from shopassist.core.sources import SOURCES
from shopassist.core.warming import (
    Heater,
    scaled,
    steady_duty,
    taken_out,
    time_constants,
    time_to_warm,
    warm_up,
)
from shopassist.core.wording import Wording

FILE = Path(__file__).parents[2] / "resources" / "demo" / "cabinets" / "warm-box.toml"
BOX: dict[str, Any] = tomllib.loads(FILE.read_text("utf-8"))
READ = Wording().read_si
SHOP = Kelvin(288.15)
LOAD = Load(Kilogram(12.0), Kilogram(0.8), Kilogram(1.0), Kilogram(0.5))


def cabinet(**changes: object) -> Cabinet:
    found, problems = cabinet_from_mapping({**BOX, **changes}, READ)
    assert found is not None, problems
    return found


def places(**changes: object) -> list[str]:
    found, problems = cabinet_from_mapping({**BOX, **changes}, READ)
    assert found is None
    return [each.place for each in problems]


# -- the record ---------------------------------------------------------------------------------


def test_the_demo_cabinet_reads_as_it_is_written() -> None:
    box = cabinet()
    assert [name for name, _ in box.layers] == ["expanded polystyrene", "plywood"]
    assert [box.power, box.set_at, box.band] == pytest.approx([100.0, 302.15, 1.0])
    assert box.transmittance == pytest.approx(0.915, abs=5e-4)
    assert box.loss == pytest.approx(1.5947 * 1.15, abs=2e-3)
    assert box.loss_band == EXTRA_BAND
    assert wants(box) == ()


def test_what_is_missing_and_what_cannot_be_is_named_by_its_place() -> None:
    assert places(heater={"warms": "the air"}) == ["heater.power"]
    assert places(heater={"power": "100 W", "warms": "the vessel itself"}) == ["heater.warms"]
    assert places(watch={"cut_out": "28 °C"}) == ["watch.cut_out"]
    assert places(middle={"thickness": "3 mm"}) == ["middle.thickness"]


def test_a_cabinet_without_a_second_pair_of_eyes_asks_for_it() -> None:
    assert len(wants(cabinet(watch={}))) == 2
    assert len(wants(cabinet(watch={"thermometer": True}))) == 1


def test_a_measured_loss_goes_before_the_walls() -> None:
    box = cabinet(measured={"loss": "2.4 W/K", "band": "5 %", "heat": "0.9"})
    assert [box.loss, box.loss_band, box.measured_heat] == pytest.approx([2.4, 0.05, 0.9])
    assert warmed(box, LOAD).loss == pytest.approx(2.4)
    unsure = cabinet(measured={"loss": "2.4 W/K"})
    assert unsure.loss_band == EXTRA_BAND


def test_a_layers_own_conductivity_goes_before_the_table() -> None:
    better = {**BOX["inner"], "conductivity": "0.030 W/mK"}
    assert cabinet(inner=better).transmittance < cabinet().transmittance


def test_foil_lets_less_through() -> None:
    hot = {"thermostat": {"set": "45 °C"}, "watch": {"cut_out": "60 °C"}}
    foil = cabinet(wall={"foil": True}, **hot)
    assert foil.transmittance == pytest.approx(0.762, abs=1e-3)
    assert cabinet().inner_film == STILL
    with pytest.raises(OutOfRangeError):
        surface_film(Ratio(1.2), WattPerSquareMetreKelvin(2.5), SHOP)


def test_every_material_names_its_source() -> None:
    assert all(each.source in SOURCES for each in MATERIALS.values())
    assert len({field.place for field in CABINET_FIELDS}) == len(CABINET_FIELDS)


# -- the lumps ------------------------------------------------------------------------------------


def test_the_lumps_are_those_of_the_worked_example() -> None:
    """Insulation inside, plywood outside, no gaps: loss and time constants of the reference."""
    box = replace(cabinet(), extra=Ratio(0.0), set_at=Kelvin(314.15))
    body = warmed(box, LOAD)
    assert body.loss == pytest.approx(1.5947, abs=2e-3)
    assert [body.air, body.pot] == pytest.approx([1636, 5880], abs=2)
    assert body.wall == pytest.approx(25_100 + 1_264, rel=0.01)  # with the foam's own heat
    # The example's contents hold 3190 J/K; liquid resin holds more than cured.
    found = [each / 60 for each in time_constants(replace(body, contents=JoulePerKelvin(3190.0)))]
    assert found == pytest.approx([4.7, 34.9, 54.9, 200.5], rel=0.08)


def test_plywood_inside_takes_longer() -> None:
    inside = cabinet(inner=BOX["outer"], outer=BOX["inner"])
    goal = Kelvin(301.15)
    times = [
        time_to_warm(warmed(each, LOAD), each.heater, SHOP, goal, "contents")
        for each in (cabinet(), inside)
    ]
    assert times[0] < times[1]
    duties = [steady_duty(warmed(each, LOAD), each.heater, SHOP) for each in (cabinet(), inside)]
    assert duties[0] == pytest.approx(duties[1], abs=0.01)


def test_without_a_pot_the_moulds_are_warm_sooner() -> None:
    box, goal = cabinet(), Kelvin(301.15)
    bare = replace(LOAD, pot=Kilogram(0.0))
    with_pot, without = (
        time_to_warm(warmed(box, each), box.heater, SHOP, goal, "contents") for each in (LOAD, bare)
    )
    assert without < with_pot
    assert len(time_constants(warmed(box, bare))) == 3
    assert outside_path(bare) < outside_path(LOAD)
    assert pot_area(Kilogram(12.0)) == pytest.approx(0.4046)


def test_an_empty_cabinet_has_nothing_to_warm() -> None:
    with pytest.raises(OutOfRangeError):
        warmed(cabinet(), Load())


def test_a_goal_above_the_thermostat_is_never_reached() -> None:
    box = cabinet()
    with pytest.raises(OutOfRangeError):
        time_to_warm(warmed(box, LOAD), box.heater, SHOP, Kelvin(303.15), "contents")


@pytest.mark.parametrize("pot", [12.0, 0.0])
def test_a_warm_pot_in_the_cold_cools_and_what_is_in_it_lags(pot: float) -> None:
    load = replace(LOAD, pot=Kilogram(pot))
    body = warmed(cabinet(), load)
    found = taken_out(body, Kelvin(314.15), Kelvin(283.15), outside_path(load), Second(7200.0))
    ten = Second(600.0)
    assert 283.15 < found.temperature("contents", ten) < 314.15
    if pot:
        assert found.temperature("pot", ten) < found.temperature("contents", ten)


# -- learning -------------------------------------------------------------------------------------

WEAK = Heater(Watt(60.0), Kelvin(314.15))


def logged(loss: float, heat: float, hours: float = 5.0) -> list[AirReading]:
    body = scaled(warmed(cabinet(), LOAD), loss, heat)
    course = warm_up(body, WEAK, SHOP, SHOP, Second(hours * 3600))
    times = [Second(900.0 * n) for n in range(int(hours * 4) + 1)]
    return [AirReading(at, course.temperature("air", at)) for at in times]


def learnt(readings: list[AirReading]) -> Fit:
    return learn(warmed(cabinet(), LOAD), WEAK, SHOP, readings)


@pytest.mark.parametrize("loss", [0.7, 1.0, 1.4])
@pytest.mark.parametrize("heat", [0.8, 1.25])
def test_a_cabinet_is_learnt_within_its_stated_band(loss: float, heat: float) -> None:
    fit = learnt(logged(loss, heat))
    true = warmed(cabinet(), LOAD).loss * loss
    assert abs(log(fit.loss / true)) <= fit.loss_band
    assert abs(log(fit.heat / heat)) <= fit.heat_band
    assert fit.misses < 0.5


def test_more_readings_make_the_band_narrower() -> None:
    assert learnt(logged(1.4, 1.0, 6.0)).loss_band < learnt(logged(1.4, 1.0, 1.0)).loss_band


def test_a_scattered_log_says_so_by_a_wider_band() -> None:
    clean = logged(1.2, 1.0)
    rough = [
        AirReading(each.at, Kelvin(each.temp + (1.5 if n % 2 else -1.5)))
        for n, each in enumerate(clean)
    ]
    assert learnt(rough).loss_band > learnt(clean).loss_band


def test_a_log_that_begins_later_counts_from_the_shop() -> None:
    fit = learnt(logged(1.2, 1.0)[2:])
    assert fit.loss / warmed(cabinet(), LOAD).loss == pytest.approx(1.2, abs=fit.loss_band * 1.2)


def test_too_few_readings_and_those_of_another_cabinet_are_refused() -> None:
    with pytest.raises(OutOfRangeError):
        learnt(logged(1.0, 1.0)[:3])
    with pytest.raises(OutOfRangeError):
        learnt([AirReading(Second(-60.0), SHOP), *logged(1.0, 1.0)])
    with pytest.raises(OutOfRangeError):
        learnt([AirReading(Second(n * 900.0), Kelvin(288.15 + (n % 2) * 24)) for n in range(12)])


def test_a_search_that_never_settles_ends(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("shopassist.core.cabinet_fit.ROUNDS", 1)
    assert learnt(logged(1.05, 1.0)).loss > WattPerKelvin(0.0)
