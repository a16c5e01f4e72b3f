"""The judge of mutants: what it makes, and that it can tell."""

import ast
import sys

import pytest

from tests.proofs import mutants
from tests.proofs.mutation import mutants_of, mutated


def test_every_mutant_has_a_name_of_its_own_and_compiles() -> None:
    whole = mutants.everything()
    assert 4_000 < len(whole) <= mutants.FULL
    assert len({mutant.name for mutant in whole}) == len(whole)
    for mutant in whole[::97]:
        compile(mutated(mutant), "mutant", "exec")


def test_a_mutant_is_the_module_with_one_change() -> None:
    (mutant,) = [m for m in mutants_of("shopassist.core.bounds") if "value <= inf" in m.change][:1]
    changed = ast.unparse(mutated(mutant))
    assert "value <= inf" in changed
    assert mutant.name.startswith("core.bounds need_positive: if not 0.0 < value < inf →")


def test_every_argument_is_about_a_mutant_that_is_made() -> None:
    names = {mutant.name for mutant in mutants.everything()}
    assert set(mutants.argued()) <= names


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no fork")
def test_mutants_are_killed_and_survivors_are_told() -> None:
    whole = mutants.everything()
    at = next(n for n, m in enumerate(whole) if m.place == "shopassist.core.pot.leak judge")
    report = mutants.run(40, at, ("tests/core/pot/test_leak.py",))
    assert report.figures["made"] == 40
    assert report.figures["killed"] + report.figures["survived"] == 40
    # Nearly all of this function are killed: a change that reached nobody would survive.
    assert report.figures["killed"] > 30
