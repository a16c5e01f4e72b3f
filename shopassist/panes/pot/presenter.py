"""Words of the pot pane: one item at a time; what the core returns is drawn, nothing decided."""

from shopassist.core.entry import EntrySpec
from shopassist.core.errors import ShopError
from shopassist.core.frozen import frozen
from shopassist.core.pot.cards import Ask, AskKind, Card, CardName, Choice
from shopassist.core.pot.events import Event, Note
from shopassist.core.pot.notes import NAMES
from shopassist.core.pot.words import Act, Belief, Item
from shopassist.core.wording import Wording
from shopassist.panes.pot.lid import lid_of
from shopassist.services.hooks import Hook
from shopassist.services.in_hand import InHand
from shopassist.services.pot import PotService
from shopassist.widgets.shown import AnswerShown, FigureShown, LidShown, Reported

WALK = (
    (CardName.ISOLATE_AND_VENT, "Isolate and vent"),
    (CardName.ZERO, "Zero"),
    (CardName.PROVE, "Prove"),
    (CardName.CRACK, "Crack and open"),
)
"""The four cards of the walk to an open lid."""


@frozen
class Answer:
    """An answer button: its id, how it looks, and what it sends."""

    id: str
    shown: AnswerShown


@frozen
class PotScreen:
    """Everything that the pot pane shows."""

    pot_id: str
    right: str
    walk: tuple[tuple[str, str], ...]
    """Words of the four cards, each done, present or later; empty outside the walk."""
    belief: Belief
    question: str
    kind: AskKind | None
    field: str
    """Which item a typed value is for; a change of it empties the field."""
    quantity: str
    unit: str
    with_temperature: bool
    hints: tuple[str, ...]
    answers: tuple[Answer, ...]
    reported: tuple[Reported, ...]
    refusal: str
    wait_caption: str
    wait_digits: str
    branch: tuple[str, ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    offers: tuple[Answer, ...]
    """Let down and Vent now, where the pot may hold air."""
    odd: tuple[Answer, ...]
    """What else may have happened: facts toward caution, never refused."""
    free: tuple[Answer, ...]
    stop: str
    """Words on *Stop*; empty where there is nothing to stop."""
    expires: str
    lid: LidShown | None
    last: FigureShown | None
    """The last reading, while nothing is asked."""
    asks: bool
    """Whether a list is under way, so that the pane needs room for its questions."""
    pots: tuple[tuple[str, str], ...]
    examine: bool
    """Whether the pot waits for a note of who examined it."""


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
        "pot.examined_by",
        "pot.examined_note",
        "pot.examined",
    )

    def __init__(self, pots: PotService, hand: InHand, wording: Wording) -> None:
        self.changed: Hook[None] = Hook()
        self.plate_asked: Hook[None] = Hook()
        self._pots = pots
        self._hand = hand
        self._wording = wording
        self._free: Item | None = None
        self._refusal = ""
        self._typed = ""
        pots.changed.connect(self._on_service)
        hand.changed.connect(lambda _: self._restart())

    def _on_service(self, _: str) -> None:
        self.changed.emit(None)

    def _restart(self) -> None:
        self._free, self._refusal, self._typed = None, "", ""
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
            return _empty()
        card = self._pots.card(self.pot_id)
        ask = self._present(card)
        words = self._wording
        return PotScreen(
            pot_id=self.pot_id,
            right=f"{self._pots.line(self.pot_id).name} · {words.say(card.title)}",
            walk=_walk(card.name),
            belief=card.belief,
            question=words.say(ask.question) if ask else "",
            kind=ask.kind if ask else None,
            field=f"{ask.item}.{ask.about}" if ask else "",
            quantity=ask.quantity if ask else "",
            unit=words.unit(ask.quantity) if ask and ask.quantity in MEASURED else "",
            with_temperature=bool(ask and ask.with_temperature),
            hints=tuple(words.say(hint) for hint in ask.hints) if ask else (),
            answers=self._answers(ask),
            reported=tuple(
                Reported(words.say(each.label), words.say(each.answer)) for each in card.reported
            ),
            refusal=self._refusal,
            wait_caption=words.say(card.wait.reason) if card.wait else "",
            wait_digits=words.digits(card.wait.left) if card.wait else "",
            branch=tuple(words.say(text) for text in card.branch_text),
            notes=tuple(words.say(text) for text in card.notes),
            cautions=tuple(words.say(text) for text in card.cautions),
            offers=self._offers(card, main=True),
            odd=(*self._free_items(card)[MOST_FREE:], *self._offers(card, main=False)),
            free=self._free_items(card)[:MOST_FREE],
            stop=self._stop(card),
            expires=words.digits(card.expires_in) if card.expires_in is not None else "",
            lid=lid_of(self._pots.state(self.pot_id), card),
            last=self._last(card),
            asks=card.ask is not None and card.ask.item not in (Item.RUN, Item.AFTERCARE),
            pots=tuple((pot_id, self._pots.line(pot_id).name) for pot_id in self._pots.ids()),
            examine=self._waits_for_examination(card),
        )

    def _present(self, card: Card) -> Ask | None:
        """The item in front: the one asked for, or the free one that was taken up."""
        taken = next((f.ask for f in card.free if f.ask.item is self._free), None)
        if taken is None:
            self._free = None
        return taken or card.ask

    def _answers(self, ask: Ask | None) -> tuple[Answer, ...]:
        if ask is None:
            return ()
        if ask.kind is AskKind.HOLD:
            return ()
        typing = ask.kind is AskKind.TYPE
        first = 2 if typing else 1
        found = [
            self._answer(choice, number, alt=typing)
            for number, choice in enumerate(ask.choices, start=first)
        ]
        if self._free is not None:
            cap = "Esc"
            found.append(Answer("back", AnswerShown(cap, "Back", shortcut="Esc")))
        return tuple(found)

    def _answer(self, choice: Choice, number: int, *, alt: bool) -> Answer:
        words = self._wording
        second = words.say(choice.consequence) if choice.consequence else ""
        cap, keys = (f"Alt {number}", f"Alt+{number}") if alt else (str(number), str(number))
        return Answer(choice.id, AnswerShown(cap, words.say(choice.label), second, shortcut=keys))

    def _offers(self, card: Card, *, main: bool) -> tuple[Answer, ...]:
        caps = {Act.LET_DOWN: "F8", Act.VENT_NOW: "F9"}
        return tuple(
            Answer(
                str(offer.act),
                AnswerShown(
                    caps.get(offer.act, ""),
                    self._wording.say(offer.label),
                    self._wording.say(offer.consequence) if offer.consequence else "",
                ),
            )
            for offer in card.offers
            if offer.act is not Act.STOP and (offer.act in caps) is main
        )

    def _stop(self, card: Card) -> str:
        stop = next((offer for offer in card.offers if offer.act is Act.STOP), None)
        if stop is None:
            return ""
        return self._wording.say(stop.consequence or stop.label)

    def _free_items(self, card: Card) -> tuple[Answer, ...]:
        """What may be reported now although it is not asked for; a reading first."""
        items = [free.ask.item for free in card.free if free.ask.item is not self._free]
        items.sort(key=lambda item: FREE_FIRST.get(item, len(FREE_FIRST)))
        keyed = card.ask is None and self._free is None
        return tuple(
            Answer(FREE + str(item), AnswerShown(str(n) if keyed else "", _free_words(item)))
            for n, item in enumerate(items, start=1)
        )

    def _last(self, card: Card) -> FigureShown | None:
        line = self._pots.line(self.pot_id)
        if card.ask is not None or self._free is not None or line.pressure is None:
            return None
        number, unit = self._wording.split(line.pressure, "PascalGauge")
        age = self._wording.age(line.age) if line.age is not None else ""
        return FigureShown("You reported", number, unit, "typed", note=age, explains=False)

    # -- acts ------------------------------------------------------------------------------

    def on_choice(self, answer_id: str) -> None:
        """Send one of the present answers."""
        if answer_id == "back":
            self._restart()
            return
        ask = self._present(self._pots.card(self.pot_id))
        for choice in ask.choices if ask else ():
            if choice.id == answer_id:
                self._send(choice.event)
                return

    def on_typed(self, text: str, temperature: str = "") -> None:
        """Send a typed value; what cannot be read is told beside the field and kept there."""
        ask = self._present(self._pots.card(self.pot_id))
        if ask is None or ask.kind is not AskKind.TYPE:
            return
        try:
            value, unit = self._read(text, ask)
            warmth = None
            if ask.with_temperature:
                warmth = self._wording.read(temperature, EntrySpec("Kelvin")).value
        except ShopError as error:
            self._refuse(error)
        else:
            self._send(ask.typed(value, text.strip(), unit, warmth))

    def _read(self, text: str, ask: Ask) -> tuple[float, str]:
        if ask.quantity == "Word":
            return 0.0, ""
        spec = EntrySpec("Ratio" if ask.quantity == "Count" else ask.quantity, unit="")
        entry = self._wording.read(text, spec)
        if ask.quantity == "Count" and entry.value != int(entry.value):
            raise ShopError("Give a whole number.")
        return entry.value, "" if ask.quantity == "Count" else self._wording.unit(ask.quantity)

    def on_hold(self) -> None:
        """The button was held long enough."""
        ask = self._present(self._pots.card(self.pot_id))
        if ask is not None and ask.kind is AskKind.HOLD:
            self._send(ask.choices[0].event)

    def on_offer(self, act: str) -> None:
        """One press: Let down, Vent now, Stop, or another thing that the card offers."""
        if act.startswith(FREE):
            self.on_free(act.removeprefix(FREE))
            return
        for offer in self._pots.card(self.pot_id).offers:
            if str(offer.act) == act:
                self._send(offer.event)
                return

    def on_free(self, item: str) -> None:
        """Take up something that is not asked for, such as another reading."""
        self._free, self._refusal = Item(item), ""
        self.changed.emit(None)

    def _waits_for_examination(self, card: Card) -> bool:
        state = self._pots.state(self.pot_id)
        return card.belief is Belief.SUSPECT or state.locked

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
            self._free = None
        self.changed.emit(None)

    def _refuse(self, error: ShopError) -> None:
        detail = self._wording.say(error.detail)
        self._refusal = f"{self._wording.say(error.title)} {detail}".strip()
        self.changed.emit(None)


