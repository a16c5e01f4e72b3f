"""Whom to call now: which rows are owed, what leads, what sounds, how far it has escalated."""

from collections.abc import Iterable
from math import floor, inf
from typing import Literal

from shopassist.core.alarms.book import Alarm, Book
from shopassist.core.alarms.causes import Cause
from shopassist.core.alarms.table import LOUDER, NOT_SEEN, RANKS, TABLE, Priority
from shopassist.core.frozen import frozen
from shopassist.core.quantities import Second
from shopassist.core.rows import Reading
from shopassist.core.timeline import same_boot

Stage = Literal["band", "full", "louder", "not seen"]


@frozen
class Moved:
    """What has changed against the log."""

    raised: tuple[Cause, ...]
    gone: tuple[str, ...]

    def __bool__(self) -> bool:
        """Whether anything has."""
        return bool(self.raised or self.gone)


@frozen
class Sound:
    """One burst: its pattern, and whether it is raised within the program's own volume."""

    priority: Priority
    loud: bool = False


def moved(causes: Iterable[Cause], book: Book, now: float) -> Moved:
    """Compare what is so with what the log says stands."""
    so = {}
    for cause in causes:
        stands = book.standing(cause.key)
        if cause.holds(now, stands=stands) and cause.key not in so:
            so[cause.key] = cause
    raised = tuple(cause for key, cause in so.items() if not book.standing(key))
    return Moved(raised, tuple(sorted(book.keys() - so.keys())))


def next_turn(causes: Iterable[Cause], now: float) -> float:
    """The next instant at which any answer may change."""
    return min((cause.turns(now) for cause in causes), default=inf)


def calls_within(cause: Cause, now: float, reach: float) -> bool:
    """Whether a dated alarm above low begins within reach, or its time is running."""
    if TABLE[cause.kind].priority == "low" or cause.ends is None:
        return False
    return cause.begins - reach <= now < cause.ends


def unanswered(book: Book) -> tuple[Alarm, ...]:
    """Alarms that nobody acknowledged, the gravest first, the longest standing first."""
    return _sorted(alarm for alarm in book.alarms.values() if not alarm.acknowledged)


def answered(book: Book) -> tuple[Alarm, ...]:
    """Acknowledged ones whose cause is still there; low ones need no more room."""
    return _sorted(
        alarm
        for alarm in book.alarms.values()
        if alarm.acknowledged and alarm.rule.priority != "low"
    )


def _sorted(alarms: Iterable[Alarm]) -> tuple[Alarm, ...]:
    return tuple(sorted(alarms, key=lambda each: (RANKS[each.rule.priority], each.row.seq)))


def stood(alarm: Alarm, sitting: Reading, now: Reading) -> Second:
    """How long it has called; before this sitting nobody was called."""
    return Second(max(0.0, now.since_boot - _begun(alarm, sitting, now)))


def stage(alarm: Alarm, since: Second) -> Stage:
    """How far an unanswered alarm has escalated."""
    takeover = alarm.rule.takeover
    if takeover is None or alarm.acknowledged or since < takeover:
        return "band"
    if since >= NOT_SEEN:
        return "not seen"
    return "louder" if since >= LOUDER else "full"


def sound(book: Book, sitting: Reading, before: Reading | None, now: Reading) -> Sound | None:
    """The one burst that is due between two looks: the gravest speaks for all."""
    due = [
        alarm for alarm in unanswered(book)
        if _sounds(alarm, sitting, before, now) and not silent(book, alarm, now)
    ]  # fmt: skip
    if not due:
        return None
    first = due[0]
    loud = stage(first, stood(first, sitting, now)) in ("louder", "not seen")
    return Sound(first.rule.priority, loud)


def silent(book: Book, alarm: Alarm, now: Reading) -> Second:
    """How long an alarm is still silenced."""
    return book.silence.left(alarm, now) if book.silence is not None else Second(0.0)


def _sounds(alarm: Alarm, sitting: Reading, before: Reading | None, now: Reading) -> bool:
    rule = alarm.rule
    if rule.silent or alarm.quiet:
        return False
    calls = _calls(alarm, stood(alarm, sitting, now))
    if before is None or before.since_boot < _begun(alarm, sitting, now):
        return True
    return calls > _calls(alarm, stood(alarm, sitting, before))


def _begun(alarm: Alarm, sitting: Reading, now: Reading) -> float:
    begun = alarm.row.recorded
    first = begun if same_boot(begun, now) else sitting
    return max(first.since_boot, sitting.since_boot)


def _calls(alarm: Alarm, since: Second) -> int:
    """How many bursts belong to so long a standing."""
    rule = alarm.rule
    if rule.every <= 0:
        return 1
    calls = 1 + floor(since / rule.every)
    return min(calls, rule.times) if rule.times else calls


def next_call(book: Book, sitting: Reading, now: Reading) -> float:
    """Time since boot at which the next burst is due or an alarm escalates, [s]."""
    return min((_next(alarm, sitting, now) for alarm in unanswered(book)), default=inf)


def _next(alarm: Alarm, sitting: Reading, now: Reading) -> float:
    rule, since = alarm.rule, stood(alarm, sitting, now)
    marks = [each for each in (rule.takeover, LOUDER, NOT_SEEN) if each is not None]
    if rule.takeover is None:
        marks = []
    if rule.every > 0:
        marks.append(Second((floor(since / rule.every) + 1) * rule.every))
    return _begun(alarm, sitting, now) + min((each for each in marks if each > since), default=inf)


def leading(book: Book) -> Alarm | None:
    """The alarm that the band shows."""
    return next(iter((*unanswered(book), *answered(book))), None)
