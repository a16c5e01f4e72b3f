"""Words of the pot pane: one item at a time; what the core returns is drawn, nothing decided."""

from math import floor
from typing import TYPE_CHECKING

from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure
from shopassist.core.pot.cards import Ask, AskKind, Card
from shopassist.core.pot.events import Correction, Event, Note
from shopassist.core.pot.listed import wrong_answer
from shopassist.core.pot.words import Belief, Item
from shopassist.core.wording import Wording
from shopassist.panes.pot.branches import branch_of, cautions_of
from shopassist.panes.pot.buttons import ENTER, ENTER_POT, FREE, LOAD, WRONG, Buttons
from shopassist.panes.pot.lid import lid_of
from shopassist.panes.pot.screen import PAGES, Answer, Numbers, Page, PotScreen
from shopassist.panes.pot.typed import typed_event
from shopassist.panes.pot.words import HAPPENED, NO_POT, asks_much, hints_of, unit_of, walk
from shopassist.services.hooks import Hook
from shopassist.services.in_hand import InHand
from shopassist.services.loads import PotLoads
from shopassist.services.people import People
from shopassist.services.pot import PotService
from shopassist.widgets.shown import FigureShown, Reported

if TYPE_CHECKING:
    from collections.abc import Callable

    from shopassist.core.chamber import Chamber
    from shopassist.panes.pot.pages import Built
    from shopassist.services.versions import Library
    from shopassist.widgets.paper_shown import PaperShown

__all__ = ["PotPresenter", "PotScreen"]
FEW = 2


