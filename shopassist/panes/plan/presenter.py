"""Words of the Plan pane: bars in a real week, the day's list, and what is reported by it."""

from collections.abc import Callable
from dataclasses import dataclass, field

from shopassist.clock import Clock
from shopassist.core.batch import Batch, Typed
from shopassist.core.civil import DAY
from shopassist.core.day_list import Todo
from shopassist.core.entry import Entry
from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure
from shopassist.core.frozen import frozen
from shopassist.core.hours_text import read_hours, write_hours
from shopassist.core.quantities import UtcSecond
from shopassist.core.stages import STAGES, Stage
from shopassist.core.wording import Wording
from shopassist.panes.plan import words
from shopassist.panes.plan.panel import ASKS, shop_shown, stage_shown
from shopassist.panes.plan.screen import (
    PAGES,
    SPANS,
    BarsShown,
    DoShown,
    PlanScreen,
)
from shopassist.services.batches import BatchService
from shopassist.services.hooks import Hook
from shopassist.services.in_hand import InHand
from shopassist.services.plan import DEFAULTS, DUE, PlanService
from shopassist.services.plan_outlook import Outlook

HOUR, MINUTE = 3600.0, 60.0
MOST_DOS = 4
FIGURES = ("hands_left", "path", "start_by")
VIEWS = {"near": (8 * HOUR, 40 * HOUR), "week": (DAY, 6 * DAY)}
"""How far back and ahead of now the bars reach."""
BUTTON_KINDS = ("look", "now", "can wait")
PANE_WORDS = {"mix": "Mix", "pot": "Pot", "stabilise": "Stabilise"}


@frozen
class Do:
    """What a button of the list does."""

    act: str
    """``start``, ``end``, or the pane that reports it."""
    batch_id: str
    key: str


@dataclass(slots=True)
class _Drafts:
    selected: str = ""
    page: str = "today"
    span: str = "week"
    when: str = ""
    when_error: str = ""
    hours_error: str = ""
    due_error: str = ""
    message: str = ""
    problems: dict[str, str] = field(default_factory=dict)


