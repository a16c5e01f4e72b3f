import tomllib

import pytest

from shopassist.core.errors import ShopError
from shopassist.core.records import Field, flatten, is_blank, nest, read_value
from shopassist.core.sheets import SHEET_FIELDS, sheet_from_mapping

UNITS = {"h": 3600.0, "min": 60.0, "g/ml": 1000.0, "kg": 1.0, "mm": 1e-3, "%": 0.01, "d": 86400.0}


def read(text: str, quantity: str) -> float:
    number, _, unit = text.partition(" ")
    try:
        value = float(number)
    except ValueError:
        raise ShopError("Not a number.") from None
    if unit == "°C":
        return value + 273.15
    return value * UNITS.get(unit, 1.0)


GOOD = """
name = "Test resin"
family = "amine epoxy"
[ratio]
basis = "weight"
a = 100
b = "44"
tolerance = "3 %"
[density]
a = "1.12 g/ml"
[temperature]
lowest = "15 °C"
highest = "30 °C"
[gel]
time = "4 h"
at = "23 °C"
method = "thin film"
[law]
kind = "factor per 10 degrees"
factor = 2
"""


def test_a_whole_sheet_is_read_with_each_times_own_temperature() -> None:
    reading = sheet_from_mapping(tomllib.loads(GOOD), read)
    assert reading.problems == ()
    sheet = reading.sheet
    assert sheet is not None
    assert (sheet.name, sheet.basis, sheet.part_a, sheet.part_b) == (
        "Test resin",
        "weight",
        100.0,
        44.0,
    )
    gel = sheet.stage("gel")
    assert gel is not None
    assert gel.time == pytest.approx(14400)
    assert gel.temp == pytest.approx(296.15)
    assert gel.method == "thin film"
    assert sheet.stage("demould") is None
    assert sheet.tolerance == pytest.approx(0.03)
    assert sheet.law.factor == pytest.approx(2.0)
    assert sheet.density_b is None


def test_name_ratio_and_basis_are_enough() -> None:
    reading = sheet_from_mapping({"name": "x", "ratio": {"basis": "volume", "a": 2, "b": 1}}, read)
    assert reading.sheet is not None
    assert reading.sheet.family == "other"
    assert reading.sheet.stages == {}


def test_every_problem_is_listed_with_its_place() -> None:
    text = GOOD.replace('basis = "weight"', 'basis = "weigth"').replace(
        'a = "1.12 g/ml"', 'a = "heavy"'
    )
    text = text.replace('lowest = "15 °C"', 'lowest = "35 °C"') + '\ncolour = "red"\n'
    text = text.replace('time = "4 h"', "")
    found = {problem.place for problem in sheet_from_mapping(tomllib.loads(text), read).problems}
    assert found == {"ratio.basis", "density.a", "temperature.highest", "law.colour", "gel.time"}


def test_a_longest_time_under_the_shortest_is_a_contradiction() -> None:
    text = GOOD.replace('time = "4 h"', 'time = "4 h"\ntime_high = "2 h"')
    (problem,) = sheet_from_mapping(tomllib.loads(text), read).problems
    assert problem.place == "gel.time_high"


def test_what_is_needed_and_missing_is_told_once() -> None:
    problems = sheet_from_mapping({"ratio": {"a": "much", "b": " "}}, read).problems
    assert sorted(problem.place for problem in problems) == [
        "name",
        "ratio.a",
        "ratio.b",
        "ratio.basis",
    ]


def test_places_nest_and_flatten_without_loss() -> None:
    flat = {"a": 1, "b.c": "x", "b.d.e": True}
    assert dict(flatten(nest(flat))) == flat
    assert nest({"a": 1, "a.b": 2}) == {"a": {"b": 2}}


@pytest.mark.parametrize(("raw", "blank"), [(None, True), ("  ", True), (0, False), ("0", False)])
def test_a_zero_is_not_a_blank(raw: object, blank: bool) -> None:
    assert is_blank(raw) is blank


@pytest.mark.parametrize(
    ("kind", "raw", "value"),
    [
        ("flag", "Yes", True),
        ("flag", False, False),
        ("places", "gauge, vent", ("gauge", "vent")),
        ("places", ["a", "b"], ("a", "b")),
        ("count", "6", 6),
        ("date", "2026-05-31", "2026-05-31"),
        ("text", " word ", "word"),
    ],
)
def test_each_kind_of_entry_is_read(kind: str, raw: object, value: object) -> None:
    assert read_value(raw, Field("x", "X", kind), read) == value  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("kind", "raw"),
    [
        ("flag", "perhaps"),
        ("flag", 3),
        ("places", 4),
        ("count", "2.5"),
        ("date", "31.5.2026"),
        ("date", "2026-13-01"),
        ("date", "2026-02-31"),
        ("date", "20260531"),
        ("quantity", True),
        ("number", [1]),
    ],
)
def test_each_kind_refuses_what_it_cannot_hold(kind: str, raw: object) -> None:
    with pytest.raises(ShopError):
        read_value(raw, Field("x", "X", kind, "Second"), read)  # type: ignore[arg-type]


def test_values_beyond_reason_are_refused_at_both_ends() -> None:
    field = Field("x", "X", "number", low=1, high=10)
    for raw in ("0.5", "11"):
        with pytest.raises(ShopError):
            read_value(raw, field, read)
    assert read_value("1", field, read) == 1


def test_every_place_of_a_sheet_stands_once() -> None:
    places = [field.place for field in SHEET_FIELDS]
    assert len(places) == len(set(places))
    assert {field.group for field in SHEET_FIELDS} >= {"", "ratio", "gel"}


def test_a_label_may_give_two_ratios_but_not_one_and_a_half() -> None:
    both = tomllib.loads(GOOD) | {"other": {"a": "1", "b": "0.5"}}
    found = sheet_from_mapping(both, read)
    assert found.sheet is not None
    assert (found.sheet.other, found.sheet.ratio) == (0.5, 0.44)
    half = tomllib.loads(GOOD) | {"other": {"a": "1"}}
    assert [each.place for each in sheet_from_mapping(half, read).problems] == ["other.b"]
