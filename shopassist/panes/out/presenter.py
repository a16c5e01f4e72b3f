"""Words of the Out pane: files for others, and backups of the log."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import Protocol

from shopassist.clock import Clock
from shopassist.core.batch import Batch
from shopassist.core.errors import RefusedError, ShopError
from shopassist.core.pot.paper import Paper
from shopassist.core.quantities import Second
from shopassist.core.wording import Wording
from shopassist.panes.out import paper
from shopassist.panes.out.screen import FILES, PAGES, CopyShown, OutScreen
from shopassist.services.batch_file import BatchFiles
from shopassist.services.batches import BatchService
from shopassist.services.coming import LEAD, Event, events_of_dues, events_of_plan
from shopassist.services.copies import Copy, CopyKeeper
from shopassist.services.cure import CureService
from shopassist.services.hooks import Hook
from shopassist.services.in_hand import InHand, StateKeeper
from shopassist.services.log_index import LogIndex
from shopassist.services.log_line import LogLine
from shopassist.services.next import Due
from shopassist.services.plan import PlanService
from shopassist.services.table import table
from shopassist.widgets.batch_sheet_shown import SheetShown

FOLDER = "out.folder"
HEAD = ("Id", "Name", "Opened", "Sheet", "Amount", "Resin, g", "Hardener, g", "Outcome",
        "Next time", "Notes")  # fmt: skip
ENDINGS = {"sheet": "sheet.pdf", "calendar": "calendar.ics", "batch": "batch.json"}
RULE = "One a day while something happens, the newest seven are kept, each read back when made."
AFTER = "Afterwards every pot is NOT KNOWN: what the backup says about a pot is not believed."


class Shelf(Protocol):
    """Where files go; raises ``StoreError``."""

    def sheet(self, folder: str, name: str, shown: SheetShown) -> str:
        """Write a sheet as PDF; returns where it lies."""
        ...

    def calendar(self, folder: str, name: str, events: tuple[Event, ...]) -> str:
        """Write a calendar file."""
        ...

    def text(self, folder: str, name: str, words: str) -> str:
        """Write a text."""
        ...

    def read(self, path: str) -> str:
        """Read a text."""
        ...


@dataclass(slots=True)
class OutSources:
    """What the pane writes out; built by ``app``."""

    batches: BatchService
    hand: InHand
    index: LogIndex
    cure: CureService
    plan: PlanService
    files: BatchFiles
    copies: CopyKeeper
    shelf: Shelf
    state: StateKeeper
    folder: str
    """Where files go unless another folder is typed."""
    grams: Callable[[], tuple[paper.Pair, ...]]
    """What Mix shows, so that paper and screen say the same."""
    pot_paper: Callable[[str], Paper | None]
    dues: Callable[[], Iterable[Due]]
    sheet_name: Callable[[tuple[str, int]], str]
    newest: Callable[[], int]
    limits: tuple[str, ...]


class OutPresenter:
    """Nothing is written before it is asked for."""

    IDS = (
        "out.page.<n>", "out.folder", *(f"out.{name}" for name, _, _ in FILES), "out.import_path",
        "out.import", "out.written", "out.open", "out.print", "out.copies",
        "out.copy_now", "out.restore", "out.message",
    )  # fmt: skip

    def __init__(self, sources: OutSources, clock: Clock, wording: Wording) -> None:
        self.changed: Hook[None] = Hook()
        self.open_asked: Hook[str] = Hook()
        self.print_asked: Hook[SheetShown] = Hook()
        self._of = sources
        self._clock = clock
        self._wording = wording
        self._page = "files"
        self._written = ""
        self._file = ""
        self._message = ""
        self._chosen = -1
        sources.hand.changed.connect(lambda _: self.changed.emit(None))

    # -- what stands -----------------------------------------------------------------------------

    def _batch(self) -> Batch | None:
        return self._of.batches.get(self._of.hand.batch) if self._of.hand.batch else None

    def _folder(self) -> str:
        return self._of.state.get(FOLDER) or self._of.folder

    @property
    def screen(self) -> OutScreen:
        """The pane as it stands now."""
        batch, copies = self._batch(), self._copies() if self._page == "backups" else ()
        asked = self._of.copies.asked()
        has_chosen = 0 <= self._chosen < len(copies)
        return OutScreen(
            right=batch.name if batch is not None else "",
            page=self._page,
            folder=self._folder(),
            has_batch=batch is not None,
            written=self._written,
            can_open=bool(self._file),
            message=self._message,
            copies=tuple(self._copy(each, asked) for each in copies),
            chosen=self._chosen if has_chosen else -1,
            rule=RULE,
            restore=self._restore_words(copies[self._chosen], asked) if has_chosen else "",
            restore_note=AFTER if copies else "There is no backup yet.",
        )

    def _copies(self) -> tuple[Copy, ...]:
        try:
            return self._of.copies.listed()
        except ShopError:
            return ()

    def _copy(self, each: Copy, asked: str) -> CopyShown:
        say = self._wording
        size = say.number(each.bytes / 1e6, 1)
        rows = say.number(each.rows, 0)
        words = f"{say.date(each.made)}, {say.clock(each.made)}   {rows} rows, {size} MB"
        if each.name == asked:
            words += "   comes back at the next start"
        return CopyShown(each.name, words, each.name == asked)

    @staticmethod
    def _restore_words(each: Copy, asked: str) -> str:
        return "Leave the log as it is" if each.name == asked else "Put it back at the next start"

    # -- acts: files -------------------------------------------------------------------------------

    def on_page(self, page: str) -> None:
        """Turn to the other page."""
        if page in dict(PAGES):
            self._page, self._message = page, ""
            self.changed.emit(None)

    def on_folder(self, text: str) -> None:
        """Take another folder; an empty one is the program's own again."""
        if text.strip() != self._folder():
            self._of.state.put(FOLDER, text.strip())
            self.changed.emit(None)

    def on_file(self, name: str) -> None:
        """Write one of the files."""
        if name == "table":
            self._do(lambda: self._of.shelf.text(self._folder(), "batches.csv", self._table()))
        else:
            act = {"sheet": self._sheet, "calendar": self._calendar, "batch": self._whole}[name]
            self._do(lambda: act(self._named(name)))
        self._file = self._written
        self.changed.emit(None)

    def on_open(self) -> None:
        """Have the last file shown by what this system shows such files with: to look, to print."""
        if self._file:
            self.open_asked.emit(self._file)

    def on_print(self) -> None:
        """Have the batch sheet shown as it will be printed."""

        def ask() -> str:
            self.print_asked.emit(self.sheet())
            return ""

        self._do(ask)

    def _named(self, kind: str) -> str:
        batch = self._need_batch()
        word = "".join(c if c.isalnum() else "-" for c in batch.name).strip("-") or "batch"
        return f"{word}-{batch.id}-{ENDINGS[kind]}"

    def _need_batch(self) -> Batch:
        batch = self._batch()
        if batch is None:
            raise RefusedError("Take a batch in hand first.")
        return batch

    def _sheet(self, name: str) -> str:
        return self._of.shelf.sheet(self._folder(), name, self.sheet())

    def sheet(self) -> SheetShown:
        """The batch sheet as it would be printed now."""
        batch, now, say, of = self._need_batch(), self._now(), self._wording, self._of
        view = of.cure.view(batch.id)
        stages = view.stages if view is not None else of.cure.planned(batch.id)
        outlook = of.plan.outlook(batch.id, say.offset)
        placed = tuple(zip(outlook.own, outlook.stages, strict=True)) if outlook.own else ()
        times = paper.times_block(say, stages, now)
        if view is None:
            times = replace(times, heading=f"{times.heading}, if hardener went in now")
        right = f"printed {say.date(now)} {say.clock(now)}, log row {of.newest()}"
        if batch.sheet is not None:
            right = f"{of.sheet_name(batch.sheet)}, version {batch.sheet[1]}; {right}"
        blocks = (
            paper.mix_block(of.grams()), times, paper.pot_block(say, of.pot_paper(batch.pot)),
            paper.plan_block(say, placed, now),
        )  # fmt: skip
        return paper.sheet(say, batch, blocks, of.limits, right)

    def _calendar(self, name: str) -> str:
        return self._of.shelf.calendar(self._folder(), name, self.events())

    def events(self) -> tuple[Event, ...]:
        """Gates of all that runs, and the hands-on stages of the plan."""
        now, say, of = self._now(), self._wording, self._of
        outlook = of.plan.outlook(of.hand.batch, say.offset)
        names = {each.id: each for each in of.plan.under_way(of.hand.batch)}
        placed = [
            (batch_id, names[batch_id].name, each, stage)
            for batch_id, places in outlook.placed.items()
            for each, stage in zip(places, of.plan.job_stages(names[batch_id]), strict=True)
        ]
        planned = events_of_plan(placed, now, lambda s: f"{say.duration(s.hands)} hands-on")
        return (*self._gates(now), *events_of_dues(of.dues(), say, now), *planned)

    def _gates(self, now: float) -> Iterable[Event]:
        """Hazards and releases of all running cures that still matter."""
        for batch_id in self._of.cure.running():
            view = self._of.cure.view(batch_id)
            for each in view.relevant() if view is not None else ():
                if each.gate is None or each.gate <= now or view is None:
                    continue
                lead = Second(2 * LEAD) if each.kind == "hazard" else LEAD
                title = f"{paper.AIMS[each.aim]} ({view.batch.name})"
                yield Event(f"cure-{batch_id}-{each.aim}", title, each.gate, "estimated", lead)

    def _whole(self, name: str) -> str:
        words = self._of.files.text(self._need_batch().id)
        return self._of.shelf.text(self._folder(), name, words)

    def _table(self) -> str:
        self._of.index.read_all()
        rows = map(self._table_row, self._of.index.lines())
        return table(HEAD, rows, self._wording.style.decimal)

    def _table_row(self, line: LogLine) -> tuple[str | float | None, ...]:
        grams = (None if mass is None else mass * 1000 for mass in (line.resin, line.hardener))
        return (
            line.id, line.name, self._wording.date(line.opened),
            self._of.sheet_name(line.sheet) if line.sheet else "",
            line.amount, *grams, line.outcome, line.next_time, " | ".join(line.notes),
        )  # fmt: skip

    def on_import(self, path: str) -> None:
        """Bring a batch in from a file and take it in hand."""

        def bring() -> str:
            batch_id = self._of.files.bring_in(self._of.shelf.read(path.strip()))
            self._of.hand.take_batch(batch_id)
            return f"{self._of.batches.get(batch_id).name}, as batch {batch_id}"

        if path.strip():
            self._do(bring)

    # -- acts: backups ---------------------------------------------------------------------------

    def on_copy_now(self) -> None:
        """Make a backup now."""
        self._chosen = -1
        self._do(lambda: self._of.copies.make().name)

    def on_choose(self, number: int) -> None:
        """Choose a backup of the list."""
        if number != self._chosen:
            self._chosen = number
            self.changed.emit(None)

    def on_restore(self) -> None:
        """Have the chosen backup put back at the next start, or take that back."""
        copies, keeper = self._copies(), self._of.copies
        if 0 <= self._chosen < len(copies):
            name = copies[self._chosen].name
            keeper.ask("" if keeper.asked() == name else name)
            self.changed.emit(None)

    def _now(self) -> float:
        return float(self._clock.read().utc)

    def _do(self, act: Callable[[], str]) -> None:
        self._message, self._file = "", ""
        try:
            self._written = act()
        except ShopError as error:
            self._written = ""
            self._message = self._wording.complaint(error)
        self.changed.emit(None)
