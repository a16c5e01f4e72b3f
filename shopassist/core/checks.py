"""Outside checks: a formula held against a value that somebody else has published or computed."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import field, is_dataclass
from importlib import import_module
from types import NoneType, UnionType
from typing import Union, get_args, get_origin, get_type_hints

from shopassist.core.errors import ShopError
from shopassist.core.frozen import frozen
from shopassist.core.messages import say
from shopassist.core.quantities import UNIT_OF
from shopassist.core.records import ReadQuantity
from shopassist.core.units import UnitTable, to_si

ROUNDING = 1e-12
"""Share that a machine's rounding may differ by where a check asks for no tolerance at all."""
BASES = (
    "standard", "handbook", "paper", "reference library", "common practice", "own computation",
)  # fmt: skip
DIFFERENCE_OF = {"Kelvin": "KelvinDelta"}
"""Where a tolerance must be read as a difference."""
NEEDED = ("id", "function", "inputs", "expected", "source", "basis", "from_memory")
KNOWN = {*NEEDED, "tolerance", "tolerance_abs", "note"}


class CheckError(ShopError):
    """A check that cannot be carried out as it is written."""


@frozen
class Check:
    """One entry of a check file."""

    id: str
    function: str
    """Dotted path below ``shopassist.core``."""
    inputs: Mapping[str, object]
    expected: object
    source: str
    basis: str
    from_memory: bool
    tolerance: float | None = None
    """Relative."""
    tolerance_abs: float | str | None = None
    note: str = ""


@frozen
class Comparison:
    """One value of a result against what was expected of it."""

    place: str
    """Empty for a result that is one value."""
    found: object
    expected: object
    passed: bool


@frozen
class Outcome:
    """What became of one check."""

    check: Check
    comparisons: tuple[Comparison, ...] = field(default=())

    @property
    def passed(self) -> bool:
        """True where every value was met; a check without any value proves nothing."""
        return bool(self.comparisons) and all(each.passed for each in self.comparisons)


def checks_from_mapping(mapping: Mapping[str, object]) -> tuple[Check, ...]:
    """Read the checks of one file; anything unknown or missing is an error, never skipped."""
    entries = mapping.get("check")
    if not isinstance(entries, list) or set(mapping) != {"check"}:
        raise CheckError("A check file holds [[check]] tables and nothing else.")
    return tuple(_check(entry) for entry in entries)


def _check(entry: Mapping[str, object]) -> Check:
    name = str(entry.get("id", "without an id"))
    if lacking := [key for key in NEEDED if key not in entry]:
        raise _wrong(name, f"It lacks: {', '.join(lacking)}.")
    if unknown := sorted(set(entry) - KNOWN):
        raise _wrong(name, f"It has unknown keys: {', '.join(unknown)}.")
    if entry["basis"] not in BASES or not isinstance(entry["from_memory"], bool):
        raise _wrong(
            name, f"Its basis is one of: {', '.join(BASES)}; from_memory is true or false."
        )
    if "tolerance" in entry and "tolerance_abs" in entry:
        raise _wrong(name, "Give one tolerance: relative or absolute.")
    return Check(**entry)  # type: ignore[arg-type]


def _wrong(name: str, detail: str) -> CheckError:
    return CheckError(say("Check {id} cannot be carried out.", id=name), say(detail))


def evaluate(check: Check, read: ReadQuantity) -> Outcome:
    """Call the formula with the inputs of a check and compare the result."""
    function = formula(check.function)
    hints = get_type_hints(function)
    reader = _Reader(check.id, read)
    if unknown := sorted(set(check.inputs) - set(hints)):
        raise _wrong(check.id, f"The formula has no input called: {', '.join(unknown)}.")
    inputs = {name: reader.value(hints[name], value, name) for name, value in check.inputs.items()}
    result = function(**inputs)
    return Outcome(check, tuple(_compared(check, reader, hints["return"], result)))


def formula(path: str) -> Callable[..., object]:
    """Find a function by its dotted path below the core package."""
    module, _, name = path.rpartition(".")
    function = getattr(import_module(f"shopassist.core.{module}"), name, None)
    if not callable(function):
        raise CheckError(say("There is no formula {path}.", path=path))
    return function  # type: ignore[no-any-return]


