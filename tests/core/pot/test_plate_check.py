"""Entries of a plate that cannot be together, and those that a person is asked to look at."""

from math import inf, nextafter, pi

import pytest

from shopassist.core.pot.plate import (
    Gauge,
    Holes,
    Plate,
    flags,
    lift_overdue,
    plate_from_mapping,
)
from shopassist.core.pot.plate_check import DEEPEST, FLATTEST, LEAST_DIVISIONS, contradictions
from shopassist.core.pot.plate_remarks import plate_remarks
from shopassist.core.quantities import PascalGauge
from shopassist.core.records import nest
from shopassist.core.wording import Wording
from tests.core.pot.bench import BAR, DAY, plate

PLAIN = Wording(offset_at=lambda _: 0)
BARE = {"name": "Pot", "rating.warmest": "30 °C", "lid.clamps": "6"}


def made(**entries: str) -> tuple[Plate | None, dict[str, str]]:
    """A plate with further entries, and the problem of each place."""
    given = {key.replace("__", "."): text for key, text in entries.items()}
    found, problems = plate_from_mapping(nest({**BARE, **given}), PLAIN.read_si)
    return found, {each.place: PLAIN.say(each.text) for each in problems}


@pytest.mark.parametrize(
    ("span", "division", "taken"),
    [("160 psi", "5 psi", True), ("1 bar", "0.1 bar", True), ("100 psi", "11 psi", False),
     ("2 psi", "100 psi", False), ("10 bar", "2 bar", False)],
)  # fmt: skip
def test_a_division_as_wide_as_the_scale_would_count_a_full_pot_as_zero(
    span: str,
    division: str,
    taken: bool,
) -> None:
    """Half a division counts as zero: swapped, 50 psi would."""
    found, problems = made(gauge__span=span, gauge__division=division)
    assert (found is not None) is taken
    if not taken:
        assert problems["gauge.division"].endswith("Were the two swapped?")


def test_a_pot_is_never_warmer_when_filled_than_at_its_warmest() -> None:
    """Swapped, it would be filled as if it never warmed up."""
    assert made(rating__coldest_fill="30 °C")[0] is not None
    found, problems = made(rating__coldest_fill="31 °C")
    assert found is None
    assert problems == {
        "rating.coldest_fill": "Warmer when filled than the warmest it will be: were the two"
        " swapped?"
    }


@pytest.mark.parametrize(
    ("volume", "seal", "taken"),
    [("20 l", "256 mm", True), ("38 l", "4 in", True), ("1 l", "300 mm", True),
     ("20 l", "10 mm", False), ("20 l", "25.6 mm", False), ("20 l", "3 m", False)],
)  # fmt: skip
def test_a_seal_in_another_unit_would_make_every_force_look_like_nothing(
    volume: str,
    seal: str,
    taken: bool,
) -> None:
    found, problems = made(size__volume=volume, size__seal_diameter=seal)
    assert (found is not None) is taken
    assert ("deep: look at both units" in problems.get("size.seal_diameter", "")) is not taken


@pytest.mark.parametrize(("edge", "onward"), [(0.02, -inf), (100.0, inf)])
def test_the_least_and_the_greatest_depth_themselves_are_taken(edge: float, onward: float) -> None:
    """A seal line of 1 m, so that the depth in diameters is the depth in metres."""
    assert edge in {FLATTEST, DEEPEST}
    volume = edge * (pi / 4)
    assert volume / (pi / 4) == edge
    assert contradictions({"size.volume": volume, "size.seal_diameter": 1.0}) == ()
    while volume / (pi / 4) == edge:
        volume = nextafter(volume, onward)
    (told,) = contradictions({"size.volume": volume, "size.seal_diameter": 1.0})
    assert told.place == "size.seal_diameter"


def test_ten_divisions_are_enough_to_the_last_bit_of_a_conversion() -> None:
    """A division of a unit shown is as near as its conversion: a thousand millionth is no more."""
    edge = 10.0 * (1 + 1e-9) / LEAST_DIVISIONS
    assert edge * LEAST_DIVISIONS == 10.0 * (1 + 1e-9)
    assert contradictions({"gauge.span": 10.0, "gauge.division": edge}) == ()
    (told,) = contradictions({"gauge.span": 10.0, "gauge.division": edge + 5e-10})
    assert told.place == "gauge.division"


