"""Free text read as one quantity, or refused with what to change."""

import re
from math import ceil, log10

from shopassist.core.entry.clean import clean
from shopassist.core.entry.numbers import Number, refuse_exponent, scan_number
from shopassist.core.entry.spec import Entry, EntrySpec
from shopassist.core.entry.unit_words import FoundUnit, accepted_units, scan_unit
from shopassist.core.errors import EntryError
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.style import METRIC, NumberStyle, UnitChoice
from shopassist.core.units import EARLY, Unit, UnitTable

_STACKED = ("Kilogram", "Metre", "CubicMetre", "Second", "Radian")
"""Quantities of which one may write two units in a row: 2 lb 8 oz."""
_NEXT = {"d": "h", "h": "min", "min": "s", "ft": "in", "lb": "oz"}
"""The unit that a last bare number means: 1h20."""
_OF_NEXT = {"h": 24, "min": 60, "s": 60, "in": 12, "oz": 16}
_BELOW_ZERO = ("Kelvin", "KelvinDelta")
_COLON = re.compile(r"(\d{1,3}):([0-5]\d)(?::([0-5]\d))?")
_TWINS = {
    "g": "oz (weight)", "kg": "lb", "oz": "g", "lb": "kg", "mm": "in", "cm": "in", "m": "ft",
    "in": "mm", "ft": "m", "US fl oz": "ml", "UK fl oz": "ml", "in³": "ml", "°C": "°F", "°F": "°C",
    "bar": "psi", "psi": "bar", "kPa": "psi", "mbar": "inHg", "inHg": "mbar", "kgf": "lbf",
    "lbf": "kgf",
}  # fmt: skip
_MOST_PLACES = 6


@frozen
class _Part:
    number: Number
    found: FoundUnit


@frozen
class _Ways:
    """How the shop writes: what the reading needs besides the text and the field."""

    style: NumberStyle
    table: UnitTable
    choice: UnitChoice

    def shown(self, spec: EntrySpec, quantity: str) -> str:
        """Unit printed at the field for one of its quantities."""
        own = spec.unit if quantity == spec.quantity else ""
        return own or self.choice.unit(quantity)


def read_quantity(
    text: str,
    spec: EntrySpec,
    style: NumberStyle = NumberStyle(),  # noqa: B008 - frozen
    table: UnitTable = EARLY,
    choice: UnitChoice = METRIC,
) -> Entry:
    """Read typed text as a quantity; raises ``EntryError`` and nothing else."""
    ways = _Ways(style, table, choice)
    cleaned = _refuse_hopeless(clean(text, spec.field), spec, ways)
    is_negative = cleaned.startswith("-")
    body = _spelled_time(cleaned.lstrip("+-").lstrip(), spec)
    try:
        parts = _parts(body, spec, ways)
    except EntryError as error:
        error.choices = tuple(
            _complete(choice, is_negative, spec, ways) for choice in error.choices
        )
        raise
    value = _sum(parts, spec, is_negative=is_negative)
    _refuse_impossible(value, parts, spec, is_negative=is_negative)
    last, quantity = parts[-1], parts[0].found.quantity
    return Entry(
        value,
        quantity,
        last.found.unit.symbol,
        last.number.decimals,
        ("-" if is_negative else "") + " ".join(map(_plain, parts)),
        _echo(value, parts, spec, ways),
        _unlikely(value, parts, spec),
    )


def _refuse_hopeless(text: str, spec: EntrySpec, ways: _Ways) -> str:
    if not text:
        raise EntryError(say("Nothing is typed yet."), say(""), spec.field)
    if not any(character.isdigit() for character in text):
        unit = ways.shown(spec, spec.quantity)
        raise EntryError(
            say("This is not a number."),
            say("Type digits, for instance {example}.", example=f"12 {unit}".strip()),
            spec.field,
        )
    refuse_exponent(text, spec.field)
    return text


def _complete(choice: str, is_negative: bool, spec: EntrySpec, ways: _Ways) -> str:  # noqa: FBT001
    """Make a choice readable by itself: with its sign and a unit."""
    sign = "-" if is_negative else ""
    bare = not re.search(r"[^\d.,\s/+-]", choice)
    return f"{sign}{choice} {ways.shown(spec, spec.quantity)}".strip() if bare else sign + choice


def _spelled_time(text: str, spec: EntrySpec) -> str:
    """Spell 3:07:42 out; 1:20 alone may be hours or minutes."""
    found = _COLON.fullmatch(text) if "Second" in spec.accepted else None
    if found is None:
        return text
    first, second, third = found.groups()
    if third is None:
        raise EntryError(
            say("Hours and minutes, or minutes and seconds?"),
            say(""),
            spec.field,
            (f"{first} h {second} min", f"{first} min {second} s"),
        )
    return f"{first} h {second} min {third} s"


# -- parts -------------------------------------------------------------------------------------


def _parts(text: str, spec: EntrySpec, ways: _Ways) -> list[_Part]:
    """Cut the text into numbers with their units."""
    parts: list[_Part] = []
    at = 0
    while at < len(text):
        number = scan_number(text, at, ways.style, spec.field)
        if number is None:
            raise _not_a_number(text[at:], spec)
        start = number.end + (text[number.end : number.end + 1] == " ")
        before = parts[-1].found if parts else None
        if start >= len(text):
            found = _bare(number, before, spec, ways, start)
        elif text[start].isdigit() and not text.startswith("1/", start):
            raise _not_a_number(text[start:], spec)
        else:
            found = scan_unit(text, start, spec, ways.table, before)
        parts.append(_Part(number, found))
        at = found.end + (text[found.end : found.end + 1] == " ")
    return parts


