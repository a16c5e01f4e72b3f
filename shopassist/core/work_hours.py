"""Working hours of a week as instants, right across changes of the clock."""

from collections.abc import Callable, Mapping, Sequence

from shopassist.core.civil import DAY, civil
from shopassist.core.errors import out_of_range
from shopassist.core.plan import Hours
from shopassist.core.quantities import Second, UtcSecond

WEEK = 7
DayHours = tuple[Second, Second]
"""Opening and closing as seconds of the local day."""
DEFAULT: dict[int, tuple[DayHours, ...]] = {
    day: ((Second(9 * 3600.0), Second(18 * 3600.0)),) for day in range(6)
}
"""Monday to Saturday nine to six; ours, the user changes it."""
OffsetAt = Callable[[UtcSecond], float]


def need_hours(week: Mapping[int, Sequence[DayHours]]) -> None:
    """Refuse hours that end before they begin, overlap, or leave the whole week empty."""
    if not any(week.values()):
        raise out_of_range("hours", "With no working hours at all nothing can be planned.")
    for each in week.values():
        last = 0.0
        for start, end in each:
            if not last <= start < end <= DAY:
                raise out_of_range("hours", "Write hours as from - to, in order, within one day.")
            last = end


def instant(day: int, second: float, offset_at: OffsetAt) -> UtcSecond:
    """Instant of a local second of a local day; where the clock leaps it is the later side."""
    local = day * DAY + second
    first = UtcSecond(local - offset_at(UtcSecond(local)))
    return UtcSecond(local - offset_at(first))


def hours_between(
    week: Mapping[int, Sequence[DayHours]], start: UtcSecond, days: int, offset_at: OffsetAt
) -> tuple[Hours, ...]:
    """Working hours of a number of local days from the day of ``start``."""
    need_hours(week)
    first = civil(start + offset_at(start)).day_number
    found: list[Hours] = []
    for day in range(first, first + days):
        weekday = (day + 3) % WEEK
        for opens, closes in week.get(weekday, ()):
            begin, end = instant(day, opens, offset_at), instant(day, closes, offset_at)
            if end > begin:
                found.append(Hours(begin, end))
    return tuple(found)
