import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopassist.core.errors import OutOfRangeError
from shopassist.core.quantities import Kilogram, Ratio
from shopassist.core.stock import (
    Lot,
    Part,
    cost,
    draw,
    drift,
    lot_prompts,
    on_shelf,
    pieces_possible,
    shortage,
)

KG = Kilogram
OLD = Lot("a", "17", KG(0.1), opened="2026-01-10", expires="2026-06-30")
OPEN = Lot("a", "18", KG(0.4), opened="2026-03-01", expires="2027-01-31")
SHUT = Lot("a", "19", KG(1.0), expires="2027-12-31")
SOON = Lot("a", "20", KG(1.0), expires="2026-12-31")
HARD = Lot("b", "3", KG(0.05))
SHELF = (OLD, SHUT, OPEN, SOON, HARD)


def test_case_m03_the_shelf_is_short_before_anything_is_poured() -> None:
    supply = draw(SHELF, "b", KG(0.06336))
    assert supply.short == pytest.approx(0.01336)
    told = shortage("b", supply)
    assert told is not None and dict(told.params)["part"] == "B"
    shelf: dict[Part, Kilogram] = {"a": KG(0.144), "b": KG(0.050)}
    assert pieces_possible(shelf, {"a": KG(0.012), "b": KG(0.00528)}) == 9


def test_the_lot_in_use_goes_first_then_the_older_then_what_expires_first() -> None:
    supply = draw(SHELF, "a", KG(1.7))
    assert [each.lot.name for each in supply.draws] == ["18", "17", "20", "19"]
    assert supply.draws[-1].mass == pytest.approx(0.2)
    assert supply.mixes_lots and supply.short == 0.0
    assert shortage("a", supply) is None


def test_one_lot_that_is_enough_stays_alone() -> None:
    supply = draw(SHELF, "a", KG(0.3))
    assert not supply.mixes_lots
    assert supply.draws[0].lot is OPEN


def test_no_need_takes_nothing() -> None:
    assert draw(SHELF, "a", KG(0.0)).draws == ()


@given(st.lists(st.floats(0.0, 5.0), max_size=6), st.floats(0.0, 20.0))
def test_draws_and_shortage_sum_to_the_need(left: list[float], needed: float) -> None:
    lots = [Lot("a", str(n), KG(mass)) for n, mass in enumerate(left)]
    supply = draw(lots, "a", KG(needed))
    assert sum(each.mass for each in supply.draws) + supply.short == pytest.approx(needed)
    assert all(each.mass <= each.lot.left for each in supply.draws)
    assert supply.short == pytest.approx(max(needed - on_shelf(lots, "a"), 0.0), abs=1e-12)


@given(st.floats(0.01, 10.0), st.floats(0.01, 10.0), st.floats(0.001, 1.0), st.floats(0.001, 1.0))
def test_the_pieces_promised_can_be_filled_and_one_more_cannot(
    a: float, b: float, each_a: float, each_b: float
) -> None:
    shelf: dict[Part, Kilogram] = {"a": KG(a), "b": KG(b)}
    count = pieces_possible(shelf, {"a": KG(each_a), "b": KG(each_b)})
    assert count * each_a <= a * (1 + 1e-8) and count * each_b <= b * (1 + 1e-8)
    assert (count + 1) * each_a > a or (count + 1) * each_b > b


def test_a_part_that_is_not_on_the_shelf_fills_nothing() -> None:
    assert pieces_possible({"a": KG(1.0)}, {"a": KG(0.1), "b": KG(0.05)}) == 0


def test_case_m04_wrong_strokes_show_in_what_is_left() -> None:
    assert drift(KG(4.0), KG(1.0), Ratio(0.5)).share == pytest.approx(-0.5)
    assert drift(KG(4.0), KG(1.0), Ratio(0.5)).flagged
    assert not drift(KG(4.0), KG(1.0), Ratio(0.25)).flagged
    assert not drift(KG(1.0), KG(0.4 * 1.049), Ratio(0.4)).flagged
    assert drift(KG(1.0), KG(0.4 * 1.051), Ratio(0.4)).flagged


def test_cost_needs_every_price() -> None:
    masses: dict[Part, Kilogram] = {"a": KG(0.5), "b": KG(0.2)}
    assert cost(masses, {"a": 20.0, "b": 30.0}) == pytest.approx(16.0)
    assert cost(masses, {"a": 20.0}) is None


def test_a_new_lot_wants_a_test_cup_and_a_stale_one_is_named() -> None:
    told = lot_prompts((OLD, OPEN, HARD), frozenset({"17", "3"}), "2026-11-25")
    assert [text.template.split()[2] for text in told] == ["was", "is"]
    assert lot_prompts((OPEN,), frozenset({"18"}), "2026-11-25") == ()


@pytest.mark.parametrize("field", ["needed", "used_a", "ratio", "used_b", "price_a", "per_piece_a"])
def test_impossible_stock_is_refused_beside_its_field(field: str) -> None:
    calls = {
        "needed": lambda: draw(SHELF, "a", KG(-1.0)),
        "used_a": lambda: drift(KG(0.0), KG(1.0), Ratio(1.0)),
        "ratio": lambda: drift(KG(1.0), KG(1.0), Ratio(0.0)),
        "used_b": lambda: drift(KG(1.0), KG(-1.0), Ratio(1.0)),
        "price_a": lambda: cost({"a": KG(1.0)}, {"a": -1.0}),
        "per_piece_a": lambda: pieces_possible({}, {"a": KG(0.0)}),
    }
    with pytest.raises(OutOfRangeError) as caught:
        calls[field]()
    assert caught.value.field == field
