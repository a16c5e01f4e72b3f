"""What of a plate cannot be together, while it is read: a swapped pair, a wrong unit."""

from collections.abc import Iterator, Mapping
from math import pi

from shopassist.core.messages import Amount, say
from shopassist.core.records import Problem, Value, number_at

LEAST_DIVISIONS = 10.0
"""A gauge of fewer divisions cannot show that a pot is empty; ours."""
FLATTEST, DEEPEST = 0.02, 100.0
"""Depth of a pot in diameters of its seal, from a pan to a tank with a hand hole; ours."""


def contradictions(values: Mapping[str, Value]) -> tuple[Problem, ...]:
    """Entries of a plate that contradict each other, each told beside the one to look at."""
    return (*_divisions(values), *_warmths(values), *_sizes(values))


def _pair(values: Mapping[str, Value], one: str, two: str) -> tuple[float, float] | None:
    """Two entries as numbers, where both stand."""
    first, second = number_at(values, one), number_at(values, two)
    return None if first is None or second is None else (first, second)


def _divisions(values: Mapping[str, Value]) -> Iterator[Problem]:
    """Half a division counts as zero: a division as wide as the scale would hide a full pot."""
    found = _pair(values, "gauge.span", "gauge.division")
    if found is not None and found[1] * LEAST_DIVISIONS > found[0] * (1 + 1e-9):
        yield Problem("gauge.division", say(
            "Fewer than ten divisions to the full scale cannot show that a pot is empty: type the"
            " step from line to line. Were the two swapped?"
        ))  # fmt: skip


def _warmths(values: Mapping[str, Value]) -> Iterator[Problem]:
    """The other way round a pot would be filled as if it never warmed up."""
    found = _pair(values, "rating.warmest", "rating.coldest_fill")
    if found is not None and found[1] > found[0]:
        yield Problem("rating.coldest_fill", say(
            "Warmer when filled than the warmest it will be: were the two swapped?"
        ))  # fmt: skip


def _sizes(values: Mapping[str, Value]) -> Iterator[Problem]:
    """Forces hang on the seal line: an inch taken for a millimetre makes them look like nothing."""
    found = _pair(values, "size.volume", "size.seal_diameter")
    if found is None:
        return
    volume, across = found
    deep = volume / (pi * across**2 / 4)
    if volume and not FLATTEST * across <= deep <= DEEPEST * across:
        yield Problem("size.seal_diameter", say(
            "With this volume the pot would be {deep} deep: look at both units.",
            deep=Amount(deep, "Metre"),
        ))  # fmt: skip


def one_spelling(names: tuple[str, ...]) -> tuple[str, ...]:
    """Names of holes, those that differ in capitals, blanks and points alone made one."""
    first: dict[str, str] = {}
    return tuple(first.setdefault(_letters(name), name) for name in names)


def _letters(name: str) -> str:
    return "".join(each for each in name.casefold() if each.isalnum()) or name
