"""Words of the batch log."""

from collections.abc import Callable

from shopassist.core.batch import OUTCOMES, Batch
from shopassist.core.errors import ShopError
from shopassist.core.sheets import STAGE_LABELS, ResinSheet
from shopassist.core.symptoms import SYMPTOMS, Cause, missing
from shopassist.core.wording import Wording
from shopassist.panes.log.facts import facts_of, with_times
from shopassist.panes.log.screen import PAGES, CauseShown, Fact, LogScreen, Page, PhotoShown
from shopassist.services.hindsight import Hindsight
from shopassist.services.hooks import Hook
from shopassist.services.in_hand import InHand
from shopassist.services.log_index import Found, LogIndex, Question
from shopassist.services.log_line import LogLine, line_of
from shopassist.services.versions import Library
from shopassist.services.witnesses import Learnt

COLUMNS = ("Batch", "Opened", "Resin", "Needed", "Outcome")
VERDICTS = {
    "for": "The record points to it",
    "missing": "Not on record",
    "against": "The record speaks against it",
}
GONE = "Not there any more: {path}. The log keeps where it lay; put it back and it shows again."
READING = "Reading the log; searching in a moment."
SYMPTOM_KEYS = tuple(SYMPTOMS)


class LogPresenter:
    """Keeps what is looked for, which batch is open, and what its lines say."""

    IDS = (
        "log.table",
        "log.search",
        "log.filter.<n>",
        "log.page.<n>",
        "log.again",
        "log.take_in_hand",
        "log.outcome.good",
        "log.outcome.usable",
        "log.outcome.spoiled",
        "log.note",
        "log.next_time",
        "log.name",
        "log.remove",
        "log.mark",
        "log.facts",
        "log.shared",
        "log.symptom",
        "log.causes",
        "log.learnt",
        "log.save_learnt",
        "log.photo_path",
        "log.photo_choose",
        "log.photo.<n>",
    )

    def __init__(
        self, sheets: Library[ResinSheet], hand: InHand, index: LogIndex,
        hindsight: Hindsight, wording: Wording, lies: Callable[[str], str],
    ) -> None:  # fmt: skip
        self.changed: Hook[None] = Hook()
        self.again_asked: Hook[str] = Hook()
        self._batches = index.batches
        self._sheets = sheets
        self._hand = hand
        self._index = index
        self._hindsight = hindsight
        self._wording = wording
        self._lies = lies
        self._selected = hand.batch
        self._asked = Question()
        self._found: Found | None = None
        self._marked: set[str] = set()
        self._page: Page = "facts"
        self._symptom = 0
        self._error = ""
        index.batches.changed.connect(lambda _: self._renew())
        index.changed.connect(lambda _: self._renew())
        sheets.changed.connect(lambda _: self._renew())
        hand.changed.connect(lambda _: self._follow())

    def _renew(self) -> None:
        self._found = None
        self.changed.emit(None)

    def _follow(self) -> None:
        self._selected = self._hand.batch
        self._renew()

    @property
    def ids(self) -> tuple[str, ...]:
        """Batches that answer the question, newest first."""
        return tuple(self._listed)

    @property
    def _listed(self) -> Found:
        """Found once; all batches, while the log is still being read and cannot be searched."""
        if not self._index.whole:
            return self._index.all()
        if self._found is None:
            self._found = self._index.find(self._asked)
        return self._found

    # -- what is shown ------------------------------------------------------------------

    @property
    def screen(self) -> LogScreen:
        """The log as it stands now."""
        ids, row, selected = self._listed, self._row, self._chosen
        batch = self._batches.get(selected) if selected else None
        verdict, shared, unknown = self._compared()
        causes, lacking = self._causes(selected)
        learnt = self._learnt(batch)
        return LogScreen(
            count=len(ids),
            selected=max(row, 0) if selected else -1,
            title=batch.name if batch else "",
            facts=self._facts(batch),
            outcome=batch.outcome if batch else "",
            next_time=batch.next_time if batch else "",
            name=batch.name if batch else "",
            removed=batch.removed if batch else False,
            error=self._error,
            empty=self._empty(),
            query=self._asked.words,
            filters=self._asked.outcomes | ({"removed"} if self._asked.removed else set()),
            page=self._page,
            reading="" if self._index.whole else READING,
            marked=len(self._marked),
            verdict=verdict,
            shared=shared,
            unknown=unknown,
            symptom=self._symptom,
            symptoms=tuple(title for title, _ in SYMPTOMS.values()),
            causes=causes,
            missing=lacking,
            photos=self._photos(batch),
            learnt=tuple(self._learnt_fact(each) for each in learnt),
            offer="Save as a new version" if any(each.offer.changed for each in learnt) else "",
        )

    def _empty(self) -> str:
        if self._listed:
            return ""
        if self._asked.words or self._asked.outcomes:
            return "No batch has all of these words. Clear the search to see them all."
        return "No batch yet. Type an amount in Mix."

    def _facts(self, batch: Batch | None) -> tuple[Fact, ...]:
        if batch is None or self._page != "facts":
            return ()
        past = self._hindsight
        return facts_of(batch, self._wording, self._sheet_name, past.lots(batch), past.cost(batch))

    def row(self, number: int) -> tuple[str, ...]:
        """The cells of one line, newest batch first; folded only where it is not read yet."""
        batch_id = self._listed[number]
        line = self._index.line(batch_id) or line_of(self._batches.get(batch_id), {})
        mark = "■ " if batch_id in self._marked else ""
        return (
            mark + line.name + (" (removed)" if line.removed else ""),
            self._wording.date(line.opened),
            self._sheet_name(line),
            line.amount or "–",
            line.outcome or "–",
        )

    def _sheet_name(self, of: Batch | LogLine) -> str:
        version = self._sheets.version(*of.sheet) if of.sheet is not None else None
        return version.name if version is not None else "no sheet"

    # -- pages -------------------------------------------------------------------------------

    def _compared(self) -> tuple[str, tuple[tuple[str, ...], ...], str]:
        if self._page != "compare":
            return "", (), ""
        if not self._index.whole:
            return READING, (), ""
        found = self._index.compare(self._listed, self._marked)
        if not found.ones:
            words = "Nothing to compare: mark batches with Space, or say which were spoiled."
            return words, (), ""
        rows = tuple(
            (each.name, each.value,
             f"{each.others_with} of {each.others_known}" if each.others_known else "not on record")
            for each in found.result.shared
        )  # fmt: skip
        which = "the marked ones" if self._marked else "the spoiled ones"
        head = f"{found.ones} compared, {which}, with {found.others} others. "
        unknown = ", ".join(found.result.unknown)
        return head + self._wording.say(found.result.verdict), rows, unknown

    def _causes(self, batch_id: str) -> tuple[tuple[CauseShown, ...], tuple[str, ...]]:
        if self._page != "symptoms" or not batch_id:
            return (), ()
        say = self._wording.say
        causes = self._hindsight.causes(batch_id, SYMPTOM_KEYS[self._symptom])
        shown = tuple(
            CauseShown(say(each.text), VERDICTS[each.side], self._clues(each, known=True),
                       self._clues(each, known=False), say(each.remedy))
            for each in causes
        )  # fmt: skip
        return shown, tuple(say(each) for each in missing(causes))

    def _clues(self, cause: Cause, *, known: bool) -> tuple[str, ...]:
        return tuple(
            self._wording.say(clue.text) for clue in cause.evidence
            if (clue.side != "missing") is known
        )  # fmt: skip

    def _photos(self, batch: Batch | None) -> tuple[PhotoShown, ...]:
        """The newest first; what is gone is told, its place stays in the log."""
        if batch is None or self._page != "photos":
            return ()
        return tuple(
            PhotoShown(path, _name(path), "" if self._lies(path) else GONE.format(path=path))
            for path in reversed(batch.photos)
        )

    def _learnt(self, batch: Batch | None) -> tuple[Learnt, ...]:
        if self._page != "sheet" or batch is None or batch.sheet is None or not self._index.whole:
            return ()
        return self._hindsight.witnesses.learnt(batch.sheet[0], self._index.newest())

    def _learnt_fact(self, each: Learnt) -> Fact:
        say = self._wording
        fitted = each.fitted
        band = (
            f"seen at {say.number(fitted.factor, 2)} × the sheet's age, the next one between "
            f"{say.number(fitted.low, 2)} and {say.number(fitted.high, 2)}"
        )
        return Fact(STAGE_LABELS[each.stage], f"{say.say(each.offer.text)} {band.capitalize()}.")

    # -- acts ------------------------------------------------------------------------------

    def on_search(self, words: str) -> None:
        """Look for words; every one must be there."""
        if words != self._asked.words:
            self._asked.words = words
            self._renew()

    def on_filter(self, key: str) -> None:
        """Turn one filter on or off."""
        if key == "removed":
            self._asked.removed = not self._asked.removed
        else:
            self._asked.outcomes ^= {key}
        self._renew()

    def on_page(self, page: str) -> None:
        """Turn to another page of the open batch."""
        found = next((key for key, _ in PAGES if key == page), None)
        if found is not None:
            self._page = found
            self.changed.emit(None)

    def on_select(self, number: int) -> None:
        """Open another line."""
        ids = self._listed
        if 0 <= number < len(ids) and ids[number] != self._selected:
            self._selected = ids[number]
            self._error = ""
            self.changed.emit(None)

    def on_mark(self) -> None:
        """Mark the open batch for comparison, or take the mark away."""
        if chosen := self._chosen:
            self._marked ^= {chosen}
            self.changed.emit(None)

    def on_symptom(self, number: int) -> None:
        """Ask for the causes of another symptom."""
        if 0 <= number < len(SYMPTOM_KEYS) and number != self._symptom:
            self._symptom = number
            self.changed.emit(None)

    @property
    def _row(self) -> int:
        """Where the batch that was opened last stands; -1 where it is not listed."""
        return self._listed.row(self._index.place(self._selected)) if self._selected else -1

    @property
    def _chosen(self) -> str:
        """The open batch: what was opened last, or the newest one where that is not listed."""
        return self._selected if self._row >= 0 else next(iter(self._listed), "")

    def on_take_in_hand(self) -> None:
        """Work on the open batch."""
        if chosen := self._chosen:
            self._hand.take_batch(chosen)

    def on_again(self) -> None:
        """Open a repeat of the open batch and work on it."""
        if chosen := self._chosen:
            self._do(lambda: self._hand.take_batch(self._batches.open(again_of=chosen)))
            self.again_asked.emit(self._hand.batch)

    def on_outcome(self, outcome: str) -> None:
        """Say how it came out."""
        if (chosen := self._chosen) and outcome in OUTCOMES:
            self._do(lambda: self._batches.close(chosen, outcome))

    def on_note(self, text: str) -> None:
        """Add a line to the batch."""
        if (chosen := self._chosen) and text.strip():
            self._do(lambda: self._batches.note(chosen, text))

    def on_next_time(self, text: str) -> None:
        """Set the line that the job card carries."""
        if (chosen := self._chosen) and text.strip() != self._batches.get(chosen).next_time:
            self._do(lambda: self._batches.next_time(chosen, text))

    def on_photo(self, typed: str) -> bool:
        """Keep where a photograph lies; False where there is no such file."""
        chosen, path = self._chosen, self._lies(typed.strip()) if typed.strip() else ""
        if chosen and path:
            self._do(lambda: self._batches.add_photo(chosen, path))
        elif typed.strip():
            self._error = f"There is no file {typed.strip()}."
            self.changed.emit(None)
        return bool(chosen and path)

    def on_photo_off(self, number: int) -> None:
        """Show a photograph no longer."""
        photos = self.screen.photos
        if (chosen := self._chosen) and number < len(photos):
            self._do(lambda: self._batches.take_photo_off(chosen, photos[number].path))

    def on_name(self, text: str) -> None:
        """Give the batch another name."""
        chosen = self._chosen
        if chosen and text.strip() and text.strip() != self._batches.get(chosen).name:
            self._do(lambda: self._batches.name(chosen, text))

    def on_remove(self) -> None:
        """Put the batch among the removed ones, or bring it back."""
        if chosen := self._chosen:
            removed = self._batches.get(chosen).removed
            self._do(lambda: self._batches.remove(chosen, removed=not removed))

    def on_save_learnt(self) -> None:
        """Save what was learnt as a new version of the sheet; batches keep the one they used."""
        batch = self._batches.get(self._chosen) if self._chosen else None
        learnt = [each for each in self._learnt(batch) if each.offer.changed]
        if batch is None or batch.sheet is None or not learnt:
            return
        record = batch.sheet[0]
        newest = self._sheets.newest(record)
        known = newest.mapping if newest is not None else {}
        mapping = with_times(known, learnt, self._wording.read_si)
        reason = "; ".join(self._wording.say(each.offer.text) for each in learnt)
        self._do(lambda: self._sheets.save(mapping, record, reason))

    def _do(self, act: Callable[[], object]) -> None:
        try:
            self._error = ""
            act()
        except ShopError as error:
            self._error = self._wording.say(error.title)
            self.changed.emit(None)


def _name(path: str) -> str:
    """The last part of a path, whichever system wrote it."""
    return path.replace("\\", "/").rsplit("/", 1)[-1]