class PlanPresenter:
    """Keeps what is looked at; stages and hours are the service's."""

    IDS = (
        "plan.bars", "plan.done", *(f"plan.{name}" for name in FIGURES), "plan.span.<n>",
        "plan.page.<n>", "plan.do.<n>", "plan.when", "plan.list",
        *(f"plan.{each.name}" for each in ASKS),
        "plan.after", "plan.place", "plan.start", "plan.end", "plan.take_back", "plan.leave_out",
        "plan.hours", "plan.attended", "plan.due", "plan.cautions", "plan.message",
    )  # fmt: skip

    def __init__(
        self, service: PlanService, batches: BatchService, hand: InHand, clock: Clock,
        wording: Wording,
    ) -> None:  # fmt: skip
        self.changed: Hook[None] = Hook()
        self.explained: Hook[Figure] = Hook()
        self.went_on: Hook[str] = Hook()
        self._service = service
        self._batches = batches
        self._hand = hand
        self._clock = clock
        self._wording = wording
        self._drafts = _Drafts()
        self._dos: tuple[Do, ...] = ()
        self._drawn_at = 0.0
        service.changed.connect(lambda _: self._tell())
        batches.changed.connect(lambda _: self._tell())
        hand.changed.connect(lambda _: self._on_hand())

    def _tell(self) -> None:
        self.changed.emit(None)

    def _on_hand(self) -> None:
        kept = self._drafts
        self._drafts = _Drafts(page=kept.page, span=kept.span)
        self._tell()

    # -- what stands ---------------------------------------------------------------------------

    def _batch(self) -> Batch | None:
        return self._batches.get(self._hand.batch) if self._hand.batch else None

    def _outlook(self) -> Outlook:
        return self._service.outlook(self._hand.batch, self._wording.offset)

    def _selected(self, found: Outlook) -> str:
        """The stage that was chosen, or the one that is to be done."""
        if self._drafts.selected in DEFAULTS:
            return self._drafts.selected
        kinds = {"running": 0, "planned": 1, "done": 2}
        ordered = sorted(found.own, key=lambda each: (kinds[each.kind], each.start))
        return ordered[0].key if ordered else next(iter(DEFAULTS))

    @property
    def screen(self) -> PlanScreen:
        """The pane as it stands now."""
        found, now, drafts, say = self._outlook(), self._now(), self._drafts, self._wording
        self._drawn_at = now // MINUTE
        selected, batch = self._selected(found), self._batch()
        names = words.names_of(self._service.under_way(self._hand.batch))
        view = self._view(found, now)
        self._dos, dos, pressed = self._list(found, names, now)
        return PlanScreen(
            right=batch.name if batch is not None else "",
            bars=words.bars(say, found, view, now, selected, names),
            lead=words.figure(say, "done", found.figures, now),
            figures=tuple(words.figure(say, name, found.figures, now) for name in FIGURES),
            span=drafts.span,
            page=drafts.page,
            dos=dos,
            when=drafts.when,
            when_error=drafts.when_error,
            today=words.today(say, found.todo, names, now, pressed),
            stage=stage_shown(say, self._service, found, batch, selected, drafts.problems, now),
            shop=shop_shown(
                say, self._service, found, batch, now, drafts.hours_error, drafts.due_error
            ),
            cautions=words.CAUTIONS,
            message=drafts.message,
        )

    def _now(self) -> float:
        return float(self._clock.read().utc)

    def is_stale(self) -> bool:
        """Whether another minute has begun since the screen was made."""
        return self._now() // MINUTE != self._drawn_at

    def _view(self, found: Outlook, now: float) -> tuple[float, float]:
        if self._drafts.span in VIEWS:
            back, ahead = VIEWS[self._drafts.span]
            return now - back, now + ahead
        first = min([now, *(each.start for each in found.own)])
        last = max([now + DAY, *(each.end for each in found.own)])
        margin = 0.03 * (last - first)
        return first - margin, last + margin

    # -- the day's list ------------------------------------------------------------------------

    def _list(
        self, found: Outlook, names: dict[str, str], now: float
    ) -> tuple[tuple[Do, ...], tuple[DoShown, ...], frozenset[int]]:
        """Buttons for what can be reported, and which lines of the list they stand for."""
        dos: list[Do] = []
        shown: list[DoShown] = []
        pressed: set[int] = set()
        for number, each in enumerate(found.todo):
            if each.kind in BUTTON_KINDS and len(dos) < MOST_DOS and self._may(each):
                dos.append(self._do_of(each))
                pressed.add(number)
                label = f"{self._do_words(dos[-1])}: {each.stage.name}"
                note = words.do_note(self._wording, each, now)
                if len(names) > 1:
                    note = f"{names[each.batch_id]}: {note}"
                shown.append(DoShown(label, note, primary=len(dos) == 1))
        for each_done in self._running(found, now):
            if len(dos) < MOST_DOS:
                stage, batch_id, note = each_done
                dos.append(Do("end", batch_id, stage.key))
                if len(names) > 1:
                    note = f"{names[batch_id]}: {note}"
                shown.append(DoShown(f"Done: {stage.name}", note, primary=len(dos) == 1))
        return tuple(dos), tuple(shown), frozenset(pressed)

    def _may(self, each: Todo) -> bool:
        """Not while a weigh-out or a pot before it still runs: those end in their own panes."""
        batch = self._batches.get(each.batch_id)
        return each.kind == "look" or not self._service.waits_for(batch, each.stage.key)

    def _do_of(self, each: Todo) -> Do:
        batch = self._batches.get(each.batch_id)
        pane = self._service.reported_in(batch, each.stage.key)
        act = pane or ("end" if each.kind == "look" else "start")
        return Do(act, each.batch_id, each.stage.key)

    @staticmethod
    def _do_words(do: Do) -> str:
        return {"start": "Start", "end": "Done"}.get(do.act) or f"In {PANE_WORDS[do.act]}"

    def _running(self, found: Outlook, now: float) -> list[tuple[Stage, str, str]]:
        """What runs and may be ended here before its time."""
        running: list[tuple[Stage, str, str]] = []
        for batch_id, placed in found.placed.items():
            batch = self._batches.get(batch_id)
            stages = {each.key: each for each in self._service.job_stages(batch)}
            for each in placed:
                if each.kind == "running" and each.end > now and not self._service.reported_in(
                    batch, each.key
                ):  # fmt: skip
                    until = self._wording.clock(each.end, now, late=True)
                    running.append((stages[each.key], batch_id, f"runs, likely to {until}"))
        return running

    # -- acts: looking ---------------------------------------------------------------------------

    def on_page(self, page: str) -> None:
        """Turn to another page beside the bars."""
        if page in dict(PAGES):
            self._drafts.page = page
            self._tell()

    def on_span(self, span: str) -> None:
        """Show more or less of the time."""
        if span in dict(SPANS):
            self._drafts.span = span
            self._tell()

    def on_select(self, key: str) -> None:
        """Look at one stage more closely."""
        if key in DEFAULTS:
            self._drafts.selected, self._drafts.page = key, "stage"
            self._drafts.problems = {}
            self._tell()

    def on_step(self, step: int) -> None:
        """Choose the stage above or below among those in view."""
        bars = self._bars()
        keys = [each.key for each in bars.rows] or list(DEFAULTS)
        here = self._selected(self._outlook())
        place = keys.index(here) + step if here in keys else 0
        self.on_select(keys[min(max(place, 0), len(keys) - 1)])

    def _bars(self) -> BarsShown:
        found, now = self._outlook(), self._now()
        return words.bars(self._wording, found, self._view(found, now), now, "", {})

    def on_explain(self, name: str) -> None:
        """Explain one of the numbers."""
        found = self._outlook().figures.get(name)
        if found is not None:
            self.explained.emit(found)

    # -- acts: reporting ---------------------------------------------------------------------------

    def on_when(self, text: str) -> None:
        """Take when it happened; empty means now."""
        if text.strip() != self._drafts.when:
            self._drafts.when, self._drafts.when_error = text.strip(), ""
            self._tell()

    def on_do(self, number: int) -> None:
        """Press one button of the list."""
        if number >= len(self._dos):
            return
        do = self._dos[number]
        if do.act in PANE_WORDS:
            if do.batch_id != self._hand.batch:
                self._hand.take_batch(do.batch_id)
            self.went_on.emit(do.act)
        else:
            self._report(do)

    def on_start(self) -> None:
        """Begin the stage that is looked at."""
        self._report(Do("start", self._hand.batch, self._selected(self._outlook())))

    def on_end(self) -> None:
        """End the stage that is looked at."""
        self._report(Do("end", self._hand.batch, self._selected(self._outlook())))

    def _report(self, do: Do) -> None:
        when, typed = None, self._drafts.when
        if typed:
            try:
                when = self._wording.read_moment(typed, self._clock.read(), "plan.when")
            except ShopError as error:
                self._drafts.when_error = self._wording.complaint(error)
                self._tell()
                return
        act = self._service.start if do.act == "start" else self._service.end
        if self._do(lambda: act(do.batch_id, do.key, when)):
            self._drafts.when = ""
            self._tell()

    def on_take_back(self) -> None:
        """Say that the stage was reported by mistake."""
        key = self._selected(self._outlook())
        self._do(lambda: self._service.take_back(self._hand.batch, key))

    def on_leave_out(self) -> None:
        """Do without the stage, or bring it back."""
        batch, key = self._batch(), self._selected(self._outlook())
        if batch is not None:
            out = key not in self._service.left_out(batch)
            self._do(lambda: self._service.leave_out(batch.id, key, out=out))

    # -- acts: what the user knows better ------------------------------------------------------

    def on_committed(self, name: str, entry: Entry | None) -> None:
        """Take one duration of the stage, or our own again."""
        typed = None if entry is None else Typed(entry.plain, entry.value, entry.quantity)
        self._edit(name, lambda batch, key: self._service.set_duration(batch, key, name, typed))

    def on_order(self, name: str, text: str) -> None:
        """Take what the stage comes after, or what it occupies; empty: our own again."""
        act = self._service.set_after if name == "after" else self._service.set_place
        shown, word = self.screen.stage, text.strip()
        ours = words.order_words(DEFAULTS[shown.key], STAGES)[name]
        if word != shown.order[name].text or shown.order[name].error:
            typed = "" if word == ours else word
            self._edit(name, lambda batch, key: act(batch, key, typed))

    def _edit(self, name: str, act: Callable[[str, str], object]) -> None:
        key = self._selected(self._outlook())
        self._drafts.selected = key
        try:
            batch_id = self._hand.batch_for_entry()
            self._drafts.selected, self._drafts.page = key, "stage"
            act(batch_id, key)
            self._drafts.problems = {}
        except ShopError as error:
            self._drafts.problems = {name: self._wording.complaint(error)}
        self._tell()

    def on_hours(self, text: str) -> None:
        """Take the shop's hours."""
        drafts = self._drafts
        is_same = text.strip() == write_hours(self._service.shop.week)
        if is_same and not drafts.hours_error:
            return
        drafts.hours_error = ""
        if not is_same:
            try:
                self._service.set_hours(read_hours(text.strip(), "plan.hours"))
            except ShopError as error:
                drafts.hours_error = self._wording.complaint(error)
        self._tell()

    def on_attended(self, *, attended: bool) -> None:
        """Say whether ovens, pumps and heaters never run with nobody there."""
        self._do(lambda: self._service.set_attended(attended=attended))

    def on_due(self, text: str) -> None:
        """Take the day and time at which it has to be done; empty: as soon as it goes."""
        drafts, word, batch = self._drafts, text.strip(), self._batch()
        standing = batch.entries.get(DUE) if batch is not None else None
        if word == (standing.text if standing is not None else "") and not drafts.due_error:
            return
        drafts.due_error = ""
        try:
            due = self._read_due(word) if word else None
            self._service.set_due(self._hand.batch_for_entry(), word, due)
        except ShopError as error:
            drafts.due_error = self._wording.complaint(error)
        self._tell()

    def _read_due(self, word: str) -> UtcSecond:
        """A day alone means its evening."""
        now = self._clock.read()
        try:
            return self._wording.read_planned(word, now, "plan.due")
        except ShopError:
            return self._wording.read_planned(f"{word} 18:00", now, "plan.due")

    def _do(self, act: Callable[[], object]) -> bool:
        problem = ""
        try:
            act()
        except ShopError as error:
            problem = self._wording.complaint(error)
        self._drafts.message = problem
        self._tell()
        return not problem
