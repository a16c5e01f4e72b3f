"""Instants as they are said: now, 5 min ago, 14:06, Thu 14:06."""

import re
from collections.abc import Callable, Iterator

from shopassist.core.civil import DAY, civil, days_of, is_date
from shopassist.core.entry.clean import clean
from shopassist.core.entry.quantity import read_quantity
from shopassist.core.entry.spec import EntrySpec
from shopassist.core.errors import EntryError
from shopassist.core.messages import say
from shopassist.core.quantities import UtcSecond
from shopassist.core.rows import Reading

OffsetAt = Callable[[float], float]
"""Local time less UTC at an instant, [s]."""
_CLOCK = re.compile(
    r"(?:(?P<day>today|yesterday|tomorrow|\d{4}-\d\d-\d\d|[a-z]{2,9})\.?,? )?"
    r"(?P<hour>\d{1,2})(?:(?:[:.]|h ?)(?P<minute>\d\d)(?::(?P<second>\d\d))?|h)?"
    r" ?(?P<half>[ap])?\.?(?(half)m\.?|)",
    re.IGNORECASE,
)
_WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_AGO_AT_MOST = 366 * 86400.0
_NOON, _WEEK, _HALF_DAY = 12, 7, 43200.0


def read_moment(
    text: str,
    now: Reading,
    offset_at: OffsetAt | None = None,
    *,
    ahead: bool = False,
    field: str = "",
) -> UtcSecond:
    """Read "now", "5 min ago" or a clock time as an instant."""
    word = clean(text, field).casefold()
    if word in ("now", "just now") or word.endswith("ago"):
        return read_ago(text, now, field=field)
    return read_clock(text, now, offset_at, ahead=ahead, field=field)


def read_ago(text: str, now: Reading, *, field: str = "") -> UtcSecond:
    """Read "5 min ago"; a bare number is minutes."""
    word = re.sub(r" ?ago$", "", clean(text, field).casefold())
    if word in ("now", "just now"):
        return now.utc
    spec = EntrySpec("Second", "min", field, highest=_AGO_AT_MOST)
    return UtcSecond(now.utc - read_quantity(word, spec).value)


def read_clock(
    text: str,
    now: Reading,
    offset_at: OffsetAt | None = None,
    *,
    ahead: bool = False,
    field: str = "",
) -> UtcSecond:
    """Read a clock time: the last such time before now, or with ``ahead`` the next one."""
    found = _CLOCK.fullmatch(clean(text, field))
    if found is None or (found["minute"] is None and found["half"] is None):
        raise EntryError(
            say("This is not a clock time."),
            say("Type hours and minutes, for instance 14:06."),
            field,
        )
    second = _second_of_day(found, field)
    offset: OffsetAt = offset_at or (lambda _: now.utc_offset)
    today = civil(now.utc + now.utc_offset).day_number
    days = _days(found["day"], today, field, ahead=ahead)
    by_day = [list(instants_of(day * DAY + second, offset)) for day in days]
    picked = _pick(by_day, now, field, ahead=ahead, today=found["day"] is None)
    if found["day"] is None and not ahead and now.utc - picked > _HALF_DAY:
        _refuse_yesterday(picked + offset(picked), today, found[0], field)
    return picked


def _pick(
    by_day: list[list[float]], now: Reading, field: str, *, ahead: bool, today: bool
) -> UtcSecond:
    """The nearest on the right side; ``today``: no day was said, so that today is meant first."""
    fitting = [
        i for day in by_day for i in day if (i >= now.utc if ahead else i <= now.utc)
    ]  # fmt: skip
    skipped = not all(by_day) if not fitting else today and not by_day[0]
    if skipped:
        raise EntryError(
            say("The clocks were put forward over this hour."), say("Type another time."), field
        )
    if not fitting:
        words = "already past" if ahead else "still to come"
        raise EntryError(say("That time is {words}.", words=words), say("Check the day."), field)
    return UtcSecond(min(fitting) if ahead else max(fitting))


def _refuse_yesterday(local: float, today: int, typed: str, field: str) -> None:
    """Later today is a slip more often than yesterday: that has to be said."""
    if civil(local).day_number != today:
        raise EntryError(
            say("That time is still to come."),
            say("Say yesterday if that is meant."),
            field,
            (f"yesterday {typed}",),
        )


def _second_of_day(found: re.Match[str], field: str) -> int:
    hour, minute, second = (int(found[name] or 0) for name in ("hour", "minute", "second"))
    half = (found["half"] or "").casefold()
    if half:
        is_hour = 1 <= hour <= _NOON
        hour = hour % _NOON + (_NOON if half == "p" else 0)
    else:
        is_hour = hour < 24  # noqa: PLR2004 - hours of a day
    if not is_hour or minute > 59 or second > 59:  # noqa: PLR2004 - minutes, seconds
        raise EntryError(say("No clock shows that."), say("Hours go to 23, minutes to 59."), field)
    return hour * 3600 + minute * 60 + second


def _days(word: str | None, today: int, field: str, *, ahead: bool) -> tuple[int, ...]:
    """Local days that a word may mean; without one, today and the neighbour on the right side."""
    step = 1 if ahead else -1
    if word is None:
        return (today, today + step)
    near = {"today": 0, "yesterday": -1, "tomorrow": 1}
    name = word.casefold()
    if name in near:
        return (today + near[name],)
    if name[0].isdigit():
        year, month, day = map(int, name.split("-"))
        if is_date(year, month, day):
            return (days_of(year, month, day),)
    elif name[:3] in _WEEKDAYS:
        wanted = _WEEKDAYS.index(name[:3])
        present = civil(today * DAY).weekday
        back = (wanted - present) * step % _WEEK
        return (today + step * back, today + step * (back + _WEEK))
    raise EntryError(say("{word} is not a day.", word=word), say("Write for instance Thu."), field)


def instants_of(local: float, offset_at: OffsetAt) -> Iterator[float]:
    """Instants at which local clocks show this; two when clocks are put back, none when forward."""
    guesses = {offset_at(local - day) for day in (-86400.0, 0.0, 86400.0)}
    for offset in sorted(guesses):
        if offset_at(local - offset) == offset:
            yield local - offset
