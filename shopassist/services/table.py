"""Every batch as a table that a spreadsheet reads and none runs as a formula."""

import csv
import io
from collections.abc import Iterable, Sequence

RUNS = ("=", "+", "-", "@", "\t", "\r", "\n", "|", "%")
"""A cell of words that begins so may be run by a spreadsheet."""


def guarded(words: str) -> str:
    """Words as a cell that stays words."""
    plain = words.replace("\0", "")
    return f"'{plain}" if plain.lstrip(" \u00a0\u2009").startswith(RUNS) else plain


def table(head: Sequence[str], rows: Iterable[Sequence[str | float | None]], decimal: str) -> str:
    """Rows as text; cells apart by ; where the comma is the decimal sign."""
    out = io.StringIO()
    apart = ";" if decimal == "," else ","
    writer = csv.writer(out, delimiter=apart, quoting=csv.QUOTE_MINIMAL, lineterminator="\r\n")
    writer.writerow([guarded(each) for each in head])
    for row in rows:
        writer.writerow([_cell(each, decimal) for each in row])
    return out.getvalue()


def _cell(value: str | float | None, decimal: str) -> str:
    if value is None:
        return ""
    if isinstance(value, str):
        return guarded(value)
    return f"{value:g}".replace(".", decimal)