def _not_a_number(rest: str, spec: EntrySpec) -> EntryError:
    return EntryError(
        say("{rest} cannot be read here.", rest=rest),
        say("Type a number and its unit."),
        spec.field,
    )


def _bare(
    number: Number, before: FoundUnit | None, spec: EntrySpec, ways: _Ways, end: int
) -> FoundUnit:
    """Give a number without a unit the field's own, or the next smaller one after 1 h."""
    if before is not None:
        return _smaller(number, before, spec, ways, end)
    shown = ways.shown(spec, spec.quantity)
    if shown and spec.unit_needed:
        offers = accepted_units(spec, ways.table, 3)
        raise EntryError(
            say("{number} of what?", number=number.plain),
            say("Write the unit too: {accepted}.", accepted=", ".join(offers)),
            spec.field,
            tuple(f"{number.plain} {unit}" for unit in offers),
        )
    return FoundUnit(ways.table.get(shown, spec.quantity), spec.quantity, end)


def _smaller(
    number: Number, before: FoundUnit, spec: EntrySpec, ways: _Ways, end: int
) -> FoundUnit:
    symbol = _NEXT.get(before.unit.symbol)
    if symbol is None or number.value >= _OF_NEXT[symbol]:
        raise EntryError(
            say("{number} of what, at the end?", number=number.plain),
            say("Write its unit too."),
            spec.field,
        )
    return FoundUnit(ways.table.get(symbol, before.quantity), before.quantity, end)


# -- the whole ---------------------------------------------------------------------------------


def _sum(parts: list[_Part], spec: EntrySpec, *, is_negative: bool) -> float:
    sign = -1.0 if is_negative else 1.0
    if len(parts) == 1:
        unit = parts[0].found.unit
        return sign * parts[0].number.value * unit.factor + unit.offset
    sizes = [part.found.unit.factor for part in parts]
    one = {part.found.quantity for part in parts}
    if len(one) > 1 or not one <= set(_STACKED) or sizes != sorted(set(sizes), reverse=True):
        raise EntryError(
            say("These do not add up."),
            say("Type one number, or the larger unit first: 2 lb 8 oz."),
            spec.field,
        )
    return sign * sum(part.number.value * part.found.unit.factor for part in parts)


def _refuse_impossible(
    value: float, parts: list[_Part], spec: EntrySpec, *, is_negative: bool
) -> None:
    quantity = parts[0].found.quantity
    if is_negative and quantity not in _BELOW_ZERO and not spec.signed:
        without = (" ".join(map(_plain, parts)),) if quantity == "PascalVacuum" else ()
        raise EntryError(
            say("This cannot be less than zero."), say("Type it without the minus."),
            spec.field, without,
        )  # fmt: skip
    if quantity == "Kelvin" and value < 0:
        raise EntryError(say("Nothing is that cold."), say("Check the number."), spec.field)
    if quantity != spec.quantity:
        return
    if spec.highest is not None and value > spec.highest:
        limit = Amount(spec.highest, quantity)
        raise EntryError(
            say("This is too much."), say("At most {limit} is possible here.", limit=limit),
            spec.field,
        )  # fmt: skip
    if spec.lowest is not None and value < spec.lowest:
        limit = Amount(spec.lowest, quantity)
        raise EntryError(
            say("This is too little."), say("At least {limit} is needed here.", limit=limit),
            spec.field,
        )  # fmt: skip
    if spec.whole and value != int(value):
        raise EntryError(say("Give a whole number."), say(""), spec.field)


def _unlikely(value: float, parts: list[_Part], spec: EntrySpec) -> Text | None:
    last, quantity = parts[-1], parts[0].found.quantity
    if quantity != spec.quantity:
        return None
    shown = Amount(value, quantity)
    if len(parts) == 1:
        shown = Amount(value, quantity, last.number.decimals, last.found.unit.full_name)
    if spec.unlikely_above is not None and value > spec.unlikely_above:
        return say("{value} is more than is usual here. Is it right?", value=shown)
    if spec.unlikely_below is not None and value < spec.unlikely_below:
        return say("{value} is less than is usual here. Is it right?", value=shown)
    return None


def _plain(part: _Part) -> str:
    return f"{part.number.plain} {part.found.unit.full_name}".strip()


# -- echo --------------------------------------------------------------------------------------


def _echo(value: float, parts: list[_Part], spec: EntrySpec, ways: _Ways) -> Text:
    """Say how it was read: as typed, and in the unit of the field or its twin."""
    quantity, unit = parts[-1].found.quantity, parts[-1].found.unit
    if quantity == "Second":
        return say("{value}", value=Amount(value, quantity))
    typed = parts[-1].number.decimals
    shown = ways.shown(spec, quantity)
    if len(parts) > 1:
        return say("{value}", value=_converted(value, quantity, (unit, typed), shown, ways))
    first = Amount(value, quantity, typed, unit.full_name)
    same = ways.table.find(shown, quantity) is unit
    other = _TWINS.get(unit.symbol, "") if same else shown
    if not other:
        return say("{value}", value=first)
    second = _converted(value, quantity, (unit, typed), other, ways)
    return say("{value} = {other}", value=first, other=second)


def _converted(
    value: float, quantity: str, typed: tuple[Unit, int | None], symbol: str, ways: _Ways
) -> Amount:
    unit = ways.table.get(symbol, quantity)
    places = None if typed[1] is None else kept_places(typed[0], typed[1], unit)
    return Amount(value, quantity, places, unit.full_name)


def kept_places(source: Unit, decimals: int, target: Unit) -> int:
    """Places in another unit that show no less than was typed, and hardly more."""
    step = 10.0**-decimals * source.factor / target.factor
    return min(max(ceil(-log10(step) - 1e-9), 0), _MOST_PLACES)
