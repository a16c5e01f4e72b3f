"""Lines of loggers: columns, decimal commas, units and times guessed from what stands there.

Nothing is assumed that the lines do not show. A date that may be read two ways is read in the
reader's own order; what cannot be a shop's temperature is passed over and counted.
"""

import re
from collections.abc import Sequence
from typing import Literal

from shopassist.core.civil import is_date, seconds_of
from shopassist.core.frozen import frozen
from shopassist.core.quantities import Kelvin

Order = Literal["dmy", "mdy", "ymd"]
SEPARATORS = (";", "\t", ",", "|")
COLDEST, WARMEST = 233.15, 473.15
"""What a thermometer of a shop shows, [K]; ours, the same as for typed readings."""
ZERO, RANKINE = 273.15, 459.67
_NUMBER = re.compile(r"[-+\u2212]?\d+(?:[.,]\d+)?")
_HEADED = re.compile(r"temp|°|celsius|fahrenheit|kelvin|\bt\d?\b|grad", re.IGNORECASE)
_TIMED = re.compile(r"time|date|zeit|datum|utc|stamp|heure|hora", re.IGNORECASE)
_UNIT = re.compile(
    r"°\s*([CFK])|\b(celsius|fahrenheit|kelvin)\b|\d\s*([CFK])\b|[(\[]\s*([CFK])\s*[)\]]"
    r"|temp(?:erature)?[_ .-]?([CFK])(?![a-z0-9])",
    re.IGNORECASE,
)
_QUOTED = re.compile(r'"[^"]*"')
"""A separator within quotes parts nothing: it may be the comma of a number."""
_CELL = re.compile(r"([-+\u2212]?\d+(?:[.,]\d+)?)\s*(?:(?:°|deg)?\s*[CFK])?", re.IGNORECASE)
_DATE = re.compile(r"(\d{1,4})[-./](\d{1,2})[-./](\d{1,4})")
_CLOCK = re.compile(r"(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,]\d+)?)?\s*([ap]\.?m)?", re.IGNORECASE)
_ZONE = re.compile(r"(?:Z|([+-])(\d{2}):?(\d{2}))$")
_EPOCH = re.compile(r"\d{10}(?:\d{3})?(?:\.\d+)?")
_LONG_AGO, _MILLISECONDS = 1e9, 1e11
_HALF_DAY, _MINUTE, _HOUR = 12, 60, 3600


@frozen
class Layout:
    """How the lines of one file are read."""

    separator: str
    value: int
    """Column of the temperature."""
    times: tuple[int, ...] = ()
    """Columns of date and time; none where lines are timed by their coming."""
    comma: bool = False
    """Whether a comma is the decimal sign."""
    unit: str = ""


@frozen
class Line:
    """One reading of a line; without a time where the line gives none."""

    temp: Kelvin
    local: float | None = None
    """Local seconds since 1970 by the logger's clock."""
    utc: float | None = None
    """Seconds since 1970 UTC, where the line says its zone."""


def layout_of(lines: Sequence[str], column: str = "", unit: str = "") -> Layout | None:
    """Guess how a file is written from its first lines; None until one shows a temperature."""
    filled = [line for line in lines if line.strip()]
    if not filled:
        return None
    separator = _separator(filled)
    cells = [_split(line, separator) for line in filled]
    header = cells[0] if not _numbers(cells[0]) or _headed(cells[0]) else None
    rows = cells[1:] if header is not None else cells
    times = _time_columns(rows, header)
    value = _value_column(rows, header, times, column)
    if value is None:
        return None
    comma = any("," in row[value] for row in rows if value < len(row))
    told = unit or _unit_in(header[value] if header and value < len(header) else "")
    told = told or next((_unit_in(row[value]) for row in rows if value < len(row)), "")
    return Layout(separator, value, times, comma, told)


def _separator(lines: Sequence[str]) -> str:
    """The one that cuts the most lines alike; a decimal comma cuts a number, not a line."""
    best, most = "", 0
    for each in SEPARATORS:
        counts = {_QUOTED.sub("", line).count(each) for line in lines[-20:]}
        least = min(counts)
        if least > 0 and len(counts) <= 2 and (best == "" or each != "," or most == 0):  # noqa: PLR2004
            best, most = (each, least) if most == 0 else (best, most)
    return best


def _split(line: str, separator: str) -> list[str]:
    if not separator:
        return [line.strip().strip('"').strip()]
    cells = [""]
    for number, part in enumerate(line.split('"')):
        pieces = [part] if number % 2 else part.split(separator)
        cells[-1] += pieces[0]
        cells += pieces[1:]
    return [cell.strip() for cell in cells]


def _numbers(cells: Sequence[str]) -> bool:
    return any(_NUMBER.search(cell) for cell in cells)


def _headed(cells: Sequence[str]) -> bool:
    """A first line of words may have a digit in it, as in T1."""
    return not any(_temperature(cell) is not None or _DATE.search(cell) for cell in cells)


def _time_columns(rows: Sequence[Sequence[str]], header: Sequence[str] | None) -> tuple[int, ...]:
    found: list[int] = []
    width = max((len(row) for row in rows), default=0)
    for column in range(width):
        cells = [row[column] for row in rows if column < len(row) and row[column]]
        named = header is not None and column < len(header) and _TIMED.search(header[column])
        if cells and all(_is_time(cell, named=bool(named)) for cell in cells):
            found.append(column)
    return tuple(found)


