"""Words of the cure pane: what the digits count to, how sure it is, and what was read."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING, get_args

from shopassist.clock import Clock
from shopassist.core.batch import SEEN_MARKS
from shopassist.core.entry import Entry
from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure
from shopassist.core.quantities import Kelvin
from shopassist.core.wording import NONE, Wording
from shopassist.panes.cure import words
from shopassist.panes.cure.form import SUPPOSED, TEMPERATURE, ReadingForm
from shopassist.panes.cure.own import OwnClocks
from shopassist.panes.cure.screen import OWN, CureScreen, Field, Other, Page, TableShown
from shopassist.panes.cure.supposed import Supposed
from shopassist.services.batches import BatchService
from shopassist.services.cure import CureService, CureView, StageView
from shopassist.services.cure_figures import figure_of
from shopassist.services.hooks import Hook
from shopassist.services.in_hand import InHand
from shopassist.services.next import Due
from shopassist.services.waits import WaitService
from shopassist.widgets.shown import BenchShown, WaitShown

if TYPE_CHECKING:
    from shopassist.panes.cure.curves import Curves
    from shopassist.panes.cure.table import Keep

__all__ = ["TEMPERATURE", "CurePresenter"]


@dataclass(slots=True)
class _Mind:
    """What the pane keeps between two looks."""

    place: str = words.PLACES[0]
    page: Page = "times"
    chosen: bool = False
    """The person chose the page; more or less room no longer turns it."""
    error: str = ""
    saved: str = ""
    figures: dict[str, Figure] = field(default_factory=dict)


class CurePresenter:
    """Shows the cure of the batch in hand first, all others beside it."""

    IDS = (
        "cure.digits",
        "cure.explain",
        "cure.temperature",
        "cure.where",
        "cure.add_temperature",
        "cure.milestone.<n>",
        "cure.wait.<n>.remaining",
        "cure.wait.<n>.take",
        "cure.wait.<n>.done",
        "cure.beside",
        "cure.seen.<n>",
        "cure.page.<n>",
        "cure.form.mode",
        "cure.form.temp",
        "cure.form.low",
        "cure.form.high",
        "cure.form.since",
        "cure.form.when",
        "cure.form.reading",
        "cure.form.reason",
        "cure.form.what",
        "cure.form.after",
        "cure.form.before",
        "cure.form.off",
        "cure.form.do",
        "cure.form.clear",
        "cure.chart.age",
        "cure.chart.temperature",
        "cure.open_table",
        "cure.table",
        "cure.save_csv",
        "cure.more",
        "cure.notes",
        "cure.message",
    )

    def __init__(
        self, batches: BatchService, cure: CureService, waits: WaitService, hand: InHand,
        clock: Clock, wording: Wording,
    ) -> None:  # fmt: skip
        self._own = OwnClocks(waits, clock, wording)
        self.changed: Hook[None] = Hook()
        self.explained: Hook[Figure] = Hook()
        self.keep: Keep | None = None
        """How a file is written; the program sets it."""
        self._batches = batches
        self._cure = cure
        self._hand = hand
        self._clock = clock
        self._wording = wording
        self.form = self._form = ReadingForm(batches, waits, clock, wording)
        self._mind = _Mind()
        self._supposed = Supposed(cure, self._form, wording)
        batches.changed.connect(lambda _: self.changed.emit(None))
        hand.changed.connect(lambda _: self.changed.emit(None))
        waits.changed.connect(lambda _: self.changed.emit(None))

    @cached_property
    def _curves(self) -> "Curves":
        """Charts and their table, brought in when one is wanted."""
        from shopassist.panes.cure.curves import Curves

        return Curves(self._cure, self._wording)

    # -- what is shown ------------------------------------------------------------------------

    def _front(self) -> CureView | None:
        """The cure in front: of the batch in hand, else the newest that runs."""
        chosen = self._hand.batch
        if chosen and self._batches.get(chosen).first_contact is not None:
            return self._cure.view(chosen)
        running = self._cure.running()
        return self._cure.view(running[0]) if running else None

    @property
    def screen(self) -> CureScreen:
        """The pane as it stands now."""
        view = self._front()
        if view is None:
            return self._empty()
        now, say = self._clock.read().utc, self._wording
        lead = view.lead(now)
        self._mind.figures = {
            f"cure.milestone.{stage.aim}": figure_of(view, stage) for stage in view.stages
        }
        gone = say.duration(now - view.contact)
        others = self._others(view, now)
        page, then = self._page(others), self._supposed.stages(view)
        return CureScreen(
            batch_id=view.batch.id,
            right=view.batch.name,
            wait=WaitShown(
                self._caption(lead, now),
                f"{gone} since hardener",
                words.certainty(say, view, now),
                words.rule(say, view, lead, now) if lead is not None else None,
                explains=lead is not None,
            ),
            temperature=words.warmth(say, view.latest),
            temperature_line=words.warmth_line(say, view, now),
            places=words.PLACES,
            place=self._mind.place,
            page=page,
            lines=tuple(words.line(say, stage, now, then) for stage in view.relevant()),
            what_if=self._supposed.heading if then else "",
            form=self._form.shown(view.batch, now),
            charts=self._curves.charts(view) if page == "curve" else (),
            others=others,
            beside=words.beside(others),
            notes=self._notes(view, lead),
            seen=tuple(self._seen(view, mark) for mark in SEEN_MARKS),
            witness=words.WITNESS,
            error=self._mind.error,
            empty="",
            table=self._table(page, view.batch.id),
        )

    def _empty(self) -> CureScreen:
        wait = WaitShown(words.ONE_LINE, "Hardener in starts a clock", "", None, explains=False)
        marks = tuple((mark, "") for mark in SEEN_MARKS)
        now = self._clock.read().utc
        form, others = self._form.shown(None, now), tuple(one for _, one in self._own.listed(now))
        if others:
            wait = WaitShown(f"{others[0].name}: {others[0].caption}", "", "", None, explains=False)
        page: Page = "readings" if self._mind.page == "readings" else "times"
        return CureScreen(
            "", "", wait, words.warmth(self._wording, None), "", words.PLACES, self._mind.place,
            "waits" if others and page == "times" else page,
            (), "", form, (), others, "", (), marks, words.WITNESS, self._mind.error,
            "Weigh out in Mix and press Hardener in: the clock starts here.",
        )  # fmt: skip

    def _page(self, others: tuple[Other, ...]) -> Page:
        return "times" if self._mind.page == "waits" and not others else self._mind.page

    def _table(self, page: Page, batch_id: str) -> TableShown:
        if page != "table":
            return TableShown()
        return replace(self._curves.table(batch_id).shown(), saved=self._mind.saved)

    def on_csv(self) -> None:
        """Write the table where the other files go."""
        view = self._front()
        if view is not None and self.keep is not None:
            from shopassist.panes.cure.table import file_name

            keep, batch = self.keep, view.batch
            text, name = self._curves.table(batch.id).csv(), file_name(batch.name, batch.id)
            self._do(lambda: setattr(self._mind, "saved", keep(name, text)))
            self.changed.emit(None)

    def _caption(self, lead: StageView | None, now: float) -> str:
        if lead is None:
            return "Time since hardener"
        caption = self._wording.say(words.gate_text(lead, words.CAPTIONS), now)
        if lead.gate is None:
            return f"{caption}: {words.NO_TIME[words.why_none(lead)]}"
        return caption if not lead.passed(now) else f"{caption}: reached"

    def _others(self, front: CureView, now: float) -> tuple[Other, ...]:
        """All other cures, the most urgent first."""
        found = []
        for batch_id in self._cure.running():
            view = self._cure.view(batch_id)
            if view is None or batch_id == front.batch.id:
                continue
            lead = view.lead(now)
            other = Other(batch_id, view.batch.name, self._caption(lead, now))
            found.append((words.urgency(lead, now), other))
        found += self._own.listed(now)
        return tuple(other for _, other in sorted(found, key=lambda pair: pair[0]))

    def _notes(self, view: CureView, lead: StageView | None) -> tuple[str, ...]:
        texts = [*(lead.forecast.notes if lead is not None else ()), *view.notes]
        told = [*self._supposed.notes(view), *map(self._wording.say, dict.fromkeys(texts))]
        sheet = self._cure.sheet(view.batch)
        told += words.full_cup(self._wording, sheet, view)
        told += words.no_floor(self._wording, sheet, view)
        told += words.clock_change(self._wording, lead, view.worked_out)
        if view.elapsed.doubted:
            low, high = (
                self._wording.duration(each) for each in (view.elapsed.low, view.elapsed.high)
            )
            told.insert(0, f"The clock is in doubt: {low} to {high} since hardener.")
        return tuple(told)

    def _seen(self, view: CureView, mark: str) -> tuple[str, str]:
        when = view.batch.seen.get(mark)
        return mark, "" if when is None else self._wording.clock(when)

    def digits(self) -> str:
        """The countdown to the gate of the lead; time since hardener where there is none."""
        view = self._front()
        if view is not None:
            return self._digits_of(view)
        own = self._own.first()
        return self._own.digits(own) if own else NONE

    def digits_of(self, batch_id: str) -> str:
        """The countdown of another cure, or of a clock of one's own."""
        if batch_id.startswith(OWN):
            return self._own.digits(batch_id)
        view = self._cure.view(batch_id)
        return self._digits_of(view) if view is not None else ""

    def _digits_of(self, view: CureView) -> str:
        now = self._clock.read().utc
        lead = view.lead(now)
        if lead is None or lead.gate is None:
            return self._wording.digits(float(view.elapsed.likely) + now - view.worked_out)
        return self._wording.digits(max(0.0, lead.gate - now))

    def bench(self) -> BenchShown:
        """What is read from across the bench."""
        screen = self.screen
        what, *_ = screen.wait.caption.split(", ")  # the batch's name wants its room too
        return BenchShown(what, screen.right, screen.wait.rule)

    def dues(self) -> Iterable[Due]:
        """The leads of all running cures, for the next line."""
        now = self._clock.read().utc
        for batch_id in self._cure.running():
            view = self._cure.view(batch_id)
            lead = view.lead(now) if view is not None else None
            if view is None or lead is None:
                continue
            yield words.due(view, lead, now)

    # -- acts -----------------------------------------------------------------------------------

    def on_page(self, page: str) -> None:
        """Open a page of the lower half."""
        if page in get_args(Page):
            self._mind.page, self._mind.chosen = page, True  # type: ignore[assignment]
            self.changed.emit(None)

    def on_room(self, *, roomy: bool) -> None:
        """Show the curve where there is room for it, until the person chooses a page."""
        page: Page = "curve" if roomy else "times"
        if not self._mind.chosen and page != self._mind.page:
            self._mind.page = page
            self.changed.emit(None)

    def on_place(self, place: str) -> None:
        """Say what the thermometer measures."""
        self._mind.place = place

    def on_temperature(self, entry: Entry | None) -> None:
        """Add a typed temperature to the batch in front."""
        if entry is None:
            return
        value = Kelvin(entry.value)
        self._do(
            lambda: self._batches.add_temperature(self._target(), value, value, self._mind.place)
        )

    def _target(self) -> str:
        """The batch that a reading belongs to."""
        view = self._front()
        return view.batch.id if view is not None else self._hand.batch_for_entry()

    def on_mode(self, mode: str) -> None:
        """Choose what the form takes."""
        self._form.on_mode(mode)
        self._mind.error = ""
        self.changed.emit(None)

    def on_number(self, name: Field, entry: Entry | None) -> None:
        """Take a temperature into the form."""
        self._form.on_number(name, entry)

    def on_text(self, name: Field, text: str) -> None:
        """Take a time or a reason into the form, and say how it is understood."""
        self._form.on_text(name, text)
        self.changed.emit(None)

    def on_pick(self, seq: int) -> None:
        """Choose the reading to correct."""
        self._form.on_pick(seq)

    def on_do(self) -> None:
        """Do what the form says."""

        def act() -> None:
            self._form.do(self._target(), self._mind.place)
            if self._form.mode in SUPPOSED:
                self._supposed.forget()
                self._mind.page = "times"

        self._do(act)
        self.changed.emit(None)

    def on_clear_what_if(self) -> None:
        """Show the true times alone again."""
        self._form.clear_what_if()
        self.changed.emit(None)

    def on_seen(self, mark: str) -> None:
        """Record what the witness cup shows."""
        view = self._front()
        if view is not None:
            self._do(lambda: self._batches.see(view.batch.id, mark))

    def on_take(self, batch_id: str) -> None:
        """Bring another cure to the front; a clock of one's own stays where it is."""
        if not batch_id.startswith(OWN):
            self._hand.take_batch(batch_id)

    def on_done(self, batch_id: str) -> None:
        """End a clock of one's own."""
        self._do(lambda: self._own.end(batch_id))

    def on_explain(self, name: str = "") -> None:
        """Explain a milestone; without a name, the one the digits count to."""
        view = self._front()
        lead = view.lead(self._clock.read().utc) if view is not None else None
        key = name or (f"cure.milestone.{lead.aim}" if lead is not None else "")
        figure = self._mind.figures.get(key) if view is not None else None
        if figure is not None:
            self.explained.emit(figure)

    def _do(self, act: Callable[[], object]) -> None:
        try:
            self._mind.error = ""
            act()
        except ShopError as error:
            self._mind.error = self._wording.complaint(error)
            self.changed.emit(None)
