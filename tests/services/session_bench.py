"""A session on the real journal and a hand-moved clock; and a journal that can refuse."""

from collections.abc import Sequence

from shopassist.clock.manual import ManualClock
from shopassist.core.errors import StoreError
from shopassist.core.quantities import UtcSecond
from shopassist.core.rows import Draft, Reading, Row
from shopassist.services.session import Session
from shopassist.store.journal import SqliteJournal


def started(journal: SqliteJournal, clock: ManualClock) -> Session:
    session = Session(journal, clock)
    session.start()
    clock.moved = session.beat
    return session


def kinds(journal: SqliteJournal) -> list[str]:
    return [row.kind for row in journal.read("shop")]


def wait(journal: SqliteJournal, happened: UtcSecond | None = None) -> Row:
    return journal.append([Draft("batch/1", "hardener_in", {}, happened)])[0]


class Refusing:
    """The journal, but it can be told to write nothing."""

    def __init__(self, journal: SqliteJournal) -> None:
        self._journal = journal
        self.full = False
        self.heartbeat = journal.heartbeat
        self.tail = journal.tail
        self.read = journal.read
        self.streams = journal.streams
        self.kinds = journal.kinds
        self.displaced = journal.displaced

    def append(self, drafts: Sequence[Draft]) -> tuple[Row, ...]:
        if self.full:
            raise StoreError("The disk is full.")
        return self._journal.append(drafts)

    def beat(self, reading: Reading, *, running: bool = True) -> None:
        if self.full:
            raise StoreError("The disk is full.")
        self._journal.beat(reading, running=running)