class PotPresenter:
    """Keeps which free item was taken up and what was refused; the record is the service's."""

    IDS = (
        "pot.question",
        "pot.answer.<n>",
        "pot.answer.typed_reading",
        "pot.answer.temperature",
        "pot.answer.record",
        "pot.offer.<n>",
        "pot.last",
        "pot.more",
        "pot.stop",
        "pot.hold",
        "pot.reported",
        "pot.refusal",
        "pot.wait",
        "pot.lid",
        "pot.choose",
        "pot.page.<n>",
        "pot.vessel.<n>",
        "pot.air.<n>",
        "pot.vacuum.<n>",
        "pot.chart.run",
        "pot.chart.fall",
        "pot.readings",
        "pot.save_csv",
        "pot.paper",
        "pot.said",
        "pot.who",
        "pot.examined_by",
        "pot.examined_note",
        "pot.examined",
    )

    def __init__(
        self,
        pots: PotService,
        hand: InHand,
        wording: Wording,
        loads: PotLoads | None = None,
        chambers: "Callable[[], Library[Chamber]] | None" = None,
    ) -> None:
        self.changed: Hook[None] = Hook()
        self.explained: Hook[Figure] = Hook()
        self.paper_asked: Hook[PaperShown] = Hook()
        self.entry_asked: Hook[None] = Hook()
        self.keep: Callable[[str, str], str] | None = None
        self._loads = loads
        self._chambers = chambers
        self.people: People | None = None
        """Who shares the pot; nothing hangs on it."""
        self._pots = pots
        self._hand = hand
        self._wording = wording
        self._free: Item | None = None
        self._odd = False
        self._refusal = ""
        self._page: Page = "list"
        self._said = ""
        self._narrow = False
        self._built: tuple[object, Built] | None = None
        pots.changed.connect(self._on_service)
        hand.changed.connect(lambda _: self._restart())

    def _on_service(self, _: str) -> None:
        self.changed.emit(None)

    def _restart(self) -> None:
        self._free, self._odd, self._refusal = None, False, ""
        self.changed.emit(None)

    @property
    def pot_id(self) -> str:
        """The pot in hand, or the one that most needs a look."""
        ids = self._pots.ids()
        if self._hand.pot in ids:
            return self._hand.pot
        worst = self._pots.worst()
        return worst[0] if worst else ""

    # -- what is shown ------------------------------------------------------------------

    @property
    def screen(self) -> PotScreen:
        """The pane as it stands now."""
        if not self.pot_id:
            return PotScreen("", "", (), Belief.UNKNOWN, NO_POT, offers=(ENTER,))
        card = self._pots.card(self.pot_id)
        page = self._page_of(card)
        if page != "list":
            return self._beside(card, page)
        ask = self._present(card)
        words, state = self._wording, self._pots.state(self.pot_id)
        buttons = Buttons(card, words, wrong_answer(state))
        key, branch = branch_of(state, card, words)
        return PotScreen(
            pot_id=self.pot_id,
            right=self._right(card),
            walk=walk(card.name),
            belief=card.belief,
            question=self._question(ask),
            kind=ask.kind if ask else None,
            field=f"{ask.item}.{ask.about}" if ask else "",
            quantity=ask.quantity if ask else "",
            unit=unit_of(words, ask),
            with_temperature=bool(ask and ask.with_temperature),
            warmth_unit=words.unit("Kelvin"),
            hints=hints_of(words, ask),
            answers=self._answers(buttons, ask),
            odd=self._odd,
            offers=() if self._odd else buttons.offers(),
            reported=tuple(
                Reported(words.say(each.label), words.say(each.answer)) for each in card.reported
            ),
            refusal=self._refusal,
            wait_caption=words.say(card.wait.reason) if card.wait else "",
            wait_digits=words.digits(card.wait.left) if card.wait else "",
            branch=branch,
            branch_key=key,
            cautions=cautions_of(card, branch, words),
            notes=tuple(words.say(text, self._pots.utc()) for text in card.notes),
            stop=buttons.stop(),
            expires=words.digits(card.expires_in) if card.expires_in is not None else "",
            lid=lid_of(state, card),
            last=self._last(card),
            asks=asks_much(card),
            pots=self._names(),
            examine=self._waits_for_examination(card),
            page=page,
            pages=() if walk(card.name) else PAGES,
            said=self._said,
            who=self.people.who if self.people is not None else "",
        )

    @property
    def room(self) -> tuple[bool, bool]:
        """Whether the walk to the open lid goes on, and whether something is asked."""
        if not self.pot_id:
            return False, False
        card = self._pots.card(self.pot_id)
        page = self._page_of(card)
        return bool(walk(card.name)), page != "list" or asks_much(card)

    def _answers(self, buttons: Buttons, ask: Ask | None) -> tuple[Answer, ...]:
        if not self._odd:
            found = buttons.answers(ask, taken_up=self._free is not None)
            # A narrow pane shows its last reading; the rest of what may be reported is behind F7.
            return found[:FEW] if self._narrow and ask is None else found
        return buttons.odd(self._loads.others(self.pot_id) if self._loads is not None else ())

    def _beside(self, card: Card, page: Page) -> PotScreen:
        """A page of numbers: nothing can be answered by mistake while it is in front."""
        out = Buttons(card, self._wording).air_out()
        return PotScreen(
            self.pot_id, self._right(card), (), card.belief, "", offers=out, asks=True,
            pots=self._names(), page=page, pages=PAGES, numbers=self._numbers(page),
            said=self._said, who=self.people.who if self.people is not None else "",
        )  # fmt: skip

    def _numbers(self, page: Page) -> Numbers:
        """Built anew only when something changed: this is asked for each second."""
        from shopassist.panes.pot.pages import page_of, vacuum_of

        pots, pot_id, words = self._pots, self.pot_id, self._wording
        minute = floor(self._pots.utc() / 60.0)
        state = pot_id, page, pots.revision(pot_id), minute, words.units, words.style
        if page == "vacuum":
            found = self._chambers().all() if self._chambers is not None else ()
            self._built = state, vacuum_of(found, pots.ambient(pot_id), words)
        elif self._built is None or self._built[0] != state:
            self._built = state, page_of(pots, pot_id, page, words, self._pots.utc())
        return self._built[1].numbers

    def _page_of(self, card: Card) -> Page:
        """The walk to the open lid takes the whole pane; nothing leads away from it."""
        if walk(card.name):
            self._page = "list"
        return self._page

    def _right(self, card: Card) -> str:
        inside = self._loads.names(self.pot_id) if self._loads is not None else ()
        return " · ".join((self._pots.name(self.pot_id), *inside, self._wording.say(card.title)))

    def _names(self) -> tuple[tuple[str, str], ...]:
        return tuple((pot_id, self._pots.name(pot_id)) for pot_id in self._pots.ids())

    def _question(self, ask: Ask | None) -> str:
        if self._odd:
            return HAPPENED
        return self._wording.say(ask.question) if ask else ""

    def _present(self, card: Card) -> Ask | None:
        """The item in front: the one asked for, or the free one that was taken up."""
        if self._odd:
            return None
        taken = next((f.ask for f in card.free if f.ask.item is self._free), None)
        if taken is None:
            self._free = None
        return taken or card.ask

    def _last(self, card: Card) -> FigureShown | None:
        if card.ask is not None or self._free is not None or self._odd:
            return None
        line = self._pots.line(self.pot_id)
        if line.pressure is None:
            return None
        number, unit = self._wording.split(line.pressure, "PascalGauge")
        age = self._wording.age(line.age) if line.age is not None else ""
        return FigureShown("You reported", number, unit, "typed", note=age, explains=False)

    def _asked(self) -> Ask | None:
        """What an answer belongs to; nothing while another page is in front."""
        if not self.pot_id or self._page != "list":
            return None
        return self._present(self._pots.card(self.pot_id))

    # -- acts ------------------------------------------------------------------------------

    def on_choice(self, answer_id: str) -> None:
        """Send one of the present answers."""
        if answer_id == "back":
            self._restart()
            return
        ask = self._asked()
        for choice in ask.choices if ask else ():
            if choice.id == answer_id:
                self._send(choice.event)
                return

    def on_typed(self, text: str, temperature: str = "") -> None:
        """Send a typed value; what cannot be read is told beside the field and kept there."""
        ask = self._asked()
        if ask is None or ask.kind is not AskKind.TYPE:
            return
        try:
            plate = self._pots.state(self.pot_id).plate
            event = typed_event(ask, text, temperature, self._wording, plate)
        except ShopError as error:
            self._refuse(error)
        else:
            self._send(event)

    def on_hold(self) -> None:
        """The button was held long enough."""
        ask = self._asked()
        if ask is not None and ask.kind is AskKind.HOLD:
            self._send(ask.choices[0].event)

    def on_offer(self, act: str) -> None:
        """One press: Let down, Vent now, Stop, or another thing that the card offers."""
        self._page = "list"
        if act in (ENTER_POT, WRONG):
            self.entry_asked.emit(None) if act == ENTER_POT else self._take_back()
            return
        if act.startswith(FREE):
            self.on_free(act.removeprefix(FREE))
            return
        if act.startswith(LOAD):
            self._add_load(act.removeprefix(LOAD))
            return
        for offer in self._pots.card(self.pot_id).offers:
            if str(offer.act) == act:
                self._send(offer.event)
                return

    def _take_back(self) -> None:
        if (said := wrong_answer(self._pots.state(self.pot_id))) is not None:
            self._send(Correction(said.item, "taken back at the pot"))

    def _add_load(self, batch_id: str) -> None:
        self._odd = False
        try:
            if self._loads is not None:
                self._loads.add(self.pot_id, batch_id)
        except ShopError as error:
            self._refuse(error)
            return
        self.changed.emit(None)

    def on_who(self, name: str) -> None:
        """Take down who is at the bench."""
        try:
            if self.people is not None:
                self.people.here(name)
        except ShopError as error:
            self._refuse(error)

    def on_room(self, *, narrow: bool) -> None:
        """Whether the pane is so narrow that only the usual things are offered at once."""
        if narrow != self._narrow:
            self._narrow = narrow
            self.changed.emit(None)

    def on_more(self) -> None:
        """Show everything else that may have happened."""
        self._odd, self._refusal, self._page = True, "", "list"
        self.changed.emit(None)

    def on_page(self, page: Page) -> None:
        """Show another page of the pane."""
        self._page, self._odd, self._free, self._said = page, False, None, ""
        self.changed.emit(None)

    def on_paper(self) -> None:
        """Ask for the whole list on one sheet."""
        from shopassist.panes.pot.paper import paper_of

        sheet = paper_of(self._pots, self.pot_id, self._wording) if self.pot_id else None
        if sheet is not None:
            return self.paper_asked.emit(sheet)
        return self.told("Enter the pot's plate first.")

    def on_csv(self) -> None:
        """Write the readings of the run for a spreadsheet."""
        from shopassist.panes.pot.table import saved

        if self.keep is not None:
            self.told(saved(self._pots, self.pot_id, self._wording, self.keep))

    def told(self, words: str) -> None:
        """Show what came of it."""
        self._said = words
        self.changed.emit(None)

    def on_explain(self, name: str) -> None:
        """Explain one number of the page in front."""
        figure = self._built[1].figures.get(name) if self._built is not None else None
        if figure is not None:
            self.explained.emit(figure)

    def on_free(self, item: str) -> None:
        """Take up something that is not asked for, such as another reading."""
        self._free, self._odd, self._refusal = Item(item), False, ""
        self.changed.emit(None)

    def _waits_for_examination(self, card: Card) -> bool:
        state = self._pots.state(self.pot_id)
        return card.belief is Belief.SUSPECT or (state.locked and card.belief is Belief.OPEN)

    def on_examined(self, who: str, text: str) -> None:
        """Record who examined the pot, and what was found."""
        self._send(Note(who.strip(), text.strip()))

    def on_choose_pot(self, pot_id: str) -> None:
        """Look at another pot."""
        self._hand.take_pot(pot_id)

    def _send(self, event: Event) -> None:
        try:
            refusal = self._pots.act(self.pot_id, event)
        except ShopError as error:
            self._refuse(error)
            return
        self._refusal = self._wording.say(refusal.reason) if refusal is not None else ""
        if refusal is None:
            self._free, self._odd = None, False
        self.changed.emit(None)

    def _refuse(self, error: ShopError) -> None:
        self._refusal = self._wording.complaint(error)
        self.changed.emit(None)
