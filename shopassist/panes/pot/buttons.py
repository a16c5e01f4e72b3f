"""The buttons of a pot card: answers, presses that let air out, and everything else."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from shopassist.core.pot.cards import Ask, AskKind, Card, Choice, Offer
from shopassist.core.pot.notes import report
from shopassist.core.pot.state import Evidence
from shopassist.core.pot.words import Act
from shopassist.core.wording import Wording
from shopassist.panes.pot.screen import ANSWER, MORE, OFFER, RECORD, Answer
from shopassist.panes.pot.words import AIR_OUT, FREE_FIRST, free_words
from shopassist.widgets.shown import AnswerShown

FREE, LOAD = "free.", "load."
TEN = 10
ELSE = Answer(MORE, AnswerShown("F7", "Something else"))
ENTER_POT, WRONG = "enter_pot", "wrong"
ENTER = Answer(OFFER + ENTER_POT, AnswerShown("1", "Enter a pot", "what is stamped on its plate"))
"""Where there is no pot yet."""
BACK = Answer(ANSWER + "back", AnswerShown("Esc", "Back"))


class Buttons:
    """Makes the buttons of one card."""

    def __init__(self, card: Card, words: Wording, last: Evidence | None = None) -> None:
        self._card, self._words, self._last = card, words, last

    def answers(self, ask: Ask | None, *, taken_up: bool) -> tuple[Answer, ...]:
        """What answers the item; where nothing is asked, what may be reported."""
        if ask is None:
            return _numbered(self._free())
        if ask.kind is AskKind.HOLD:
            return ()
        typing = ask.kind is AskKind.TYPE
        record = [Answer(RECORD, AnswerShown("Enter", "Record", filled=True))] if typing else []
        found = [
            self._choice(choice, number, alt=typing)
            for number, choice in enumerate(ask.choices, start=1 + len(record))
        ]
        # Where no air has to be let out the way to everything else stands among the answers.
        last = [] if self.air_out() else [ELSE]
        return (*record, *found, *([BACK] if taken_up else []), *last)

    def offers(self) -> tuple[Answer, ...]:
        """Letting air out, one press each; then the way to everything else."""
        out = self.air_out()
        return (*out, ELSE) if out else ()

    def air_out(self) -> tuple[Answer, ...]:
        """Let down and Vent now, where the pot may hold air."""
        return tuple(
            self._press(offer, AIR_OUT[offer.act])
            for offer in self._card.offers
            if offer.act in AIR_OUT
        )

    def odd(self, loads: Sequence[tuple[str, str]]) -> tuple[Answer, ...]:
        """All that may have happened, facts toward caution among it; nothing of it is refused."""
        plain = [o for o in self._card.offers if o.act is not Act.STOP and o.act not in AIR_OUT]
        also = (
            Answer(f"{OFFER}{LOAD}{batch}", AnswerShown("", f"{name} is in it too"))
            for batch, name in loads
        )
        found = (*self._free(), *(self._press(each) for each in plain), *also)
        return (*self.air_out(), *_numbered((*found, *self._wrong())), BACK)

    def _wrong(self) -> Iterator[Answer]:
        """The last answer may be taken back; that never brings evidence back."""
        if self._last is not None:
            said, say = report(self._last), self._words.say
            second = f"{say(said.label)}: {say(said.answer)}. It counts no more."
            yield Answer(OFFER + WRONG, AnswerShown("", "My last answer was wrong", second))

    def stop(self) -> str:
        """Words on *Stop*; empty where there is nothing to stop."""
        stop = next((offer for offer in self._card.offers if offer.act is Act.STOP), None)
        if stop is None:
            return ""
        return self._words.say(stop.consequence or stop.label)

    def _choice(self, choice: Choice, number: int, *, alt: bool) -> Answer:
        words = self._words
        second = words.say(choice.consequence) if choice.consequence else ""
        cap, keys = (f"Alt {number}", f"Alt+{number}") if alt else (str(number), str(number))
        shown = AnswerShown(cap, words.say(choice.label), second, shortcut=keys)
        return Answer(ANSWER + choice.id, shown)

    def _press(self, offer: Offer, key: str = "") -> Answer:
        say = self._words.say
        second = say(offer.consequence) if offer.consequence else ""
        return Answer(OFFER + str(offer.act), AnswerShown(key, say(offer.label), second))

    def _free(self) -> tuple[Answer, ...]:
        """What may be reported now although it is not asked for; a reading first."""
        items = [free.ask.item for free in self._card.free]
        items.sort(key=lambda item: FREE_FIRST.get(item, len(FREE_FIRST)))
        return tuple(
            Answer(OFFER + FREE + str(item), AnswerShown("", free_words(item))) for item in items
        )


def _numbered(answers: Sequence[Answer]) -> tuple[Answer, ...]:
    """Digit keys for the first nine."""
    return tuple(
        replace(each, shown=replace(each.shown, key=str(n) if n < TEN else ""))
        for n, each in enumerate(answers, start=1)
    )
