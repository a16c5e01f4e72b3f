"""What the services need from outside; ``store`` and ``desktop`` fulfil it, ``app`` joins them."""

from collections.abc import Sequence
from typing import Protocol

from shopassist.core.rows import Draft, Row


class Journal(Protocol):
    """The append-only journal: the only truth."""

    def append(self, drafts: Sequence[Draft]) -> tuple[Row, ...]:
        """Commit all drafts in one transaction, stamped with one reading of the clock.

        Raises ``StoreError`` when nothing could be written; then nothing has moved.
        """
        ...

    def read(self, stream: str, after: int = 0) -> tuple[Row, ...]:
        """Rows of one stream whose ``stream_seq`` is above ``after``, in order."""
        ...

    def streams(self, prefix: str = "") -> tuple[str, ...]:
        """Names of the streams that begin so, oldest first."""
        ...
