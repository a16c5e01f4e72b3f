"""Every value of resources/checks against the formula it is for."""

from dataclasses import replace
from pathlib import Path

import pytest

from shopassist.core.checks import Check, evaluate, unit_reader
from shopassist.core.errors import ShopError
from shopassist.core.sources import SOURCES
from shopassist.core.units import build_table
from shopassist.store.check_files import load_checks, shipped_checks

ROOT = Path(__file__).parents[2]
UNITS = (ROOT / "resources" / "units" / "workshop.txt").read_text("utf-8").splitlines()
READ = unit_reader(build_table(UNITS))


def test_the_formula_gives_the_value_of_an_outside_check(outside_check: Check) -> None:
    outcome = evaluate(outside_check, READ)
    assert outcome.passed, [each for each in outcome.comparisons if not each.passed]


def test_the_source_of_a_check_is_known(outside_check: Check) -> None:
    assert outside_check.source in SOURCES


def test_own_computations_are_not_passed_off_as_more(outside_check: Check) -> None:
    standing = SOURCES[outside_check.source].standing
    if standing == "own computation":
        assert outside_check.basis in ("own computation", "reference library")
    if standing == "from memory":
        assert outside_check.from_memory or outside_check.basis == "own computation"
    if standing == "common practice":
        assert outside_check.basis in ("common practice", "own computation")


def test_no_two_shipped_checks_have_the_same_id() -> None:
    ids = [check.id for check in shipped_checks()]
    assert len(ids) == len(set(ids))
    assert len(ids) >= 60


def _tampered(value: object) -> object:
    """A wrong value in place of a right one, an eighth off."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, int):
        return value + 1
    if isinstance(value, float):
        return value * 1.125 + 0.01
    if isinstance(value, dict):
        return {key: _tampered(each) for key, each in value.items()}
    if isinstance(value, list):
        return [*value, value[-1]]
    number, _, unit = str(value).partition(" ")
    try:
        return f"{float(number) * 1.125 + 0.01} {unit}"
    except ValueError:
        return value


def test_a_wrong_value_fails(outside_check: Check) -> None:
    """Words among the values stay: a number beside them must give the check away."""
    wrong = _tampered(outside_check.expected)
    assert wrong != outside_check.expected
    assert not evaluate(replace(outside_check, expected=wrong), READ).passed


def test_a_further_folder_is_read(tmp_path: Path) -> None:
    (tmp_path / "more.toml").write_text(
        "[[check]]\n"
        'id = "X"\nfunction = "mixing.hardener_for"\n'
        'inputs = { mass_a = "100 g", ratio = 0.5 }\nexpected = "50 g"\ntolerance = 1e-9\n'
        'source = "OWN"\nbasis = "own computation"\nfrom_memory = false\n',
        "utf-8",
    )
    (check,) = load_checks(tmp_path)
    assert evaluate(check, READ).passed


def test_a_folder_that_is_not_there_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ShopError):
        load_checks(tmp_path / "nowhere")