MEASURED = ("PascalGauge", "Kelvin")


def _walk(name: CardName) -> tuple[tuple[str, str], ...]:
    """Each card of the walk with its state; empty when none of them is up."""
    names = [each for each, _ in WALK]
    if name not in names:
        return ()
    at = names.index(name)
    state = ("done", "present", "later")
    return tuple((words, state[1 + (n > at) - (n < at)]) for n, (_, words) in enumerate(WALK))


FREE = "free."
MOST_FREE = 2
"""So many are buttons; the others stand in the list of odd things."""
FREE_FIRST = {Item.READING: 0, Item.SUPPLY: 1, Item.STAY: 2, Item.LID_OFF_NOW: 3}
FREE_WORDS = {
    Item.READING: "Type a reading",
    Item.SUPPLY: "Supply changed",
    Item.TEMPERATURE: "Type a temperature",
    Item.LEAK_START: "Leak check",
    Item.LEAK_END: "Leak check, second",
    Item.LIVE_LIFT: "Relief lifted live",
    Item.LID_OFF_NOW: "Lid is off now",
    Item.AFTERCARE: "Holes and gasket",
    Item.STAY: "Stay at pressure",
}


def _free_words(item: Item) -> str:
    return FREE_WORDS.get(item) or NAMES.get(item) or str(item).replace("_", " ").capitalize()


def _empty() -> PotScreen:
    return PotScreen(
        pot_id="", right="", walk=(), belief=Belief.UNKNOWN,
        question="No pot entered. Enter its plate under Records.", kind=None, field="", quantity="",
        unit="", with_temperature=False, hints=(), answers=(), reported=(), refusal="",
        wait_caption="", wait_digits="", branch=(), notes=(), cautions=(), offers=(), odd=(),
        free=(), stop="", expires="", lid=None, last=None, asks=False, pots=(), examine=False,
    )  # fmt: skip
