"""Entries of a pane that belong to the batch in hand: drafts here, committed ones in its rows."""

from collections.abc import Callable, Mapping
from dataclasses import replace

from shopassist.core.batch import Batch, Typed
from shopassist.core.entry import Entry
from shopassist.core.entry.asked import Answer, Ask, Origin
from shopassist.services.batches import BatchService
from shopassist.services.in_hand import InHand
from shopassist.services.said import Said


class EntryBook:
    """A draft goes before a committed entry, that before what is lent and our own default."""

    def __init__(
        self, pane: str, asks: tuple[Ask, ...], batches: BatchService, hand: InHand,
        lent: Callable[[str, str], Answer | None] | None = None,
    ) -> None:  # fmt: skip
        self._pane = pane
        self._asks = {each.name: each for each in asks}
        self._batches = batches
        self._hand = hand
        self._drafts: dict[str, Entry | Typed | None] = {}
        self._made: dict[str, tuple[object, Answer]] = {}
        """Each answer and what it was made of: what stands as it stood stays the same object."""
        self._lent = lent
        """What another pane knows of a batch, for entries that nobody typed."""

    @property
    def ids(self) -> tuple[str, ...]:
        """Object names of the entries."""
        return tuple(f"{self._pane}.{name}" for name in self._asks)

    @property
    def batch(self) -> Batch | None:
        """The batch in hand."""
        return self._batches.get(self._hand.batch) if self._hand.batch else None

    def forget(self) -> None:
        """Let go of all drafts: another batch is in hand."""
        self._drafts = {}

    def answer(self, name: str, problem: str = "") -> Answer:
        """What counts in one entry now."""
        found = self._answer(name, self.batch)
        return replace(found, problem=problem) if problem else found

    def _answer(self, name: str, batch: Batch | None) -> Answer:
        source: Entry | Typed | None
        if name in self._drafts:
            source = self._drafts[name]
        else:
            source = batch.entries.get(f"{self._pane}.{name}") if batch is not None else None
            lent = self._lent(name, batch.id) if source is None and self._lent and batch else None
            if lent is not None:
                return lent
        made = self._made.get(name)
        if made is None or made[0] is not source:
            made = self._made[name] = source, _answer(self._asks[name], source)
        return made[1]

    def answers(self, problems: Mapping[str, str] | None = None) -> dict[str, Answer]:
        """Everything that stands in the entries, with what is wrong beside each."""
        batch = self.batch
        found = {name: self._answer(name, batch) for name in self._asks}
        for name, problem in (problems or {}).items():
            if name in found and problem:
                found[name] = replace(found[name], problem=problem)
        return found

    def said(self) -> Said:
        """Everything that stands, as numbers and words."""
        answers = self.answers()
        return Said(
            {name: each.value for name, each in answers.items()},
            {name: each.text for name, each in answers.items()},
        )

    def value(self, name: str) -> float | None:
        """The number that counts, in SI."""
        return self.answer(name).value

    def text(self, name: str) -> str:
        """The words that stand there; empty where nothing was said."""
        return self.answer(name).text

    def edited(self, name: str, entry: Entry | None) -> None:
        """Take a draft; nothing is written yet."""
        self._drafts[name] = entry

    def line_edited(
        self, name: str, text: str, problems: Callable[[], Mapping[str, object]]
    ) -> bool:
        """Take a line as far as it is typed; while it cannot be read, what stood goes on to count.

        ``problems`` tells what is wrong with the entries as they stand then.
        """
        before = dict(self._drafts)
        self._drafts[name] = Typed(text, None) if text else None
        if name in problems():
            self._drafts = before
            return False
        return True

    def committed(self, name: str, entry: Entry | None) -> None:
        """Write what stands there; raises ``ShopError`` and keeps the draft where it cannot."""
        typed = None if entry is None else Typed(entry.plain, entry.value, entry.quantity)
        self._write(name, typed)
        self._drafts.pop(name, None)

    def chosen(self, name: str, key: str) -> None:
        """Write a choice or a line of words; an empty one takes it away."""
        self._write(name, Typed(key, None) if key else None)
        self._drafts.pop(name, None)

    def _write(self, name: str, typed: Typed | None) -> None:
        if typed is None and not self._hand.batch:
            return
        drafts = self._drafts
        batch_id = self._hand.batch_for_entry()
        # A batch that is opened for this entry must not cost the drafts of the others.
        self._drafts = drafts
        self._batches.enter(batch_id, f"{self._pane}.{name}", typed)


def _answer(ask: Ask, source: Entry | Typed | None) -> Answer:
    quantity = ask.spec.quantity if ask.spec is not None else ""
    if isinstance(source, Entry):
        return Answer(source.plain, source.value, source.quantity, "typed")
    if source is None:
        return Answer("", ask.default, quantity, _origin(ask))
    origin: Origin = "job card" if source.origin == "job card" else "typed"
    return Answer(source.text, source.value, source.quantity or quantity, origin)


def _origin(ask: Ask) -> Origin:
    return "default" if ask.default is not None else ""
