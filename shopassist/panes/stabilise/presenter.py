"""Words of the Stabilise pane: one path, one present step."""

from collections.abc import Callable
from typing import cast

from shopassist.clock import Clock
from shopassist.core.entry import Entry
from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure
from shopassist.core.quantities import Kelvin, Kilogram, PascalVacuum, UtcSecond
from shopassist.core.stabilising import STEPS, Step
from shopassist.core.wood_set import Event, PieceWeighed, Weighed, When, WoodSet
from shopassist.core.wording import Wording
from shopassist.panes.stabilise import notes, words
from shopassist.panes.stabilise.asks import ALL, PANE
from shopassist.panes.stabilise.screen import PAGE_OF, PAGES, StabiliseScreen, Told
from shopassist.services.batches import BatchService
from shopassist.services.entry_book import EntryBook
from shopassist.services.hooks import Hook
from shopassist.services.in_hand import InHand
from shopassist.services.stabilise import StabiliseService
from shopassist.services.stabilise_after import forecast
from shopassist.services.stabilise_facts import WoodFacts, WoodFigures, pieces_of
from shopassist.services.stabilise_plan import work_out

WHEN_OF: dict[str, When] = {
    "weigh": "wet", "dry": "oven", "cover": "bath", "wrap": "soaked", "after": "baked",
}  # fmt: skip
MOST_FIGURES = 8