def _is_time(cell: str, *, named: bool) -> bool:
    if _DATE.search(cell) or _CLOCK.search(cell):
        return True
    return bool(_EPOCH.fullmatch(cell)) and (named or float(cell) > _LONG_AGO)


def _value_column(
    rows: Sequence[Sequence[str]],
    header: Sequence[str] | None,
    times: tuple[int, ...],
    column: str,
) -> int | None:
    width = max((len(row) for row in rows), default=0)
    free = [n for n in range(width) if n not in times and _mostly_numbers(rows, n)]
    if column.isdecimal():
        return int(column) - 1 if int(column) - 1 in free else None
    if header is not None:
        wanted = column.casefold()
        for n in free:
            name = header[n].casefold() if n < len(header) else ""
            if (wanted and wanted in name) or (not wanted and _HEADED.search(name)):
                return n
    if column:
        return None
    marked = [n for n in free if any(n < len(row) and _unit_in(row[n]) for row in rows)]
    return next(iter(marked or free), None)


def _mostly_numbers(rows: Sequence[Sequence[str]], column: int) -> bool:
    cells = [row[column] for row in rows if column < len(row)]
    return bool(cells) and sum(_temperature(cell) is not None for cell in cells) * 2 >= len(cells)


def _temperature(cell: str) -> float | None:
    """The number of a cell that holds nothing else but a unit."""
    found = _CELL.fullmatch(cell)
    return None if found is None else _value(found[1])


def _value(text: str) -> float:
    return float(text.replace("\u2212", "-").replace(",", "."))


def _unit_in(text: str) -> str:
    found = _UNIT.search(text)
    if found is None:
        return ""
    letter = next(group for group in found.groups() if group)[0].upper()
    return "K" if letter == "K" else f"°{letter}"


def kelvin(value: float, unit: str) -> Kelvin | None:
    """A number of a logger as a temperature; None where no shop is so cold or hot."""
    found = value + ZERO
    if unit == "°F":
        found = (value + RANKINE) / 1.8
    elif unit == "K":
        found = value
    return Kelvin(found) if COLDEST <= found <= WARMEST else None


def read_line(line: str, layout: Layout, order: Order = "dmy") -> Line | None:
    """Read one whole line; None for a heading, a gap or what is no temperature."""
    cells = _split(line, layout.separator)
    if layout.value >= len(cells):
        return None
    number = _temperature(cells[layout.value])
    temp = None if number is None else kelvin(number, layout.unit or "°C")
    if temp is None:
        return None
    words = " ".join(cells[n] for n in layout.times if n < len(cells))
    if not layout.times:
        return Line(temp)
    return _timed(temp, words, order)


def _timed(temp: Kelvin, words: str, order: Order) -> Line | None:
    """A line that should have a time and has none is not taken."""
    if _EPOCH.fullmatch(words.strip()):
        seconds = float(words)
        return Line(temp, utc=seconds / 1000 if seconds > _MILLISECONDS else seconds)
    local = local_time(words, order)
    if local is None:
        return None
    zone = _ZONE.search(words.strip())
    if zone is None:
        return Line(temp, local)
    sign, hours, minutes = zone.groups()
    shift = 0 if sign is None else int(f"{sign}1") * (int(hours) * _HOUR + int(minutes) * _MINUTE)
    return Line(temp, utc=local - shift)


def local_time(words: str, order: Order) -> float | None:
    """Local seconds since 1970 of a date and a time of day; None where either is missing."""
    day, clock = _DATE.search(words), _CLOCK.search(words)
    if day is None or clock is None:
        return None
    date = _date([int(part) for part in day.groups()], day.groups(), order)
    hour, minute, second = int(clock[1]), int(clock[2]), int(clock[3] or 0)
    if clock[4]:
        hour = hour % _HALF_DAY + (_HALF_DAY if clock[4][0] in "pP" else 0)
    if date is None or hour > 23 or minute > 59 or second > 60:  # noqa: PLR2004 - the clock's own
        return None
    return float(seconds_of(*date, hour * _HOUR + minute * _MINUTE + second))


def _date(numbers: list[int], texts: tuple[str, ...], order: Order) -> tuple[int, int, int] | None:
    """Year first where four digits stand first; else by the order, unless only the other fits."""
    if len(texts[0]) == 4:  # noqa: PLR2004 - a year
        found = (numbers[0], numbers[1], numbers[2])
        return found if is_date(*found) else None
    year = numbers[2] + (2000 if len(texts[2]) <= 2 else 0)  # noqa: PLR2004 - a short year
    day_first, month_first = (year, numbers[1], numbers[0]), (year, numbers[0], numbers[1])
    tried = (month_first, day_first) if order == "mdy" else (day_first, month_first)
    return next((each for each in tried if is_date(*each)), None)


def printed(text: str, unit: str = "") -> Kelvin | None:
    """The temperature in a line that an instrument prints: ``T=21.5 C``, ``+021,4``."""
    marked = re.search(
        r"([-+\u2212]?\d+(?:[.,]\d+)?)\s*(?:°\s*|deg\s*)?([CFK])\b", text, re.IGNORECASE
    )
    if marked is not None:
        letter = marked[2].upper()
        return kelvin(_value(marked[1]), unit or ("K" if letter == "K" else f"°{letter}"))
    found = _NUMBER.search(text)
    return None if found is None else kelvin(_value(found.group()), unit or "°C")
