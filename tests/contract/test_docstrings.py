"""The docstring of every formula says what the code does: names, units, sources, a true example."""

import doctest
import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from types import ModuleType
from typing import get_type_hints

import pytest

import shopassist.core
from shopassist.core.quantities import UNIT_OF
from shopassist.core.sources import SOURCES

FORMULA_MODULES = (
    "mixing", "amount", "arrhenius", "cure_age", "atmosphere", "gas", "leak", "vessel", "relief",
    "blowdown", "venting", "filling", "solids", "grooves", "pour", "exotherm", "thickness",
    "day_limits", "putty", "resin_load", "water", "bore", "moisture", "wood", "drying_end",
    "heatup", "enclosure", "wood_heat",
)  # fmt: skip
"""Every public function in these is a formula, unless its module says otherwise here."""
NO_FORMULA = {
    "amount.waste_left", "leak.time_to_fall",
}  # fmt: skip
"""Public functions in them that only arrange formulas."""

Function = Callable[..., object]
UNIT = re.compile(r"\[([^\]\[]+)\]")
SECTION = re.compile(r"^(\w+)\n-{3,}\n", re.MULTILINE)


def core_modules() -> Iterator[ModuleType]:
    for found in pkgutil.walk_packages(shopassist.core.__path__, "shopassist.core."):
        yield importlib.import_module(found.name)


def functions(module: ModuleType) -> Iterator[tuple[str, Function]]:
    name = module.__name__.removeprefix("shopassist.core.")
    for key, value in vars(module).items():
        if inspect.isfunction(value) and value.__module__ == module.__name__:
            yield f"{name}.{key}", value


EVERYTHING = [pair for module in core_modules() for pair in functions(module)]
FORMULAS = [(path, each) for path, each in EVERYTHING if ".. math::" in (each.__doc__ or "")]
each_formula = pytest.mark.parametrize(
    ("path", "function"), FORMULAS, ids=[path for path, _ in FORMULAS]
)


def sections(function: Function) -> dict[str, str]:
    parts = SECTION.split(inspect.getdoc(function) or "")
    return {"": parts[0], **dict(zip(parts[1::2], parts[2::2], strict=True))}


def entries(text: str) -> list[tuple[str, str]]:
    """Name and explanation of each entry of a section."""
    found: list[tuple[str, str]] = []
    for line in text.strip().splitlines():
        if line and not line.startswith(" "):
            found.append((line.partition(":")[0].strip(), ""))
        elif found:
            found[-1] = (found[-1][0], f"{found[-1][1]} {line.strip()}".strip())
    return found


def unit_of(hint: object) -> str | None:
    """Unit text of an annotation; None where it is no quantity."""
    inner = getattr(hint, "__args__", None)
    if inner:
        return unit_of(inner[0])
    return UNIT_OF.get(getattr(hint, "__name__", ""))


def test_the_core_has_formulas_to_look_at() -> None:
    assert len(FORMULAS) >= 80


@each_formula
def test_the_documented_parameters_are_those_of_the_signature(
    path: str, function: Function
) -> None:
    documented = [name for name, _ in entries(sections(function)["Parameters"])]
    assert documented == list(inspect.signature(function).parameters)


@each_formula
def test_each_bracket_holds_the_unit_of_its_type(path: str, function: Function) -> None:
    hints = get_type_hints(function)
    told = [
        *entries(sections(function)["Parameters"]),
        ("return", sections(function)["Returns"]),
    ]
    for name, text in told:
        unit = unit_of(hints[name])
        if unit is not None:
            assert UNIT.findall(text)[-1:] == [unit], f"{path}: {name}"


@each_formula
def test_each_source_is_known(path: str, function: Function) -> None:
    keys = re.split(r"[\s,]+", sections(function)["Sources"].strip())
    assert keys
    assert not [key for key in keys if key not in SOURCES]


@each_formula
def test_there_is_an_example_and_it_is_true(path: str, function: Function) -> None:
    module = inspect.getmodule(function)
    tests = doctest.DocTestFinder(recurse=False).find(
        function, path, module=module, globs=dict(vars(module))
    )
    assert tests[0].examples
    result = doctest.DocTestRunner(verbose=False).run(tests[0], clear_globs=False)
    assert result.failed == 0


@each_formula
def test_the_notes_say_where_it_holds(path: str, function: Function) -> None:
    assert sections(function)["Notes"].strip()


@pytest.mark.parametrize("name", FORMULA_MODULES)
def test_every_public_function_of_a_formula_module_is_a_formula(name: str) -> None:
    module = importlib.import_module(f"shopassist.core.{name}")
    public = [
        path
        for path, each in functions(module)
        if not each.__name__.startswith("_") and path not in NO_FORMULA
    ]
    assert public
    known = {path for path, _ in FORMULAS}
    assert not [path for path in public if path not in known]


@pytest.mark.parametrize("name", FORMULA_MODULES)
def test_every_formula_can_be_read_without_mathematical_signs(name: str) -> None:
    module = importlib.import_module(f"shopassist.core.{name}")
    known = {path for path, _ in FORMULAS}
    for path, function in functions(module):
        if path in known:
            assert re.search(r"^Plain: \S", sections(function)[""], re.MULTILINE), path


def test_every_source_says_where_it_can_be_found() -> None:
    assert not [key for key, source in SOURCES.items() if len(source.text) < 12]
