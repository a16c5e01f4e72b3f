from collections.abc import Mapping

import pytest

from shopassist.core.checks import (
    Check,
    CheckError,
    by_function,
    checks_from_mapping,
    evaluate,
    formula,
    passed_by,
    unit_reader,
)
from shopassist.core.errors import ShopError
from shopassist.core.units import EARLY

READ = unit_reader(EARLY)
GOOD: dict[str, object] = {
    "id": "X",
    "function": "mixing.hardener_for",
    "inputs": {"mass_a": "150 g", "ratio": 0.44},
    "expected": "66 g",
    "source": "OWN",
    "basis": "own computation",
    "from_memory": False,
    "tolerance": 1e-9,
}


def check(**changes: object) -> Check:
    (found,) = checks_from_mapping({"check": [{**GOOD, **changes}]})
    return found


def passed(**changes: object) -> bool:
    return evaluate(check(**changes), READ).passed


def test_a_right_value_passes_and_a_wrong_one_does_not() -> None:
    assert passed()
    assert not passed(expected="66.01 g")
    assert not passed(expected=float("nan"))


def test_a_tolerance_may_be_a_mass_or_a_share() -> None:
    wide = {key: value for key, value in GOOD.items() if key != "tolerance"}
    (found,) = checks_from_mapping(
        {"check": [{**wide, "expected": "67 g", "tolerance_abs": "1 g"}]}
    )
    assert evaluate(found, READ).passed
    (found,) = checks_from_mapping(
        {"check": [{**wide, "expected": "67 g", "tolerance_abs": "0.9 g"}]}
    )
    assert not evaluate(found, READ).passed
    (exact,) = checks_from_mapping({"check": [wide]})
    assert evaluate(exact, READ).passed


def test_a_tolerance_of_a_temperature_is_a_difference() -> None:
    wide = {key: value for key, value in GOOD.items() if key != "tolerance"}
    cold = {
        **wide,
        "function": "venting.chilled_temperature",
        "inputs": {"temp": "20 °C", "start": "60 psi", "ambient": "1013.25 mbar"},
        "expected": "-88.5 °C",
        "tolerance_abs": "0.6 °C",
    }
    assert evaluate(checks_from_mapping({"check": [cold]})[0], READ).passed
    cold["tolerance_abs"] = "0.1 °C"
    assert not evaluate(checks_from_mapping({"check": [cold]})[0], READ).passed


def test_a_result_of_several_fields_is_held_field_by_field() -> None:
    parts: dict[str, object] = {
        "function": "mixing.part_masses",
        "inputs": {"total": "144 g", "ratio": 0.44},
    }
    assert passed(**parts, expected={"a": "100 g", "b": "44 g", "total": "144 g"})
    assert not passed(**parts, expected={"a": "100 g", "b": "45 g"})
    assert not passed(**parts, expected={})


def test_lists_records_words_and_whole_numbers_go_in() -> None:
    assert passed(
        function="cure_age.equivalent_age",
        inputs={
            "times": ["1 h", "2 h"], "temps": ["25 °C", "25 °C"], "reference": "25 °C",
            "energy": "55 kJ/mol",
        },
        expected="3 h",
    )  # fmt: skip
    assert passed(
        function="units.to_si",
        inputs={"value": 1, "unit": "psi", "quantity": "PascalGauge"},
        expected=6894.757293168361,
    )
    assert passed(
        function="scale.round_parts",
        inputs={"parts": {"a": "99.6 g", "b": "44 g"}, "step": "1 g"},
        expected={"a": "100 g", "b": "44 g"},
    )
    assert passed(
        function="vessel.clamp_share", inputs={"force": "600 N", "clamps": 6}, expected="100 N"
    )
    assert passed(
        function="off_ratio.judge",
        inputs={"mass_a": "100 g", "mass_b": "44 g", "ratio": 0.44, "tolerance": "3 %"},
        expected={"band": "on", "needs_reason": False, "by_sheet": True},
    )


