"""One short line for every batch, read in slices, so that ten years are searched at once."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace

from shopassist.core.batch import Batch
from shopassist.core.frozen import frozen
from shopassist.core.quantities import UtcSecond
from shopassist.core.rows import Row
from shopassist.services.batches import BatchService
from shopassist.services.hooks import Hook
from shopassist.services.ports import ScannedJournal

PREFIX = "batch/"
SLICE = 400
"""Rows a step: a few milliseconds, so that nothing stalls."""
KINDS = ("opened", "named", "sheet", "entry", "outcome", "note", "next_time", "removed")


@frozen
class LogLine:
    """What the log's filters need to know about a batch."""

    id: str
    name: str = ""
    opened: UtcSecond = UtcSecond(0.0)
    sheet: tuple[str, int] | None = None
    outcome: str = ""
    removed: bool = False
    words: tuple[str, ...] = ()
    """Notes, entries and the line for next time, as typed."""


@dataclass(slots=True)
class Question:
    """What is looked for."""

    words: str = ""
    outcomes: frozenset[str] = frozenset()
    """Empty: any. ``"open"`` stands for none yet."""
    removed: bool = False
    """True to see removed ones too."""


@dataclass(slots=True)
class LogIndex:
    """Lines of all batches, kept up while batches change."""

    journal: ScannedJournal
    batches: BatchService
    sheet_name: Callable[[tuple[str, int]], str]
    changed: Hook[None] = field(default_factory=Hook)
    _lines: dict[str, LogLine] = field(default_factory=dict)
    _order: list[str] = field(default_factory=list)
    _text: dict[str, str] = field(default_factory=dict)
    _after: int = 0
    _whole: bool = False

    def __post_init__(self) -> None:
        self.batches.changed.connect(self._follow)

    @property
    def whole(self) -> bool:
        """True once every batch has been read."""
        return self._whole

    def step(self) -> bool:
        """Read one slice; True while there is more."""
        if self._whole:
            return False
        rows = self.journal.scan(PREFIX, KINDS, self._after, SLICE)
        for row in rows:
            self._take(row)
            self._after = row.seq
        if len(rows) < SLICE:
            self._whole = True
            self.changed.emit(None)
        return not self._whole

    def read_all(self) -> None:
        """Read what is left in one go."""
        while self.step():
            pass

    def _take(self, row: Row) -> None:
        batch_id = row.stream.removeprefix(PREFIX)
        line = self._lines.get(batch_id)
        if line is None:
            line = LogLine(batch_id)
            self._order.append(batch_id)
        self._put(_stepped(line, row))

    def _put(self, line: LogLine) -> None:
        self._lines[line.id] = line
        self._text.pop(line.id, None)

    def _follow(self, batch_id: str) -> None:
        """A batch changed here and now: take it from its fold."""
        if batch_id not in self._lines:
            if not self._whole:
                return
            self._order.append(batch_id)
        self._put(line_of(self.batches.get(batch_id)))

    def line(self, batch_id: str) -> LogLine:
        """One batch's line."""
        return self._lines[batch_id]

    def find(self, asked: Question) -> tuple[str, ...]:
        """Ids that answer the question, newest first; every word must be there."""
        words = asked.words.casefold().split()
        return tuple(each for each in reversed(self._order) if self._answers(each, asked, words))

    def _answers(self, batch_id: str, asked: Question, words: Iterable[str]) -> bool:
        line = self._lines[batch_id]
        if line.removed and not asked.removed:
            return False
        if asked.outcomes and (line.outcome or "open") not in asked.outcomes:
            return False
        text = self._text.get(batch_id)
        if text is None:
            sheet = self.sheet_name(line.sheet) if line.sheet else ""
            text = " ".join((line.name, line.outcome, sheet, *line.words)).casefold()
            self._text[batch_id] = text
        return all(word in text for word in words)


def line_of(batch: Batch) -> LogLine:
    """Build the line of a folded batch."""
    words = (*batch.notes, *(each.text for each in batch.entries.values()), *batch.reasons,
             batch.next_time)  # fmt: skip
    return LogLine(
        batch.id, batch.name, batch.opened, batch.sheet, batch.outcome, batch.removed, words
    )


def _stepped(line: LogLine, row: Row) -> LogLine:
    text = str(row.body.get("text") or "")
    match row.kind:
        case "opened":
            return replace(line, name=str(row.body.get("name", "")), opened=row.happened)
        case "named":
            return replace(line, name=str(row.body.get("name", "")))
        case "sheet":
            record, version = row.body.get("record"), row.body.get("version")
            known = isinstance(record, str) and record and isinstance(version, int)
            return replace(line, sheet=(str(record), int(str(version))) if known else None)
        case "outcome":
            return replace(line, outcome=str(row.body.get("outcome", "")))
        case "removed":
            return replace(line, removed=row.body.get("removed") is not False)
        case _:
            return replace(line, words=(*line.words, text)) if text else line
