"""Words of the cure pane: what the digits count to, how sure it is, and what was read."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from shopassist.clock import Clock
from shopassist.core.batch import SEEN_MARKS
from shopassist.core.entry import Entry, EntrySpec
from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure
from shopassist.core.quantities import Kelvin
from shopassist.core.wording import Wording
from shopassist.panes.cure import words
from shopassist.services.batches import BatchService
from shopassist.services.cure import CureService, CureView, StageView
from shopassist.services.cure_figures import figure_of
from shopassist.services.hooks import Hook
from shopassist.services.in_hand import InHand
from shopassist.services.next import Due, Rank
from shopassist.widgets.shown import BenchShown, WaitShown

PLACES = ("resin", "mould", "pot wall", "cabinet air", "shop")
"""What a thermometer may be measuring."""
TEMPERATURE = EntrySpec("Kelvin", field="cure.temperature", lowest=233.15, highest=473.15)
ONE_LINE = "Nothing is curing"


@dataclass(frozen=True, slots=True)
class Line:
    """One milestone: its name, likely range, and the time to go by."""

    id: str
    label: str
    range: str
    gate: str
    passed: bool
    note: str


@dataclass(frozen=True, slots=True)
class Other:
    """Another running cure, beside the one in front."""

    batch_id: str
    name: str
    caption: str


@dataclass(frozen=True, slots=True)
class CureScreen:
    """Everything that the cure pane shows; digits are asked for apart, each second."""

    batch_id: str
    right: str
    wait: WaitShown
    temperature: tuple[str, str]
    temperature_line: str
    places: tuple[str, ...]
    lines: tuple[Line, ...]
    others: tuple[Other, ...]
    notes: tuple[str, ...]
    seen: tuple[tuple[str, str], ...]
    """Marks of the witness cup, and when each was seen."""
    error: str
    empty: str


@dataclass(slots=True)
class _Mind:
    """What the pane keeps between two looks."""

    place: str = PLACES[0]
    error: str = ""
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
        "cure.seen.<n>",
        "cure.notes",
        "cure.message",
    )

    def __init__(
        self, batches: BatchService, cure: CureService, hand: InHand, clock: Clock, wording: Wording
    ) -> None:
        self.changed: Hook[None] = Hook()
        self.explained: Hook[Figure] = Hook()
        self._batches = batches
        self._cure = cure
        self._hand = hand
        self._clock = clock
        self._wording = wording
        self._mind = _Mind()
        batches.changed.connect(lambda _: self.changed.emit(None))
        hand.changed.connect(lambda _: self.changed.emit(None))

    # -- what is shown ------------------------------------------------------------------------

    def _front(self) -> CureView | None:
        """The cure in front: of the batch in hand, else the newest that runs."""
        running = self._cure.running()
        chosen = self._hand.batch
        if chosen and self._batches.get(chosen).first_contact is not None:
            return self._cure.view(chosen)
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
            places=PLACES,
            lines=tuple(self._line(stage, now) for stage in view.relevant()),
            others=self._others(view, now),
            notes=self._notes(view, lead),
            seen=tuple(self._seen(view, mark) for mark in SEEN_MARKS),
            error=self._mind.error,
            empty="",
        )

    def _empty(self) -> CureScreen:
        wait = WaitShown(ONE_LINE, "Hardener in starts a clock", "", None, explains=False)
        marks = tuple((mark, "") for mark in SEEN_MARKS)
        return CureScreen(
            "", "", wait, words.warmth(self._wording, None), "", PLACES, (), (), (), marks,
            self._mind.error, "Weigh out in Mix and press Hardener in: the clock starts here.",
        )  # fmt: skip

    def _caption(self, lead: StageView | None, now: float) -> str:
        if lead is None:
            return "Time since hardener"
        caption = self._wording.say(words.gate_text(lead, words.CAPTIONS), now)
        if lead.gate is None:
            return f"{caption}: no time while it is too cold"
        return caption if not lead.passed(now) else f"{caption}: reached"

    def _line(self, stage: StageView, now: float) -> Line:
        say = self._wording
        gate = "no time" if stage.gate is None else say.clock(
            stage.gate, now, late=stage.kind == "release"
        )  # fmt: skip
        ahead = "before" if stage.kind == "hazard" else "from"
        note = say.say(stage.forecast.notes[0], now) if stage.forecast.notes else ""
        return Line(
            f"cure.milestone.{stage.aim}", words.LABELS[stage.aim],
            words.range_text(say, stage, now), f"{ahead} {gate}" if stage.gate else gate,
            stage.passed(now), note,
        )  # fmt: skip

    def _others(self, front: CureView, now: float) -> tuple[Other, ...]:
        found = []
        for batch_id in self._cure.running():
            view = self._cure.view(batch_id)
            if view is None or batch_id == front.batch.id:
                continue
            lead = view.lead(now)
            found.append(Other(batch_id, view.batch.name, self._caption(lead, now)))
        return tuple(found)

    def _notes(self, view: CureView, lead: StageView | None) -> tuple[str, ...]:
        texts = [*(lead.forecast.notes if lead is not None else ()), *view.notes]
        told = [self._wording.say(text) for text in dict.fromkeys(texts)]
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
        return self._digits_of(view) if view is not None else ""

    def digits_of(self, batch_id: str) -> str:
        """The countdown of another cure."""
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
        return BenchShown(screen.wait.caption, screen.right, screen.wait.rule)

    def dues(self) -> Iterable[Due]:
        """The leads of all running cures, for the next line."""
        now = self._clock.read().utc
        for batch_id in self._cure.running():
            view = self._cure.view(batch_id)
            lead = view.lead(now) if view is not None else None
            if view is None or lead is None:
                continue
            rank = Rank.HAZARD if lead.kind == "hazard" else Rank.RELEASE
            yield Due(
                words.gate_text(lead, words.NEXT), lead.gate, words.next_range(lead, now),
                Rank.LATER if lead.passed(now) else rank, "cure", view.batch.name, batch_id,
            )  # fmt: skip

    # -- acts -----------------------------------------------------------------------------------

    def on_place(self, place: str) -> None:
        """Say what the thermometer measures."""
        self._mind.place = place

    def on_temperature(self, entry: Entry | None) -> None:
        """Add a typed temperature to the batch in front."""
        view = self._front()
        if entry is None:
            return
        batch_id = view.batch.id if view is not None else self._hand.batch_for_entry()
        value = Kelvin(entry.value)
        self._do(lambda: self._batches.add_temperature(batch_id, value, value, self._mind.place))

    def on_seen(self, mark: str) -> None:
        """Record what the witness cup shows."""
        view = self._front()
        if view is not None:
            self._do(lambda: self._batches.see(view.batch.id, mark))

    def on_take(self, batch_id: str) -> None:
        """Bring another cure to the front."""
        self._hand.take_batch(batch_id)

    def on_explain(self, name: str = "") -> None:
        """Explain a milestone; without a name, the one the digits count to."""
        view = self._front()
        if view is None:
            return
        lead = view.lead(self._clock.read().utc)
        key = name or (f"cure.milestone.{lead.aim}" if lead is not None else "")
        figure = self._mind.figures.get(key)
        if figure is not None:
            self.explained.emit(figure)

    def _do(self, act: Callable[[], object]) -> None:
        try:
            self._mind.error = ""
            act()
        except ShopError as error:
            self._mind.error = self._wording.say(error.title)
            self.changed.emit(None)