def test_a_result_that_is_a_list_is_held_one_by_one() -> None:
    cups: dict[str, object] = {
        "function": "stops.split_cups",
        "inputs": {"total": "600 g", "most": "100 g"},
    }
    assert passed(**cups, expected=[6, "100 g"])
    assert not passed(**cups, expected=[7, "100 g"])
    with pytest.raises(CheckError):
        passed(**cups, expected=[6, "100 g", "100 g"])
    order: dict[str, object] = {
        "function": "stops.portions",
        "inputs": {"parts": {"a": "100 g", "b": "44 g"}},
    }
    first, second = {"part": "a", "mass": "100 g"}, {"part": "b", "mass": "44 g"}
    assert passed(**order, expected=[first, second])
    assert not passed(**order, expected=[second, first])
    assert not passed(**order, expected=[first])


@pytest.mark.parametrize(
    "changes",
    [
        {"inputs": {"mass_a": "150 g", "ratio": 0.44, "other": 1.0}},
        {"inputs": {"mass_a": "a lot", "ratio": 0.44}},
        {"inputs": {"mass_a": True, "ratio": 0.44}},
        {"inputs": {"mass_a": ["150 g"], "ratio": 0.44}},
        {"inputs": {"mass_a": "150 lightyears", "ratio": 0.44}},
        {"function": "mixing.no_such_formula"},
        {"function": "mixing.Kilogram.nothing"},
        {"function": "vessel.clamp_share", "inputs": {"force": "600 N", "clamps": 6.0}},
        {"function": "scale.round_parts", "inputs": {"parts": "100 g", "step": "1 g"}},
        {
            "function": "cure_age.equivalent_age",
            "inputs": {"times": "1 h", "temps": [], "reference": "25 °C", "energy": 1.0},
        },
        {"expected": {"nowhere": "66 g"}},
        {"tolerance": None, "tolerance_abs": True},
    ],
)
def test_a_check_that_cannot_be_carried_out_is_an_error_and_never_passes(
    changes: Mapping[str, object],
) -> None:
    with pytest.raises((ShopError, ImportError)):
        passed(**changes)


@pytest.mark.parametrize(
    "entry",
    [
        {key: value for key, value in GOOD.items() if key != "source"},
        {**GOOD, "surprise": 1},
        {**GOOD, "basis": "hearsay"},
        {**GOOD, "from_memory": "no"},
        {**GOOD, "tolerance_abs": "1 g"},
    ],
)
def test_an_entry_that_is_not_whole_is_refused(entry: dict[str, object]) -> None:
    with pytest.raises(CheckError):
        checks_from_mapping({"check": [entry]})


@pytest.mark.parametrize("mapping", [{}, {"check": "x"}, {"check": [GOOD], "more": 1}])
def test_a_file_holds_checks_and_nothing_else(mapping: dict[str, object]) -> None:
    with pytest.raises(CheckError):
        checks_from_mapping(mapping)


def test_a_bool_is_no_number() -> None:
    found = check(
        function="off_ratio.judge",
        inputs={"mass_a": "100 g", "mass_b": "44 g", "ratio": 0.44, "tolerance": "3 %"},
        expected={"needs_reason": True},
    )
    assert not evaluate(found, READ).passed


def test_checks_are_found_by_their_formula() -> None:
    one, two = check(id="A"), check(id="B")
    assert by_function((one, two)) == {"mixing.hardener_for": ("A", "B")}
    assert formula("mixing.hardener_for")(150.0, 0.44) == pytest.approx(66)


def test_only_checks_that_pass_are_told() -> None:
    right, wrong = check(id="A"), check(id="B", expected="67 g")
    other = check(id="C", function="mixing.resin_for", inputs={"mass_b": "44 g", "ratio": 0.44})
    assert passed_by("mixing.hardener_for", (right, wrong, other), READ) == ("A",)
