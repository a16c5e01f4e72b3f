"""One run of the program: its heartbeat, what happened to the clocks, and elapsed time."""

from typing import Literal

from shopassist.clock import Clock
from shopassist.core import timeline
from shopassist.core.errors import RefusedError, StoreError
from shopassist.core.quantities import Second
from shopassist.core.rows import Draft, Json, Reading, Row
from shopassist.core.timeline import STREAM, Elapsed, Finding, Timeline
from shopassist.services.hooks import Hook
from shopassist.services.ports import SessionJournal

__all__ = ["BEAT_EVERY", "Elapsed", "Finding", "Session"]

BEAT_EVERY = Second(10.0)
"""How often ``beat`` is called while nothing else happens, [s]."""
TAIL = 200
"""Rows of the stream that are read at the start; the rest when an old wait asks for it."""

After = Literal["first", "quit", "crash"]


class Session:
    """Keeps the heartbeat, journals what it finds out about the clocks, measures waits."""

    def __init__(self, journal: SessionJournal, clock: Clock) -> None:
        self.findings: Hook[tuple[Finding, ...]] = Hook()
        """Told after they were written, or after writing failed: a doubt is never held back."""
        self.trouble: Hook[StoreError] = Hook()
        """Told when the session could not write; the rows are tried again at the next beat."""
        self.after: After = "first"
        """How the program ended last time."""
        self.well = True
        """Whether the last row or heartbeat could be written."""
        self._journal = journal
        self._clock = clock
        self._last: Reading | None = None
        self._owed: list[Draft] = []
        self._line = Timeline()
        self._oldest = 0

    def start(self) -> tuple[Finding, ...]:
        """Reconcile with the last heartbeat and journal the start; returns what was found."""
        rows = self._journal.tail(STREAM, TAIL)
        self._line = timeline.fold_all(rows)
        self._oldest = rows[0].seq if rows else 0
        now = self._clock.read()
        before = self._last_sign(rows)
        found = timeline.reconcile(before, now, running=False) if before else ()
        body: dict[str, Json] = {"after": self.after}
        if before is not None:
            body["before"] = timeline.reading_body(before)
            # Ahead of the start itself: how the wall clock stood last, also after a small step.
            self._line = timeline.note(self._line, before)
        self._take(now, [Draft(STREAM, "started", body)], found)
        return found

    def _last_sign(self, rows: tuple[Row, ...]) -> Reading | None:
        """Return the last reading known of an earlier run: heartbeat or row, the later one."""
        beat = self._journal.heartbeat()
        if beat is None:
            self.after = "crash" if any(row.kind == "started" for row in rows) else "first"
            return rows[-1].recorded if self.after == "crash" else None
        self.after = "crash" if beat.running else "quit"
        return beat.reading

    def beat(self) -> None:
        """Look at the clocks; every ``BEAT_EVERY`` and at each event. Never raises."""
        now = self._clock.read()
        if self._last is None:
            return
        self._take(now, [], timeline.reconcile(self._last, now, running=True))

    def end(self) -> None:
        """Say that the program ends in order."""
        self.beat()
        if self._last is None:
            return
        try:
            self._journal.beat(self._last, running=False)
        except StoreError as error:
            self.trouble.emit(error)
        self._last = None

    def _take(self, now: Reading, drafts: list[Draft], found: tuple[Finding, ...]) -> None:
        self._last = now
        self._line = timeline.note(self._line, now)
        self._owed += [*drafts, *(Draft(STREAM, one.kind, one.body) for one in found)]
        try:
            if self._owed:
                self._journal.append(self._owed)
                self._owed = []
            self._journal.beat(now)
            self.well = True
        except StoreError as error:
            self.well = False
            self.trouble.emit(error)
        if found:
            self.findings.emit(found)

    # -- elapsed time ------------------------------------------------------------------

    def elapsed(self, row: Row, now: Reading | None = None) -> Elapsed:
        """Return the time since a row happened."""
        return self._since(row, now if now is not None else self._clock.read())

    def between(self, earlier: Row, later: Row) -> Elapsed:
        """Return the time from one row's happening to a later one's."""
        whole = self._since(earlier, later.recorded)
        back = later.recorded.utc - later.happened
        low, likely, high = (max(0.0, s - back) for s in (whole.low, whole.likely, whole.high))
        return Elapsed(Second(low), Second(likely), Second(high))

    def apart(self, begun: Row, row: Row) -> Elapsed:
        """Time from one row's happening to another's; negative where it was before.

        By the clocks of both recordings: a wall clock that was moved between them changes nothing.
        """
        back = (begun.recorded.utc - begun.happened) - (row.recorded.utc - row.happened)
        if row.seq >= begun.seq:
            span = self._bare(begun, row.recorded)
            ends = (span.low + back, span.likely + back, span.high + back)
        else:
            span = self._bare(row, begun.recorded)
            ends = (back - span.high, back - span.likely, back - span.low)
        return Elapsed(*map(Second, ends))

    def _bare(self, row: Row, now: Reading) -> Elapsed:
        """Time since a row was recorded."""
        if row.seq < self._oldest and not timeline.same_boot(row.recorded, now):
            self._read_all()
        return timeline.elapsed(row.recorded, now, self._line)

    def _since(self, row: Row, now: Reading) -> Elapsed:
        back = Second(max(0.0, row.recorded.utc - row.happened))
        return self._bare(row, now).plus(Elapsed(back, back, back))

    def _read_all(self) -> None:
        line = timeline.fold_all(self._journal.read(STREAM))
        self._line = timeline.note(line, self._last) if self._last is not None else line
        self._oldest = 0

    # -- what the user says about a doubt -------------------------------------------------

    def settle(self, off: Second) -> None:
        """Take the user's word for how long the machine was off before it was last started."""
        now = self._clock.read()
        if not 0 <= off < timeline.LATEST - timeline.EARLIEST:
            raise RefusedError("That is no length of time.", field="clock.off")
        body: dict[str, Json] = {"boot_id": now.boot_id, "gap": float(off)}
        for row in self._journal.append([Draft(STREAM, "clock_settled", body)]):
            self._line = timeline.fold(self._line, row)
