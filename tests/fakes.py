"""Hand-written fakes of the ports, for tests of the services."""

from collections.abc import Sequence

from shopassist.core.errors import StoreError
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Draft, Json, Reading, Row
from shopassist.services.ports import KeptFold

START = 1_790_000_000.0
"""Some instant in September 2026; the tests move on from it."""


class HandClock:
    """Both clocks, moved by hand."""

    def __init__(self, utc: float = START, offset: int = 3600) -> None:
        self.utc = utc
        self.since_boot = 1000.0
        self.offset = offset

    def read(self) -> Reading:
        return Reading(UtcSecond(self.utc), Second(self.since_boot), "boot-1", Second(self.offset))

    def offset_at(self, utc: float) -> int:
        return self.offset

    def advance(self, seconds: float) -> None:
        self.utc += seconds
        self.since_boot += seconds


class MemoryJournal:
    """A journal that forgets everything at the end of the test, and can refuse to write."""

    def __init__(self, clock: HandClock) -> None:
        self.clock = clock
        self.rows: list[Row] = []
        self.full = False
        self.folds: dict[str, tuple[int, int, Json]] = {}

    def append(self, drafts: Sequence[Draft]) -> tuple[Row, ...]:
        if self.full:
            raise StoreError("The disk is full.")
        reading = self.clock.read()
        new: list[Row] = []
        for draft in drafts:
            before = [*self.rows, *new]
            number = sum(1 for row in before if row.stream == draft.stream) + 1
            happened = reading.utc if draft.happened is None else draft.happened
            new.append(
                Row(
                    len(before) + 1,
                    draft.stream,
                    number,
                    draft.kind,
                    draft.version,
                    reading,
                    happened,
                    draft.body,
                    "",
                )
            )
        self.rows += new
        return tuple(new)

    def read(self, stream: str, after: int = 0) -> tuple[Row, ...]:
        return tuple(row for row in self.rows if row.stream == stream and row.stream_seq > after)

    def streams(self, prefix: str = "") -> tuple[str, ...]:
        found = (row.stream for row in self.rows if row.stream.startswith(prefix))
        return tuple(dict.fromkeys(found))

    def kinds(self, stream: str) -> frozenset[str]:
        return frozenset(row.kind for row in self.rows if row.stream == stream)

    def load_folds(self, streams: Sequence[str], version: int) -> dict[str, object]:
        return {
            stream: result
            for stream, (kept_version, upto, result) in self.folds.items()
            if stream in streams and kept_version == version and upto == len(self.read(stream))
        }

    def save_folds(self, folds: Sequence[KeptFold], version: int) -> None:
        self.folds |= {stream: (version, upto, result) for stream, upto, result in folds}


class MemoryState:
    """Window state in a dictionary."""

    def __init__(self) -> None:
        self.kept: dict[str, str] = {}

    def get(self, key: str) -> str:
        return self.kept.get(key, "")

    def put(self, key: str, value: str) -> None:
        self.kept[key] = value
