"""Words of the batch log."""

from dataclasses import dataclass

from shopassist.core.batch import OUTCOMES, Batch
from shopassist.core.errors import ShopError
from shopassist.core.sheets import ResinSheet
from shopassist.core.wording import Wording
from shopassist.services.batches import BatchService
from shopassist.services.hooks import Hook
from shopassist.services.in_hand import InHand
from shopassist.services.library import Library

COLUMNS = ("Batch", "Opened", "Resin", "Needed", "Weighed A", "Weighed B", "Hardener in", "Outcome")


@dataclass(frozen=True, slots=True)
class Fact:
    """One line of the open batch."""

    label: str
    value: str
    typed: bool = False


@dataclass(frozen=True, slots=True)
class LogScreen:
    """Everything that the log shows."""

    count: int
    selected: int
    title: str
    facts: tuple[Fact, ...]
    outcome: str
    next_time: str
    note_error: str
    empty: str


class LogPresenter:
    """Keeps which batch is open in the log, and what its lines say."""

    IDS = (
        "log.table",
        "log.again",
        "log.take_in_hand",
        "log.outcome.good",
        "log.outcome.usable",
        "log.outcome.spoiled",
        "log.note",
        "log.next_time",
        "log.name",
        "log.remove",
        "log.facts",
    )

    def __init__(
        self, batches: BatchService, sheets: Library[ResinSheet], hand: InHand, wording: Wording
    ) -> None:
        self.changed: Hook[None] = Hook()
        self.again_asked: Hook[str] = Hook()
        self._batches = batches
        self._sheets = sheets
        self._hand = hand
        self._wording = wording
        self._selected = hand.batch
        self._error = ""
        batches.changed.connect(lambda _: self.changed.emit(None))
        hand.changed.connect(self._on_hand)

    def _on_hand(self, _: None) -> None:
        self._selected = self._hand.batch
        self.changed.emit(None)

    # -- what is shown ------------------------------------------------------------------

    @property
    def screen(self) -> LogScreen:
        """The log as it stands now."""
        ids = self._ids()
        if not ids:
            return LogScreen(0, -1, "", (), "", "", "", "No batch yet. Type an amount in Mix.")
        selected = self._selected if self._selected in ids else ids[0]
        batch = self._batches.get(selected)
        return LogScreen(
            len(ids), ids.index(selected), batch.name, self._facts(batch), batch.outcome,
            batch.next_time, self._error, "",
        )  # fmt: skip

    def row(self, number: int) -> tuple[str, ...]:
        """The cells of one line, newest batch first; folded only when it comes into sight."""
        batch = self._batches.get(self._ids()[number])
        say = self._wording
        cup = batch.cup(1)
        part = {name: cup.weighed.get(name) for name in ("a", "b")}
        grams = {n: say.amount(w.mass, "Kilogram") if w else "–" for n, w in part.items()}
        needed = batch.entries.get("amount")
        contact = batch.first_contact
        return (
            batch.name + (" (removed)" if batch.removed else ""),
            say.date(batch.opened),
            self._sheet_name(batch),
            needed.text if needed else "–",
            grams["a"],
            grams["b"],
            say.clock(contact) if contact is not None else "–",
            batch.outcome or "–",
        )

    def _ids(self) -> tuple[str, ...]:
        return tuple(reversed(self._batches.ids()))

    def _sheet_name(self, batch: Batch) -> str:
        if batch.sheet is None:
            return "no sheet"
        version = self._sheets.version(*batch.sheet)
        return version.name if version is not None else "no sheet"

    def _facts(self, batch: Batch) -> tuple[Fact, ...]:
        say = self._wording
        facts = [
            Fact("Opened", f"{say.date(batch.opened)}, {say.clock(batch.opened)}"),
            Fact("Resin", self._sheet_name(batch)),
        ]
        facts += [Fact(_label(k), v.text, v.origin == "typed") for k, v in batch.entries.items()]
        for cup in batch.cups:
            named = {"a": "resin", "b": "hardener", "colour": "colour", "empty": "empty cup"}
            facts += [
                Fact(
                    f"Cup {cup.number}, {named[part]}",
                    say.amount(each.mass, "Kilogram"),
                    typed=True,
                )
                for part, each in cup.weighed.items()
            ]
            if cup.contact is not None:
                facts.append(
                    Fact(f"Cup {cup.number}, hardener in", say.clock(cup.contact), typed=True)
                )
        if batch.poured is not None:
            facts.append(Fact("Poured", say.clock(batch.poured), typed=True))
        facts += [
            Fact(
                f"{each.where.capitalize()} at {say.clock(each.at)}",
                _warmth(say, each.low, each.high),
                typed=True,
            )
            for each in batch.warmth
        ]
        facts += [
            Fact(f"Seen: {mark}", say.clock(when), typed=True) for mark, when in batch.seen.items()
        ]
        facts += [Fact("Reason", reason, typed=True) for reason in batch.reasons]
        facts += [Fact("Note", note, typed=True) for note in batch.notes]
        return tuple(facts)

    # -- acts ------------------------------------------------------------------------------

    def on_select(self, number: int) -> None:
        """Open another line."""
        ids = self._ids()
        if 0 <= number < len(ids) and ids[number] != self._selected:
            self._selected = ids[number]
            self.changed.emit(None)

    def on_take_in_hand(self) -> None:
        """Work on the open batch."""
        if self._selected:
            self._hand.take_batch(self._selected)

    def on_again(self) -> None:
        """Open a repeat of the open batch and work on it."""
        if self._selected:
            self._hand.take_batch(self._batches.open(again_of=self._selected))
            self.again_asked.emit(self._hand.batch)

    def on_outcome(self, outcome: str) -> None:
        """Say how it came out."""
        if self._selected and outcome in OUTCOMES:
            self._do(lambda: self._batches.close(self._selected, outcome))

    def on_note(self, text: str) -> None:
        """Add a line to the batch."""
        if self._selected and text.strip():
            self._do(lambda: self._batches.note(self._selected, text))

    def on_next_time(self, text: str) -> None:
        """Set the line that the job card carries."""
        if self._selected and text.strip() != self._batches.get(self._selected).next_time:
            self._do(lambda: self._batches.next_time(self._selected, text))

    def on_name(self, text: str) -> None:
        """Give the batch another name."""
        if self._selected and text.strip():
            self._do(lambda: self._batches.name(self._selected, text))

    def on_remove(self) -> None:
        """Put the batch among the removed ones, or bring it back."""
        if self._selected:
            removed = self._batches.get(self._selected).removed
            self._do(lambda: self._batches.remove(self._selected, removed=not removed))

    def _do(self, act: "object") -> None:
        try:
            self._error = ""
            act()  # type: ignore[operator]
        except ShopError as error:
            self._error = self._wording.say(error.title)
            self.changed.emit(None)


def _label(field: str) -> str:
    words = {
        "amount": "Needed", "waste": "Waste", "scale_step": "Scale step", "ratio_a": "Parts of A",
        "ratio_b": "Parts of B", "basis": "Ratio by",
    }  # fmt: skip
    return words.get(field, field.replace("_", " ").capitalize())


def _warmth(say: Wording, low: float, high: float) -> str:
    if low == high:
        return say.amount(low, "Kelvin")
    return say.span(low, high, "Kelvin") + " " + say.unit("Kelvin")
