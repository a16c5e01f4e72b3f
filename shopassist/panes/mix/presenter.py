"""Words of the mix pane: drafts in, grams and stops out; commits when a field is left."""

from collections.abc import Callable
from typing import Literal

from shopassist.core.batch import Typed
from shopassist.core.entry import Entry
from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure
from shopassist.core.quantities import Kilogram, UtcSecond
from shopassist.panes.mix import words
from shopassist.panes.mix.asks import ALL, PAGES, PANE
from shopassist.panes.mix.desk import Desk, Drafts, Stand, by_drops
from shopassist.panes.mix.drafts import FieldName, label_of
from shopassist.panes.mix.pages import MixPages
from shopassist.panes.mix.screen import IDS, ButtonShown, MixScreen
from shopassist.panes.mix.sources import MixSources
from shopassist.services.entry_book import EntryBook
from shopassist.services.hooks import Hook
from shopassist.services.mix import Basis, MixPlan

Part = Literal["a", "b", "colour"]


class MixPresenter:
    """Keeps the drafts of the batch in hand; everything committed is the service's."""

    IDS = IDS

    def __init__(self, sources: MixSources) -> None:
        self.changed: Hook[None] = Hook()
        self.explained: Hook[Figure] = Hook()
        self.went_on: Hook[Literal["cure", "pot"]] = Hook()
        """Hardener is in, or it is poured: the next pane takes over."""
        self._from = sources
        self._batches, self._sheets = sources.batches, sources.sheets
        self._hand, self._wording = sources.hand, sources.wording
        self._book = EntryBook(PANE, ALL, sources.batches, sources.hand)
        self._desk = Desk(sources, self._book)
        self._pages = MixPages(sources, self._book, self._desk)
        self._drafts = Drafts()
        self._shown: MixPlan | None = None
        self._batches.changed.connect(self._on_batch)
        self._sheets.changed.connect(lambda _: self.changed.emit(None))
        self._hand.changed.connect(self._on_hand)
        self._take_cup()

    def _on_batch(self, batch_id: str) -> None:
        if batch_id == self._hand.batch:
            self.changed.emit(None)

    def _on_hand(self, _: None) -> None:
        self._drafts = Drafts(page=self._drafts.page)
        self._book.forget()
        self._take_cup()
        self.changed.emit(None)

    def _take_cup(self) -> None:
        """Turn to the cup that is still being mixed, or the last one."""
        batch = self._desk.batch
        if batch is not None and batch.cups:
            self._drafts.cup = batch.cups[-1].number

    def _look(self) -> Stand:
        return self._desk.look(self._drafts)

    # -- what is shown ------------------------------------------------------------------------

    @property
    def screen(self) -> MixScreen:
        """The pane as it stands now."""
        stand, say = self._look(), self._wording
        batch, made, cup, judged = stand.batch, stand.plan, stand.cup, stand.judged
        self._shown = made
        weighing = stand.weighing
        page = self._pages.page(self._drafts.page, stand)
        asked = self._drafts.weighing and made.missing is None
        quiet = not self._drafts.unfolded and (asked or bool(cup.weighed))
        return MixScreen(
            batch_id=batch.id if batch else "",
            batch_name=batch.name if batch else "New batch",
            cup=cup.number,
            heading=words.cup_heading(cup.number, made),
            folded=page is not None or quiet,
            quiet=quiet,
            begun=bool(cup.weighed),
            summary=words.summary(say, stand.version, stand.basis, stand.found),
            sheets=tuple((v.id, v.name) for v in self._sheets.all() if not v.is_broken),
            sheet=batch.sheet[0] if batch and batch.sheet else "",
            basis=stand.basis,
            bases=stand.bases,
            ratio_locked=stand.version is not None,
            use_blank=self._use_blank(stand),
            page=page,
            fields=tuple(stand.found.items()),
            figures=words.figures(say, made),
            stops=words.stops(say, made, cup, weighing, stand.colour_name, stand.rescue),
            weighing=weighing,
            deviation=words.deviation(say, judged, self._tells(stand)),
            rule=words.rule(say, judged),
            note=self._note(stand),
            ahead=self._ahead(stand),
            facts=words.facts(say, batch, cup),
            hardener=self._hardener(stand),
            needs_reason=bool(self._why(stand)),
            poured=words.poured(batch),
            not_poured=words.not_poured(batch),
            another=words.another(batch, cup, stand.given.cups),
            message=self._drafts.message,
        )

    def _note(self, stand: Stand) -> tuple[str, str]:
        """The weightiest thing that stands against this mix."""
        refused = by_drops(stand.sheet) if stand.sheet is not None else None
        if refused is not None:
            return self._wording.say(refused.title), self._wording.say(refused.detail)
        most = self._pages.most_in_cup(stand)
        off = words.note(self._wording, stand.judged, stand.plan, stand.cup, most)
        if stand.judged is not None and off[0]:
            return off
        cautions = self._pages.cautions(stand) if stand.cup.contact is None else ()
        if not cautions:
            return off
        what, why = self._pages.told(cautions[0])
        more = len(cautions) - 1 + bool(off[0])
        return what, f"{why} And {more} more." if more else why

    def _tells(self, stand: Stand) -> float | None:
        """What this scale may be off by in this cup, once both parts are weighed."""
        typed = stand.found["scale_step"].origin == "typed"
        if stand.judged is None or (stand.record is None and not typed):
            return None
        return self._pages.worst(stand)

    def _use_blank(self, stand: Stand) -> str:
        batch = stand.batch
        if batch is None or batch.need is None or stand.found["amount"].origin != "typed":
            return ""
        return f"Use Blank’s {self._wording.amount(batch.need.high, 'CubicMetre')}"

    def _ahead(self, stand: Stand) -> tuple[tuple[str, str], ...]:
        """What would follow if hardener went in now: shown beside the grams."""
        if stand.plan.missing is not None or stand.sheet is None or stand.batch is None:
            return ()
        if stand.cup.contact is not None:
            return ()
        planned = self._from.cure.planned(stand.batch.id, self._desk.as_mixed(stand))
        return words.ahead(self._wording, planned)

    def _why(self, stand: Stand) -> str:
        """Why a typed reason is asked before the clock starts; empty where none is."""
        if stand.cup.contact is not None:
            return ""
        if stand.judged is not None and stand.judged.needs_reason:
            return "This cup is far off its ratio"
        return self._pages.why(stand)

    def _hardener(self, stand: Stand) -> ButtonShown | None:
        if stand.cup.contact is not None:
            return None
        name = stand.batch.name if stand.batch else "new batch"
        if stand.plan.missing is not None:
            missing = self._wording.say(stand.plan.missing)
            return ButtonShown("Hardener in", enabled=False, reason=missing)
        why = self._why(stand)
        return ButtonShown(f"Hardener in – {name}", reason=f"{why}: type why." if why else "")

    # -- acts: typing ---------------------------------------------------------------------------

    def on_edited(self, name: FieldName, entry: Entry | None) -> None:
        """Take a draft; the numbers follow at once, nothing is written yet."""
        self._drafts.entries[name] = entry
        self.changed.emit(None)

    def on_committed(self, name: FieldName, entry: Entry | None) -> None:
        """A field was left or Enter was pressed: write it."""
        typed = None if entry is None else Typed(entry.plain, entry.value, entry.quantity)
        self._drafts.entries.pop(name, None)
        self._do(lambda: self._batches.enter(self._for_entry(typed), name, typed))

    def _for_entry(self, typed: object) -> str:
        """Open a batch for the first entry; taking nothing away opens none."""
        if typed is None and not self._hand.batch:
            return ""
        drafts = self._drafts
        batch_id = self._hand.batch_for_entry()
        # A new batch in hand must not cost the drafts of the other fields.
        self._drafts = drafts
        return batch_id

    def on_entry_edited(self, name: str, entry: Entry | None) -> None:
        """Take a draft of a page."""
        self._do(lambda: self._book.edited(name, self._pages.as_mass(name, entry, self._look())))

    def on_entry_committed(self, name: str, entry: Entry | None) -> None:
        """Write an entry of a page."""
        self._do(lambda: self._book.committed(name, self._pages.as_mass(name, entry, self._look())))

    def on_chosen(self, name: str, key: str) -> None:
        """Write a choice or a line of a page."""
        self._do(lambda: self._book.chosen(name, key))

    def on_page(self, key: str) -> None:
        """Turn to another page; the open one again turns back to the ratio."""
        self._drafts.page = "ratio" if key == self._drafts.page else key
        self.changed.emit(None)

    def on_turn(self, places: int) -> None:
        """Turn so many pages on, or back."""
        keys = [key for key, _, _ in PAGES]
        now = keys.index(self._drafts.page)
        self._drafts.page = keys[(now + places) % len(keys)]
        self.changed.emit(None)

    def on_use_blank(self) -> None:
        """Let Blank's amount count again: what was typed is taken away."""
        self.on_committed("amount", None)
        self.on_committed("waste", None)

    def on_act(self) -> None:
        """Do what the open page offers: mix in more cups, or tell a step as done."""
        stand = self._look()
        page = self._pages.page(self._drafts.page, stand)
        if page is None or page.act is None:
            return
        if page.key == "cup":
            count = self._pages.cups_wanted(stand)
            typed = Typed(str(count), float(count), "Ratio")
            self._do(lambda: self._batches.enter(self._for_entry(typed), "mix.cups", typed))
        else:
            self._do(lambda: self._batches.step_done(self._hand.batch, page.act.words))  # type: ignore[union-attr]

    def digits(self) -> str:
        """Time left for the steps, each second; empty while they do not run."""
        if self._drafts.page != "steps":
            return ""
        return self._pages.digits(self._look())

    def on_basis(self, basis: Basis) -> None:
        """Say whether the ratio is by weight, by volume or in strokes of two pumps."""
        self._do(lambda: self._batches.enter(self._for_entry(basis), "basis", Typed(basis, None)))

    def on_sheet(self, record_id: str) -> None:
        """Use a resin sheet, or just a ratio where the id is empty."""
        newest = self._sheets.newest(record_id)
        number = newest.number if newest is not None else 0
        self._drafts.entries.pop("ratio_a", None)
        self._drafts.entries.pop("ratio_b", None)
        self._do(lambda: self._batches.use_sheet(self._for_entry(record_id), record_id, number))

    def on_weigh_out(self) -> None:
        """Fold the entries and go to the stops, once there are grams."""
        if self._look().weighing:
            self._drafts.weighing, self._drafts.unfolded = True, False
            self._drafts.page = "ratio"
            self.changed.emit(None)

    def on_unfold(self) -> None:
        """Show the inputs again."""
        self._drafts.unfolded = self._drafts.page != "ratio" or not self._drafts.unfolded
        self._drafts.page, self._drafts.weighing = "ratio", False
        self.changed.emit(None)

    # -- acts: weighing -----------------------------------------------------------------------

    def on_weighed(self, part: Part, entry: Entry | None, reason: str = "") -> None:
        """Take what the scale shows at a stop; it is the running total."""
        if entry is None:
            return
        stand = self._look()
        mass = stand.mass_at(part, Kilogram(entry.value))
        if mass is None:
            self._tell(self._pages.not_above(stand, part, entry.value))
            return
        number = self._drafts.cup

        def act() -> None:
            why = reason or (words.ADDED if stand.mends(part) else "")
            self._batches.weigh(self._for_entry(entry), number, part, mass, why)
            self._pages.take_again(self._look(), part)

        if self._do(act):
            self._tell(self._pages.looks_zeroed(stand, part, entry.value))

    def on_correct(self, reason: str) -> None:
        """Weigh again what was typed wrong, before the cup reacts."""
        stand = self._look()
        cup = stand.cup
        if cup.contact is not None and not reason.strip():
            self._tell("Say why the weight changes; the old one stays in the log.")
            return
        done = [step.part for step in stand.plan.steps if step.part in cup.weighed]
        if done:
            self._do(lambda: self._batches.unweigh(self._hand.batch, cup.number, done[-1], reason))

    # -- acts: what happened ----------------------------------------------------------------------

    def on_hardener_in(self, when: str = "", reason: str = "") -> None:
        """Hardener has met resin: the clock of this cup starts, now or a little ago."""
        stand = self._look()
        if stand.cup.contact is not None or stand.plan.missing is not None:
            return
        why = self._why(stand)
        if why and not reason.strip():
            self._tell(f"{why}. Type why it is used all the same.")
            return
        number = self._drafts.cup

        def act() -> None:
            happened = self._moment(when)
            batch_id = self._for_entry(when or "now")
            self._batches.hardener_in(batch_id, number, happened, reason.strip())
            self._pages.take_warmth(stand, batch_id, happened)
            self._pages.take_from_lots(self._look())

        if self._do(act):
            self.went_on.emit("cure")

    def on_poured(self, when: str = "") -> None:
        """The resin is in the mould: working time no longer matters, the pot is next."""
        if self._do(lambda: self._batches.poured(self._hand.batch, self._moment(when))):
            self.went_on.emit("pot")

    def on_not_poured(self) -> None:
        """It was said too early."""
        self._do(lambda: self._batches.not_poured(self._hand.batch))

    def _moment(self, when: str) -> UtcSecond | None:
        """Hands are sticky: "2 min ago" and "14:06" count as well as now."""
        if when.strip().casefold() in ("", "now"):
            return None
        return self._wording.read_moment(when, self._from.clock.read(), "mix.when")

    def on_another_cup(self) -> None:
        """Mix one more cup of the same."""
        batch = self._desk.batch
        if batch is not None:
            self._drafts.cup = max((cup.number for cup in batch.cups), default=0) + 1
            self._do(self._pages.next_cup)

    def on_undo(self) -> None:
        """Give back what the newest entry replaced."""
        if self._hand.batch:
            undone = self._batches.undo(self._hand.batch)
            label = label_of(undone) if undone else None
            self._tell(f"Undone: {label}." if label else "Nothing to undo.")

    def on_explain(self, name: str) -> None:
        """Explain one of the figures."""
        made = self._shown
        stand = self._look()
        off = stand.off(self._tells(stand)) if name == "mix.deviation" else None
        figures = () if made is None else (made.part_a, made.part_b, made.total, made.step_error)
        for figure in (off or self._pages.figure(name), *figures):
            if figure is not None and figure.id == name:
                self.explained.emit(figure)

    def _do(self, act: Callable[[], object]) -> bool:
        try:
            act()
        except ShopError as error:
            self._tell(self._wording.complaint(error))
            return False
        self._tell("")
        return True

    def _tell(self, message: str) -> None:
        self._drafts.message = message
        self.changed.emit(None)
