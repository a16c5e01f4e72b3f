"""What was typed in each run of a pot, by its rows: for charts and numbers, never for evidence."""

from collections.abc import Iterable

from shopassist.core.frozen import frozen, replace
from shopassist.core.pot.events import Answer, Correction, Event, Press, Tell, Typed, event_from_row
from shopassist.core.pot.running import GAUGE_ITEMS
from shopassist.core.pot.words import Act, Item, Told
from shopassist.core.rows import Row

AIR = (Act.AIR_ON, Act.AIR_IN)
ENDS = {(Item.LID_OFF, "inside_seen"), (Item.LID_OFF_NOW, "inside_seen")}
GAPS = (Told.RESTARTED, Told.SUSPENDED, Told.RESTORED, Told.BROKEN)
OPENED = ("opened_hiss", "opened_none")
FED = ("connected", "back", "topped_up")
"""The supply may have put air in."""
ZEROS = (Item.ZERO, Item.ZERO_AGAIN)


@frozen
class Point:
    """A typed gauge reading."""

    at: float
    """Wall time, [s since 1970 UTC]."""
    pressure: float
    """[Pa gauge]."""
    item: Item
    temperature: float | None = None
    """Typed beside it, [K]."""


@frozen
class Course:
    """One run: from the first air to the open lid."""

    began: float
    points: tuple[Point, ...] = ()
    warmth: tuple[tuple[float, float], ...] = ()
    """Typed temperatures: when, [K]."""
    filled: float | None = None
    """When air last went in on purpose: what was read before it tells no leak."""
    gaps: tuple[float, ...] = ()
    """When the program was restarted or out of sight."""
    let_down: float | None = None
    vented: float | None = None
    """When the vent was opened, as reported at once; None where nobody saw it."""
    vent_told: float | None = None
    """When the vent was spoken of last."""
    ended: float | None = None

    @property
    def before_vent(self) -> Point | None:
        """The last reading before the vent was opened."""
        if self.vented is None:
            return None
        return next((p for p in reversed(self.points) if p.at <= self.vented), None)

    @property
    def fall(self) -> Point | None:
        """The first reading of the fall after the vent was opened."""
        return next((p for p in self.points if p.item is Item.FALL_FIRST), None)

    @property
    def dwell(self) -> tuple[float, float] | None:
        """From the first zero to the second, or to the last thing known."""
        zeros = [point.at for point in self.points if point.item in ZEROS]
        return (zeros[0], zeros[-1]) if zeros else None


def courses(rows: Iterable[Row]) -> tuple[Course, ...]:
    """Every run that had air, oldest first."""
    done: list[Course] = []
    now: Course | None = None
    for row in rows:
        event = event_from_row(row.kind, row.body, lambda _: None)
        now = _step(now, event, float(row.happened))
        if now is not None and now.ended is not None:
            done.append(now)
            now = None
    return (*done, *([now] if now is not None else []))


def _step(run: Course | None, event: Event | None, at: float) -> Course | None:
    if run is None:
        starts = isinstance(event, Press) and event.act in AIR
        return Course(at) if starts else None
    if isinstance(event, Typed):
        return _typed(run, event, at)
    if isinstance(event, Answer):
        return _answered(run, event, at)
    if isinstance(event, Tell) and event.what in GAPS:
        return replace(run, gaps=(*run.gaps, at))
    if isinstance(event, Press):
        return _pressed(run, event.act, at)
    return _taken_back(run, event.item) if isinstance(event, Correction) else run


def _typed(run: Course, event: Typed, at: float) -> Course:
    if event.item is Item.TEMPERATURE:
        return replace(run, warmth=(*run.warmth, (at, event.value)))
    if event.item not in GAUGE_ITEMS:
        return run
    point = Point(at, event.value, event.item, event.temperature)
    warmth = run.warmth
    if event.temperature is not None:
        warmth = (*warmth, (at, event.temperature))
    filled = at if event.item is Item.AT_PRESSURE else run.filled
    return replace(run, points=(*run.points, point), warmth=warmth, filled=filled)


def _answered(run: Course, event: Answer, at: float) -> Course:
    if (event.item, event.choice) in ENDS:
        return replace(run, ended=at)
    if event.item is Item.VENT:
        first = event.choice in OPENED and run.vented is None
        return replace(run, vented=at if first else run.vented, vent_told=at)
    if event.item is Item.SUPPLY and event.choice in FED:
        return replace(run, filled=at)
    return run


def _pressed(run: Course, act: Act, at: float) -> Course:
    if act is Act.LET_DOWN and run.let_down is None:
        return replace(run, let_down=at)
    if act in AIR:
        # Air again: what was seen of a let-down before it does not belong to the next one.
        return replace(run, let_down=None, vented=None)
    return run


def _taken_back(run: Course, item: Item) -> Course:
    """Leave out what was said last of an item: it was wrong."""
    if item is Item.TEMPERATURE:
        return replace(run, warmth=run.warmth[:-1])
    if item is Item.VENT and run.vented == run.vent_told:
        return replace(run, vented=None)
    wrong = next((point for point in reversed(run.points) if point.item is item), None)
    if wrong is None:
        return run
    beside = (wrong.at, wrong.temperature)
    return replace(
        run,
        points=tuple(point for point in run.points if point is not wrong),
        warmth=tuple(each for each in run.warmth if each != beside),
    )
