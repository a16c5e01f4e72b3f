"""Where the plate's own edges lie: what still blocks nothing, and what is flagged."""

from dataclasses import fields, replace
from math import pi, sqrt
from typing import Any

import pytest

from shopassist.core.pot.plate import (
    PLATE_FIELDS,
    Gauge,
    Holes,
    Plate,
    Supply,
    blocks,
    flags,
    hidden_force,
    hides_much,
    lift_overdue,
    plate_from_mapping,
    slow_gauge,
)
from shopassist.core.quantities import Kelvin, Metre, Newton, PascalGauge
from shopassist.core.records import nest
from shopassist.core.wording import Wording
from tests.core.pot.bench import BAR, DAY, plate

PLAIN = Wording()


@pytest.mark.parametrize(
    ("last_digit", "span", "division"),
    [(0.02 * BAR, 7 * BAR, 0.2 * BAR), (0.001 * BAR, 7 * BAR, 0.07 * BAR)],
)
def test_a_division_of_a_display_is_ten_last_digits_or_a_hundredth_of_its_span(
    last_digit: float, span: float, division: float
) -> None:
    gauge = Gauge(PascalGauge(span), PascalGauge(last_digit), digital=True)
    assert gauge.division == pytest.approx(division)
    assert replace(gauge, digital=False).division == last_digit


def test_every_hole_is_known_once() -> None:
    assert Holes("g", "v", "r", "i", "t", "s").all() == ("g", "v", "r", "i", "t", "s")
    assert Holes("g", "v", "v", "g", "t", "t").all() == ("g", "v", "t")


@pytest.mark.parametrize("changes", [
    {"relief_set": PascalGauge(5.5 * BAR)}, {"clamps": 1}, {"warmest": Kelvin(333.15)},
    {"warmest": None}, {"rated_temperature": None},
])  # fmt: skip
def test_what_lies_on_the_edge_blocks_nothing(changes: dict[str, Any]) -> None:
    assert blocks(plate(**changes), DAY) == ()


def test_a_valve_lifted_a_whole_interval_ago_is_due_tomorrow() -> None:
    made = plate(relief_lifted=DAY - 365)
    assert not lift_overdue(made, DAY)
    assert lift_overdue(made, DAY + 1)


def test_a_force_of_the_limit_itself_is_not_large(monkeypatch: pytest.MonkeyPatch) -> None:
    force = hidden_force(plate())
    assert force is not None
    monkeypatch.setattr("shopassist.core.pot.plate.LARGE_FORCE", force)
    assert not hides_much(plate())
    monkeypatch.setattr("shopassist.core.pot.plate.LARGE_FORCE", Newton(force - 1e-6))
    assert hides_much(plate())


@pytest.mark.parametrize(
    ("share", "flagged"), [(0.24, True), (0.25, False), (0.75, False), (0.76, True)]
)
def test_a_dial_reads_well_from_a_quarter_to_three_quarters(share: float, flagged: bool) -> None:
    gauge = Gauge(PascalGauge(8 * BAR), PascalGauge(0.1 * BAR), accuracy=0.5)
    found = flags(plate(gauge=gauge), PascalGauge(share * 8 * BAR))
    assert any("reads poorly" in text.template for text in found) is flagged


@pytest.mark.parametrize(
    ("clamps", "flagged"), [(0, False), (1, True), (2, True), (3, True), (4, False)]
)
def test_fewer_than_four_clamps_are_flagged(clamps: int, flagged: bool) -> None:
    found = flags(plate(clamps=clamps), None)
    assert any("clamps" in text.template for text in found) is flagged


# -- reading a plate ------------------------------------------------------------------------------

BARE: dict[str, dict[str, str] | str] = {
    "name": "Bare", "rating": {"warmest": "30 °C"}, "lid": {"clamps": "4"},
}  # fmt: skip


@pytest.mark.parametrize(("given", "missing"), [("span", "division"), ("division", "span")])
def test_a_gauge_wants_its_full_scale_and_its_division(given: str, missing: str) -> None:
    made, problems = plate_from_mapping(BARE | {"gauge": {given: "0.5 bar"}}, PLAIN.read_si)
    assert made is None
    assert [problem.place for problem in problems] == [f"gauge.{missing}"]


def test_a_plate_needs_its_name_its_warmth_and_its_clamps() -> None:
    made, problems = plate_from_mapping({}, PLAIN.read_si)
    assert made is None
    assert {problem.place for problem in problems} == {"name", "rating.warmest", "lid.clamps"}


def test_a_plate_with_nothing_else_owes_all_the_rest_to_our_own_choices() -> None:
    made, problems = plate_from_mapping(BARE, PLAIN.read_si)
    assert problems == ()
    assert made == Plate("Bare", clamps=4, warmest=Kelvin(303.15))
    given = {each.name: getattr(made, each.name) for each in fields(made)}
    assert {name: value for name, value in given.items() if value} == {
        "name": "Bare", "clamps": 4, "passes": 3, "warmest": 303.15, "coldest_fill": 288.15,
        "relief_interval": 365, "holes": Holes(), "supply": Supply(),
    }  # fmt: skip
    assert not any(getattr(Plate("Bare").supply, each.name) for each in fields(Supply()))
    assert Plate("Bare").clamps == 0


def test_a_bare_plate_says_all_that_a_run_still_needs() -> None:
    assert {text.template for text in blocks(Plate("Bare"), DAY)} == {
        "This pot has no rated pressure on its plate.", "This pot has no relief valve.",
        "This pot has no gauge.", "This pot has no vent.", "The inlet has no shut-off valve.",
        "Give the number of clamps.", "No opening besides the gauge's hole can give a sign.",
    }  # fmt: skip


