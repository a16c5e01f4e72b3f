"""The resin's warmth typed beside the cup counts for its cure as well."""

import pytest

from shopassist.core.milestones import Ahead
from shopassist.core.quantities import Kelvin
from shopassist.services.cure import StageView
from shopassist.services.warmth import AS_MIXED
from tests.panes.mix.conftest import MixBench
from tests.services.alarm_bench import Bench

MINUTE = 60.0


def doubling(bench: MixBench, resin: str, shop: float | None = None) -> MixBench:
    """An hour to pressure and twelve to demould at 25 °C; twice as fast per 10 °C."""
    bench.pane.on_sheet(bench.shop.bare(
        law={"kind": "factor per 10 degrees", "factor": "2"},
        pressurise={"time": "60 min", "at": "25 °C"}, demould={"time": "12 h", "at": "25 °C"},
        temperature={"lowest": "18 °C", "highest": "60 °C"},
    ))  # fmt: skip
    bench.type(amount="130 g", waste="0 %")
    if shop is not None:
        bench.shop.warm(bench.batch, shop)
    bench.page("cup", resin_temp=resin)
    return bench


def mixed(bench: MixBench) -> MixBench:
    bench.weigh("a", "100 g").weigh("b", "130 g")
    bench.pane.on_hardener_in()
    return bench


def stage(bench: MixBench, aim: str) -> StageView:
    view = bench.shop.cure.view(bench.batch)
    assert view is not None
    found = view.stage(aim)  # type: ignore[arg-type]
    assert found is not None
    return found


def minutes_to_pressure(bench: MixBench) -> float:
    gate = stage(bench, "pressurise").gate
    assert gate is not None
    return (gate - bench.shop.now) / MINUTE


def as_read_in_resin(bench: MixBench, celsius: float) -> float:
    """Minutes to pressure, had a thermometer in the resin shown this."""
    warm = Kelvin(celsius + 273.15)
    stages = bench.shop.cure.planned(bench.batch, Ahead(warm, warm))
    gate = next(each.gate for each in stages if each.aim == "pressurise")
    assert gate is not None
    return (gate - bench.shop.now) / MINUTE


def ends(bench: MixBench) -> list[tuple[float, float, str]]:
    found = bench.shop.batches.get(bench.batch).warmth
    return [(round(w.low - 273.15, 1), round(w.high - 273.15, 1), w.where) for w in found]


def test_warmed_resin_leaves_less_time_to_pressure_and_is_hard_no_sooner(bench: MixBench) -> None:
    """Case C14: at 50 °C it is 0.18 of the time at 25 °C: 60 min are 10.6 min.

    It will cool to the 23 °C of the shop: what must wait waits as long as there.
    """
    doubling(bench, "50 °C", shop=23.0)
    planned = dict(bench.pane.screen.ahead)["Pressurise by"]
    mixed(bench)
    assert minutes_to_pressure(bench) <= 60 * 2**-2.5
    assert minutes_to_pressure(bench) == pytest.approx(as_read_in_resin(bench, 50.0), abs=0.02)
    assert ends(bench)[-1] == (23.0, 50.0, AS_MIXED)
    gate = stage(bench, "pressurise").gate
    assert gate is not None
    assert bench.shop.words.clock(gate) == planned
    out = stage(bench, "demould")
    assert out.gate is not None
    assert out.gate - bench.shop.now >= 12 * 3600 * 2**0.2


def test_without_a_reading_what_was_typed_stands_for_our_guess(bench: MixBench) -> None:
    mixed(doubling(bench, "22 °C"))
    assert ends(bench) == [(22.0, 22.0, AS_MIXED)]
    assert minutes_to_pressure(bench) == pytest.approx(as_read_in_resin(bench, 22.0), abs=0.02)


def test_outside_of_our_guess_it_widens_it(bench: MixBench) -> None:
    mixed(doubling(bench, "45 °C"))
    assert ends(bench) == [(15.0, 45.0, AS_MIXED)]
    assert minutes_to_pressure(bench) == pytest.approx(as_read_in_resin(bench, 45.0), abs=0.02)


def test_what_the_thermometer_says_already_is_not_written_twice(bench: MixBench) -> None:
    mixed(doubling(bench, "23 °C", shop=23.0))
    assert ends(bench) == [(23.0, 23.0, "resin")]


def test_a_second_cup_writes_it_no_second_time(bench: MixBench) -> None:
    mixed(doubling(bench, "50 °C", shop=23.0))
    bench.pane.on_another_cup()
    mixed(bench)
    assert [where for *_, where in ends(bench)] == ["resin", AS_MIXED]


def test_it_says_nothing_of_the_shop_to_another_batch(bench: MixBench) -> None:
    mixed(doubling(bench, "50 °C"))
    other = bench.shop.batches.open("Other")
    found = bench.shop.cure.latest_warmth(bench.shop.batches.get(other), bench.shop.now)
    assert found is None


def test_its_ends_are_no_reading_outside_of_the_sheet(tmp_path: object) -> None:
    """15 °C is our guess of the shop; nobody is called for it."""
    made = Bench(tmp_path)  # type: ignore[arg-type]
    batch = made.mixed(celsius=None)
    made.batches.add_temperature(batch, Kelvin(283.15), Kelvin(318.15), AS_MIXED)
    made.live(3)
    assert made.kinds() == []
    made.batches.add_temperature(batch, Kelvin(283.15), Kelvin(318.15), "resin")
    made.live(3)
    assert set(made.kinds()) == {"too_cold", "too_warm"}
    made.close()
