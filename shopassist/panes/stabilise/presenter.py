"""Words of the Stabilise pane: one path, one present step."""

from collections.abc import Callable

from shopassist.clock import Clock
from shopassist.core.atmosphere import absolute_of_vacuum
from shopassist.core.bath import HEADSPACE
from shopassist.core.entry import Entry
from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure
from shopassist.core.pumping import (
    AFTER_A_POWER_CUT,
    SHUT_DOWN,
    is_slow,
    judge_vacuum,
    pump_down_time,
    stall_causes,
)
from shopassist.core.quantities import (
    CubicMetre,
    CubicMetrePerSecond,
    Kelvin,
    Kilogram,
    PascalAbsolute,
    PascalVacuum,
    Second,
    UtcSecond,
)
from shopassist.core.stabilising import STEPS, Step, stand
from shopassist.core.wood_set import Event, When, WoodSet
from shopassist.core.wording import Wording
from shopassist.panes.stabilise import words
from shopassist.panes.stabilise.asks import ALL, PANE
from shopassist.panes.stabilise.screen import PAGES, StabiliseScreen
from shopassist.services.batches import BatchService
from shopassist.services.entry_book import EntryBook
from shopassist.services.hooks import Hook
from shopassist.services.in_hand import InHand
from shopassist.services.said import Said
from shopassist.services.stabilise import StabiliseService
from shopassist.services.stabilise_plan import WoodFigures, work_out
from shopassist.widgets.shown import FigureShown

WHEN_OF: dict[str, When] = {
    "weigh": "wet", "dry": "oven", "cover": "bath", "wrap": "soaked", "after": "baked",
}  # fmt: skip
SHOP = Kelvin(293.15)
"""The bath is taken to be at 20 °C; ours."""


