"""Clocks of one's own: started, running, ended; nothing counts down here."""

from collections.abc import Iterator
from math import ceil

from shopassist.clock import Clock
from shopassist.core.alarms import causes
from shopassist.core.alarms.causes import Cause, Whose
from shopassist.core.errors import RefusedError
from shopassist.core.frozen import frozen
from shopassist.core.messages import Moment, say
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Draft, Json
from shopassist.core.waits import ENDED, LONGEST, STARTED, STREAM, Wait, fold, fold_all
from shopassist.services.hooks import Hook
from shopassist.services.next import Due, Rank
from shopassist.services.ports import Journal
from shopassist.services.session import Session
from shopassist.services.warmth import within_reason


@frozen
class Running:
    """A clock with its instants: a doubted clock opens it later and closes it earlier."""

    wait: Wait
    opens: UtcSecond
    closes: UtcSecond | None

    def next(self, now: float) -> UtcSecond:
        """What its digits count to."""
        if self.closes is not None and now >= self.opens:
            return self.closes
        return self.opens


class WaitService:
    """All clocks of one's own."""

    def __init__(self, journal: Journal, clock: Clock, session: Session) -> None:
        self.changed: Hook[None] = Hook()
        self._journal, self._clock, self._session = journal, clock, session
        self._waits: tuple[Wait, ...] | None = None

    def _all(self) -> tuple[Wait, ...]:
        if self._waits is None:
            self._waits = fold_all(self._journal.read(STREAM))
        return self._waits

    def running(self) -> tuple[Running, ...]:
        """Clocks that run, the soonest first."""
        now = self._clock.read()
        found = []
        for wait in self._all():
            span = self._session.elapsed(wait.row, now)
            opens = UtcSecond(now.utc + wait.opens - span.low)
            closes = None
            if wait.closes is not None:
                closes = UtcSecond(now.utc + wait.closes - within_reason(span))
            found.append(Running(wait, opens, closes))
        return tuple(sorted(found, key=lambda each: each.next(now.utc)))

    def start(self, what: str, opens: Second, closes: Second | None = None) -> None:
        """Start a clock; it opens and closes so long from now."""
        if not what.strip():
            raise RefusedError("Say what the clock is for.", field="cure.form.what")
        if not 0 <= opens <= LONGEST:
            raise RefusedError("That is no length of time.", field="cure.form.after")
        if closes is not None and closes <= opens:
            raise RefusedError("It closes before it opens.", field="cure.form.before")
        body: dict[str, Json] = {"what": what.strip(), "opens": float(opens)}
        if closes is not None:
            body["closes"] = float(closes)
        self._commit(Draft(STREAM, STARTED, body))

    def end(self, wait_id: str) -> None:
        """It is done, or no longer wanted; the rows stay."""
        if any(each.id == wait_id for each in self._all()):
            self._commit(Draft(STREAM, ENDED, {"wait": wait_id}))

    def _commit(self, draft: Draft) -> None:
        waits = self._all()
        for row in self._journal.append([draft]):
            waits = fold(waits, row)
        self._waits = waits
        self.changed.emit(None)

    # -- what they call for ----------------------------------------------------------------

    def causes(self, _: frozenset[str] = frozenset()) -> Iterator[Cause]:
        """Windows are called for when they open and before they close."""
        for each in self.running():
            whose = Whose(each.wait.id, each.wait.what, "cure")
            if each.closes is None:
                over = say("over since {gate}", gate=Moment(each.opens))
                yield causes.release(whose, "wait_over", each.opens, over)
            else:
                yield from causes.window(whose, each.opens, each.closes)

    def dues(self) -> Iterator[Due]:
        """For the next line."""
        now = self._clock.read().utc
        for each in self.running():
            gate = each.next(now)
            closing = each.closes is not None and gate == each.closes
            words = "{what} before {gate}" if closing else "{what} from {gate}"
            shown = gate if closing else ceil(gate / 60) * 60
            event = say(words, what=each.wait.what, gate=Moment(shown))
            rank = Rank.HAZARD if closing else Rank.RELEASE
            if gate <= now:
                rank = Rank.LATER
            yield Due(event, gate, None, rank, "cure", "", "")
