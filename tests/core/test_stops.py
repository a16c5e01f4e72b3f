from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core.errors import OutOfRangeError
from shopassist.core.mixing import PartMasses
from shopassist.core.quantities import Kilogram
from shopassist.core.stops import (
    Portion,
    bottle_reading,
    in_cup,
    portions,
    regain,
    running_stops,
    split_cups,
    taken,
)

PARTS = PartMasses(Kilogram(0.144), Kilogram(0.06336))
MICA = Portion("colour", Kilogram(0.002), "mica")


def grams(*values: float) -> list[float]:
    return [round(value * 1e3, 3) for value in values]


def test_stops_run_on_from_one_portion_to_the_next() -> None:
    stops = running_stops(portions(PARTS))
    assert [stop.part for stop in stops] == ["a", "b"]
    assert grams(*(stop.reading for stop in stops)) == [144.0, 207.36]


def test_colour_stands_in_the_middle_and_changes_no_part() -> None:
    stops = running_stops(portions(PARTS, colours=(MICA,)))
    assert [stop.part for stop in stops] == ["a", "colour", "b"]
    assert grams(*(stop.mass for stop in stops)) == [144.0, 2.0, 63.36]
    assert grams(stops[-1].reading) == [209.36]


def test_b_may_go_first() -> None:
    stops = running_stops(portions(PARTS, b_first=True, colours=(MICA,)))
    assert [stop.part for stop in stops] == ["b", "colour", "a"]
    assert grams(stops[0].reading) == [63.36]


def test_a_scale_that_was_not_zeroed_counts_the_cup() -> None:
    stops = running_stops(portions(PARTS), Kilogram(0.012))
    assert grams(*(stop.reading for stop in stops)) == [156.0, 219.36]


def test_a_scale_that_lost_zero_half_way_through_b_goes_on_from_the_weighed_cup() -> None:
    found = regain(portions(PARTS), 1, Kilogram(0.012), Kilogram(0.012 + 0.144 + 0.030))
    assert grams(found.begun) == [30.0]
    assert grams(*(stop.reading for stop in found.stops)) == [219.36]
    assert not found.over


def test_a_scale_that_lost_zero_before_anything_was_poured() -> None:
    found = regain(portions(PARTS), 0, Kilogram(0.012), Kilogram(0.012))
    assert found.begun == Kilogram(0)
    assert grams(*(stop.reading for stop in found.stops)) == [156.0, 219.36]


def test_more_in_the_cup_than_the_target_is_told() -> None:
    found = regain(portions(PARTS), 0, Kilogram(0.012), Kilogram(0.012 + 0.150))
    assert found.over
    assert regain(portions(PARTS), 2, Kilogram(0.012), Kilogram(0.21936)).stops == ()


def test_a_cup_lighter_than_what_is_in_it_is_refused() -> None:
    with pytest.raises(OutOfRangeError):
        regain(portions(PARTS), 1, Kilogram(0.012), Kilogram(0.1))
    with pytest.raises(OutOfRangeError):
        in_cup(Kilogram(0.011), Kilogram(0.012))


def test_a_bottle_loses_what_the_cup_gains() -> None:
    after = bottle_reading(Kilogram(1.0), Kilogram(0.144))
    assert taken(Kilogram(1.0), after) == pytest.approx(0.144)
    with pytest.raises(OutOfRangeError):
        bottle_reading(Kilogram(0.1), Kilogram(0.144))
    with pytest.raises(OutOfRangeError):
        taken(Kilogram(0.1), Kilogram(0.2))


@settings(max_examples=60, deadline=None)
@given(st.floats(1e-3, 10), st.floats(0.06, 1))
def test_cups_are_as_few_as_their_most_allows(total: float, most: float) -> None:
    count, each = split_cups(Kilogram(total), Kilogram(most))
    assert each <= most * (1 + 1e-9)
    assert count * each == pytest.approx(total)
    assert count == 1 or total / (count - 1) > most * (1 - 1e-9)


def test_c06_twelve_ounces_make_six_cups_of_two() -> None:
    ounce = 0.028349523125
    assert split_cups(Kilogram(12 * ounce), Kilogram(2 * ounce))[0] == 6


def test_hundreds_of_cups_are_a_slip_of_the_keys() -> None:
    assert split_cups(Kilogram(20.0), Kilogram(0.1)) == (200, 0.1)
    with pytest.raises(OutOfRangeError):
        split_cups(Kilogram(20.05), Kilogram(0.1))
    with pytest.raises(OutOfRangeError):
        split_cups(Kilogram(50.0), Kilogram(0.001))


def test_a_portion_that_is_all_in_the_cup_is_not_over() -> None:
    order, empty = portions(PARTS), Kilogram(0.012)
    assert not regain(order, 0, empty, Kilogram(0.012 + 0.144)).over
    assert not regain(order, 0, empty, Kilogram(0.012 + 0.100)).over
    assert regain(order, 0, empty, Kilogram(0.012 + 0.1441)).over


def test_rounding_of_the_machine_leaves_nothing_begun() -> None:
    assert regain(portions(PARTS), 1, Kilogram(0.012), Kilogram(0.156 - 5e-10)).begun == 0.0


def test_a_bottle_may_be_emptied_and_need_not_be_touched() -> None:
    assert bottle_reading(Kilogram(0.144), Kilogram(0.144)) == 0.0
    assert taken(Kilogram(0.144), Kilogram(0.144)) == 0.0


@pytest.mark.parametrize(
    "refused",
    [
        lambda: running_stops(portions(PARTS), Kilogram(-0.001)),
        lambda: running_stops((Portion("a", Kilogram(-0.1)),)),
        lambda: regain(portions(PARTS), 0, Kilogram(0.0), Kilogram(0.1)),
        lambda: in_cup(Kilogram(-0.1), Kilogram(-0.2)),
        lambda: bottle_reading(Kilogram(0.1), Kilogram(-0.1)),
        lambda: taken(Kilogram(0.1), Kilogram(-0.1)),
        lambda: split_cups(Kilogram(-1.0), Kilogram(0.1)),
    ],
)
def test_less_than_nothing_is_refused(refused: Callable[[], object]) -> None:
    with pytest.raises(OutOfRangeError):
        refused()