def test_every_field_of_a_plate_reaches_it() -> None:
    made, problems = plate_from_mapping(
        {
            "name": " Big pot ",
            "rating": {
                "pressure": "5.5 bar", "temperature": "60 °C", "warmest": "20 °C",
                "coldest_fill": "10 °C",
            },
            "size": {"volume": "20 l", "seal_diameter": "300 mm"},
            "lid": {"clamps": "6", "passes": "4"},
            "relief": {
                "set": "5 bar", "lifted": "1970-01-11", "bore": "6 mm", "interval": "180 d",
            },
            "gauge": {
                "kind": "digital", "span": "7 bar", "division": "0.01 bar", "class": "1.6",
                "fitted": "2025", "readable_at_lid": "yes", "tested": "1970-01-21",
            },
            "holes": {
                "gauge": "a", "vent": "b", "relief": "c", "inlet": "d", "test_valve": "e",
                "second_gauge": "f",
            },
            "inlet": {"shut_off": "yes", "opens": "yes"},
            "supply": {
                "pressure": "8 bar", "bore": "5 mm", "free_air": "60 l/min", "receiver": "24 l",
            },
            "examined": {"by": "an examiner", "due": "1970-02-01"},
        },
        PLAIN.read_si,
    )  # fmt: skip
    assert problems == ()
    assert made is not None
    assert made.gauge == Gauge(PascalGauge(7 * BAR), PascalGauge(0.01 * BAR), True, 1.6, "2025")
    assert made.holes == Holes("a", "b", "c", "d", "e", "f")
    numbers = {
        "rating": 5.5 * BAR, "rated_temperature": 333.15, "volume": 0.02, "seal_diameter": 0.3,
        "clamps": 6, "passes": 4, "relief_set": 5 * BAR, "relief_lifted": 10,
        "relief_interval": 180, "examination_due": 31, "warmest": 293.15, "coldest_fill": 283.15,
        "gauge_tested": 20, "relief_bore": 0.006,
    }  # fmt: skip
    assert {name: getattr(made, name) for name in numbers} == pytest.approx(numbers)
    supply = (made.supply.pressure, made.supply.bore, made.supply.free_air, made.supply.receiver)
    assert supply == pytest.approx((8 * BAR, 0.005, 0.001, 0.024))
    flags_of = (made.inlet_shut_off, made.inlet_opens, made.readable_at_lid)
    assert (made.name, made.examined, *flags_of) == ("Big pot", "an examiner", True, True, True)


def test_an_interval_of_less_than_two_days_is_one() -> None:
    given = BARE | {"relief": {"interval": "1.99999 d"}}
    made, _ = plate_from_mapping(given, PLAIN.read_si)
    assert made is not None
    assert made.relief_interval == 1


LEAST: dict[str, float] = {
    "rating.pressure": 1.0, "rating.warmest": 200.0, "rating.coldest_fill": 200.0,
    "size.volume": 0.0, "size.seal_diameter": 0.001, "lid.clamps": 1, "lid.passes": 2,
    "relief.set": 1.0, "relief.bore": 1e-4, "relief.interval": 86_400.0, "gauge.span": 1.0,
    "gauge.division": 0.1, "gauge.class": 0.0, "supply.pressure": 1.0, "supply.bore": 1e-4,
    "supply.free_air": 1e-6, "supply.receiver": 1e-5,
}  # fmt: skip
"""What a plate may give at least, in SI: below it somebody took one unit for another."""
MOST_GIVEN = {"lid.clamps": 48, "lid.passes": 12, "gauge.class": 10.0}
COUNTED = ("lid.clamps", "lid.passes")


def refused(place: str, value: float) -> bool:
    shown = f"{value:.0f}" if place in COUNTED else f"{value!r}"
    _, problems = plate_from_mapping(nest({place: shown}), lambda text, _quantity: float(text))
    return place in {problem.place for problem in problems}


@pytest.mark.parametrize("place", LEAST)
def test_a_value_below_its_least_is_refused_beside_its_place(place: str) -> None:
    least = LEAST[place]
    below = least - (1 if place in COUNTED else min(0.5, least / 2 or 0.001))
    assert not refused(place, least)
    assert refused(place, below)


@pytest.mark.parametrize("place", MOST_GIVEN)
def test_a_value_above_its_most_is_refused_beside_its_place(place: str) -> None:
    most = MOST_GIVEN[place]
    assert not refused(place, most)
    assert refused(place, most + (1 if place in COUNTED else 0.01))


def test_every_number_of_a_plate_but_a_rated_temperature_has_a_least() -> None:
    numbers = {each.place for each in PLATE_FIELDS if each.kind in ("quantity", "number", "count")}
    assert numbers - set(LEAST) == {"rating.temperature"}


@pytest.mark.parametrize(("accuracy", "slow"), [(3.99, False), (4.0, True)])
def test_class_four_is_the_worst_and_slow(accuracy: float, slow: bool) -> None:
    gauge = Gauge(PascalGauge(7 * BAR), PascalGauge(0.1 * BAR), accuracy=accuracy)
    assert slow_gauge(gauge) is slow


@pytest.mark.parametrize(("share", "large"), [(0.9995, False), (1.0005, True)])
def test_a_zero_may_hide_five_hundred_newtons(share: float, large: bool) -> None:
    """Half a division of 0.1 bar and half a per cent of 7 bar: 8500 Pa."""
    across = share * sqrt(4 * 500 / (pi * 8500))
    assert hides_much(plate(seal_diameter=Metre(across))) is large
