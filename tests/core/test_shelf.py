"""Scales, colours and containers as their owner writes them."""

import pytest

from shopassist.core.colour import CAP_DEFAULT
from shopassist.core.records import Problem
from shopassist.core.shelf import (
    colour_from_mapping,
    lot_from_mapping,
    scale_from_mapping,
)
from shopassist.core.wording import Wording

READ = Wording().read_si


def places(problems: tuple[Problem, ...]) -> list[str]:
    return [each.place for each in problems]


def test_a_scale_keeps_step_and_error_apart() -> None:
    made, _ = scale_from_mapping(
        {"name": "Kitchen", "step": "1 g", "error": "1 g", "most": "5 kg",
         "shows": "grams, millilitres, fluid ounces"}, READ,
    )  # fmt: skip
    assert made is not None
    assert made.scale.doubt == pytest.approx(0.0015)
    assert (made.mixes_units, made.most) == (True, 5.0)
    plain, _ = scale_from_mapping({"name": "Pocket", "step": "0.1 g"}, READ)
    assert plain is not None
    assert plain.scale.doubt == pytest.approx(0.00025)
    assert (plain.mixes_units, plain.most) == (False, None)


def test_a_colour_that_says_nothing_is_made_for_nothing_known() -> None:
    made, _ = colour_from_mapping({"name": "Grey"}, READ)
    assert made is not None
    assert (made.kind, made.made_for, made.water_based, made.cap) == (
        "powder", frozenset(), False, CAP_DEFAULT,
    )  # fmt: skip
    full, _ = colour_from_mapping(
        {"name": "Ink", "kind": "ink", "made_for": "polyester", "water": "yes", "cap": "1 %"}, READ
    )
    assert full is not None
    assert (full.made_for, full.water_based, full.cap) == (frozenset({"polyester"}), True, 0.01)


def test_a_container_belongs_to_a_resin_and_a_part() -> None:
    made, _ = lot_from_mapping(
        {"name": "L7", "resin": "Slow clear", "part": "b", "left": "450 g",
         "opened": "2026-10-01", "expires": "2027-10-01", "price": "18"}, READ,
    )  # fmt: skip
    assert made is not None
    assert (made.resin, made.lot.part, made.lot.left, made.lot.price) == (
        "Slow clear",
        "b",
        0.45,
        18,
    )
    bare, _ = lot_from_mapping(
        {"name": "L8", "resin": "Slow clear", "part": "a", "left": "0 g"}, READ
    )
    assert bare is not None
    assert (bare.lot.left, bare.lot.price, bare.lot.opened) == (0.0, None, "")


def test_what_is_missing_is_listed_with_its_place() -> None:
    made, problems = scale_from_mapping({"name": "Kitchen"}, READ)
    assert (made, places(problems)) == (None, ["step"])
    assert places(colour_from_mapping({"kind": "glitter"}, READ)[1]) == ["kind", "name"]
    assert places(lot_from_mapping({"name": "L", "part": "c", "left": "1 g"}, READ)[1]) == [
        "part", "resin",
    ]  # fmt: skip
