"""Words of the Blank pane: entries in, drawing, walls and resin out."""

import hashlib
from collections.abc import Callable

from shopassist.core.entry import Entry, EntrySpec
from shopassist.core.entry.asked import Answer
from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure
from shopassist.core.quantities import CubicMetre, KilogramPerCubicMetre
from shopassist.core.sheets import ResinSheet
from shopassist.core.wording import NONE, Wording
from shopassist.panes.blank.asks import ALL, BORE, MORE, NEEDED, NEEDED_CORE, PANE, page_of
from shopassist.panes.blank.screen import PAGES, BlankScreen
from shopassist.services.batches import BatchService
from shopassist.services.blank import BlankPlan, Earlier, all_words, work_out
from shopassist.services.entry_book import EntryBook
from shopassist.services.hooks import Hook
from shopassist.services.in_hand import InHand
from shopassist.services.versions import Library
from shopassist.widgets.section_shown import SectionShown
from shopassist.widgets.shown import BracketShown, FigureShown

LENGTH = EntrySpec("Metre", field="blank.outline", lowest=0.0, highest=10.0)
FIGURES = ("for_one", "for_all")
NEEDS_MORE = "Type the mould's inside to see it."


class BlankPresenter:
    """Keeps the drafts of the blank in hand; what is committed lies in the batch."""

    IDS = (
        *(f"{PANE}.{ask.name}" for ask in ALL),
        f"{PANE}.page.<n>",
        f"{PANE}.drawing",
        f"{PANE}.wall_left",
        f"{PANE}.for_one",
        f"{PANE}.for_all",
        f"{PANE}.note",
        f"{PANE}.notes",
        f"{PANE}.use",
        f"{PANE}.message",
    )

    def __init__(
        self, batches: BatchService, sheets: Library[ResinSheet], hand: InHand, wording: Wording,
        new_density: Callable[[str], KilogramPerCubicMetre | None] | None = None,
    ) -> None:  # fmt: skip
        self.changed: Hook[None] = Hook()
        self.explained: Hook[Figure] = Hook()
        self.went_on: Hook[str] = Hook()
        self._batches = batches
        self._sheets = sheets
        self._hand = hand
        self._wording = wording
        self._new_density = new_density
        self._book = EntryBook(PANE, ALL, batches, hand, self._lent)
        self._page = "mould"
        self._message = ""
        self._earlier = Earlier()
        batches.changed.connect(self._on_batch)
        sheets.changed.connect(lambda _: self.changed.emit(None))
        hand.changed.connect(lambda _: self._on_hand())

    def _on_batch(self, batch_id: str) -> None:
        if batch_id == self._hand.batch:
            self.changed.emit(None)

    def _on_hand(self) -> None:
        self._book.forget()
        self._message = ""
        self.changed.emit(None)

    # -- what stands --------------------------------------------------------------------------

    def _lent(self, name: str, batch_id: str) -> Answer | None:
        """Stabilised cores have a density of their own, and drink no resin."""
        if name not in ("density_low", "density_high") or self._new_density is None:
            return None
        known = self._new_density(batch_id)
        if known is None:
            return None
        return Answer("", float(known), "KilogramPerCubicMetre", "from Stabilise")

    def _sheet(self) -> ResinSheet | None:
        batch = self._book.batch
        version = self._sheets.version(*batch.sheet) if batch and batch.sheet else None
        return version.record if version is not None else None

    def _read(self, text: str) -> float:
        return self._wording.read(text, LENGTH).value

    def plan(self) -> BlankPlan:
        """Everything that follows from what stands."""
        self._earlier.read_as = (self._wording.units, self._wording.style)
        return work_out(self._book.said(), self._sheet(), self._read, self._earlier)

    def _geometry(self) -> str:
        """Changes with every entry."""
        said = self._book.said()
        parts = [f"{k}={v}" for k, v in sorted(said.numbers.items()) if v is not None]
        parts += [f"{k}={v}" for k, v in sorted(said.words.items()) if v]
        return hashlib.sha256(";".join(parts).encode()).hexdigest()[:16]

    @property
    def screen(self) -> BlankScreen:
        """The pane as it stands now."""
        plan, say, batch = self.plan(), self._wording, self._book.batch
        problems = {name: say.say(text) for name, text in plan.problems.items()}
        mould, core = self._book.text("mould"), self._book.text("core")
        shown = NEEDED.get(mould, NEEDED[""]) | NEEDED_CORE.get(core, NEEDED_CORE[""])
        shown |= {"mould", "core", *(ask.name for ask in (*MORE, *BORE))}
        return BlankScreen(
            batch_id=batch.id if batch else "",
            right=batch.name if batch else "New batch",
            page=self._page,
            shown=shown,
            answers=self._book.answers(problems),
            section=self._section(plan),
            wall=self._wall(plan),
            figures=tuple(self._figure(name, plan) for name in FIGURES),
            notes=tuple(say.say(note) for note in plan.notes),
            warns=plan.wall is not None and plan.wall.verdict != "enough",
            usable=plan.need is not None,
            in_mix=self._in_mix(plan),
            message=self._message,
        )

    def _in_mix(self, plan: BlankPlan) -> str:
        """What goes over, and what went."""
        goes = ""
        if plan.need is not None:
            goes = f"{self._wording.amount(plan.need.for_all.high, 'CubicMetre')} go to Mix."
        batch = self._book.batch
        if batch is None or batch.need is None:
            return goes
        words = self._wording.amount(batch.need.high, "CubicMetre")
        if batch.need.geometry == self._geometry():
            return f"Mix has {words}."
        return f"Mix has {words}, from earlier sizes. {goes}".strip()

    def _section(self, plan: BlankPlan) -> SectionShown:
        if plan.section is None or not (plan.section.cavity or plan.section.core):
            words = "Nothing to draw of a measured volume." if plan.need else NEEDS_MORE
            return SectionShown(missing=self._in_the_way(plan) or words)
        say, found = self._wording, plan.need
        across = self._book.value("mould_diameter") or self._book.value("mould_width")
        along = self._book.value("mould_depth")
        finished = found.finished if found is not None else None
        return SectionShown(
            plan.section, finished,
            f"Ø {say.amount(across, 'Metre')}" if across else "",
            say.amount(along, "Metre") if along else "",
            thin=plan.wall is not None and plan.wall.verdict != "enough",
            spoken=self._spoken(plan),
        )  # fmt: skip

    def _in_the_way(self, plan: BlankPlan) -> str:
        """What cannot be, with the page that its entry stands on; another one may be open."""
        told = plan.problems.items() if plan.need is None else ()
        return "\n".join(f"{page_of(name)}: {self._wording.say(text)}" for name, text in told)

    def _spoken(self, plan: BlankPlan) -> str:
        say, found = self._wording, plan.need
        words = []
        if found is not None:
            words.append(f"Mould holds {say.amount(found.cavity.mid, 'CubicMetre')}.")
            words.append(f"Core takes up {say.amount(found.core.mid, 'CubicMetre')}.")
            if found.level is not None:
                words.append(f"Resin stands at {say.amount(found.level, 'Metre')}.")
        if plan.wall is not None:
            at = say.amount(plan.wall.at, "Metre")
            words.append(f"Thinnest wall {say.amount(plan.wall.likely, 'Metre')} at {at}.")
        return " ".join(words)

    def _wall(self, plan: BlankPlan) -> FigureShown:
        label = "Wall left at its thinnest"
        wall = plan.wall
        if wall is None:
            drill, outline = self._book.value("drill"), self._book.text("stations")
            missing = "" if drill and outline else "needs bore and outline"
            return FigureShown(label, NONE, "", "missing", note=missing, explains=False)
        say = self._wording
        number, unit = say.split(wall.likely, "Metre")
        text = say.span(wall.worst, wall.nominal, "Metre")
        bracket = BracketShown(wall.worst, wall.nominal, wall.likely, text)
        return FigureShown(label, number, unit, bracket=bracket)

    def _figure(self, name: str, plan: BlankPlan) -> FigureShown:
        label = {"for_one": "Resin for one", "for_all": "For all, with waste"}[name]
        if plan.need is None or plan.job is None:
            note = "see what cannot be" if plan.problems else "needs the mould"
            return FigureShown(label, NONE, "", "missing", note=note, explains=False)
        say, found = self._wording, plan.need
        value = found.for_one if name == "for_one" else found.for_all
        label = label if name == "for_one" else all_words(plan.job)
        number, unit = say.split(value.mid, "CubicMetre")
        if value.is_exact:
            return FigureShown(label, number, unit)
        text = say.span(value.low, value.high, "CubicMetre")
        bracket = BracketShown(value.low, value.high, value.mid, text)
        return FigureShown(label, number, unit, bracket=bracket)

    # -- acts ------------------------------------------------------------------------------------

    def on_edited(self, name: str, entry: Entry | None) -> None:
        """Take a draft; drawing and numbers follow at once."""
        self._book.edited(name, entry)
        self.changed.emit(None)

    def on_committed(self, name: str, entry: Entry | None) -> None:
        """Write an entry."""
        self._do(lambda: self._book.committed(name, entry))

    def on_chosen(self, name: str, key: str) -> None:
        """Write a choice or a line."""
        self._do(lambda: self._book.chosen(name, key))

    def on_line_edited(self, name: str, text: str) -> None:
        """The drawing follows an outline or grooves with every key that leaves them readable."""
        if self._book.line_edited(name, text, lambda: self.plan().problems):
            self.changed.emit(None)

    def on_page(self, page: str) -> None:
        """Turn to another group of entries."""
        if any(key == page for key, _ in PAGES):
            self._page = page
            self.changed.emit(None)

    def on_use(self) -> None:
        """Hand the resin over to Mix; a typed amount there stays above it."""
        plan = self.plan()
        if plan.need is None:
            return
        span = plan.need.for_all

        def act() -> None:
            batch_id = self._hand.batch_for_entry()
            low, likely, high = (CubicMetre(each) for each in (span.low, span.mid, span.high))
            self._batches.set_need(batch_id, low, likely, high, self._geometry())

        if self._do(act):
            self.went_on.emit("mix")

    def on_explain(self, name: str) -> None:
        """Explain one of the numbers."""
        found = self.plan().figures.get(name)
        if found is not None:
            self.explained.emit(found)

    def _do(self, act: Callable[[], object]) -> bool:
        try:
            act()
        except ShopError as error:
            self._message = self._wording.say(error.title)
            self.changed.emit(None)
            return False
        self._message = ""
        self.changed.emit(None)
        return True
