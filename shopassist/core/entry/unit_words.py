"""Which unit a typed word means in a field, and which words are never guessed."""

import re
from collections.abc import Iterator

from shopassist.core.early_units import PRESSURES, Unit
from shopassist.core.entry.spec import EntrySpec, UnknownUnitError
from shopassist.core.errors import EntryError
from shopassist.core.frozen import frozen
from shopassist.core.messages import Text, say
from shopassist.core.units import UnitTable, unit_key

NOUNS: dict[str, str] = {
    "Kilogram": "a weight", "Metre": "a length", "SquareMetre": "an area",
    "CubicMetre": "a volume", "Second": "a time", "Kelvin": "a temperature",
    "KelvinDelta": "a temperature difference", "PascalAbsolute": "an absolute pressure",
    "PascalGauge": "a gauge pressure", "PascalDelta": "a pressure difference",
    "PascalVacuum": "a vacuum", "KilogramPerCubicMetre": "a density", "Newton": "a force",
    "Joule": "an energy", "Watt": "a power", "MetrePerSecond": "a speed",
    "Ratio": "a plain number or a share", "Radian": "an angle",
}  # fmt: skip
_KINDS = {
    "PascalGauge": "gauge", "PascalAbsolute": "absolute", "PascalVacuum": "vacuum",
}  # fmt: skip
_SUFFIX = re.compile(
    r"(?P<stem>.+?)(?:(?P<gauge>gauge|\(g\)|g)|(?P<absolute>absolute|\(abs\)|abs|\(a\)|a)"
    r"|(?P<vacuum>vacuum|\(v\)|vac))",
    re.IGNORECASE,
)
_NOTHING = say("")
_OUNCE = say("An ounce of weight is 28.35 g, a US fluid ounce 29.57 ml, a UK fluid ounce 28.41 ml.")
_NATIONS = say("They differ: a US gallon is 3.785 l, a UK gallon 4.546 l; fluid ounces by 4 %.")


@frozen
class _Unclear:
    """A word that may mean several units."""

    words: frozenset[str]
    within: tuple[str, ...]
    """Quantities in which it is unclear, unless the field also takes one of ``but``."""
    choices: tuple[str, ...]
    title: Text
    detail: Text = _NOTHING
    but: tuple[str, ...] = ()


def _words(*words: str) -> frozenset[str]:
    return frozenset(words)


_FL_OZ, _ONE_OZ = ("US fl oz", "UK fl oz"), "oz (weight)"
_UNCLEAR: tuple[_Unclear, ...] = (
    _Unclear(
        _words("oz", "ozs", "ounce", "ounces"), ("CubicMetre",), _FL_OZ, say("Which ounce?"),
        _OUNCE,
    ),
    _Unclear(
        _words("floz", "fluidounce", "fluidounces", "flozs"), ("CubicMetre",), _FL_OZ,
        say("US or UK fluid ounces?"), _OUNCE,
    ),
    _Unclear(
        _words("gal", "gals", "gallon", "gallons"), ("CubicMetre",), ("US gal", "UK gal"),
        say("US or UK gallons?"), _NATIONS,
    ),
    _Unclear(
        _words("pt", "pts", "pint", "pints"), ("CubicMetre",), ("US pt", "UK pt"),
        say("US or UK pints?"), _NATIONS,
    ),
    _Unclear(
        _words("qt", "qts", "quart", "quarts"), ("CubicMetre",), ("US qt", "UK qt"),
        say("US or UK quarts?"), _NATIONS,
    ),
    _Unclear(_words("m"), ("Second",), ("min",), say("Is m for minutes?"),
             say("Alone it is the sign of the metre. Write min."), ("Metre",)),
    _Unclear(_words("°", "deg", "degs", "degree", "degrees"), ("Kelvin", "KelvinDelta"),
             ("°C", "°F"), say("°C or °F?")),
    _Unclear(_words("lb", "lbs", "pound", "pounds"), PRESSURES, ("psi",),
             say("Pounds per square inch?"), say("Write psi."), ("Kilogram",)),
    _Unclear(_words("lb", "lbs", "pound", "pounds"), ("Newton",), ("lbf",),
             say("A force in pounds?"), say("Write lbf."), ("Kilogram",)),
    _Unclear(_words("kg", "kilo", "kilos"), ("Newton",), ("kgf",),
             say("A force in kilograms?"), say("Write kgf."), ("Kilogram",)),
)  # fmt: skip


@frozen
class FoundUnit:
    """A unit, what it measures here, and where the text goes on."""

    unit: Unit
    quantity: str
    end: int


