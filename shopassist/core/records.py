"""Records a user owns, read from a mapping: every problem listed with its place.

A record is described once, by a table of ``Field``s; the file reader, the journal
and the form on screen all work from that table. Values stay the text that was typed
(``"24 h"``), so nothing is lost in a round trip.
"""

from collections.abc import Callable, Iterator, Mapping
from typing import Literal, TypeAlias

from shopassist.core.civil import is_date
from shopassist.core.errors import ShopError
from shopassist.core.frozen import frozen
from shopassist.core.messages import Text, say

FieldKind = Literal["quantity", "number", "count", "text", "choice", "flag", "date", "places"]
Value: TypeAlias = float | int | str | bool | tuple[str, ...]
ReadQuantity: TypeAlias = Callable[[str, str], float]
"""Turns text with a unit and a quantity's type name into its SI value, or raises ShopError."""


@frozen
class Field:
    """One entry of a record: where it stands, what it holds, how it is asked for."""

    place: str
    label: str
    kind: FieldKind
    quantity: str = ""
    required: bool = False
    choices: tuple[str, ...] = ()
    low: float | None = None
    high: float | None = None
    note: str = ""
    """What it is for, or what happens when it is left blank."""

    @property
    def group(self) -> str:
        """The heading it stands under."""
        return self.place.rpartition(".")[0]


@frozen
class Problem:
    """What is wrong, and in which place of the record."""

    place: str
    text: Text


@frozen
class Remark:
    """What is to be known of a place or a group of a record, where nothing hinders anybody."""

    place: str
    text: Text
    asks: bool = False
    """Something is doubtful, and the person is asked to look at it."""


@frozen
class ReadRecord:
    """The values of a record by place, and everything that is wrong with it."""

    values: Mapping[str, Value]
    problems: tuple[Problem, ...]


def flatten(mapping: Mapping[str, object], prefix: str = "") -> Iterator[tuple[str, object]]:
    """Walk nested tables as ``("cure.gel.time", value)``."""
    for key, value in mapping.items():
        place = f"{prefix}{key}"
        if isinstance(value, Mapping):
            yield from flatten(value, f"{place}.")
        else:
            yield place, value


def nest(flat: Mapping[str, object]) -> dict[str, object]:
    """Put places back into nested tables: the reverse of ``flatten``."""
    tree: dict[str, object] = {}
    for place, value in flat.items():
        *parents, name = place.split(".")
        table = tree
        for parent in parents:
            inner = table.setdefault(parent, {})
            if not isinstance(inner, dict):
                inner = table[parent] = {}
            table = inner
        table[name] = value
    return tree


def read_record(
    mapping: Mapping[str, object], fields: tuple[Field, ...], read: ReadQuantity
) -> ReadRecord:
    """Read every place of a record; go on after a problem so that all are listed."""
    known = {field.place: field for field in fields}
    values: dict[str, Value] = {}
    problems: list[Problem] = []
    for place, raw in flatten(mapping):
        if place not in known:
            problems.append(Problem(place, say("There is no such entry in this kind of record.")))
        elif not is_blank(raw):
            try:
                values[place] = read_value(raw, known[place], read)
            except ShopError as error:
                problems.append(Problem(place, error.title))
    missing = (f for f in fields if f.required and f.place not in values)
    told = {problem.place for problem in problems}
    problems += [Problem(f.place, say("This is needed.")) for f in missing if f.place not in told]
    return ReadRecord(values, tuple(problems))


def number_at(values: Mapping[str, Value], place: str) -> float | None:
    """An entry that was read as a number; None where it is another, or none."""
    value = values.get(place)
    return float(value) if isinstance(value, int | float) else None


def is_blank(raw: object) -> bool:
    """A blank means *not known*; it is not a zero."""
    return raw is None or (isinstance(raw, str) and not raw.strip())


def read_value(raw: object, field: Field, read: ReadQuantity) -> Value:
    """Read one entry by its kind, or say why it cannot be taken."""
    if field.kind in ("flag", "places"):
        return _flag(raw) if field.kind == "flag" else _places(raw)
    if isinstance(raw, bool) or not isinstance(raw, str | int | float):
        raise ShopError(say("Write this as text, for instance {example}.", example=_example(field)))
    if field.kind in ("quantity", "number", "count"):
        return _within(_figure(str(raw), field, read), field)
    return _word(str(raw).strip(), field)


def _figure(raw: str, field: Field, read: ReadQuantity) -> float | int:
    if field.kind == "quantity":
        return read(raw, field.quantity)
    value = read(raw, "Ratio")
    if field.kind == "count":
        if value != int(value):
            raise ShopError("Give a whole number.")
        return int(value)
    return value


def _within(value: float | int, field: Field) -> float | int:
    if field.low is not None and value < field.low:
        raise ShopError("This is too small to be right.")
    if field.high is not None and value > field.high:
        raise ShopError("This is too large to be right.")
    return value


def _word(raw: str, field: Field) -> str:
    if field.kind == "choice" and raw not in field.choices:
        raise ShopError(say("Choose one of: {choices}.", choices=", ".join(field.choices)))
    if field.kind == "date" and not _is_date(raw):
        raise ShopError("Write a date as year-month-day, for instance 2026-05-31.")
    return raw


def _is_date(raw: str) -> bool:
    parts = raw.split("-")
    if [len(part) for part in parts] != [4, 2, 2] or not all(part.isdecimal() for part in parts):
        return False
    year, month, day = (int(part) for part in parts)
    return is_date(year, month, day)


def _flag(raw: object) -> bool:
    words = {"yes": True, "no": False}
    if isinstance(raw, bool):
        return raw
    if isinstance(raw, str) and raw.strip().lower() in words:
        return words[raw.strip().lower()]
    raise ShopError("Answer yes or no.")


def _places(raw: object) -> tuple[str, ...]:
    if isinstance(raw, str):
        return tuple(part.strip() for part in raw.split(",") if part.strip())
    if isinstance(raw, list) and all(isinstance(item, str) for item in raw):
        return tuple(raw)
    raise ShopError("Write names with commas between them.")


def _example(field: Field) -> str:
    examples = {"Second": "24 h", "Kelvin": "25 °C", "PascalGauge": "4.1 bar", "Metre": "300 mm"}
    return examples.get(field.quantity, "a word or a number")
