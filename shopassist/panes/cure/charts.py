"""The cure's two charts in the reader's words and units."""

from math import ceil, floor

from shopassist.core.quantities import KelvinDelta, UtcSecond
from shopassist.core.wording import Wording, spoken
from shopassist.panes.cure.words import LABELS, graduations
from shopassist.services.cure import Aim
from shopassist.services.curve import AgeCurve, Step, WarmthCurve
from shopassist.widgets.chart_shown import ChartShown, Level
from shopassist.widgets.shown import Tick

STEPS = (0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0)
MOST_UP, MOST_ACROSS = 4, 4
HOUR, DAY = 3600.0, 86_400.0
MINUTE = 60.0
LONG = 3 * DAY
ROOM = 1.12
"""A little air above the highest level."""
LEVELS: dict[Step, str] = {"gel": "gel", "demould": "demould", "hard": "hard", "full": "full cure"}
PAST_NOW = 1.05
"""A little room behind now."""
AROUND = KelvinDelta(4.0)
"""A temperature chart spans at least so much to each side; ours."""


def age_chart(words: Wording, curve: AgeCurve) -> ChartShown:
    """How old the cure is, counted at the sheet's temperature, and what it must reach."""
    scale, unit = _scale(curve.levels[-1][1] if curve.levels else curve.points[-1].likely)
    reference = words.amount(curve.reference, "Kelvin", 0)
    start, end = curve.points[0].at, curve.points[-1].at
    top = (curve.levels[-1][1] if curve.levels else curve.points[-1].likely) / scale * ROOM
    return ChartShown(
        f"Cure so far, as {unit} at {reference}",
        start, end, 0.0, top,
        graduations(words, start, end, MOST_ACROSS), _up(words, 0.0, top / ROOM),
        _minute(curve.now),
        tuple((point.at, point.likely / scale) for point in curve.points),
        tuple(
            (point.at, point.slow / scale, point.fast / scale)
            for point in curve.points
        ),
        _ghosts(words, curve, scale),
        tuple(Level(age / scale, LEVELS[step]) for step, age in curve.levels),
        spoken=_age_words(words, curve, scale, unit),
    )  # fmt: skip


def _ghosts(
    words: Wording, curve: AgeCurve, scale: float
) -> tuple[tuple[str, tuple[tuple[float, float], ...]], ...]:
    """As it was forecast earlier, each with the time of that forecast."""
    found = []
    for ghost in curve.earlier:
        pairs = zip(curve.points, ghost.likely, strict=True)
        line = tuple((float(point.at), age / scale) for point, age in pairs if age is not None)
        found.append((f"as of {words.clock(ghost.at, curve.now)}", line))
    return tuple(found)


def _minute(now: float) -> float:
    """Charts move once a minute."""
    return floor(now / MINUTE) * MINUTE


def _scale(age: float) -> tuple[float, str]:
    if age <= 2 * HOUR:
        return MINUTE, "minutes"
    return (HOUR, "hours") if age <= LONG else (DAY, "days")


def _up(words: Wording, low: float, high: float) -> tuple[Tick, ...]:
    step = next((each for each in STEPS if (high - low) / each <= MOST_UP), STEPS[-1])
    first, last = ceil(low / step - 1e-9), floor(high / step + 1e-9)
    places = 1 if step < 1 else 0
    return tuple(Tick(n * step, words.number(n * step, places)) for n in range(first, last + 1))


def _age_words(words: Wording, curve: AgeCurve, scale: float, unit: str) -> str:
    at = min(curve.points, key=lambda point: abs(point.at - curve.now))
    told = [
        f"Now {words.number(at.slow / scale, 1)} to {words.number(at.fast / scale, 1)} {unit} old"
    ]
    for step, age in curve.levels:
        told.append(f"{LABELS[_AIM[step]].lower()} at {words.number(age / scale, 1)}")
    aim = LABELS[_AIM[curve.target]].lower()
    for ghost in curve.earlier:
        gate = "no time" if ghost.gate is None else f"from {words.clock(ghost.gate, curve.now)}"
        told.append(f"as of {words.clock(ghost.at, curve.now)} {aim} {gate}")
    if curve.earlier and curve.gate is not None:
        told.append(f"now {aim} from {words.clock(curve.gate, curve.now)}")
    return spoken(", ".join(told))