def scan_unit(
    text: str, start: int, spec: EntrySpec, table: UnitTable, before: FoundUnit | None
) -> FoundUnit:
    """Read the longest unit that begins here, or refuse with what would be taken."""
    for end in _ends(text, start):
        found = _meaning(text, (start, end), spec, table, before)
        if found is not None:
            return found
    raise _unknown(text, start, spec, table)


def _ends(text: str, start: int) -> Iterator[int]:
    """Where a word may end, farthest first: at a blank, at a digit, after an inch mark."""
    for end in range(len(text), start, -1):
        after = text[end : end + 1]
        if not after or after in " +-" or after.isdigit() or text[end - 1] in "'\"′″’”":
            yield end


def _meaning(
    text: str, span: tuple[int, int], spec: EntrySpec, table: UnitTable, before: FoundUnit | None
) -> FoundUnit | None:
    word = text[slice(*span)].strip()
    _refuse_unclear(text, span, spec, before)
    for quantity in spec.accepted:
        unit = table.find(word, quantity)
        if unit is not None:
            return FoundUnit(unit, quantity, span[1])
    return _with_suffix(word, span[1], spec, table)


def _with_suffix(word: str, end: int, spec: EntrySpec, table: UnitTable) -> FoundUnit | None:
    """Read "bar g", "psia", "inHg vacuum", and refuse the kind that the field does not take."""
    found = _SUFFIX.fullmatch(unit_key(word))
    unit = table.find(found["stem"], "PascalGauge") if found else None
    if found is None or unit is None:
        return None
    kind = next(name for name in ("gauge", "absolute", "vacuum") if found[name])
    for quantity in spec.accepted:
        if _KINDS.get(quantity) == kind:
            return FoundUnit(unit, quantity, end)
    if not set(spec.accepted) & set(PRESSURES):
        return None
    wanted = _KINDS.get(spec.quantity, "a difference")
    raise EntryError(
        say("This field takes {wanted} pressure, not {typed}.", wanted=wanted, typed=kind)
        if wanted != "a difference"
        else say("This field takes a difference of pressures."),
        say("A gauge shows zero where absolute pressure is about 1 bar or 14.7 psi."),
        spec.field,
    )


def _refuse_unclear(
    text: str, span: tuple[int, int], spec: EntrySpec, before: FoundUnit | None
) -> None:
    key = unit_key(text[slice(*span)]).casefold()
    for unclear in _UNCLEAR:
        takes = set(spec.accepted)
        if key not in unclear.words or not takes & set(unclear.within) or takes & set(unclear.but):
            continue
        if before is not None and before.quantity == "Kilogram":
            continue
        choices = unclear.choices
        if unclear.title.template == "Which ounce?" and "Kilogram" in takes:
            choices = (_ONE_OZ, *choices)
        head = text[: span[0]].rstrip()
        raise EntryError(
            unclear.title,
            unclear.detail,
            spec.field,
            tuple(f"{head} {choice}{text[span[1] :]}" for choice in choices),
        )


_RANGE, _PARTS = re.compile(r" ?[-–—−] ?\d"), re.compile(r" ?: ?\d")


def _unknown(text: str, start: int, spec: EntrySpec, table: UnitTable) -> EntryError:
    if _RANGE.match(text, start):
        return EntryError(
            say("That is a range."), say("Type one number; a range has an entry for each end."),
            spec.field,
        )  # fmt: skip
    if _PARTS.match(text, start) and "Ratio" in spec.accepted:
        return EntryError(say("That is a ratio."), say("Each part has its own entry."), spec.field)
    word = re.split(r" ?\d", text[start:].strip(), maxsplit=1)[0].strip() or text[start:].strip()
    accepted = ", ".join(accepted_units(spec, table))
    detail = say("This field takes {accepted}.", accepted=accepted)
    elsewhere = [NOUNS[q] for q in table.quantities_of(word) if q in NOUNS]
    if elsewhere:
        wanted = " or ".join(NOUNS.get(quantity, "a figure") for quantity in spec.accepted)
        title = say(
            "{unit} measures {what}; this is {wanted}.",
            unit=word, what=elsewhere[0], wanted=wanted,
        )  # fmt: skip
        return UnknownUnitError(title, detail, spec.field)
    return UnknownUnitError(say("{unit} is not a unit used here.", unit=word), detail, spec.field)


def accepted_units(spec: EntrySpec, table: UnitTable, most: int = 6) -> list[str]:
    """Name the units that a field takes, the everyday ones."""
    if spec.accepted == ("Ratio",):
        return ["a plain number", "%"]
    each = max(2, most // len(spec.accepted))
    return [u.full_name for q in spec.accepted for u in table.of(q)[:each] if u.symbol]