class StabilisePresenter:
    """Keeps the drafts of the set in hand; everything reported is the service's."""

    IDS = (
        *(f"{PANE}.{ask.name}" for ask in ALL),
        f"{PANE}.what",
        f"{PANE}.mass",
        f"{PANE}.correct_mass",
        f"{PANE}.dial",
        f"{PANE}.meter",
        f"{PANE}.meter_floor",
        f"{PANE}.wait",
        f"{PANE}.act.<n>",
        f"{PANE}.figure.<n>",
        f"{PANE}.page.<n>",
        f"{PANE}.note",
        f"{PANE}.facts",
        f"{PANE}.cautions",
        f"{PANE}.message",
    )

    def __init__(
        self, batches: BatchService, service: StabiliseService, hand: InHand, clock: Clock,
        wording: Wording,
    ) -> None:  # fmt: skip
        self.changed: Hook[None] = Hook()
        self.explained: Hook[Figure] = Hook()
        self._batches = batches
        self._service = service
        self._hand = hand
        self._clock = clock
        self._wording = wording
        self._book = EntryBook(PANE, ALL, batches, hand)
        self._page = "facts"
        self._message = ""
        self._floor: float | None = None
        batches.changed.connect(self._on_batch)
        service.changed.connect(self._on_batch)
        hand.changed.connect(lambda _: self._on_hand())

    def _on_batch(self, batch_id: str) -> None:
        if batch_id == self._hand.batch:
            self.changed.emit(None)

    def _on_hand(self) -> None:
        self._book.forget()
        self._message = ""
        self.changed.emit(None)

    # -- what stands -------------------------------------------------------------------------

    def _said(self) -> Said:
        return self._book.said()

    def _state(self) -> WoodSet:
        return self._service.state(self._hand.batch) if self._hand.batch else WoodSet()

    def _figures(self) -> WoodFigures:
        return work_out(self._said(), self._state())

    def _step(self, state: WoodSet, found: WoodFigures) -> Step:
        return stand(state, found.terms, self._clock.read().utc)

    @property
    def screen(self) -> StabiliseScreen:
        """The pane as it stands now."""
        state, found = self._state(), self._figures()
        step, say = self._step(state, found), self._wording
        batch = self._book.batch
        names = tuple(n for n in words.FIGURES_OF[step.key] if n in found.figures)
        figures = [words.figure(say, name, found.figures) for name in names]
        shown = [each for each in figures if each is not None]
        problems = {name: say.say(text) for name, text in found.problems.items()}
        return StabiliseScreen(
            batch_id=batch.id if batch else "",
            right=batch.name if batch else "New batch",
            steps=tuple(title for _, title in STEPS),
            present=step.number if step.number < len(STEPS) else None,
            what=say.say(step.what),
            why=say.say(step.why) if step.why is not None else "",
            wait=say.say(step.wait.text) if step.wait is not None else "",
            until=self._until(step),
            digits=self.digits(),
            mass_label=self._mass_label(state, step),
            asks_dial=step.key == "pull" and state.at("pump_on") is not None,
            asks_meter=step.key in ("weigh", "dry"),
            acts=words.acts(state, step, winds=found.terms.cut_off is not None),
            figures=(*self._own_figures(state, step), *shown),
            figure_names=names,
            note=self._note(state, step),
            facts=words.facts(say, state, found.terms.step),
            can_correct=bool(state.weighed) and bool(self._mass_label(state, step)),
            cautions=words.CAUTIONS,
            page=self._page,
            answers=self._book.answers(problems),
            message=self._message,
        )

    def _mass_label(self, state: WoodSet, step: Step) -> str:
        if step.key == "dry" and state.at("oven_on") is None:
            return ""
        if step.key == "wrap" and state.last("soaked") is not None:
            return ""
        return words.MASS_LABELS.get(step.key, "")

    def _until(self, step: Step) -> str:
        if step.wait is None:
            return ""
        if step.wait.not_before is None:
            return f"since {self._wording.clock(step.wait.since)}"
        return f"not before {self._wording.clock(step.wait.not_before)}"

    def digits(self) -> str:
        """What is left of the wait, or how long it has been."""
        step = self._step(self._state(), self._figures())
        if step.wait is None:
            return ""
        now = self._clock.read().utc
        if step.wait.not_before is None:
            return self._wording.digits(now - step.wait.since)
        return self._wording.digits(max(step.wait.not_before - now, 0.0))

    def _own_figures(self, state: WoodSet, step: Step) -> tuple[FigureShown, ...]:
        """Numbers that come from the last readings: loss in the oven, pressure in the chamber."""
        say = self._wording
        if step.dryness is not None and step.dryness.loss is not None:
            allowed = step.dryness.allowed or 0.0
            return (FigureShown(
                "Lost since the weighing before", *say.split(step.dryness.loss, "Kilogram"),
                note=f"allowed {say.amount(allowed, 'Kilogram')}", explains=False,
            ),)  # fmt: skip
        if step.key == "pull" and state.vacuums:
            ambient = self._service.ambient()
            absolute = absolute_of_vacuum(state.vacuums[-1].vacuum, ambient)
            share = say.percent(1 - absolute / ambient, 1)
            return (FigureShown(
                "In the chamber, absolute", *say.split(absolute, "PascalAbsolute"),
                note=f"{share} of what the air allows here", explains=False,
            ),)  # fmt: skip
        return ()

    def _note(self, state: WoodSet, step: Step) -> str:
        say = self._wording
        if step.key == "pull":
            return self._vacuum_note(state)
        if step.key == "dry" and step.dryness is not None and step.dryness.end_mass is not None:
            end = say.amount(step.dryness.end_mass, "Kilogram")
            return f"Heading for about {end}; thick pieces end lower. No proof of dryness."
        if step.key == "cover":
            return self._bath_note()
        if step.key == "done" and state.at("floated") is not None:
            return "It floated: less than the sinking share of its voids is full."
        return ""

    def _bath_note(self) -> str:
        told = []
        plan = self._figures().bath
        if plan is not None and self._book.value("vessel_height") and plan.foams_over:
            room = self._wording.amount(HEADSPACE, "Metre", 0)
            told.append(f"Less than {room} under the rim: it can foam over into the pump.")
        history = self._service.bath_history(self._book.text("bath"), self._hand.batch)
        if history:
            told.append(f"This bath has treated: {', '.join(history)}. It colours pale wood.")
        return " ".join(told)

    def _vacuum_note(self, state: WoodSet) -> str:
        say = self._wording
        if state.at("power_cut") is not None and state.at("gauge_read") is None:
            return " ".join(say.say(each) for each in AFTER_A_POWER_CUT)
        if state.at("quiet") is not None:
            return "  ".join(f"{n} {say.say(each)}" for n, each in enumerate(SHUT_DOWN, 1))
        best = self._book.value("pump_best")
        if not state.vacuums:
            return ""
        if best is None:
            return "Type what the pump reaches to judge the dial."
        vacuum, ambient = state.vacuums[-1].vacuum, self._service.ambient()
        verdict = judge_vacuum(vacuum, ambient, PascalAbsolute(best))
        causes = stall_causes(verdict.absolute, PascalAbsolute(best), SHOP, None)
        told = say.say(verdict.text)
        if not verdict.deep_enough and self._is_slow(state, verdict.absolute, best):
            told += " Standing there: " + " Or: ".join(say.say(each) for each in causes)
        return told

    def _is_slow(self, state: WoodSet, reached: PascalAbsolute, best: float) -> bool:
        chamber, speed = self._book.value("chamber"), self._book.value("pump_speed")
        pump = state.at("pump_on")
        if pump is None or reached <= best:
            return False
        if chamber is None or speed is None:
            return True
        expected = pump_down_time(
            CubicMetre(chamber), CubicMetrePerSecond(speed), self._service.ambient(), reached,
            PascalAbsolute(best),
        )  # fmt: skip
        taken = state.vacuums[-1].at - pump
        return is_slow(Second(taken), expected)

    # -- acts: entries ------------------------------------------------------------------------

    def on_edited(self, name: str, entry: Entry | None) -> None:
        """Take a draft; the numbers follow at once."""
        self._book.edited(name, entry)
        self.changed.emit(None)

    def on_committed(self, name: str, entry: Entry | None) -> None:
        """Write an entry of the set."""
        self._do(lambda: self._book.committed(name, entry))

    def on_chosen(self, name: str, key: str) -> None:
        """Write a choice."""
        self._do(lambda: self._book.chosen(name, key))

    def on_page(self, page: str) -> None:
        """Turn to another page beside the step."""
        if any(key == page for key, _ in PAGES):
            self._page = page
            self.changed.emit(None)

    # -- acts: reports ----------------------------------------------------------------------------

    def on_mass(self, entry: Entry | None) -> None:
        """Record what the set weighs at this step."""
        step = self._step(self._state(), self._figures())
        when = WHEN_OF.get(step.key)
        if entry is not None and when is not None:
            mass = Kilogram(entry.value)
            self._do(lambda: self._service.weigh(self._hand.batch_for_entry(), mass, when))

    def on_correct_mass(self) -> None:
        """Take the newest weight back, to type it again; both rows stay."""
        state = self._state()
        if state.weighed:
            newest = max(state.weighed, key=lambda each: each.seq)
            self._do(lambda: self._service.unweigh(self._hand.batch, newest))

    def on_dial(self, entry: Entry | None) -> None:
        """Record the chamber's dial."""
        if entry is not None:
            vacuum = PascalVacuum(entry.value)
            self._do(lambda: self._service.read_vacuum(self._hand.batch, vacuum))

    def on_floor(self, entry: Entry | None) -> None:
        """Keep the lowest value that the meter can show."""
        self._floor = None if entry is None else entry.value
        self.changed.emit(None)

    def on_meter(self, entry: Entry | None) -> None:
        """Record a moisture meter's reading; at its floor it only says *this or less*."""
        if entry is None:
            return
        if self._floor is None:
            self._tell("Say the lowest that this meter can show: at its floor it says nothing.")
            return
        shown, floor = entry.value, self._floor
        self._do(lambda: self._service.read_meter(self._hand.batch_for_entry(), shown, floor))

    def on_act(self, event: Event, happened: UtcSecond | None = None) -> None:
        """Report what has happened."""
        self._do(lambda: self._service.report(self._hand.batch_for_entry(), event, happened))

    def on_explain(self, name: str) -> None:
        """Explain one of the numbers."""
        found = self._figures().figures.get(name)
        if found is not None:
            self.explained.emit(found)

    def _do(self, act: Callable[[], object]) -> None:
        try:
            act()
        except ShopError as error:
            detail = self._wording.say(error.detail)
            self._tell(f"{self._wording.say(error.title)} {detail}".strip())
        else:
            self._tell("")

    def _tell(self, message: str) -> None:
        self._message = message
        self.changed.emit(None)
