"""The course of a run as charts: typed readings joined as assumed, never to an unreported zero."""

from math import floor

from shopassist.core.pot.course import Course
from shopassist.core.wording import Wording, spoken
from shopassist.widgets.chart_shown import ChartShown, Level, Target
from shopassist.widgets.shown import Tick

STEPS = (0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0)
MOST_UP, MOST_ACROSS = 4, 5
ROOM = 1.12
SHORTEST = 1800.0
"""A run's chart spans half an hour at least, a fall's a quarter of it; ours, [s]."""
MINUTES = (1, 2, 5, 10, 15, 30, 60, 120, 240, 480, 720, 1440, 2880)
MINUTE = 60.0


def run_chart(
    words: Wording, run: Course, limits: tuple[float | None, float | None, float | None],
    until: float,
) -> ChartShown:  # fmt: skip
    """Everything typed from the first air on."""
    rating, hold, limit = limits
    tops = [point.pressure for point in run.points] + [each for each in limits if each is not None]
    end = max(until, run.began + SHORTEST)
    levels = [] if rating is None else [
        Level(_shown(words, rating), f"rated {words.amount(rating, 'PascalGauge')}", "rated")
    ]  # fmt: skip
    target = None
    if hold is not None:
        high = max(hold, limit if limit is not None else hold)
        target = Target(_shown(words, hold), _shown(words, high), "hold")
    top = _shown(words, max(tops)) * ROOM
    return ChartShown(
        f"Gauge as you typed it, {words.unit('PascalGauge')}", run.began, end,
        0.0, top, _across(words, run.began, end), _up(words, top / ROOM), now=_minute(until),
        levels=tuple(levels), dots=_dots(words, run, run.began), target=target,
        spoken=_words(words, run, end),
    )  # fmt: skip


def fall_chart(words: Wording, run: Course, until: float) -> ChartShown:
    """The let-down by itself, with the time that the vent stayed open."""
    start = run.let_down if run.let_down is not None else run.began
    dots = _dots(words, run, start)
    last = max([at for at, _ in dots], default=start)
    end = max(min(until, last + SHORTEST / 2), start + SHORTEST / 4)
    top = max([each for _, each in dots], default=1.0) * ROOM
    dwell = run.dwell
    open_ = () if dwell is None else ((dwell[0], max(dwell[1], dwell[0] + 1.0)),)
    return ChartShown(
        f"Let-down, {words.unit('PascalGauge')}", start, end, 0.0, max(top, 0.1),
        _across(words, start, end), _up(words, max(top, 0.1) / ROOM), dots=dots, gaps=open_,
        gap_word="dwell", spoken=_words(words, run, end, since=start),
    )  # fmt: skip


def _minute(at: float) -> float:
    return floor(at / MINUTE) * MINUTE


def _shown(words: Wording, pressure: float) -> float:
    """A gauge pressure in the shown unit, as a plain number."""
    unit = words.table.get(words.units.unit("PascalGauge"), "PascalGauge")
    return pressure / unit.factor


def _dots(words: Wording, run: Course, since: float) -> tuple[tuple[float, float], ...]:
    return tuple((p.at, _shown(words, p.pressure)) for p in run.points if p.at >= since)


def _up(words: Wording, high: float) -> tuple[Tick, ...]:
    step = next((each for each in STEPS if high / each <= MOST_UP), STEPS[-1])
    places = 2 if step < 0.1 else 1 if step < 1 else 0  # noqa: PLR2004 - decades
    count = floor(high / step + 1e-9)
    return tuple(Tick(n * step, words.number(n * step, places)) for n in range(count + 1))


def _across(words: Wording, start: float, end: float) -> tuple[Tick, ...]:
    """Clock times on round minutes of the local clock."""
    span = (end - start) / MINUTE
    step = next((m for m in MINUTES if span / m <= MOST_ACROSS), MINUTES[-1]) * MINUTE
    offset = words.offset(start)
    first = (floor((start + offset) / step) + 1) * step - offset
    count = floor((end - first) / step) + 1
    return tuple(Tick(first + n * step, words.clock(first + n * step)) for n in range(count))


def _words(words: Wording, run: Course, now: float, since: float = 0.0) -> str:
    told = [
        f"{words.clock(point.at, now)} {words.amount(point.pressure, 'PascalGauge')}"
        for point in run.points[-8:]
        if point.at >= since
    ]
    return spoken("You typed: " + ", ".join(told)) if told else "Nothing was typed yet."
