from collections.abc import Mapping
from dataclasses import replace
from math import pi

import pytest

from shopassist.core.civil import written_day
from shopassist.core.errors import ShopError
from shopassist.core.pot.evidence import (
    above_baseline,
    lift_wanted,
    openings_left,
    seen_live,
    usable_signs,
    zero_band,
)
from shopassist.core.pot.plate import (
    STANDARD_AMBIENT,
    Gauge,
    Holes,
    Plate,
    blocks,
    flags,
    hidden_force,
    hides_much,
    plate_from_mapping,
    slow_gauge,
    working_limit,
)
from shopassist.core.pot.state import Now, PotState
from shopassist.core.pot.words import Sign
from shopassist.core.quantities import Kelvin, Metre, PascalGauge
from shopassist.core.wording import Wording
from tests.core.pot.bench import BAR, DAY, GAUGE, plate

PSI = 6894.757293168
UNITS = {"bar": BAR, "psi": PSI, "mm": 1e-3, "l": 1e-3, "d": 86400.0, "": 1.0}


def read(text: str, _quantity: str) -> float:
    number, _, unit = text.partition(" ")
    if unit == "°C":
        return float(number) + 273.15
    try:
        return float(number) * UNITS[unit]
    except (ValueError, KeyError):
        raise ShopError("No such unit.") from None


def mapping() -> dict[str, dict[str, object] | object]:
    return {
        "name": "Invented pot",
        "rating": {
            "pressure": "5.5 bar",
            "temperature": "60 °C",
            "warmest": "20 °C",
            "coldest_fill": "10 °C",
        },
        "size": {"volume": "20 l", "seal_diameter": "300 mm"},
        "lid": {"clamps": "6", "passes": "4"},
        "relief": {"set": "5 bar", "lifted": "2026-03-01", "interval": "180 d"},
        "gauge": {
            "kind": "dial",
            "span": "7 bar",
            "division": "0.1 bar",
            "class": "1.6",
            "fitted": "2025",
            "readable_at_lid": "yes",
        },
        "holes": {"gauge": "a", "vent": "b", "relief": "c", "inlet": "d"},
        "inlet": {"shut_off": "yes", "opens": "no"},
        "examined": {"by": "an examiner", "due": "2027-01-01"},
    }


def test_a_whole_plate_is_read() -> None:
    made, problems = plate_from_mapping(mapping(), read)
    assert problems == ()
    assert made is not None
    assert made.rating == PascalGauge(5.5 * BAR)
    assert made.passes == 4
    assert made.relief_interval == 180
    assert made.gauge == Gauge(PascalGauge(7 * BAR), PascalGauge(0.1 * BAR), False, 1.6, "2025")
    assert made.holes.all() == ("a", "b", "c", "d")
    assert made.inlet_shut_off
    assert not made.inlet_opens
    assert made.examination_due == written_day("2027-01-01")
    assert made.coldest_fill == Kelvin(283.15)


def test_a_short_plate_is_read_and_blocks_the_run() -> None:
    short: Mapping[str, object] = {
        "name": "Bare", "rating": {"warmest": "30 °C"}, "lid": {"clamps": "4"},
    }  # fmt: skip
    made, problems = plate_from_mapping(short, read)
    assert problems == ()
    assert made is not None
    assert made.passes == 3
    reasons = {text.template for text in blocks(made, DAY)}
    assert "This pot has no rated pressure on its plate." in reasons
    assert "This pot has no relief valve." in reasons
    assert "This pot has no gauge." in reasons
    assert "No opening besides the gauge's hole can give a sign." in reasons


def test_every_problem_is_listed_with_its_place() -> None:
    wrong = mapping() | {"gauge": {"span": "7 bar"}, "colour": "green"}
    made, problems = plate_from_mapping(wrong, read)
    assert made is None
    assert {problem.place for problem in problems} == {"gauge.division", "colour"}


def test_the_day_number_counts_from_1970() -> None:
    assert written_day("1970-01-01") == 0
    assert written_day("1970-03-01") == 59
    assert written_day("2000-02-29") == 11016
    assert written_day("2026-12-31") == 20818


@pytest.mark.parametrize(
    ("changes", "pressure", "governs"),
    [
        ({"warmest": None, "relief_set": PascalGauge(5.5 * BAR)}, 4.95 * BAR, "relief"),
        ({"warmest": None, "rating": PascalGauge(4 * BAR)}, 4 * BAR, "rating"),
        ({"warmest": Kelvin(273.15), "coldest_fill": Kelvin(293.15)}, 4.5 * BAR, "relief"),
    ],
)
def test_the_least_part_governs_the_working_limit(
    changes: dict[str, object], pressure: float, governs: str
) -> None:
    limit = working_limit(plate(**changes), STANDARD_AMBIENT)
    assert limit is not None
    assert limit.pressure == pytest.approx(pressure)
    assert limit.governs == governs


def test_warming_governs_a_sealed_fill() -> None:
    # 60 psi rating filled at 20 degC and warmed to 45 degC: 54.13 psi at most.
    warm = plate(
        rating=PascalGauge(60 * PSI),
        relief_set=PascalGauge(70 * PSI),
        coldest_fill=Kelvin(293.15),
        warmest=Kelvin(318.15),
    )
    limit = working_limit(warm, STANDARD_AMBIENT)
    assert limit is not None
    assert limit.pressure / PSI == pytest.approx(54.13, abs=0.01)
    assert limit.governs == "warming"