class StabilisePresenter:
    """Keeps the drafts of the set in hand; everything reported is the service's."""

    IDS = (
        *(f"{PANE}.{ask.name}" for ask in ALL),
        *(
            f"{PANE}.{name}"
            for name in (
                "what", "mass", "correct_mass", "take_back", "dial", "oven_reads", "probe", "ago",
                "meter", "meter_floor", "wait", "act.<n>", "figure.<n>", "page.<n>", "note",
                "beware", "facts", "compared", "cautions", "message",
            )
        ),
    )  # fmt: skip

    def __init__(
        self, batches: BatchService, service: StabiliseService, hand: InHand, clock: Clock,
        wording: Wording,
    ) -> None:  # fmt: skip
        self.changed: Hook[None] = Hook()
        self.explained: Hook[Figure] = Hook()
        self.went_on: Hook[str] = Hook()
        self._service = service
        self._hand = hand
        self._clock = clock
        self._wording = wording
        self._book = EntryBook(PANE, ALL, batches, hand)
        self._page = ""
        self._message = ""
        self._floor: float | None = None
        self._ago: float | None = None
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

    def _state(self) -> WoodSet:
        return self._service.state(self._hand.batch) if self._hand.batch else WoodSet()

    def _facts(self) -> WoodFacts:
        return self._service.facts(self._hand.batch, self._book.said())

    def _figures(self) -> WoodFigures:
        return work_out(self._facts())

    def _step(self, found: WoodFigures) -> Step:
        return self._service.step(self._hand.batch, found.terms)

    @property
    def screen(self) -> StabiliseScreen:
        """The pane as it stands now."""
        facts = self._facts()
        state, found = facts.state, work_out(facts)
        step, say = self._step(found), self._wording
        batch = self._book.batch
        own = notes.own_figures(say, state, step, facts.ambient)
        names = self._names(step, found)[: MOST_FIGURES - len(own)]
        shown = [words.figure(say, name, found.figures) for name in names]
        problems = {name: say.say(text) for name, text in found.problems.items()}
        in_oven = bool(state.runs) and state.runs[-1].end is None
        acts = words.acts(state, step, winds=found.terms.cut_off is not None)
        return StabiliseScreen(
            batch_id=batch.id if batch else "",
            right=batch.name if batch else "New batch",
            steps=tuple(title for _, title in STEPS),
            present=step.number if step.number < len(STEPS) else None,
            what=say.say(step.what),
            why=say.say(step.why) if step.why is not None else "",
            wait=say.say(step.wait.text) if step.wait is not None else "",
            until=self._until(step),
            digits=self._digits(step),
            mass_label=self._mass_label(state, step),
            asks_dial=step.key == "pull" and state.at("pump_on") is not None,
            asks_oven=in_oven and step.key in ("dry", "heat_up", "hold"),
            asks_probe=step.key == "heat_up" and in_oven,
            asks_meter=step.key in ("weigh", "dry") and not in_oven,
            acts=acts,
            figures=(*own, *(each for each in shown if each is not None)),
            figure_names=names,
            note=notes.note(say, state, step, found, facts.ambient),
            beware=words.AT_HAND.get(step.key, ""),
            facts=words.facts(say, state, found.terms.step),
            compared=self._compared(facts, step),
            can_correct=bool(state.weighed or state.pieces) and bool(self._mass_label(state, step)),
            take_back=self._newest_words(),
            cautions=words.CAUTIONS,
            page=self._shown_page(step),
            answers=self._book.answers(problems),
            choices=self._service.choices(),
            message=self._message,
        )  # fmt: skip

    def _shown_page(self, step: Step) -> str:
        """The page that was turned to; until then the one that belongs to the step."""
        return self._page or PAGE_OF[step.key]

    def _names(self, step: Step, found: WoodFigures) -> tuple[str, ...]:
        """Numbers of the step, and those of the page that lies open beside it."""
        asked = (*words.FIGURES_OF[step.key], *words.PAGE_FIGURES.get(self._page, ()))
        return tuple(name for name in dict.fromkeys(asked) if name in found.figures)

    def _newest_words(self) -> str:
        newest = self._service.newest_report(self._hand.batch) if self._hand.batch else None
        return "" if newest is None else f"Not so: {words.EVENT_WORDS[newest]}"

    def _compared(self, facts: WoodFacts, step: Step) -> tuple[Told, ...]:
        """Other finished sets; only while they are looked at."""
        if self._shown_page(step) != "compare":
            return ()
        others = self._service.uptakes()
        rows = words.compared(self._wording, others, self._hand.batch)
        ahead = forecast(facts, others)
        if ahead is None:
            return rows
        amount = self._wording.amount(ahead[0], "CubicMetre")
        sets = "set" if ahead[1] == 1 else "sets"
        words_ahead = f"Like {ahead[1]} {sets} of its wood before, this one takes {amount}."
        return (("body", "ink", words_ahead), *rows)

    def _mass_label(self, state: WoodSet, step: Step) -> str:
        if step.key == "dry" and state.at("oven_on") is None:
            return ""
        if step.key == "wrap" and state.last("soaked") is not None:
            return ""
        label = words.MASS_LABELS.get(step.key, "")
        if label and self._each():
            number, of = self._piece(state, step)
            return f"Piece {number} of {of}: {label[0].lower()}{label[1:]}"
        return label

    def _each(self) -> bool:
        return self._book.text("each") == "each" and pieces_of(self._book.said()) > 1

    def _piece(self, state: WoodSet, step: Step) -> tuple[int, int]:
        """Which piece is weighed next, and out of how many."""
        of, when = pieces_of(self._book.said()), WHEN_OF.get(step.key)
        done = {each.number for each in state.pieces if each.when == when and each.of == of}
        return next(n for n in range(1, of + 1) if n not in done), of

    def _until(self, step: Step) -> str:
        if step.wait is None:
            return ""
        if step.wait.not_before is None:
            return f"since {self._wording.clock(step.wait.since)}"
        word = "by" if step.wait.by else "not before"
        return f"{word} {self._wording.clock(step.wait.not_before)}"

    def digits(self) -> str:
        """What is left of the wait, or how long it has been."""
        return self._digits(self._step(self._figures()))

    def _digits(self, step: Step) -> str:
        if step.wait is None:
            return ""
        now = self._clock.read().utc
        if step.wait.not_before is None:
            return self._wording.digits(now - step.wait.since)
        return self._wording.digits(max(step.wait.not_before - now, 0.0))

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
        """Record what the set, or the next piece of it, weighs at this step."""
        step = self._step(self._figures())
        when = WHEN_OF.get(step.key)
        if entry is None or when is None:
            return
        mass = Kilogram(entry.value)
        piece, of = self._piece(self._state(), step) if self._each() else (0, 0)
        self._do(lambda: self._service.weigh(self._hand.batch_for_entry(), mass, when, piece, of))

    def on_correct_mass(self) -> None:
        """Take the newest weight back, to type it again; both rows stay."""
        state = self._state()
        taken: tuple[Weighed | PieceWeighed, ...] = (*state.weighed, *state.pieces)
        newest = max(taken, key=lambda each: each.seq, default=None)
        if newest is not None:
            self._do(lambda: self._service.unweigh(self._hand.batch, newest))

    def on_dial(self, entry: Entry | None) -> None:
        """Record the chamber's dial."""
        if entry is not None:
            vacuum = PascalVacuum(entry.value)
            self._do(lambda: self._service.read_vacuum(self._hand.batch, vacuum))

    def on_oven_reads(self, entry: Entry | None) -> None:
        """Record the oven by a thermometer of its own."""
        if entry is not None:
            temp = Kelvin(entry.value)
            self._do(lambda: self._service.read_oven(self._hand.batch, temp))

    def on_probe(self, entry: Entry | None) -> None:
        """Record the probe in the dummy core; hot enough, it starts the hold."""
        if entry is not None:
            temp = Kelvin(entry.value)
            self._do(lambda: self._service.read_probe(self._hand.batch, temp))

    def on_ago(self, entry: Entry | None) -> None:
        """Say how long ago it was, of what is reported next."""
        self._ago = None if entry is None else entry.value
        self.changed.emit(None)

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

    def on_act(self, event: str, happened: UtcSecond | None = None) -> None:
        """Report what has happened, now or so long ago."""
        if event == "to_blank":
            self.went_on.emit("blank")
            return
        if happened is None and self._ago:
            happened = UtcSecond(self._clock.read().utc - self._ago)
        self._ago = None
        known = cast("Event", event)
        self._do(lambda: self._service.report(self._hand.batch_for_entry(), known, happened))

    def on_take_back(self) -> None:
        """The newest report was a mistake; both rows stay."""
        newest = self._service.newest_report(self._hand.batch) if self._hand.batch else None
        if newest is not None:
            self._do(lambda: self._service.take_back(self._hand.batch, newest))

    def on_explain(self, name: str) -> None:
        """Explain one of the numbers."""
        found = self._figures().figures.get(name)
        if found is not None and found.formula:
            self.explained.emit(found)

    def _do(self, act: Callable[[], object]) -> None:
        try:
            act()
        except ShopError as error:
            self._tell(self._wording.complaint(error))
        else:
            self._tell("")

    def _tell(self, message: str) -> None:
        self._message = message
        self.changed.emit(None)
