"""Numbers as people write them: decimal sign of either kind, fractions, grouped thousands."""

import re

from shopassist.core.errors import EntryError
from shopassist.core.frozen import frozen
from shopassist.core.messages import say
from shopassist.core.style import NumberStyle

_FRACTION = re.compile(r"(?:(\d+)(?: ?- ?| ))?(\d+) ?/ ?(\d+)(?![\d.,/])")
_SPACED = re.compile(r"\d{1,3}(?: \d{3})+(?![\d/])(?:[.,]\d+)?(?![\d.,/])")
_MARKED = re.compile(r"\d[\d.,]*|[.,]\d[\d.,]*")
_EXPONENT = re.compile(r"\d[.,]?\s*[eE]\s*[-+]?\d")
_COULD_GROUP = re.compile(r"[1-9]\d{0,2}([.,])\d{3}")
_GROUPED = re.compile(r"[1-9]\d{0,2}(?:,\d{3})+(\.\d*)?|[1-9]\d{0,2}(?:\.\d{3})+(,\d*)?")


@frozen
class Number:
    """A number, how exactly it was written, and its plain form."""

    value: float
    decimals: int | None
    plain: str
    end: int
    """Where the text goes on."""


def refuse_exponent(text: str, field: str) -> None:
    """Refuse 1e3: nobody in a shop means it, and a slipped key makes it."""
    if _EXPONENT.search(text):
        raise EntryError(say("Write the number out, without E."), say(""), field)


def scan_number(text: str, start: int, style: NumberStyle, field: str) -> Number | None:
    """Read the number that begins here; None when none does."""
    found = _FRACTION.match(text, start)
    if found:
        return _fraction(found, field)
    found = _SPACED.match(text, start) or _MARKED.match(text, start)
    if found is None:
        return None
    written = found.group().replace(" ", "")
    _refuse_unclear(text, found.span(), written, style, field)
    plain = written.replace(",", ".")
    whole, mark, places = plain.partition(".")
    plain = f"{whole or '0'}.{places}" if mark and places else whole or "0"
    return Number(float(plain), len(places), plain, found.end())


def _fraction(found: re.Match[str], field: str) -> Number:
    whole, above, below = found.groups()
    if int(below) == 0:
        raise EntryError(say("Nothing can be divided by zero."), say(""), field)
    plain = f"{whole} {above}/{below}" if whole else f"{above}/{below}"
    return Number(int(whole or 0) + int(above) / int(below), None, plain, found.end())


def _refuse_unclear(
    text: str, span: tuple[int, int], written: str, style: NumberStyle, field: str
) -> None:
    """Refuse two marks, and one mark that may be there to group thousands."""
    marks = [character for character in written if character in ".,"]
    single = _COULD_GROUP.fullmatch(written)
    if len(marks) > 1:
        choices = _ungrouped(written, style)
    elif single and single[1] != style.decimal and " " not in text[slice(*span)]:
        choices = (written.replace(single[1], style.decimal), written.replace(single[1], ""))
    else:
        return
    raise EntryError(
        say("Which one is the decimal sign?"),
        say("Type one point or one comma, and nothing between thousands."),
        field,
        tuple(text[: span[0]] + choice + text[span[1] :] for choice in choices),
    )


def _ungrouped(written: str, style: NumberStyle) -> tuple[str, ...]:
    """The number meant, where the marks group thousands properly; else nothing to offer."""
    found = _GROUPED.fullmatch(written)
    if found is None:
        return ()
    places = (found[1] or found[2] or "")[1:]
    whole = written[: len(written) - len(places) - 1] if places else written
    digits = re.sub(r"[.,]", "", whole)
    return (f"{digits}{style.decimal}{places}" if places else digits,)