@frozen
class _Reader:
    """Turns what stands in a file into the type that a signature asks for."""

    check: str
    read: ReadQuantity

    def value(self, hint: object, raw: object, place: str) -> object:
        hint = _without_none(hint)
        name = getattr(hint, "__name__", "")
        if name in UNIT_OF:
            return self.quantity(name, raw, place)
        if get_origin(hint) is tuple:
            return self._many(hint, raw, place)
        if is_dataclass(hint) and isinstance(hint, type):
            return self._record(hint, raw, place)
        if hint is float and isinstance(raw, int | float) and not isinstance(raw, bool):
            return float(raw)
        if hint in (int, str, bool) and type(raw) is hint:
            return raw
        if get_args(hint) and raw in get_args(hint):
            return raw
        raise _wrong(self.check, f"It cannot be read: {place}.")

    def quantity(self, name: str, raw: object, place: str) -> float:
        if isinstance(raw, str):
            return self.read(raw, name)
        if isinstance(raw, bool) or not isinstance(raw, int | float):
            raise _wrong(self.check, f"It cannot be read: {place}.")
        return float(raw)

    def _many(self, hint: object, raw: object, place: str) -> tuple[object, ...]:
        if not isinstance(raw, list):
            raise _wrong(self.check, f"A list is needed: {place}.")
        kinds = _kinds(hint, len(raw))
        if len(kinds) != len(raw):
            raise _wrong(self.check, f"The list has another length: {place}.")
        return tuple(self.value(kind, each, place) for kind, each in zip(kinds, raw, strict=True))

    def _record(self, hint: type, raw: object, place: str) -> object:
        if not isinstance(raw, Mapping):
            raise _wrong(self.check, f"A table is needed: {place}.")
        hints = get_type_hints(hint)
        return hint(**{key: self.value(hints[key], each, key) for key, each in raw.items()})


def _kinds(hint: object, count: int) -> tuple[object, ...]:
    """Types of a tuple's places: one for all of them, or each its own."""
    kinds = get_args(hint)
    return (kinds[0],) * count if kinds[-1] is Ellipsis else kinds


def _without_none(hint: object) -> object:
    if get_origin(hint) in (UnionType, Union):
        kinds = [each for each in get_args(hint) if each is not NoneType]
        return kinds[0] if len(kinds) == 1 else hint
    return hint


def _compared(check: Check, reader: _Reader, hint: object, result: object) -> Iterator[Comparison]:
    if not isinstance(check.expected, Mapping):
        yield _comparison(check, reader, hint, result, check.expected, "")
        return
    for place, expected in check.expected.items():
        found = getattr(result, place, None)
        yield _comparison(check, reader, _hint_of(result, place), found, expected, place)


def _hint_of(result: object, place: str) -> object:
    """Type of a field, or of a property's value."""
    kind = type(result)
    hints = get_type_hints(kind)
    if place in hints:
        return hints[place]
    getter = getattr(getattr(kind, place, None), "fget", None)
    return get_type_hints(getter).get("return") if getter is not None else None


def _comparison(
    check: Check, reader: _Reader, hint: object, found: object, expected: object, place: str
) -> Comparison:
    expected = reader.value(hint, expected, place or "expected")
    if isinstance(expected, tuple) and isinstance(found, tuple):
        same = len(expected) == len(found)
        places = zip(_kinds(hint, len(expected)), found, expected, strict=False)
        passed = same and all(_near(check, reader, *each) for each in places)
    else:
        passed = _near(check, reader, hint, found, expected)
    return Comparison(place, found, expected, passed)


def _near(check: Check, reader: _Reader, hint: object, found: object, expected: object) -> bool:
    if not isinstance(expected, float) or isinstance(found, bool):
        return type(found) is type(expected) and found == expected
    allowed = _allowed(check, reader, hint, expected)
    return isinstance(found, int | float) and abs(found - expected) <= allowed


def _allowed(check: Check, reader: _Reader, hint: object, expected: float) -> float:
    if check.tolerance_abs is None:
        return abs(expected) * ((check.tolerance or 0.0) + ROUNDING)
    name = getattr(_without_none(hint), "__name__", "")
    name = DIFFERENCE_OF.get(name, name)
    allowed = reader.quantity(name, check.tolerance_abs, "tolerance_abs")
    return allowed + abs(expected) * ROUNDING


def unit_reader(table: UnitTable) -> ReadQuantity:
    """Read ``number unit`` as a check file writes it: no grouping, no words, point for decimals."""

    def read(text: str, quantity: str) -> float:
        number, _, unit = text.partition(" ")
        try:
            return to_si(float(number), unit.strip(), quantity, table)
        except ValueError as error:
            raise CheckError(say("{text} is not a number with a unit.", text=text)) from error

    return read


def by_function(checks: tuple[Check, ...]) -> dict[str, tuple[str, ...]]:
    """Ids of the checks of each formula, for the explanation of a number."""
    found: dict[str, list[str]] = {}
    for check in checks:
        found.setdefault(check.function, []).append(check.id)
    return {function: tuple(ids) for function, ids in found.items()}


def passed_by(path: str, checks: tuple[Check, ...], read: ReadQuantity) -> tuple[str, ...]:
    """Ids of the checks that a formula passes here and now: carried out, not taken on trust."""
    own = (check for check in checks if check.function == path)
    return tuple(check.id for check in own if evaluate(check, read).passed)
