"""Explain a number: its formula, what went in and from where, and who else got the same."""

from collections.abc import Iterator, Mapping, Sequence
from math import floor, isfinite, log10

from shopassist.core.checks import CheckError, formula
from shopassist.core.figures import Figure, Origin
from shopassist.core.formula_text import FormulaText, constants_of, formula_text
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Moment, Param, Text, say
from shopassist.core.sources import SOURCES

DEEPEST = 4
"""Figures inside figures are followed so far down."""
DIGITS = 8
"""Digits that a constant is shown with."""
STANDING_WORDS = {
    "read": "read in the source",
    "restated": "as others restate it",
    "from memory": "from memory, not looked up",
    "own computation": "our own computation",
    "common practice": "common practice of the trade",
}
ORIGIN_WORDS = {
    "typed": "typed",
    "measured": "measured",
    "record": "from the record",
    "sheet": "from the sheet",
    "default": "a default of ours",
    "standard": "a standard",
    "common practice": "common practice",
    "computed": "worked out",
}


@frozen
class Section:
    """Heading and rows of (label, text)."""

    heading: Text
    rows: tuple[tuple[Text, Text], ...]


@frozen
class Explanation:
    """Everything behind one number, as texts that the wording still has to write."""

    title: Text
    value: Text
    formula: str
    """In words and plain signs; empty where the number is not worked out by a formula."""
    equation: str
    """The same for those who read mathematics."""
    sections: tuple[Section, ...]


def explain(figure: Figure, passed: Sequence[str] = ()) -> Explanation:
    """Explain a figure; ``passed`` holds the ids of the outside checks its formula passes."""
    text = _text_of(figure.formula)
    sections = (
        *_inputs(figure, DEEPEST),
        _section("Range", _range(figure)),
        _section("Rounding", _plain(figure.rounding)),
        _section("Constants", _constants(figure.formula)),
        _section("Left out, and where it holds", _omits(figure, text)),
        _section("Sources", _sources(text)),
        _section("Outside checks", _checks(passed)),
    )
    return Explanation(
        figure.label or say(text.summary or figure.id),
        _value(figure),
        text.plain or text.summary,
        text.math,
        tuple(section for section in sections if section.rows),
    )


def _text_of(path: str) -> FormulaText:
    try:
        return formula_text(formula(path).__doc__)
    except (CheckError, ImportError):
        return FormulaText("")


def _section(heading: str, rows: Iterator[tuple[Text, Text]]) -> Section:
    return Section(say(heading), tuple(rows))


def _value(figure: Figure | Origin) -> Text:
    if isinstance(figure.value, str):
        return say(figure.value)
    if figure.value is None:
        return figure.missing or say("not known")
    if isinstance(figure, Figure) and figure.late:
        return say("{value}", value=Moment(figure.value, late=True))
    return say("{value}", value=_amount(figure.value, figure.quantity, figure.unit))


def _amount(value: float, quantity: str, unit: str = "") -> Param:
    if quantity == "UtcSecond":
        return Moment(value)
    return Amount(value, quantity, unit=unit) if quantity else plain_number(value)


def plain_number(value: float) -> Amount:
    """A number without a unit, with as many places as its size asks for."""
    if not isfinite(value) or value == 0:
        return Amount(value, "Ratio", 0)
    whole = floor(log10(abs(value))) + 1
    places = max(DIGITS - whole, 0)
    while places and round(value, places) == round(value, places - 1):
        places -= 1
    return Amount(value, "Ratio", places)


# -- the sections ----------------------------------------------------------------------------


def _inputs(figure: Figure, depth: int) -> Iterator[Section]:
    """What went in; a figure among the inputs is explained in a section of its own."""
    text = _text_of(figure.formula)
    rows = tuple((say(text.parameter(name)), _input(each)) for name, each in figure.inputs.items())
    yield Section(say("Numbers put in"), rows)
    if depth:
        for name, each in figure.inputs.items():
            if isinstance(each, Figure):
                yield from _nested(text.parameter(name), each, depth)


def _nested(label: str, figure: Figure, depth: int) -> Iterator[Section]:
    text = _text_of(figure.formula)
    first, *deeper = _inputs(figure, depth - 1)
    found = ((say("Formula"), say(text.plain or text.summary)),) if text.summary else ()
    yield Section(say("How it was found: {what}", what=say(label)), (*found, *first.rows))
    yield from deeper


def _input(each: Figure | Origin) -> Text:
    value = _value(each)
    if isinstance(each, Figure):
        return say("{value}, worked out", value=value)
    parts: dict[str, Param] = {"value": value, "origin": ORIGIN_WORDS[each.kind]}
    template = "{value}, {origin}"
    if each.note is not None:
        template, parts["note"] = template + " ({note})", each.note
    if each.when is not None:
        template, parts["when"] = template + ", {when}", Moment(each.when)
    if each.source in SOURCES:
        template, parts["source"] = template + "; {source}", SOURCES[each.source].text
    return say(template, **parts)


def _range(figure: Figure) -> Iterator[tuple[Text, Text]]:
    ends: Mapping[str, float | None] = {"Lowest": figure.low, "Highest": figure.high}
    for label, end in ends.items():
        if end is not None:
            yield say(label), say("{value}", value=_amount(end, figure.quantity, figure.unit))
    if figure.range_means is not None:
        yield say("It means"), figure.range_means


def _plain(text: Text | None) -> Iterator[tuple[Text, Text]]:
    if text is not None:
        yield say(""), text


def _constants(path: str) -> Iterator[tuple[Text, Text]]:
    try:
        found = constants_of(formula(path))
    except (CheckError, ImportError):
        return
    for constant in found:
        unit = f" {constant.unit}" if constant.unit else ""
        yield say(constant.name), say("{value}" + unit, value=plain_number(constant.value))


def _omits(figure: Figure, text: FormulaText) -> Iterator[tuple[Text, Text]]:
    for omitted in figure.omits:
        yield say("Left out"), omitted
    if text.notes:
        yield say("It holds"), say(text.notes)


def _sources(text: FormulaText) -> Iterator[tuple[Text, Text]]:
    for key in text.sources:
        source = SOURCES[key]
        yield say(STANDING_WORDS[source.standing]), say(source.text)


def _checks(passed: Sequence[str]) -> Iterator[tuple[Text, Text]]:
    if passed:
        yield say("Passed"), say(", ".join(passed))
