"""What the services need from outside; ``store`` and ``desktop`` fulfil it, ``app`` joins them."""

from collections.abc import Sequence
from typing import Protocol

from shopassist.core.frozen import frozen
from shopassist.core.quantities import UtcSecond
from shopassist.core.rows import Draft, Json, Reading, Row


class Journal(Protocol):
    """The append-only journal: the only truth."""

    def append(self, drafts: Sequence[Draft]) -> tuple[Row, ...]:
        """Commit all drafts in one transaction, stamped with one reading of the clock.

        Raises ``StoreError`` when nothing could be written, ``RefusedError`` when something would
        have happened after its recording; then nothing has moved.
        """
        ...

    def read(self, stream: str, after: int = 0) -> tuple[Row, ...]:
        """Rows of one stream whose ``stream_seq`` is above ``after``, in order."""
        ...

    def streams(self, prefix: str = "") -> tuple[str, ...]:
        """Names of the streams that begin so, oldest first."""
        ...

    def kinds(self, stream: str) -> frozenset[str]:
        """Kinds of the rows of a stream, unread: only for what is looked at more closely later."""
        ...


class CountedJournal(Journal, Protocol):
    """A journal that says whether a row was written since."""

    def newest(self) -> int:
        """Place of the newest row in the whole journal; 0 before the first."""
        ...


@frozen
class Heartbeat:
    """The last sign of life of a program on this journal."""

    reading: Reading
    running: bool
    """False once the program had ended in order."""
    seq: int
    """Newest row at that time."""


class SessionJournal(Journal, Protocol):
    """The journal as the session sees it: rows and the one overwritten heartbeat."""

    def heartbeat(self) -> Heartbeat | None:
        """The last heartbeat; None before the first, or where it cannot be believed."""
        ...

    def beat(self, reading: Reading, *, running: bool = True) -> None:
        """Overwrite the heartbeat."""
        ...

    def displaced(self) -> int:
        """``seq`` of the newest row that restored, copied or imported the data; 0 if none.

        What older rows say about a pot is not believed.
        """
        ...

    def tail(self, stream: str, count: int) -> tuple[Row, ...]:
        """The newest rows of a stream, in order."""
        ...


Sample = tuple[UtcSecond, float]


class Samples(Protocol):
    """Long series of a logger, kept beside the rows in blocks."""

    def append_block(self, draft: Draft, samples: Sequence[Sample]) -> Row:
        """Commit a block and the one row that holds its hash, in one transaction."""
        ...

    def tail(self, stream: str, count: int) -> tuple[Row, ...]:
        """The newest rows of a stream, in order."""
        ...

    def block(self, row: Row) -> tuple[Sample, ...]:
        """The block of a row; ``StoreError`` where it is not what the row says."""
        ...


KeptFold = tuple[str, int, Json]
"""Stream, the ``stream_seq`` up to which it was folded, and the result."""


class Folds(Protocol):
    """Kept results of folding a stream: derived, rebuildable, never evidence about a pot."""

    def load_folds(self, streams: Sequence[str], version: int) -> dict[str, object]:
        """Those results of this version that no later row has overtaken, by stream."""
        ...

    def save_folds(self, folds: Sequence[KeptFold], version: int) -> None:
        """Keep results; a failure to do so costs nothing and is not told."""
        ...


class KeptFolds(Journal, Folds, Protocol):
    """A journal that keeps results of folding its streams."""
