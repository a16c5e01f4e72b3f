import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopassist.core.colour import (
    Colourant,
    clash,
    colour_room,
    drops_per_mass,
    must_not_mix,
    need_two_parts,
)
from shopassist.core.errors import OutOfRangeError, RefusedError
from shopassist.core.quantities import Kilogram, Ratio

KG = Kilogram
MICA = Colourant("Copper mica")
INK = Colourant("Blue ink", "ink", water_based=True)
PASTE = Colourant("White paste", "paste", frozenset({"polyester"}))
EPOXY_DYE = Colourant("Green dye", "dye", frozenset({"amine epoxy"}))


def test_case_m11_caps_are_grams_of_the_whole_mix() -> None:
    assert colour_room(KG(0.25), Ratio(0.01)).most == pytest.approx(0.0025)
    assert colour_room(KG(0.25), Ratio(0.05)).most == pytest.approx(0.0125)


def test_each_layer_of_colour_takes_from_what_is_left() -> None:
    room = colour_room(KG(0.25), Ratio(0.05), (KG(0.004), KG(0.006)))
    assert room.left == pytest.approx(0.0025) and not room.over
    full = colour_room(KG(0.25), Ratio(0.05), (KG(0.02),))
    assert full.left == 0.0 and full.over


@given(st.floats(0.001, 10.0), st.floats(0.0, 0.5), st.lists(st.floats(0.0, 0.1), max_size=5))
def test_used_and_left_never_sum_to_less_than_the_cap(
    mix: float, cap: float, added: list[float]
) -> None:
    room = colour_room(KG(mix), Ratio(cap), tuple(KG(mass) for mass in added))
    assert room.used + room.left >= room.most - 1e-12
    assert room.over == (room.used > room.most)


def test_water_never_goes_into_polyurethane() -> None:
    told = clash(INK, "polyurethane", tried=True)
    assert told is not None and "foams" in told.template
    assert must_not_mix(INK, "polyurethane")
    other = clash(INK, "amine epoxy", tried=True)
    assert other is not None and "water-based" in other.template


def test_a_colour_for_another_family_is_refused() -> None:
    told = clash(PASTE, "polyurethane", tried=True)
    assert told is not None and "another family" in told.template
    assert must_not_mix(PASTE, "polyurethane")


def test_an_untried_colour_wants_a_test_cup_and_a_tried_one_does_not() -> None:
    told = clash(MICA, "amine epoxy", tried=False)
    assert told is not None and "test cup" in told.template
    assert clash(MICA, "amine epoxy", tried=True) is None
    assert not must_not_mix(MICA, "amine epoxy")


def test_a_colour_made_for_the_family_may_go_in() -> None:
    assert clash(EPOXY_DYE, "amine epoxy", tried=False) is None
    assert not must_not_mix(EPOXY_DYE, "amine epoxy")


@pytest.mark.parametrize("described", ["Clear Polyester", "vinyl ester gel", "15 drops per ounce"])
def test_case_m13_a_resin_hardened_by_drops_is_refused_by_name(described: str) -> None:
    with pytest.raises(RefusedError) as caught:
        need_two_parts("Clear", described)
    assert str(dict(caught.value.title.params)["word"]) in described.lower()
    assert "Polyester" in caught.value.detail.template
    assert caught.value.field == "family"


def test_a_two_part_resin_is_not_refused() -> None:
    need_two_parts("Slow clear", "casting resin")


def test_case_m13_fifteen_drops_in_three_ounces_are_five_an_ounce() -> None:
    ounce = 0.028349523
    assert drops_per_mass(15, KG(3 * ounce)) * ounce == pytest.approx(5.0)


def test_impossible_colour_is_refused_beside_its_field() -> None:
    with pytest.raises(OutOfRangeError) as caught:
        colour_room(KG(0.25), Ratio(0.05), (KG(0.001), KG(-0.001)))
    assert caught.value.field == "added.2"
    with pytest.raises(OutOfRangeError) as caught:
        colour_room(KG(0.0), Ratio(0.05))
    assert caught.value.field == "mix"
    with pytest.raises(OutOfRangeError) as caught:
        drops_per_mass(-1, KG(1.0))
    assert caught.value.field == "drops"
