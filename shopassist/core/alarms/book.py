"""What the log says of alarms: raised, acknowledged, silenced, gone, not seen.

Silencing stops the sound for a while, acknowledging says that somebody saw it, and neither makes
the cause go away: three rows, three facts.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import field
from typing import cast

from shopassist.core.alarms.table import SILENCE, TABLE, Kind, Rule
from shopassist.core.frozen import frozen, replace
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Body, Json, Reading, Row
from shopassist.core.timeline import same_boot

STREAM = "alarms"
RAISED, ACKNOWLEDGED, SILENCED, GONE, NOT_SEEN = (
    "alarm_raised", "alarm_acknowledged", "alarm_silenced", "alarm_gone", "alarm_not_seen",
)  # fmt: skip
CHATTER = Second(600.0)
"""Raised again within this, an alarm under high does not sound anew; ours."""
LOW_ONCE = Second(12 * 3600.0)
"""The same low alarm is sounded once in so long; ours."""
TOLD_LATE = Second(10.0)
"""From so much on, lateness is said; ours."""


@frozen
class Alarm:
    """One alarm that was raised and is not settled yet."""

    key: str
    kind: Kind
    row: Row
    """The row that raised it."""
    due: UtcSecond
    """When its cause began."""
    acknowledged: bool = False
    gone: UtcSecond | None = None
    """When its cause went away."""
    not_seen: bool = False
    quiet: bool = False
    """Raised again so soon that it does not sound anew."""

    @property
    def rule(self) -> Rule:
        """Its line of the table."""
        return TABLE[self.kind]

    @property
    def owner(self) -> str:
        """Whose it is."""
        return self.key.partition("/")[2]

    @property
    def late(self) -> Second:
        """How long after its cause began it was raised."""
        return Second(max(0.0, self.row.recorded.utc - self.due))


@frozen
class Silence:
    """Sound held off for some alarms; ends by itself."""

    at: Reading
    keys: frozenset[str]

    def left(self, alarm: Alarm, now: Reading) -> Second:
        """How long it still holds for an alarm; another start of the machine ends it."""
        gone = now.since_boot - self.at.since_boot
        length = min(SILENCE, alarm.rule.silence)
        if alarm.key not in self.keys or not same_boot(self.at, now) or gone < 0:
            return Second(0.0)
        return Second(max(0.0, length - gone))


@frozen
class Book:
    """All alarms that are not settled, and when each was raised last."""

    alarms: Mapping[str, Alarm] = field(default_factory=dict)
    raised: Mapping[str, Reading] = field(default_factory=dict)
    silence: Silence | None = None

    def standing(self, key: str) -> bool:
        """Whether an alarm stands with its cause there."""
        found = self.alarms.get(key)
        return found is not None and found.gone is None

    def keys(self) -> frozenset[str]:
        """Alarms whose cause is there."""
        return frozenset(key for key in self.alarms if self.standing(key))


def fold(book: Book, row: Row) -> Book:
    """Take one more row into account; an unknown kind changes nothing."""
    step = _STEPS.get(row.kind)
    return step(book, row) if step is not None else book


def fold_all(rows: Iterable[Row]) -> Book:
    """Fold a stream."""
    book = Book()
    for row in rows:
        book = fold(book, row)
    return book


def raised_body(key: str, kind: Kind, due: UtcSecond, subject: str) -> Body:
    """What the row of a raised alarm says."""
    return {"key": key, "alarm": kind, "due": float(due), "subject": subject}


def keys_body(keys: Iterable[str]) -> Body:
    """What the rows about several alarms say."""
    return {"keys": cast("list[Json]", sorted(keys))}


def _raised(book: Book, row: Row) -> Book:
    key, kind = str(row.body.get("key", "")), row.body.get("alarm")
    if kind not in TABLE:
        return book
    known = cast("Kind", kind)
    due = UtcSecond(float(cast("float", row.body.get("due", row.recorded.utc))))
    alarm = Alarm(key, known, row, due, quiet=_quiet(book, key, known, row.recorded))
    alarms = {**book.alarms, key: alarm}
    return replace(book, alarms=alarms, raised={**book.raised, key: row.recorded})


def _quiet(book: Book, key: str, kind: Kind, now: Reading) -> bool:
    """Whether this one was sounded so lately that it only shows."""
    before, priority = book.raised.get(key), TABLE[kind].priority
    if before is None or priority == "high":
        return False
    apart = (
        now.since_boot - before.since_boot if same_boot(before, now) else now.utc - before.utc
    )  # fmt: skip
    return 0 <= apart < (LOW_ONCE if priority == "low" else CHATTER)


def _acknowledged(book: Book, row: Row) -> Book:
    return _each(book, row, lambda alarm: replace(alarm, acknowledged=True))


def _gone(book: Book, row: Row) -> Book:
    return _each(book, row, lambda alarm: replace(alarm, gone=row.happened))


def _not_seen(book: Book, row: Row) -> Book:
    return _each(book, row, lambda alarm: replace(alarm, not_seen=True))


def _silenced(book: Book, row: Row) -> Book:
    return replace(book, silence=Silence(row.recorded, frozenset(_keys(row))))


def _keys(row: Row) -> tuple[str, ...]:
    keys = row.body.get("keys")
    return tuple(str(key) for key in keys) if isinstance(keys, list) else ()


def _each(book: Book, row: Row, change: Callable[[Alarm], Alarm]) -> Book:
    """Change the named alarms; what is then settled is put away."""
    alarms = dict(book.alarms)
    for key in _keys(row):
        alarm = alarms.get(key)
        if alarm is not None:
            alarms[key] = change(alarm)
    kept = {key: alarm for key, alarm in alarms.items() if not _settled(alarm)}
    return replace(book, alarms=kept)


def _settled(alarm: Alarm) -> bool:
    """Its cause has gone, and nobody need have seen it or somebody has."""
    return alarm.gone is not None and (alarm.acknowledged or not alarm.rule.latches)


_STEPS = {
    RAISED: _raised,
    ACKNOWLEDGED: _acknowledged,
    SILENCED: _silenced,
    GONE: _gone,
    NOT_SEEN: _not_seen,
}
