"""Alarms: causes gathered from the other services, compared with the log, told and sounded.

Nothing counts here. Causes carry instants, the log carries what was raised and answered; each
look at the clock compares the two. Instants are held on the time since boot, so that a wall clock
that is moved between two looks delays nothing.
"""

from collections.abc import Callable, Iterable, Sequence
from typing import Protocol

from shopassist.clock import Clock
from shopassist.core.alarms import calling
from shopassist.core.alarms.book import (
    ACKNOWLEDGED,
    GONE,
    NOT_SEEN,
    RAISED,
    SILENCED,
    STREAM,
    Alarm,
    Book,
    fold,
    fold_all,
    keys_body,
    raised_body,
)
from shopassist.core.alarms.calling import Sound, Stage
from shopassist.core.alarms.causes import Cause
from shopassist.core.alarms.table import SILENCE
from shopassist.core.errors import StoreError
from shopassist.core.frozen import frozen
from shopassist.core.quantities import Second
from shopassist.core.rows import Draft, Reading, Row
from shopassist.core.timeline import SLEW, SUSPENDED
from shopassist.services.hooks import Hook
from shopassist.services.ports import Journal

Source = Callable[[frozenset[str]], Iterable[Cause]]
"""Gives causes; is told which alarms stand, for dead-bands."""
TAIL = 400
"""Rows of the stream that are read at the start: an unsettled alarm is never so far back."""
GATHER = 60.0
"""Causes are gathered anew at least so often, [s]; at once when something has changed."""
WATCH = 10.0
"""The means to alarm are looked at so often, [s]."""


class AlarmJournal(Journal, Protocol):
    """The journal as the alarms see it."""

    def tail(self, stream: str, count: int) -> tuple[Row, ...]:
        """The newest rows of a stream, in order."""
        ...


@frozen
class Standing:
    """What the band shows: the gravest alarm, how far it has escalated, how many more."""

    alarm: Alarm
    cause: Cause | None
    """None where it has gone, or not come back after a restart."""
    stage: Stage
    more: int
    silent: Second
    """How long its sound is still held off."""


