"""Words of the Turn pane: one card at a time, its numbers, and what to beware of."""

from collections.abc import Callable, Mapping
from dataclasses import replace

from shopassist.clock import Clock
from shopassist.core.batch import Batch, Typed
from shopassist.core.entry import Entry, EntrySpec
from shopassist.core.entry.asked import Answer
from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure
from shopassist.core.frozen import frozen
from shopassist.core.quantities import Second
from shopassist.core.wording import Wording
from shopassist.panes.turn import words
from shopassist.panes.turn.asks import ALL, CARDS, PAGES, PANE
from shopassist.panes.turn.screen import LadderShown, TurnScreen, WaitShown
from shopassist.services.batches import BatchService
from shopassist.services.entry_book import EntryBook
from shopassist.services.hooks import Hook
from shopassist.services.in_hand import InHand
from shopassist.services.plan import field_of
from shopassist.services.said import Said
from shopassist.services.turn import Borrowed, CardPlan
from shopassist.services.turn_desk import KNEADING, SETTING, TurnService
from shopassist.services.turn_finish import air_card, coat_card, putty_card, sand_card
from shopassist.services.turn_wood import drill_card, faults_of, lathe_card
from shopassist.widgets.shown import DeviationShown, RuleShown

LENGTH = EntrySpec("Metre", field="blank.outline", lowest=0.0, highest=10.0)
MOST_FIGURES = 6
MINUTE = 60.0
NO_FAULT = "none"


@frozen
class Card:
    """One card worked out, with what is drawn on it."""

    plan: CardPlan
    speed: DeviationShown | None = None
    pecks: RuleShown | None = None
    ladder: LadderShown | None = None
    wait: WaitShown | None = None


