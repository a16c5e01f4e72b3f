"""One short line for every batch, kept between sittings: ten years are searched at once."""

from bisect import bisect_right
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import accumulate
from typing import overload
from unicodedata import combining, normalize

from shopassist.core.batch import Batch
from shopassist.core.batch_fold import fold_all
from shopassist.core.compare import Comparison, Tally, Traits
from shopassist.core.frozen import frozen
from shopassist.core.places import downward, set_of
from shopassist.services.batches import PREFIX, BatchService
from shopassist.services.hooks import Hook
from shopassist.services.log_line import LINE_VERSION, LogLine, json_of, line_from, line_of
from shopassist.services.log_words import Words
from shopassist.services.ports import KeptFold, KeptFolds

SLICE = 100
"""Lines a step, where they were kept: a few milliseconds, so that nothing stalls."""
ROWS = 200
"""Rows a step, where a batch has to be read because it changed since; ours, for the same reason."""
BLOCK = 1024
"""Places that are written out at once when one of them comes into sight."""


@dataclass(slots=True)
class Question:
    """What is looked for."""

    words: str = ""
    outcomes: frozenset[str] = frozenset()
    """Empty: any. ``"open"`` stands for none yet."""
    removed: bool = False
    """True to see removed ones too."""


class Found(Sequence[str]):
    """Ids that answer a question, newest first; only those in sight are ever written out."""

    def __init__(self, order: Sequence[str], who: int) -> None:
        self._order = order
        self.who = who
        """The places in the order of opening, as a set."""
        self._ends: list[int] = []
        self._blocks: dict[int, list[int]] = {}

    def __len__(self) -> int:
        return self.who.bit_count()

    @overload
    def __getitem__(self, number: int) -> str: ...
    @overload
    def __getitem__(self, number: slice) -> Sequence[str]: ...
    def __getitem__(self, number: int | slice) -> str | Sequence[str]:
        """One id, or some in their order."""
        if isinstance(number, slice):
            return tuple(self[each] for each in range(*number.indices(len(self))))
        if number < 0:
            number += len(self)
        ends = self._counted()
        block = bisect_right(ends, number)
        if number < 0 or block == len(ends):
            raise IndexError(number)
        before = ends[block - 1] if block else 0
        return self._order[self._block(block)[number - before]]

    def __iter__(self) -> Iterator[str]:
        """Every id, newest first."""
        for block in range(len(self._counted())):
            for place in self._block(block):
                yield self._order[place]

    def row(self, place: int) -> int:
        """In which row a place stands; -1 where it is not among these."""
        return (self.who >> (place + 1)).bit_count() if self.who >> place & 1 else -1

    def _counted(self) -> list[int]:
        """How many have come by the end of each block, from the newest one on."""
        if not self._ends:
            blocks = range(-(-self.who.bit_length() // BLOCK))
            self._ends = [*accumulate(self._bits(each).bit_count() for each in blocks)]
        return self._ends

    def _bits(self, block: int) -> int:
        return self.who >> self._first(block) & ((1 << BLOCK) - 1)

    def _first(self, block: int) -> int:
        return (-(-self.who.bit_length() // BLOCK) - 1 - block) * BLOCK

    def _block(self, block: int) -> list[int]:
        if block not in self._blocks:
            first = self._first(block)
            self._blocks[block] = [first + each for each in downward(self._bits(block))]
        return self._blocks[block]


@frozen
class Compared:
    """Two sides of a comparison, by number, and what came of it."""

    ones: int
    others: int
    result: Comparison


@dataclass(slots=True)
class LogIndex:
    """Lines of all batches: those kept are taken as they are, the others read, newest first."""

    journal: KeptFolds
    batches: BatchService
    sheet_name: Callable[[tuple[str, int]], str]
    traits: Callable[[Batch], Traits]
    ages: Callable[[Batch], Mapping[str, float]]
    changed: Hook[None] = field(default_factory=Hook)
    read: int = 0
    """Rows of batches that had to be read because nothing current was kept of them."""
    _order: list[str] = field(default_factory=list)
    _place: dict[str, int] = field(default_factory=dict)
    _lines: list[LogLine | None] = field(default_factory=list)
    _words: Words = field(default_factory=Words)
    _outcomes: dict[str, int] = field(default_factory=dict)
    _removed: int = 0
    _tally: Tally = field(default_factory=Tally)
    _left: int = 0
    """Batches that are not read yet, the oldest ones."""

    def __post_init__(self) -> None:
        for batch_id in self.batches.ids():
            self._add(batch_id)
        self._left = len(self._order)
        self.batches.changed.connect(self._follow)

    def _add(self, batch_id: str) -> None:
        self._place[batch_id] = len(self._order)
        self._order.append(batch_id)
        self._lines.append(None)

    # -- reading -------------------------------------------------------------------------------

    @property
    def whole(self) -> bool:
        """True once every batch has been read."""
        return self._left == 0

    def step(self) -> bool:
        """Read one slice; True while there is more."""
        if self._left == 0:
            return False
        streams = [PREFIX + each for each in self._order[max(0, self._left - SLICE) : self._left]]
        kept = self.journal.load_folds(streams, LINE_VERSION)
        fresh: list[KeptFold] = []
        texts: dict[int, str] = {}
        upto = self.read + ROWS
        for stream in reversed(streams):
            if self.read >= upto:
                break
            line = self._read(stream, kept, fresh)
            texts[self._place[line.id]] = self._put(line)
            self._left -= 1
        self._words.take(texts)
        self.journal.save_folds(fresh, LINE_VERSION)
        if self._left == 0:
            self.changed.emit(None)
        return self._left > 0

    def read_all(self) -> None:
        """Read what is left in one go."""
        while self.step():
            pass

    def _read(self, stream: str, kept: dict[str, object], fresh: list[KeptFold]) -> LogLine:
        batch_id = stream.removeprefix(PREFIX)
        found = kept.get(stream)
        if isinstance(found, dict):
            return line_from(batch_id, found)
        rows = self.journal.read(stream)
        self.read += len(rows)
        line = self._line_of(fold_all(batch_id, rows))
        fresh.append((stream, len(rows), json_of(line)))
        return line

    def _line_of(self, batch: Batch) -> LogLine:
        return line_of(batch, self.traits(batch), self.ages(batch))

    def _follow(self, batch_id: str) -> None:
        """A batch changed here and now: take it from its fold."""
        if batch_id not in self._place:
            self._add(batch_id)
        line = self._line_of(self.batches.get(batch_id))
        self._words.take({self._place[batch_id]: self._put(line)})

    def _put(self, line: LogLine) -> str:
        """Put a line in its place; gives what can be searched of it."""
        place = self._place[line.id]
        bit = 1 << place
        earlier = self._lines[place]
        if earlier is not None:
            self._outcomes[earlier.outcome] &= ~bit
        self._outcomes[line.outcome] = self._outcomes.get(line.outcome, 0) | bit
        self._removed = self._removed | bit if line.removed else self._removed & ~bit
        self._tally.put(place, line.traits)
        self._lines[place] = line
        sheet = self.sheet_name(line.sheet) if line.sheet else ""
        return _folded("\n".join((line.name, line.outcome, sheet, *line.words)))

    # -- asking ----------------------------------------------------------------------------------

    def line(self, batch_id: str) -> LogLine | None:
        """One batch's line; None while it is not read yet."""
        return self._lines[self._place[batch_id]]

    def place(self, batch_id: str) -> int:
        """Where a batch stands in the order of opening."""
        return self._place[batch_id]

    def all(self) -> Found:
        """Every batch, read or not."""
        return Found(self._order, (1 << len(self._order)) - 1)

    def find(self, asked: Question) -> Found:
        """Batches that answer the question, newest first; every word must be there."""
        some = self._asked_for(asked)
        for word in _folded(asked.words).split():
            some &= self._words.having(word)
        return Found(self._order, some)

    def _asked_for(self, asked: Question) -> int:
        """The batches that pass the filters, as a set of places."""
        some = 0
        for outcome, who in self._outcomes.items():
            if not asked.outcomes or (outcome or "open") in asked.outcomes:
                some |= who
        return some if asked.removed else some & ~self._removed

    def compare(self, among: Found, marked: Collection[str]) -> Compared:
        """What the marked ones share, else the spoiled ones, and fewest of the others have."""
        seen = among.who
        if marked:
            ones = set_of(self._place[each] for each in marked) & seen
            others = seen & ~ones
        else:
            ones = self._outcomes.get("spoiled", 0) & seen
            well = self._outcomes.get("good", 0) | self._outcomes.get("usable", 0)
            others = well & seen
        return Compared(ones.bit_count(), others.bit_count(), self._tally.compare(ones, others))

    def lines(self) -> Iterable[LogLine]:
        """The lines that were read, the oldest batch first."""
        return (line for line in self._lines if line is not None)

    def newest(self) -> Iterable[LogLine]:
        """The lines that were read, the newest batch first."""
        return (line for line in reversed(self._lines) if line is not None)


def _folded(words: str) -> str:
    """Words as they are compared: capitals and accents make no difference, typed or left out."""
    small = words.casefold()
    if small.isascii():
        return small
    parts = normalize("NFKD", small)
    return normalize("NFC", "".join(each for each in parts if not combining(each)))