class AlarmService:
    """Raises, repeats, escalates; acknowledging and silencing are rows."""

    def __init__(
        self,
        journal: AlarmJournal,
        clock: Clock,
        sources: Sequence[Source],
        beat: Callable[[], None] | None = None,
        watched: Sequence[Source] = (),
    ) -> None:
        self.changed: Hook[None] = Hook()
        """What stands has changed, or how far it has escalated."""
        self.sounded: Hook[Sound] = Hook()
        """A burst is due now."""
        self.lost: Hook[StoreError] = Hook()
        """A row could not be written; it counts in memory and is tried again."""
        self._journal, self._clock, self._sources = journal, clock, tuple(sources)
        self._watched = tuple(watched)
        """Cheap to ask and asked often: the means to alarm."""
        self._dated: tuple[Cause, ...] = ()
        self._beat = beat or (lambda: None)
        self._book = Book()
        self._causes: tuple[Cause, ...] = ()
        self._owed: list[Draft] = []
        self._sitting = self._anchor = self._looked = clock.read()
        self._turn = self._call_at = self._watch_at = 0.0
        self._stale = self._first = True
        self._stage: Stage = "band"

    def start(self) -> None:
        """Read what stood when the program last ended."""
        self._book = fold_all(self._journal.tail(STREAM, TAIL))
        self._sitting = self._clock.read()

    def renew(self) -> None:
        """Something has changed: gather causes at the next look."""
        self._stale = True

    # -- looking ------------------------------------------------------------------------------

    @property
    def book(self) -> Book:
        """Everything that is not settled."""
        return self._book

    def standing(self) -> Standing | None:
        """What the band shows now; None where nothing stands."""
        alarm = calling.leading(self._book)
        if alarm is None:
            return None
        now = self._clock.read()
        stage = calling.stage(alarm, calling.stood(alarm, self._sitting, now))
        more = len(calling.unanswered(self._book)) - (not alarm.acknowledged)
        return Standing(
            alarm, self.cause(alarm.key), stage, max(0, more),
            calling.silent(self._book, alarm, now),
        )  # fmt: skip

    def silenced(self) -> bool:
        """Whether a silence may be running."""
        silence, now = self._book.silence, self._clock.read()
        return silence is not None and now.since_boot - silence.at.since_boot < SILENCE

    def cause(self, key: str) -> Cause | None:
        """The cause of an alarm that stands."""
        return next((each for each in self._causes if each.key == key), None)

    def soon(self, reach: float) -> bool:
        """Whether something medium or high falls due within reach, or calls now: stay awake."""
        now = self._scaled(self._clock.read())
        return any(each.rule.priority != "low" for each in calling.unanswered(self._book)) or any(
            calling.calls_within(each, now, reach) for each in self._causes
        )

    # -- each second ----------------------------------------------------------------------------

    def tick(self) -> None:
        """Look at the clock: raise what is due, sound, escalate. Cheap while nothing is."""
        now = self._clock.read()
        self._notice_jump(now)
        if self._due(now):
            self._compare(now)
            now = self._clock.read()
        if (
            now.since_boot >= self._call_at
            or self._first
            or now.since_boot < self._looked.since_boot
        ):
            self._call(now)
        self._looked, self._first = now, False

    def _notice_jump(self, now: Reading) -> None:
        """A wall clock that was moved, or a sleep: have it reconciled before comparing."""
        before = self._looked
        apart = now.since_boot - before.since_boot
        if apart > SUSPENDED or abs(now.utc - before.utc - apart) > SLEW or apart < 0:
            self._beat()
            self._stale = True

    def _due(self, now: Reading) -> bool:
        return self._old(now) or now.since_boot >= self._watch_at or self._scaled(now) >= self._turn

    def _old(self, now: Reading) -> bool:
        return self._stale or not 0 <= now.since_boot - self._anchor.since_boot < GATHER

    def _scaled(self, now: Reading) -> float:
        """Now on the scale of the gathered causes."""
        return self._anchor.utc + now.since_boot - self._anchor.since_boot

    def _compare(self, now: Reading) -> None:
        keys = self._book.keys()
        if self._old(now):
            self._stale, self._anchor = False, now
            self._dated = tuple(cause for source in self._sources for cause in source(keys))
        self._watch_at = now.since_boot + WATCH
        watched = (cause for source in self._watched for cause in source(keys))
        self._causes = (*self._dated, *watched)
        at = self._scaled(now)
        self._turn = calling.next_turn(self._causes, at)
        moved = calling.moved(self._causes, self._book, at)
        if not moved and not self._owed:
            return
        drafts = [
            Draft(STREAM, RAISED, raised_body(each.key, each.kind, each.begins, each.subject))
            for each in moved.raised
        ]
        if moved.gone:
            drafts.append(Draft(STREAM, GONE, keys_body(moved.gone)))
        self._commit(drafts)

    def _call(self, now: Reading) -> None:
        self._escalate(now)
        burst = calling.sound(self._book, self._sitting, None if self._first else self._looked, now)
        if burst is not None:
            self.sounded.emit(burst)
        self._call_at = calling.next_call(self._book, self._sitting, now)

    def _escalate(self, now: Reading) -> None:
        first = next(iter(calling.unanswered(self._book)), None)
        stage: Stage = "band"
        if first is not None:
            stage = calling.stage(first, calling.stood(first, self._sitting, now))
            if stage == "not seen" and not first.not_seen:
                self._commit([Draft(STREAM, NOT_SEEN, keys_body([first.key]))])
        if stage != self._stage:
            self._stage = stage
            self.changed.emit(None)

    # -- answers ----------------------------------------------------------------------------

    def acknowledge(self, key: str = "") -> None:
        """Record that somebody saw it; without a key, the one that leads."""
        alarm = self._book.alarms.get(key) if key else calling.leading(self._book)
        if alarm is not None and not alarm.acknowledged:
            self._commit([Draft(STREAM, ACKNOWLEDGED, keys_body([alarm.key]))])

    def silence(self) -> None:
        """Hold the sound off for a while; whatever is raised meanwhile sounds all the same."""
        keys = [alarm.key for alarm in calling.unanswered(self._book)]
        if keys:
            self._commit([Draft(STREAM, SILENCED, keys_body(keys))])

    # -- the one way it changes -----------------------------------------------------------------

    def _commit(self, drafts: Sequence[Draft]) -> None:
        """Write the rows, then fold and tell; an alarm that cannot be written calls all the same.

        What could not be written counts in memory and is tried again with the next row.
        """
        try:
            rows = self._journal.append([*self._owed, *drafts])
            rows = rows[len(self._owed) :]
            self._owed = []
        except StoreError as error:
            self._owed += drafts
            rows = tuple(self._unwritten(draft) for draft in drafts)
            self.lost.emit(error)
        for row in rows:
            self._book = fold(self._book, row)
        self._call_at = 0.0
        if drafts:
            self.changed.emit(None)

    def _unwritten(self, draft: Draft) -> Row:
        now = self._clock.read()
        return Row(0, draft.stream, 0, draft.kind, draft.version, now, now.utc, draft.body, "")