class TurnPresenter:
    """Keeps the drafts of the cards; what is committed lies in the batch in hand."""

    IDS = (
        *(f"{PANE}.{ask.name}" for asks in CARDS.values() for ask in asks), f"{PANE}.page.<n>",
        f"{PANE}.fault.<n>", f"{PANE}.figure.<n>", f"{PANE}.speed", f"{PANE}.pecks",
        f"{PANE}.ladder", f"{PANE}.wait", f"{PANE}.act.<n>", f"{PANE}.note", f"{PANE}.lines",
        f"{PANE}.cautions", f"{PANE}.message",
    )  # fmt: skip

    def __init__(
        self, batches: BatchService, service: TurnService, hand: InHand, clock: Clock,
        wording: Wording,
    ) -> None:  # fmt: skip
        self.changed: Hook[None] = Hook()
        self.explained: Hook[Figure] = Hook()
        self._service = service
        self._hand = hand
        self._clock = clock
        self._wording = wording
        self._book = EntryBook(PANE, ALL, batches, hand)
        self._page = PAGES[0][0]
        self._message = ""
        self._drawn_at = 0.0
        self._problems: dict[str, str] = {}
        batches.changed.connect(self._on_batch)
        service.plan.changed.connect(lambda _: self.changed.emit(None))
        hand.changed.connect(lambda _: self._on_hand())

    def _on_batch(self, batch_id: str) -> None:
        if batch_id == self._hand.batch:
            self.changed.emit(None)

    def _on_hand(self) -> None:
        self._book.forget()
        self._message, self._problems = "", {}
        self.changed.emit(None)

    # -- what stands ---------------------------------------------------------------------------

    def _read(self, text: str) -> float:
        return self._wording.read(text, LENGTH).value

    def _lent(self) -> Borrowed:
        return self._service.lent(self._book.batch, self._read)

    def _faults(self) -> frozenset[str]:
        return faults_of(self._book.text("faults"))

    def _card(self, answers: Mapping[str, Answer], lent: Borrowed) -> Card:
        said = Said(
            {name: each.value for name, each in answers.items()},
            {name: each.text for name, each in answers.items()},
        )
        make: dict[str, Callable[[Said, Borrowed], Card]] = {
            "lathe": self._lathe, "drill": self._drill, "putty": self._putty, "sand": self._sand,
            "coats": lambda said, _: Card(coat_card(said).plan), "air": self._air,
        }  # fmt: skip
        return make[self._page](said, lent)

    def _lathe(self, said: Said, _: Borrowed) -> Card:
        card = lathe_card(said, self._faults())
        return Card(self._if_hard(card.plan), speed=words.speed_rule(self._wording, card))

    def _drill(self, said: Said, lent: Borrowed) -> Card:
        card = drill_card(said, lent)
        return Card(self._if_hard(card.plan), pecks=words.peck_rule(self._wording, card))

    def _if_hard(self, plan: CardPlan) -> CardPlan:
        """A casting that is still soft is told of before anything else."""
        soft = self._service.too_soft(self._book.batch)
        return replace(plan, warnings=(*soft, *plan.warnings)) if soft else plan

    def _putty(self, said: Said, _: Borrowed) -> Card:
        state = self._service.putty(self._book.batch, self._knead())
        return Card(putty_card(said), wait=words.wait(self._wording, state, self._now()))

    def _sand(self, said: Said, _: Borrowed) -> Card:
        batch, service = self._book.batch, self._service
        card = sand_card(said, service.glass(batch), service.still_curing(batch))
        return Card(card.plan, ladder=words.ladder(self._wording, card))

    def _air(self, said: Said, _: Borrowed) -> Card:
        batch, service = self._book.batch, self._service
        return Card(air_card(said, service.family(batch), service.oven_dry(batch)))

    def _knead(self) -> Second | None:
        value = self._book.value("knead")
        return None if value is None else Second(value)

    def _now(self) -> float:
        return float(self._clock.read().utc)

    @property
    def screen(self) -> TurnScreen:
        """The pane as it stands now."""
        say, batch, now = self._wording, self._book.batch, self._now()
        self._drawn_at = now // MINUTE
        lent = self._lent()
        answers = self._answers(lent, batch)
        card = self._card(answers, lent)
        plan = card.plan
        names = tuple(plan.figures)[:MOST_FIGURES]
        faults = self._faults()
        return TurnScreen(
            right=batch.name if batch is not None else "New batch",
            page=self._page,
            answers=self._with_problems(answers, plan),
            figures=tuple(words.figure(say, name, plan.figures[name]) for name in names),
            figure_names=names,
            missing=say.say(plan.missing) if plan.missing is not None else "",
            note=words.note(say, plan, now),
            lines=words.lines(say, plan),
            faults=tuple((k, w, k in faults) for k, w in words.FAULT_WORDS.items()),
            speed=card.speed,
            pecks=card.pecks,
            ladder=card.ladder,
            wait=card.wait,
            cautions=words.cautions(say, self._page),
            message=self._message,
        )

    def _answers(self, lent: Borrowed, batch: Batch | None) -> dict[str, Answer]:
        """What was typed goes before what Blank knows, that before our own defaults."""
        found = self._book.answers()
        for name, value in lent.numbers.items():
            if found[name].origin not in ("typed", "job card"):
                found[name] = Answer("", value, found[name].quantity, "from Blank")
        for name, word in lent.words.items():
            if not found[name].text:
                found[name] = Answer(word, None, "", "from Blank")
        found["set"] = self._set_answer(batch)
        return found

    def _with_problems(self, answers: dict[str, Answer], plan: CardPlan) -> dict[str, Answer]:
        told = {name: self._wording.say(text) for name, text in plan.problems.items()}
        told |= self._problems
        wrong = {name: replace(answers[name], problem=words) for name, words in told.items()
                 if name in answers}  # fmt: skip
        return answers | wrong

    def _set_answer(self, batch: Batch | None) -> Answer:
        """How long the putty sets is the plan's; one place, two panes."""
        typed = batch.entries.get(field_of(SETTING, "likely")) if batch is not None else None
        if typed is not None:
            return Answer(typed.text, typed.value, "Second", "typed")
        value = float(self._service.set_time(batch))
        return Answer("", value, "Second", "from the plan")

    def digits(self) -> str:
        """The putty's digits; empty where nothing is counted."""
        state = self._service.putty(self._book.batch, self._knead())
        if self._page != "putty" or not words.wait(self._wording, state, self._now()).counts:
            return ""
        return words.wait_digits(self._wording, state, self._now())

    def is_stale(self) -> bool:
        """Whether the putty's wait reads otherwise now, or another minute has begun."""
        state, now = self._service.putty(self._book.batch, self._knead()), self._now()
        is_over = state.stage == KNEADING and abs(now - state.until) < 1.0
        return is_over or now // MINUTE != self._drawn_at

    # -- acts ------------------------------------------------------------------------------------

    def on_page(self, page: str) -> None:
        """Turn to another card."""
        if page in CARDS:
            self._page = page
            self.changed.emit(None)

    def on_edited(self, name: str, entry: Entry | None) -> None:
        """Take a draft; the numbers follow at once."""
        if name != "set":
            self._book.edited(name, entry)
            self.changed.emit(None)

    def on_committed(self, name: str, entry: Entry | None) -> None:
        """Write an entry of a card."""
        if name == "set":
            self._set(entry)
        else:
            self._do(lambda: self._book.committed(name, entry))

    def _set(self, entry: Entry | None) -> None:
        typed = None if entry is None else Typed(entry.plain, entry.value, entry.quantity)
        self._problems = {}
        try:
            batch_id = self._hand.batch_for_entry()
            self._service.plan.set_duration(batch_id, SETTING, "likely", typed)
        except ShopError as error:
            self._problems = {"set": self._wording.say(error.title)}
        self.changed.emit(None)

    def on_chosen(self, name: str, key: str) -> None:
        """Write a choice or a line."""
        self._do(lambda: self._book.chosen(name, key))

    def on_fault(self, number: int) -> None:
        """Say that the piece has a fault, or that it has not."""
        keys = tuple(words.FAULT_WORDS)
        if number < len(keys):
            now = self._faults() ^ {keys[number]}
            text = ", ".join(each for each in keys if each in now) or NO_FAULT
            self._do(lambda: self._book.chosen("faults", text))

    def on_act(self, number: int) -> None:
        """Report what the putty does; the plan's stage begins or ends by it."""
        service = self._service
        state = service.putty(self._book.batch, self._knead())
        acts = words.wait(self._wording, state, self._now()).acts
        if number >= len(acts):
            return
        report = {"": service.start_kneading, KNEADING: service.pressed_in,
                  SETTING: service.has_set}[state.stage]  # fmt: skip
        self._do(lambda: report(self._hand.batch_for_entry()))

    def on_explain(self, name: str) -> None:
        """Explain one of the numbers."""
        lent = self._lent()
        answers = self._answers(lent, self._book.batch)
        found = self._card(answers, lent).plan.figures.get(name)
        if found is not None:
            self.explained.emit(found)

    def _do(self, act: Callable[[], object]) -> None:
        self._message, self._problems = "", {}
        try:
            act()
        except ShopError as error:
            self._message = self._wording.complaint(error)
        self.changed.emit(None)
