from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from shopassist.core.cabinet import Cabinet, Load
from shopassist.core.cure import Warmth
from shopassist.core.enclosure import Layer
from shopassist.core.errors import OutOfRangeError, RefusedError
from shopassist.core.gas import sealed_gauge
from shopassist.core.milestones import Ahead
from shopassist.core.pot.plate import Plate
from shopassist.core.quantities import (
    Kelvin,
    Kilogram,
    Metre,
    PascalAbsolute,
    PascalGauge,
    Second,
    UtcSecond,
    Watt,
    WattPerMetreKelvin,
)
from shopassist.core.sheets import ResinSheet
from shopassist.services.cure import StageView
from shopassist.services.into_cabinet import coming, into_cabinet
from shopassist.services.warmup import (
    Given,
    Inside,
    plan,
    pot_in_warmth,
    refusal,
    told,
    worked_out,
)
from tests.shops import Shop

HOUR = 3600.0
AIR = PascalAbsolute(101325.0)
BOX = Cabinet(
    "Box", Metre(0.45), Metre(0.45), Metre(0.6),
    (("expanded polystyrene", Layer(Metre(0.025), WattPerMetreKelvin(0.036))),
     ("plywood", Layer(Metre(0.018), WattPerMetreKelvin(0.13)))),
    Watt(100.0), Kelvin(314.15),
)  # fmt: skip
LOAD = Load(Kilogram(12.0), Kilogram(0.8), Kilogram(1.0), Kilogram(0.5))
EIGHT = UtcSecond(1_790_060_400.0)
CASE = Given(BOX, LOAD, Kelvin(293.15), Kelvin(313.15), pour_at=EIGHT)


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    made = Shop(tmp_path)
    yield made
    made.close()


def test_the_range_holds_the_likely_time_and_the_switch_goes_by_its_slow_end() -> None:
    made = plan(CASE)
    low, likely, high = made.warm_after.low, made.warm_after.value, made.warm_after.high
    assert low is not None and likely is not None and high is not None
    assert low < likely < high
    assert made.switch_on.value == pytest.approx(EIGHT - high)
    assert made.switch_on.high == pytest.approx(EIGHT - low)
    assert made.holds == "yes"


def test_at_the_hour_of_the_pour_even_the_slow_course_is_warm() -> None:
    made = plan(CASE)
    assert made.switch_on.value is not None
    since = Second(EIGHT - made.switch_on.value)
    for course in (made.courses.slow, made.courses.likely, made.courses.quick):
        assert course.temperature("contents", since) >= CASE.goal - 1e-6


def test_the_duty_followed_is_the_duty_told() -> None:
    made = plan(CASE)
    end = made.courses.likely.end
    assert made.duty.value == pytest.approx(1.834 * 21 / 100, abs=0.002)
    late = made.courses.likely.duty(Second(end - 2 * HOUR), end)
    assert late == pytest.approx(made.duty.value, abs=0.08)  # the wall is still warming


def test_a_colder_shop_leaves_less_time_outside() -> None:
    times = [plan(replace(CASE, shop=Kelvin(shop))).stand_out.value for shop in (278.15, 288.15)]
    assert times[0] is not None and times[1] is not None
    assert times[0] < times[1]


def test_without_an_hour_it_asks_for_one() -> None:
    made = plan(replace(CASE, pour_at=None))
    assert made.switch_on.value is None
    assert made.switch_on.missing is not None


def test_where_only_the_slow_course_stays_cold_no_hour_is_promised() -> None:
    barely = replace(CASE, cabinet=replace(BOX, power=Watt(40.0)))
    made = plan(barely)
    assert made.warm_after.value is not None
    assert made.warm_after.high is None
    assert made.switch_on.value is None
    assert made.holds == "barely"


def test_a_shop_as_warm_as_the_goal_needs_no_cabinet() -> None:
    with pytest.raises(OutOfRangeError):
        plan(replace(CASE, shop=CASE.goal))


# -- refusals --------------------------------------------------------------------------------


def test_mixed_resin_is_refused_in_bulk_and_by_the_mould() -> None:
    sheet = ResinSheet("Clear", "weight", 2.0, 1.0, mass_limit=Kilogram(0.4))
    assert refusal(replace(CASE, inside="mixed resin in a cup"), None) is not None
    assert refusal(replace(CASE, inside="poured moulds"), sheet) is not None
    assert refusal(replace(CASE, inside="poured moulds", moulds=3), sheet) is None
    assert refusal(replace(CASE, inside="poured moulds"), None) is None
    assert refusal(CASE, sheet) is None


# -- the pot ------------------------------------------------------------------------------------


def test_what_is_filled_cold_comes_to_the_limit_when_warm() -> None:
    bar = 1e5
    plate = Plate("Pot", PascalGauge(4.1 * bar), relief_set=PascalGauge(5 * bar))
    found = pot_in_warmth(plate, BOX, Kelvin(288.15), AIR)
    assert found.fill.value is not None
    warm = sealed_gauge(PascalGauge(found.fill.value), Kelvin(288.15), found.warmest, AIR)
    assert warm == pytest.approx(4.1 * bar)
    assert found.must_tell
    assert not found.over_rated