_AIM: dict[Step, Aim] = {"gel": "hold", "demould": "demould", "hard": "hard", "full": "full"}


def warmth_chart(words: Wording, curve: WarmthCurve) -> ChartShown:
    """What was read, the sheet's limits, and the stretches that nobody knows."""
    start = min([curve.begun, *(each.since for each in curve.read)])
    end = start + max(_minute(curve.now) - start, HOUR) * PAST_NOW
    low, high = _reach(words, curve)
    dots = tuple(
        (float(each.at), _shown(words, each.low))
        for each in curve.read
        if each.since == each.at and each.low == each.high
    )
    bars = tuple(
        (float(each.since), float(each.at), _shown(words, each.low), _shown(words, each.high))
        for each in curve.read
        if each.since < each.at
    )
    return ChartShown(
        f"Temperature, {words.unit('Kelvin')}", start, end, low, high,
        graduations(words, start, end, MOST_ACROSS), _up(words, low, high), _minute(curve.now),
        levels=_limits(words, curve, low, high), dots=dots, bars=bars,
        gaps=tuple((float(a), float(b)) for a, b in curve.unknown), gap_word="not known",
        unread=tuple((float(a), float(b)) for a, b in curve.unread), unread_word="no reading",
        band=_carried(words, curve), spoken=_warmth_words(words, curve),
    )  # fmt: skip


def _shown(words: Wording, kelvin: float) -> float:
    """A temperature in the shown unit, as a plain number."""
    unit = words.table.get(words.units.unit("Kelvin"), "Kelvin")
    return (kelvin - unit.offset) / unit.factor


def _reach(words: Wording, curve: WarmthCurve) -> tuple[float, float]:
    temps = [float(end) for each in curve.read for end in each.widest]
    temps += [limit for limit in (curve.lowest,) if limit is not None]
    if not temps:
        temps = [288.15, 298.15]
    return _shown(words, min(temps) - AROUND / 2), _shown(words, max(temps) + AROUND)


def _limits(
    words: Wording, curve: WarmthCurve, low: float, high: float
) -> tuple[Level, ...]:  # fmt: skip
    found = []
    for limit, name in ((curve.lowest, "lowest"), (curve.highest, "highest")):
        if limit is not None and low <= (at := _shown(words, limit)) <= high:
            found.append(Level(at, f"{name} {words.amount(limit, 'Kelvin', 0)}", "limit"))
    return tuple(found)


def _carried(words: Wording, curve: WarmthCurve) -> tuple[tuple[float, float, float], ...]:
    """The range that each reading stands for, where air was read instead of resin."""
    if not any(each.widest != (each.low, each.high) for each in curve.read):
        return ()
    return tuple(
        (float(each.at), _shown(words, each.widest[0]), _shown(words, each.widest[1]))
        for each in curve.read
    )


def _warmth_words(words: Wording, curve: WarmthCurve) -> str:
    if not curve.read:
        return "No temperature was read yet."
    told = [
        f"{words.clock(each.at, curve.now)} {words.span(each.low, each.high, 'Kelvin')}"
        for each in curve.read[-6:]
    ]
    if curve.unknown:
        told.append(_stretches(words, "not known", curve.unknown, curve.now))
    if curve.unread:
        told.append(_stretches(words, "no reading", curve.unread, curve.now))
    return spoken(f"Temperature in {words.unit('Kelvin')}: " + ", ".join(told))


def _stretches(
    words: Wording, what: str, stretches: tuple[tuple[UtcSecond, UtcSecond], ...], now: float
) -> str:
    ends = (f"{words.clock(a, now)} to {words.clock(b, now)}" for a, b in stretches)
    return f"{what} {' and '.join(ends)}"
