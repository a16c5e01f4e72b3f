"""Pumps, baths and what a bath has taken from the woods before."""

import pytest

from shopassist.core.bath_history import DARK, PALE, colours_it, history_text
from shopassist.core.civil import seconds_of
from shopassist.core.species import BY_NAME
from shopassist.core.wood_shelf import bath_from_mapping, pump_from_mapping
from shopassist.core.wording import Wording

READ = Wording().read_si


def test_a_pump_is_read_with_its_hours() -> None:
    pump, problems = pump_from_mapping(
        {"name": "Vane", "best": "5 mbar", "speed": "70 l/min", "rest": "2 h",
         "oil": {"every": "50 h", "changed": "2026-10-01"}}, READ)  # fmt: skip
    assert not problems
    assert pump is not None
    assert pump.best == pytest.approx(500)
    assert pump.rest == pytest.approx(7200)
    assert pump.oil_every == pytest.approx(180_000)
    assert pump.oil_changed == "2026-10-01"


def test_a_bath_is_read_with_its_catalyst() -> None:
    bath, _ = bath_from_mapping(
        {"name": "Tin 4", "lot": "L 7", "left": "3 kg", "colour": "honey",
         "catalyst": {"how": "by weight", "share": "1 %", "resin": "4 kg", "shaken": True,
                      "mixed": "2026-10-01", "keeps": "1000 h"}}, READ)  # fmt: skip
    assert bath is not None
    assert bath.by_weight
    assert bath.left == pytest.approx(3.0)
    assert bath.share == pytest.approx(0.01)
    assert bath.shaken
    assert bath.keeps_until == float(seconds_of(2026, 10, 2) + 1000 * 3600)
    plain, _ = bath_from_mapping({"name": "Tin 5"}, READ)
    assert plain is not None
    assert not plain.by_weight
    assert plain.keeps_until is None
    undated, _ = bath_from_mapping({"name": "Tin 6", "catalyst": {"mixed": "2026-10-01"}}, READ)
    assert undated is not None
    assert undated.keeps_until is None


def test_records_without_a_name_are_refused() -> None:
    for read in (pump_from_mapping, bath_from_mapping):
        made, problems = read({"name": ""}, READ)
        assert made is None
        assert problems


def test_a_dark_history_or_colour_is_told_to_pale_wood_alone() -> None:
    """Case S17."""
    assert history_text(()) is None
    assert history_text(("Walnut, black",)) is not None
    assert colours_it("Maple, sugar", ("Walnut, black",), "") is not None
    assert colours_it("Maple, sugar", (), "honey") is not None
    assert colours_it("Maple, sugar", ("Holly",), "clear") is None
    assert colours_it("Walnut, black", ("Walnut, black",), "brown or dyed") is None
    assert set(BY_NAME) >= PALE | DARK
    assert not PALE & DARK