def test_a_pot_short_of_its_plate_has_no_limit() -> None:
    found = pot_in_warmth(Plate("Pot", rated_temperature=Kelvin(310.0)), BOX, Kelvin(288.15), AIR)
    assert found.fill.value is None
    assert found.over_rated


def test_the_record_is_told_no_less_than_the_warmth() -> None:
    assert told({"name": "Pot"}, Kelvin(314.61)) == {
        "name": "Pot", "rating": {"warmest": "41.5 °C"},
    }  # fmt: skip
    kept = told({"rating": {"pressure": "4 bar"}}, Kelvin(314.65))["rating"]
    assert kept == {"pressure": "4 bar", "warmest": "41.5 °C"}


# -- the cure ---------------------------------------------------------------------------------------


def gate(stages: tuple[StageView, ...], aim: str) -> float | None:
    return next(each.gate for each in stages if each.aim == aim and each.kind == "release")


def test_a_course_of_temperatures_stands_beside_the_truth(shop: Shop) -> None:
    batch = shop.mixed(celsius=18.0)
    shop.clock.advance(600.0)
    before = shop.cure.view(batch)
    assert before is not None
    made = plan(replace(CASE, cabinet=replace(BOX, set_at=Kelvin(303.15)), goal=Kelvin(302.15)))
    warm = shop.cure.what_if_course(batch, coming(made.courses, Second(8 * HOUR)))
    cold, hot = gate(before.stages, "demould"), gate(warm, "demould")
    assert cold is not None and hot is not None
    assert hot < cold
    after = shop.cure.view(batch)
    assert after is not None and after.stages == before.stages


def test_a_course_that_stays_is_the_what_if_of_that_temperature(shop: Shop) -> None:
    batch = shop.mixed(celsius=20.0)
    level = Kelvin(293.15)
    flat = tuple(Warmth(Second(n * 900.0), level, level) for n in range(40))
    expected, found = shop.cure.what_if(batch, level), shop.cure.what_if_course(batch, flat)
    told = [(one, other) for one, other in zip(expected, found, strict=True) if one.gate]
    assert len(told) >= 4
    for one, other in told:
        assert one.gate == pytest.approx(other.gate, abs=30.0)


def test_into_the_cabinet_it_goes_as_warm_as_it_is_and_no_doubt_is_left_out(shop: Shop) -> None:
    given = replace(CASE, cabinet=replace(BOX, set_at=Kelvin(303.15)), goal=Kelvin(302.15))
    inside = (Kelvin(294.15), Kelvin(296.15))
    first, *rest = into_cabinet(given, None, inside)
    assert first.low == pytest.approx(min(given.shop, inside[0]))
    assert first.high == pytest.approx(max(given.shop, inside[1]))
    assert all(each.low <= each.high for each in rest)
    assert rest[-1].low > 300.15
    hot = into_cabinet(given, None, (Kelvin(310.15), Kelvin(310.15)))
    assert hot[0].high == pytest.approx(310.15)


@pytest.mark.parametrize("inside", ["mixed resin in a cup", "poured moulds"])
def test_what_may_not_be_warmed_has_no_course(shop: Shop, inside: Inside) -> None:
    warm = (Kelvin(294.15), Kelvin(294.15))
    sheet = shop.sheets.newest(shop.sheet())
    assert sheet is not None
    with pytest.raises(RefusedError):
        into_cabinet(replace(CASE, inside=inside, cabinet=replace(BOX, set_at=Kelvin(318.15))),
                     sheet.record, warm)  # fmt: skip


def test_no_course_and_no_hardener_give_no_what_if(shop: Shop) -> None:
    batch = shop.batches.open("Later")
    level = Kelvin(293.15)
    assert shop.cure.what_if_course(batch, (Warmth(Second(0.0), level, level),)) == ()
    assert shop.cure.what_if_course(shop.mixed(), ()) == ()


def test_a_planned_pour_may_be_kept_at_a_temperature(shop: Shop) -> None:
    batch = shop.batches.open("Later")
    shop.batches.use_sheet(batch, shop.sheet(), 1)
    cold = shop.cure.planned(batch, Ahead(Kelvin(290.15), Kelvin(290.15)))
    warm = shop.cure.planned(batch, Ahead(Kelvin(300.15), Kelvin(300.15)))
    early, late = gate(warm, "demould"), gate(cold, "demould")
    assert early is not None and late is not None
    assert early < late


def test_walls_stand_beside_a_measurement() -> None:
    assert worked_out(CASE) is None
    measured = replace(CASE, cabinet=replace(BOX, measured=BOX.loss))
    assert worked_out(measured) == pytest.approx(BOX.loss)
