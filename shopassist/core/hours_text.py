"""Working hours as one line of text: ``Mon-Fri 9-12, 13-18; Sat 9-13``."""

import re
from collections.abc import Iterator

from shopassist.core.errors import EntryError, ShopError
from shopassist.core.quantities import Second
from shopassist.core.shop_week import Week
from shopassist.core.work_hours import WEEK, DayHours, need_hours

DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
EXAMPLE = "Write for instance Mon-Fri 9-12, 13-18; Sat 9-13."
_GROUP = re.compile(r"(?P<days>[A-Za-z][A-Za-z ,\-]*?)\s+(?P<spans>\d[\d:.,\s\-]*)")
_SPAN = re.compile(r"(\d{1,2})(?:[:.](\d\d))?\s*-\s*(\d{1,2})(?:[:.](\d\d))?")
_DASHES = str.maketrans(dict.fromkeys("–—−", "-"))
_MINUTES = 60
_LONGEST = 200


def read_hours(text: str, field: str) -> Week:
    """Read working hours; raises ``EntryError`` with what to write."""
    week: dict[int, tuple[DayHours, ...]] = {}
    for part in _parts(text, field):
        found = _GROUP.fullmatch(part)
        if found is None:
            raise EntryError("These are no hours.", EXAMPLE, field)
        spans = tuple(_spans(found["spans"], field))
        for day in _days(found["days"], field):
            week[day] = (*week.get(day, ()), *spans)
    try:
        need_hours(week)
    except ShopError as error:
        raise EntryError(error.title, EXAMPLE, field) from None
    return week


def write_hours(week: Week) -> str:
    """Write working hours as they may be typed; days with the same hours stand together."""
    groups: list[tuple[int, int, str]] = []
    for day in range(WEEK):
        spans = ", ".join(_span_text(*span) for span in week.get(day, ()))
        if not spans:
            continue
        if groups and groups[-1][1:] == (day - 1, spans):
            groups[-1] = (groups[-1][0], day, spans)
        else:
            groups.append((day, day, spans))
    return "; ".join(f"{_day_text(first, last)} {spans}" for first, last, spans in groups)


def _parts(text: str, field: str) -> Iterator[str]:
    if len(text) > _LONGEST:
        raise EntryError("This is more than a line can hold.", EXAMPLE, field)
    return (part for each in text.translate(_DASHES).split(";") if (part := each.strip()))


def _days(text: str, field: str) -> Iterator[int]:
    for part in text.split(","):
        ends = [_day(word, field) for word in part.split("-")]
        first, last = ends[0], ends[-1]
        for step in range((last - first) % WEEK + 1):
            yield (first + step) % WEEK


def _day(word: str, field: str) -> int:
    name = word.strip().capitalize()[:3]
    if name not in DAYS:
        raise EntryError("There is no such day.", EXAMPLE, field)
    return DAYS.index(name)


def _spans(text: str, field: str) -> Iterator[DayHours]:
    for part in text.split(","):
        found = _SPAN.fullmatch(part.strip())
        if found is None:
            raise EntryError("These are no hours.", EXAMPLE, field)
        parts = [int(each or 0) for each in found.groups()]
        if parts[1] >= _MINUTES or parts[3] >= _MINUTES:
            raise EntryError("Minutes go to 59.", EXAMPLE, field)
        yield _second(parts[0], parts[1]), _second(parts[2], parts[3])


def _second(hour: int, minute: int) -> Second:
    return Second((hour * _MINUTES + minute) * 60.0)


def _day_text(first: int, last: int) -> str:
    return DAYS[first] if first == last else f"{DAYS[first]}–{DAYS[last]}"


def _span_text(start: Second, end: Second) -> str:
    return f"{_time(start)}–{_time(end)}"


def _time(second: Second) -> str:
    hour, minute = divmod(round(second / 60), _MINUTES)
    return f"{hour}:{minute:02}" if minute else f"{hour}"
