"""A cup mixed after the pour, and a layer upon a layer, have hazards of their own."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from shopassist.core.quantities import Kilogram, UtcSecond
from shopassist.services.cure import Aim, CureView
from shopassist.services.pours import fullest
from tests.services.alarm_bench import HOUR, MINUTE, Bench


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Bench]:
    made = Bench(tmp_path)
    made.plate()
    yield made
    made.close()


def view(shop: Bench, batch: str) -> CureView:
    found = shop.cure.view(batch)
    assert found is not None
    return found


def gate_in(shop: Bench, batch: str, aim: Aim) -> float:
    """Seconds from now to a gate."""
    stage = view(shop, batch).stage(aim)
    assert stage is not None
    assert stage.gate is not None
    return float(stage.gate) - shop.now


def as_first(shop: Bench, batch: str, aim: Aim) -> float:
    """The same, had the hardener of all of it just gone in."""
    stage = next(each for each in shop.cure.planned(batch) if each.aim == aim)
    assert stage.gate is not None
    return float(stage.gate) - shop.now


def poured(shop: Bench, sheet: str = "") -> str:
    batch = shop.mixed(sheet=sheet)
    shop.clock.advance(10 * MINUTE)
    shop.batches.poured(batch)
    return batch


def test_a_cup_mixed_after_the_pour_is_watched_until_it_is_poured(shop: Bench) -> None:
    batch = poured(shop)
    shop.clock.advance(30 * MINUTE)
    assert shop.batches.get(batch).is_poured
    shop.batches.hardener_in(batch, 2)
    assert not shop.batches.get(batch).is_poured
    assert "working" in [each.aim for each in view(shop, batch).relevant()]
    assert gate_in(shop, batch, "working") == pytest.approx(as_first(shop, batch, "working"), abs=1)
    shop.live(3 * HOUR, 20.0)
    assert "working_over" in shop.kinds()
    shop.batches.poured(batch)
    shop.live(3)
    assert not any(kind.startswith("working") for kind in shop.kinds())


def test_both_cups_of_one_pour_are_pressed_by_the_first(shop: Bench) -> None:
    batch = poured(shop)
    by = gate_in(shop, batch, "pressurise")
    shop.clock.advance(30 * MINUTE)
    shop.batches.hardener_in(batch, 2)
    assert gate_in(shop, batch, "pressurise") == pytest.approx(by - 30 * MINUTE, abs=1)
    assert gate_in(shop, batch, "hold") == pytest.approx(as_first(shop, batch, "hold"), abs=1)


def test_a_layer_upon_one_that_has_gelled_is_pressed_by_itself(shop: Bench) -> None:
    batch = poured(shop)
    shop.live(24 * HOUR, 60.0)
    shop.warm(batch, 23.0)
    shop.batches.hardener_in(batch, 2)
    expected = as_first(shop, batch, "pressurise")
    assert gate_in(shop, batch, "pressurise") == pytest.approx(expected, abs=1)
    assert view(shop, batch).contact == pytest.approx(shop.now, abs=1)
    lead = view(shop, batch).lead(shop.now)
    assert lead is not None
    assert lead.aim == "pressurise"
    shop.live(expected - 60, 10.0)
    assert "pressurise_now" in shop.kinds()


def test_gelled_on_the_witness_cup_is_gelled(shop: Bench) -> None:
    batch = poured(shop)
    shop.clock.advance(3 * HOUR)
    shop.batches.see(batch, "gelled")
    shop.clock.advance(60)
    shop.batches.hardener_in(batch, 2)
    assert gate_in(shop, batch, "gel") == pytest.approx(as_first(shop, batch, "gel"), abs=1)


def test_what_came_out_of_the_pot_is_no_hazard_to_the_next_cup(shop: Bench) -> None:
    batch = poured(shop)
    shop.batches.load(batch, "big-pot")
    assert view(shop, batch).stage("pressurise") not in view(shop, batch).relevant()
    shop.clock.advance(60 * MINUTE)
    shop.batches.load(batch, "")
    shop.batches.hardener_in(batch, 2)
    assert not shop.batches.get(batch).is_pressed
    expected = as_first(shop, batch, "pressurise")
    assert gate_in(shop, batch, "pressurise") == pytest.approx(expected, abs=1)
    shop.batches.load(batch, "big-pot")
    assert shop.batches.get(batch).is_pressed
    assert "pressurise" not in [each.aim for each in view(shop, batch).relevant()]


def test_a_time_set_right_after_the_pour_leaves_it_poured(shop: Bench) -> None:
    batch = poured(shop)
    shop.batches.hardener_in(batch, 1, UtcSecond(shop.now - 900), "looked at the clock late")
    assert shop.batches.get(batch).is_poured


@pytest.mark.parametrize(("hours", "own"), [(20, False), (25, True)])
def test_a_sheet_without_a_gel_takes_a_day_for_it(shop: Bench, hours: float, own: bool) -> None:
    batch = poured(shop, shop.bare(working={"time": "2 h", "at": "23 °C"},
                                   pressurise={"time": "1 h", "at": "23 °C"}))  # fmt: skip
    shop.clock.advance(hours * HOUR)
    shop.batches.hardener_in(batch, 2)
    assert (gate_in(shop, batch, "pressurise") > 0) is own


def test_only_what_is_still_in_a_cup_gets_hot_in_it(shop: Bench) -> None:
    """A full first cup was poured; the second holds little."""
    batch = shop.mixed()
    shop.batches.weigh(batch, 1, "a", Kilogram(2.0), "a whole kit")
    shop.batches.poured(batch)
    assert fullest(shop.batches.get(batch)) == 0.0
    shop.batches.weigh(batch, 2, "a", Kilogram(0.1))
    shop.batches.hardener_in(batch, 2)
    assert fullest(shop.batches.get(batch)) == pytest.approx(0.1)
