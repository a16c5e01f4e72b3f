"""The pot pane on screen: draws what the presenter says, decides nothing."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from shopassist.core.pot.cards import AskKind
from shopassist.panes.pot.field import TypedField
from shopassist.panes.pot.presenter import Answer, PotPresenter, PotScreen
from shopassist.widgets.amber_note import AmberNote
from shopassist.widgets.answer_button import AnswerGrid
from shopassist.widgets.countdown import Countdown
from shopassist.widgets.hold_button import HoldButton, Ticks
from shopassist.widgets.lid import Lid
from shopassist.widgets.look import Look
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.pot_card import PotCardFrame, QuietColumn, StopButton
from shopassist.widgets.prose import Heading, Question
from shopassist.widgets.shown import AnswerShown, LidShown

DIGITS = 9
NO_LID = LidShown(())


class PotView(PaneFrame):
    """One item at a time; quiet column at the left, question and answers at the right."""

    def __init__(
        self, look: Look, presenter: PotPresenter, ticker: Ticks, now: Callable[[], float]
    ) -> None:
        super().__init__(look, "pot", "Pot")
        self._presenter = presenter
        self._field_of = ""
        self._column = QuietColumn(look, "pot.reported", "You reported")
        self._stop = StopButton(look, "pot.stop", "Stop", "leave it as it is, walk away")
        self._stop.clicked.connect(lambda: presenter.on_offer("stop"))
        self._column.set_stop(self._stop)
        self._card = PotCardFrame(look, "pot.card", self._column)
        self.body.addWidget(self._card, 1)
        self._build_right(look, ticker, now)
        self._keys()
        presenter.changed.connect(lambda _: self.show_screen())
        self.show_screen()

    # -- building ------------------------------------------------------------------------

    def _build_right(self, look: Look, ticker: Ticks, now: Callable[[], float]) -> None:
        right = self._card.right
        self.question = Question(look, "pot.question")
        self.branch = AmberNote(look, "pot.branch")
        self.hints = Heading(look, "pot.hints", "")
        self.refusal = Heading(look, "pot.refusal", "", "bold", "error")
        self.wait = Heading(look, "pot.wait_caption", "", "bold", "ink")
        self.digits = Countdown(look, "pot.wait", "Time that the vent stays open")
        self.lid = Lid(look, "pot.lid", "Lid from above", NO_LID)
        for widget in (self.question, self.branch, self.hints):
            right.addWidget(widget)
        right.addLayout(self._entry(look))
        right.addWidget(self.refusal)
        right.addWidget(self.wait)
        right.addWidget(self.digits, 2)
        right.addWidget(self.lid, 3)
        self.notes = Heading(look, "pot.notes", "")
        right.addWidget(self.notes)
        right.addStretch(1)
        self.hold = HoldButton(
            look, "pot.hold", AnswerShown("Space", "Hold for 1.5 seconds", "asks for the word"), ticker, now
        )
        self.hold.held.connect(self._presenter.on_hold)
        right.addWidget(self.hold)
        self.answers = AnswerGrid(look, "pot.answers")
        self.answers.answered.connect(self._answered)
        right.addWidget(self.answers)
        self.offers = AnswerGrid(look, "pot.offers")
        self.offers.answered.connect(self._offered)
        right.addWidget(self.offers)
        self._free_row = QHBoxLayout()
        right.addLayout(self._free_row)
        self._free: dict[str, QPushButton] = {}

    def _entry(self, look: Look) -> QHBoxLayout:
        row = QHBoxLayout()
        self.field = TypedField(look, "pot.answer.typed_reading", "What the gauge reads")
        self.warmth = TypedField(look, "pot.answer.temperature", "Temperature of the pot")
        self.record = QPushButton("Record")
        self.record.setObjectName("pot.answer.record")
        self.record.setAccessibleName("Record what was typed")
        self.record.setProperty("kind", "primary")
        self.record.clicked.connect(self._typed)
        self.field.edit.entered.connect(self._typed)
        self.warmth.edit.entered.connect(self._typed)
        self.field.edit.textChanged.connect(self._name_record)
        for widget in (self.field, self.warmth, self.record):
            row.addWidget(widget)
        row.addStretch(1)
        return row

    def _keys(self) -> None:
        """Digit keys answer only while the focus is in this pane: never from another one."""
        for digit in range(1, DIGITS + 1):
            for keys in (str(digit), f"Alt+{digit}"):
                self._key(keys)
        self._key("Esc")

    def _key(self, keys: str) -> None:
        shortcut = QShortcut(QKeySequence(keys), self)
        shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        shortcut.setAutoRepeat(False)
        shortcut.activated.connect(lambda: self._press(keys))

    def _press(self, keys: str) -> None:
        for answer in self._presenter.screen.answers:
            if answer.shown.shortcut == keys:
                self._presenter.on_choice(answer.id)
                return

    # -- drawing ---------------------------------------------------------------------------

    def show_screen(self) -> None:
        """Draw the presenter's screen."""
        screen = self._presenter.screen
        self.set_right(screen.right)
        self._draw_walk(screen)
        self._column.draw(screen.reported)
        self._stop.setVisible(bool(screen.stop))
        self.question.draw(screen.question)
        self.branch.draw(*(*screen.branch, "", "")[:2])
        self._line(self.hints, "\n".join(screen.hints))
        self._line(self.refusal, screen.refusal)
        self._line(self.notes, "\n".join((*screen.branch[2:], *screen.notes, *screen.cautions)))
        self._draw_field(screen)
        self._draw_wait(screen)
        self.lid.setVisible(screen.lid is not None)
        self.lid.draw(screen.lid or NO_LID)
        self.hold.setVisible(screen.kind is AskKind.HOLD)
        self._draw_answers(screen)
        self._draw_free(screen.free)

    def tick(self) -> None:
        """Redraw what depends on the time alone."""
        screen = self._presenter.screen
        if screen.wait_digits and self.digits.isVisible():
            self.digits.set_digits(screen.wait_digits)
        if (screen.wait_digits != "") != self.digits.isVisible():
            self.show_screen()

    @staticmethod
    def _line(heading: Heading, words: str) -> None:
        heading.draw(words)
        heading.setVisible(bool(words))

    def _draw_walk(self, screen: PotScreen) -> None:
        present = next((n for n, (_, state) in enumerate(screen.walk) if state == "present"), None)
        self.set_steps(tuple(words for words, _ in screen.walk), present)

    def _draw_field(self, screen: PotScreen) -> None:
        typing = screen.kind is AskKind.TYPE
        self.field.setVisible(typing)
        self.record.setVisible(typing)
        self.warmth.setVisible(typing and screen.with_temperature)
        if screen.field != self._field_of:
            # A new item starts empty: an earlier value is never offered again.
            self._field_of = screen.field
            self.field.edit.clear()
            self.warmth.edit.clear()
            if typing and self.isAncestorOf(self.focusWidget() or self):
                self.field.edit.setFocus(Qt.FocusReason.OtherFocusReason)
        self.field.set_unit(screen.unit)
        self._name_record()

    def _name_record(self) -> None:
        text, unit = self.field.edit.text().strip(), self._presenter.screen.unit
        self.record.setText(f"Record {text} {unit}".strip() if text else "Record")

    def _draw_wait(self, screen: PotScreen) -> None:
        self._line(self.wait, screen.wait_caption)
        self.digits.setVisible(bool(screen.wait_digits))
        if screen.wait_digits:
            self.digits.set_digits(screen.wait_digits)

    def _draw_answers(self, screen: PotScreen) -> None:
        self.answers.draw({f"pot.answer.{a.id}": a.shown for a in screen.answers})
        self.answers.setVisible(bool(screen.answers))
        self.offers.draw({f"pot.offer.{a.id}": a.shown for a in screen.offers})
        self.offers.setVisible(bool(screen.offers))

    def _draw_free(self, free: tuple[Answer, ...]) -> None:
        if [answer.id for answer in free] == list(self._free):
            return
        for button in self._free.values():
            self._free_row.removeWidget(button)
            button.hide()
            button.deleteLater()
        self._free = {}
        for answer in free:
            button = QPushButton(answer.shown.words)
            button.setObjectName(f"pot.free.{answer.id}")
            button.setAccessibleName(answer.shown.words)
            button.clicked.connect(lambda _=False, item=answer.id: self._presenter.on_free(item))
            self._free_row.addWidget(button)
            self._free[answer.id] = button

    # -- what the person does -----------------------------------------------------------------

    def _answered(self, name: str) -> None:
        self._presenter.on_choice(name.removeprefix("pot.answer."))

    def _offered(self, name: str) -> None:
        self._presenter.on_offer(name.removeprefix("pot.offer."))

    def _typed(self) -> None:
        self._presenter.on_typed(self.field.edit.text(), self.warmth.edit.text())