def test_without_rating_or_relief_valve_there_is_no_limit() -> None:
    assert working_limit(plate(rating=None), STANDARD_AMBIENT) is None
    assert working_limit(plate(relief_set=None), STANDARD_AMBIENT) is None


@pytest.mark.parametrize(
    "changes",
    [
        {"rating": None},
        {"relief_set": None},
        {"relief_set": PascalGauge(6 * BAR)},
        {"gauge": None},
        {"holes": Holes("a", "", "c", "d")},
        {"inlet_shut_off": False},
        {"clamps": 0},
        {"holes": Holes("a", "a", "a", "a")},
        {"examination_due": DAY - 31},
        {"warmest": Kelvin(343.15)},
    ],
)
def test_each_shortcoming_blocks_close(changes: dict[str, object]) -> None:
    assert blocks(plate(**changes), DAY)


def test_a_sound_plate_blocks_nothing() -> None:
    assert blocks(plate(examination_due=DAY - 30), DAY) == ()


def test_the_inlet_is_a_sign_only_where_it_can_be_opened() -> None:
    assert plate().hole_of(Sign.INLET) == "west"
    assert plate(inlet_opens=False).hole_of(Sign.INLET) == ""


def test_flags_tell_of_the_dial_the_force_and_few_clamps() -> None:
    assert flags(plate(), PascalGauge(4 * BAR)) == ()
    assert len(flags(plate(), PascalGauge(6 * BAR))) == 1
    assert len(flags(plate(clamps=3, seal_diameter=Metre(0.3)), None)) == 2
    assert flags(plate(gauge=None), PascalGauge(BAR))[0].template.startswith("Enter gauge")


def test_the_hidden_force_grows_with_the_lid_and_the_known_class() -> None:
    unknown = plate(gauge=replace(GAUGE, accuracy=None))
    force = hidden_force(unknown)
    assert force is not None
    assert force == pytest.approx(0.05 * BAR * pi * 0.08**2 / 4)
    assert hidden_force(plate(seal_diameter=None)) is None
    assert hides_much(plate(seal_diameter=None))
    assert not hides_much(plate())


def test_an_unknown_or_worst_class_is_slow() -> None:
    assert slow_gauge(replace(GAUGE, accuracy=None))
    assert slow_gauge(replace(GAUGE, accuracy=4.0))
    assert not slow_gauge(GAUGE)


def test_without_a_plate_nothing_is_judged() -> None:
    bare = PotState()
    assert zero_band(bare) is None
    assert not seen_live(bare)
    assert usable_signs(bare) == ()
    assert openings_left(bare) == ()
    assert above_baseline(bare, 3) == 0.0
    assert not lift_wanted(bare, Now(0.0))


def test_seen_live_without_a_hold_pressure_goes_by_the_limit_or_the_span() -> None:
    state = PotState(plate=plate(), highest=0.88 * BAR)
    assert not seen_live(state)
    assert seen_live(replace(state, highest=0.9 * BAR))
    assert not seen_live(replace(state, plate=plate(rating=None), highest=1.3 * BAR))


def test_a_lift_that_was_recorded_long_ago_is_wanted_again() -> None:
    old = plate(relief_lifted=None)
    state = PotState(plate=old, lifted_day=DAY)
    assert not lift_wanted(state, Now(0.0, DAY * 86400.0))
    assert lift_wanted(state, Now(0.0, (DAY + 366) * 86400.0))
    assert lift_wanted(replace(state, lift_owed=True), Now(0.0, DAY * 86400.0))


def test_a_plate_knows_its_sign_holes() -> None:
    assert Plate("x", holes=Holes("a", "a", "b", "c")).sign_holes() == ("b",)


def test_a_gauge_wants_to_be_compared_once_a_year() -> None:
    def told(tested: int | None, today: int | None) -> bool:
        made = flags(plate(gauge_tested=tested), None, today)
        return any("compared" in text.template for text in made)

    assert told(DAY - 366, DAY)
    assert not told(DAY - 365, DAY)
    assert not told(None, DAY)
    assert not told(DAY - 366, None)


def test_supply_and_bores_are_read_where_they_are_given() -> None:
    made, problems = plate_from_mapping(
        {
            "name": "Pot", "rating": {"warmest": "30 °C"}, "lid": {"clamps": 6},
            "relief": {"bore": "6 mm"}, "gauge": {"tested": "2026-03-14"},
            "supply": {
                "pressure": "8 bar", "bore": "5 mm", "free_air": "85 l/min", "receiver": "24 l",
            },
        },
        Wording().read_si,
    )  # fmt: skip
    assert not problems
    assert made is not None
    assert made.relief_bore == pytest.approx(0.006)
    assert made.supply.pressure == pytest.approx(8e5)
    assert made.supply.bore == pytest.approx(0.005)
    assert made.supply.free_air == pytest.approx(85e-3 / 60)
    assert made.supply.receiver == pytest.approx(0.024)
    assert made.gauge_tested is not None
