"""Answers the pot's questions by keyboard, as an honest person with a healthy pot would."""

from collections.abc import Mapping

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QWidget

from shopassist.core.pot.cards import AskKind
from shopassist.core.pot.words import Act, Belief
from shopassist.panes.pot.presenter import PotScreen
from tests.app.answers import HEALTHY, TYPED
from tests.app.driver import Person


class PotWalker:
    """One person at one pot; looks at the screen, presses keys."""

    def __init__(self, person: Person, answers: Mapping[str, str] | None = None) -> None:
        self.person = person
        self.answers = {**HEALTHY, **(answers or {})}
        self.seen: list[str] = []

    @property
    def screen(self) -> PotScreen:
        return self.person.program.presenters.pot.screen

    def go(self) -> None:
        """Bring the pot pane into hand by its key."""
        self.person.key(Qt.Key.Key_3, Qt.KeyboardModifier.ControlModifier)
        self.person.program.panes["pot"].take_focus()
        self.person.look()

    def until(self, belief: Belief, most: int = 80) -> None:
        """Go on answering until the pot is believed to be so."""
        for _ in range(most):
            if self.screen.belief is belief and not self.screen.asks:
                return
            self.step()
        raise AssertionError((self.screen.belief, self.screen.field, self.screen.refusal))

    def until_item(self, item: str, most: int = 80) -> None:
        """Go on answering until an item is asked for."""
        for _ in range(most):
            if self.screen.field.split(".")[0] == item:
                return
            self.step()
        raise AssertionError((item, self.screen.field, self.screen.refusal))

    def step(self) -> None:
        """Answer what is asked now, or wait, or press what the card offers."""
        screen = self.screen
        item = screen.field.split(".")[0]
        self.seen.append(item)
        if screen.kind is AskKind.HOLD:
            self._hold()
        elif screen.kind is AskKind.TYPE and item in TYPED and item not in self._chosen():
            self._type(TYPED[item])
        elif screen.wait_digits and not screen.answers:
            self._pass(60)
        elif screen.kind is not None:
            self._choose(item)
        else:
            self._press(Act.AIR_ON)
        self.person.look()
        after = self.screen
        assert not after.refusal, (item, after.refusal)
        assert screen != after, (
            item, str(QApplication.focusWidget()), after.refusal, after.kind, [each.id for each in after.answers], after.odd, after.page,
        )  # fmt: skip

    def _chosen(self) -> Mapping[str, str]:
        return {key: value for key, value in self.answers.items() if key in TYPED}

    def _type(self, text: str) -> None:
        self.person.program.panes["pot"].take_focus()
        self.person.look()
        focused = QApplication.focusWidget()
        assert focused is not None
        assert focused.objectName() == "pot.answer.typed_reading", focused.objectName()
        self._pass(61)
        self.person.keys(text)
        self.person.enter()

    def _choose(self, item: str) -> None:
        screen = self.screen
        wanted = self.answers.get(item) or next(
            each.id for each in screen.answers if each.shown.enabled
        )
        offered = {each.id: each for each in screen.answers}
        assert wanted in offered, (item, wanted, list(offered))
        answer = offered[wanted]
        assert answer.shown.shortcut, (item, wanted)
        self.keys(answer.shown.shortcut)

    def keys(self, sequence: str) -> None:
        """Press a key sequence within the pot pane."""
        self._focus()
        self.person.sequence(sequence)

    def _focus(self) -> None:
        pane = self.person.program.panes["pot"]
        focused = QApplication.focusWidget()
        if focused is None or not pane.isAncestorOf(focused):
            pane.take_focus()
            self.person.look()

    def _press(self, act: Act) -> None:
        """Press a button of the card: Tab to it, then Space."""
        shown = [each.id for each in (*self.screen.offers, *self.screen.answers)]
        assert str(act) in shown, (self.screen.belief, self.screen.wait_caption, shown)
        self._focus()
        self.person.press(f"pot.offer.{act}")

    def _hold(self) -> None:
        """Hold Space for its second and a half."""
        self._focus()
        self.person.tab_to("pot.hold")
        button = self.person.find(QWidget, "pot.hold")
        _send(button, QEvent.Type.KeyPress)
        for _ in range(3):
            self.person.clock.advance(0.6)
            self.person.program.ticker.call_all()
            self.person.look()
        _send(button, QEvent.Type.KeyRelease)

    def _pass(self, seconds: float) -> None:
        """Let time go by; the program ticks."""
        self.person.clock.advance(seconds)
        self.person.program.ticker.call_all()
        self.person.look()


def _send(widget: QWidget, kind: QEvent.Type) -> None:
    space = QKeyEvent(kind, Qt.Key.Key_Space, Qt.KeyboardModifier.NoModifier, " ")
    QApplication.sendEvent(widget, space)
