"""Words of the pot pane: one item at a time; what the core returns is drawn, nothing decided."""

from dataclasses import dataclass

from shopassist.core.entry import EntrySpec
from shopassist.core.errors import ShopError
from shopassist.core.messages import Amount, say
from shopassist.core.pot.cards import Ask, AskKind, Card, CardName, Choice
from shopassist.core.pot.events import Event, Press
from shopassist.core.pot.words import Act, Belief, Item
from shopassist.core.wording import Wording
from shopassist.panes.pot.lid import lid_of
from shopassist.services.hooks import Hook
from shopassist.services.in_hand import InHand
from shopassist.services.pot import PotService
from shopassist.widgets.shown import AnswerShown, LidShown, Reported

WALK = (
    (CardName.ISOLATE_AND_VENT, "Isolate and vent"),
    (CardName.ZERO, "Zero"),
    (CardName.PROVE, "Prove"),
    (CardName.CRACK, "Crack and open"),
)
"""The four cards of the walk to an open lid."""


@dataclass(frozen=True, slots=True)
class Answer:
    """An answer button: its id, how it looks, and what it sends."""

    id: str
    shown: AnswerShown


@dataclass(frozen=True, slots=True)
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
    free: tuple[Answer, ...]
    stop: str
    """Words on *Stop*; empty where there is nothing to stop."""
    expires: str
    lid: LidShown | None
    pots: tuple[tuple[str, str], ...]


class PotPresenter:
    """Keeps which free item was taken up and what was refused; the record is the service's."""

    IDS = (
        "pot.question",
        "pot.answer.<n>",
        "pot.answer.typed_reading",
        "pot.answer.temperature",
        "pot.answer.record",
        "pot.free.<n>",
        "pot.offer.<n>",
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
            offers=self._offers(card),
            free=self._free_items(card),
            stop=self._stop(card),
            expires=words.digits(card.expires_in) if card.expires_in is not None else "",
            lid=lid_of(self._pots.state(self.pot_id), card),
            pots=tuple((pot_id, self._pots.line(pot_id).name) for pot_id in self._pots.ids()),
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

    def _offers(self, card: Card) -> tuple[Answer, ...]:
        caps = {Act.VENT_NOW: "V", Act.LET_DOWN: "L"}
        return tuple(
            Answer(
                str(offer.act),
                AnswerShown(
                    caps.get(offer.act, ""),
                    self._wording.say(offer.label),
                    self._wording.say(offer.consequence) if offer.consequence else "",
                    shortcut=f"Ctrl+{caps[offer.act]}" if offer.act in caps else "",
                ),
            )
            for offer in card.offers
            if offer.act is not Act.STOP
        )

    def _stop(self, card: Card) -> str:
        stop = next((offer for offer in card.offers if offer.act is Act.STOP), None)
        if stop is None:
            return ""
        return self._wording.say(stop.consequence or stop.label)

    def _free_items(self, card: Card) -> tuple[Answer, ...]:
        return tuple(
            Answer(str(free.ask.item), AnswerShown("", _free_words(free.ask.item)))
            for free in card.free
            if free.ask.item is not self._free
        )

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
            self._send(ask.choices[0].event if ask.choices else Press(Act.CONFIRM))

    def on_offer(self, act: str) -> None:
        """One press: Let down, Vent now, Stop or another that the card offers."""
        for offer in self._pots.card(self.pot_id).offers:
            if str(offer.act) == act:
                self._send(offer.event)
                return

    def on_free(self, item: str) -> None:
        """Take up something that is not asked for, such as another reading."""
        self._free, self._refusal = Item(item), ""
        self.changed.emit(None)

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


def _free_words(item: Item) -> str:
    return {
        Item.READING: "Type a reading",
        Item.SUPPLY: "Supply changed",
        Item.TEMPERATURE: "Type a temperature",
        Item.LEAK_START: "Leak check",
        Item.LEAK_END: "Leak check, second reading",
        Item.LIVE_LIFT: "Relief lifted live",
        Item.LID_OFF_NOW: "Lid is off now",
        Item.AFTERCARE: "Holes and gasket",
        Item.STAY: "Stay at pressure",
        Item.BEFORE_VENT: "Gauge before the vent",
    }.get(item, str(item).replace("_", " ").capitalize())


def _empty() -> PotScreen:
    return PotScreen(
        "", "", (), Belief.UNKNOWN,
        "No pot entered. Enter its plate under Records.", None, "", "", "", False, (), (), (), "",
        "", "", (), (), (), (), (), "", "", None, (),
    )  # fmt: skip


def pushes_like(force: float) -> object:
    """The force on the lid as a weight that everybody can picture."""
    return say("Pushes like {force}", force=Amount(force, "Newton"))
