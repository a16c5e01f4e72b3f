"""The shop's own rules for planning: its hours, and what never runs with nobody there."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field

from shopassist.core.errors import ShopError
from shopassist.core.frozen import frozen, replace
from shopassist.core.quantities import Second
from shopassist.core.rows import Json, Row
from shopassist.core.work_hours import DEFAULT, WEEK, DayHours, need_hours

STREAM = "plan"
HOURS_SET, ATTENDED_SET = "hours_set", "attended_set"
Week = Mapping[int, Sequence[DayHours]]


@frozen
class ShopWeek:
    """Hours by weekday, Monday first."""

    week: Week = field(default_factory=lambda: dict(DEFAULT))
    is_default: bool = True
    attended: bool = False
    """True where ovens, pumps and heaters never run with nobody there."""


def fold_week(state: ShopWeek, row: Row) -> ShopWeek:
    """Take one more row into account; hours that cannot be are passed over."""
    if row.kind == ATTENDED_SET:
        return replace(state, attended=row.body.get("attended") is True)
    if row.kind != HOURS_SET:
        return state
    week = _week_of(row.body.get("week"))
    try:
        need_hours(week)
    except ShopError:
        return state
    return replace(state, week=week, is_default=False)


def fold_all_weeks(rows: Iterable[Row]) -> ShopWeek:
    """Fold the whole stream."""
    state = ShopWeek()
    for row in rows:
        state = fold_week(state, row)
    return state


def body_of(week: Week) -> dict[str, Json]:
    """The row that sets these hours."""
    days: dict[str, Json] = {
        str(day): [[float(start), float(end)] for start, end in spans]
        for day, spans in week.items() if spans
    }  # fmt: skip
    return {"week": days}


def _week_of(value: Json) -> dict[int, tuple[DayHours, ...]]:
    found: dict[int, tuple[DayHours, ...]] = {}
    if not isinstance(value, dict):
        return found
    for day in range(WEEK):
        spans = value.get(str(day))
        if isinstance(spans, list):
            found[day] = tuple(pair for each in spans if (pair := _span_of(each)) is not None)
    return found


def _span_of(value: Json) -> DayHours | None:
    if not isinstance(value, list):
        return None
    ends = [Second(float(each)) for each in value if isinstance(each, int | float)]
    return (ends[0], ends[1]) if len(ends) == len(value) == 2 else None  # noqa: PLR2004 - from, to