def test_no_volume_and_a_wrong_number_contradict_nothing() -> None:
    assert made(size__volume="0 l", size__seal_diameter="256 mm")[0] is not None
    _, problems = made(gauge__span="round", gauge__division="2 psi")
    assert "swapped" not in problems["gauge.span"]


def test_a_hole_is_one_hole_however_it_is_written() -> None:
    """Or a vent on the gauge's own hole would count as a sign from another one."""
    found, _ = made(
        holes__gauge="Lid, left", holes__vent="lid left", holes__relief="LID  LEFT.",
        holes__inlet="wall", holes__test_valve="--", holes__second_gauge="+",
    )  # fmt: skip
    assert found is not None
    assert found.holes == Holes("Lid, left", "Lid, left", "Lid, left", "wall", "--", "+")
    assert found.holes.gauge not in found.sign_holes()


def test_a_live_lift_that_lies_ahead_shows_nothing() -> None:
    """A year typed wrong: 2031 for 2021. Tomorrow may be today in another time zone."""
    for ahead, overdue in ((0, False), (1, False), (2, True), (900, True)):
        later = plate(relief_lifted=DAY + ahead)
        assert lift_overdue(later, DAY) is overdue
        told = [PLAIN.say(text) for text in flags(later, None, DAY)]
        assert ("The date of the last live lift lies ahead: look at it." in told) is overdue
        assert all("lies ahead" not in PLAIN.say(text) for text in flags(later, None))


def test_a_dial_that_ends_below_the_pressure_cannot_show_it() -> None:
    gauge = Gauge(PascalGauge(2 * BAR), PascalGauge(0.05 * BAR), accuracy=0.5)
    told = [PLAIN.say(each) for each in flags(plate(gauge=gauge), PascalGauge(2.5 * BAR), DAY)]
    assert "The dial ends below this pressure: it cannot show it." in told
    assert "This pressure lies in a part of the dial that reads poorly." not in told


def test_a_dial_that_ends_at_the_pressure_reads_it_poorly() -> None:
    gauge = Gauge(PascalGauge(2 * BAR), PascalGauge(0.05 * BAR), accuracy=0.5)
    told = [PLAIN.say(each) for each in flags(plate(gauge=gauge), PascalGauge(2 * BAR), DAY)]
    assert "This pressure lies in a part of the dial that reads poorly." in told
    assert "The dial ends below this pressure: it cannot show it." not in told


def remarks(**entries: str) -> dict[str, str]:
    given = {key.replace("__", "."): text for key, text in entries.items()}
    found = plate_remarks(nest({**BARE, **given}), PLAIN.read_si)
    assert all(each.asks for each in found)
    return {each.place: PLAIN.say(each.text) for each in found}


def test_a_number_of_psi_that_stands_as_bar_is_asked_about() -> None:
    found = remarks(rating__pressure="60 bar", relief__set="55 bar")
    assert found.keys() == {"rating.pressure", "relief.set"}
    assert found["rating.pressure"].endswith("Is the unit as stamped?")
    assert remarks(rating__pressure="60 psi", relief__set="55 psi", gauge__span="100 psi") == {}


def test_the_usual_most_itself_is_not_asked_about() -> None:
    assert remarks(rating__pressure="10 bar") == {}
    assert remarks(rating__pressure="1000.001 kPa").keys() == {"rating.pressure"}


def test_a_dial_that_ends_below_the_relief_valve_is_asked_about() -> None:
    found = remarks(relief__set="4.1 bar", gauge__span="4 bar")
    assert "it cannot show that the pot is too full" in found["gauge.span"]
    assert remarks(relief__set="4 bar", gauge__span="4 bar") == {}


def test_a_cold_shop_is_asked_how_cold_it_fills() -> None:
    """Counted from 15 °C a pot filled at 0 °C for 10 °C would rise without anybody knowing."""
    assert remarks(rating__warmest="10 °C")["rating.coldest_fill"] == (
        "It is counted as filled at 15 °C and never warmer: type how cold it is filled."
    )
    assert remarks(rating__warmest="10 °C", rating__coldest_fill="0 °C") == {}
    assert remarks(rating__warmest="15 °C") == {}
