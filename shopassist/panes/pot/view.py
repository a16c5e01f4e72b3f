"""The pot pane on screen: draws what the presenter says, decides nothing."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QApplication,
    QComboBox,
    QHBoxLayout,
    QLineEdit,
    QMenu,
    QPushButton,
    QWidget,
)

from shopassist.core.pot.cards import AskKind
from shopassist.panes.pot.field import TypedField
from shopassist.panes.pot.presenter import Answer, PotPresenter, PotScreen
from shopassist.widgets.amber_note import AmberNote
from shopassist.widgets.answer_button import AnswerGrid
from shopassist.widgets.countdown import Countdown
from shopassist.widgets.figure_view import FigureView
from shopassist.widgets.hold_button import HoldButton, Ticks
from shopassist.widgets.lid import Lid
from shopassist.widgets.look import Look
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.piece import name_it
from shopassist.widgets.pot_card import PotCardFrame, QuietColumn, StopButton
from shopassist.widgets.prose import Heading, Question
from shopassist.widgets.shown import AnswerShown, FigureShown, LidShown

NO_LID = LidShown(())
COLUMN_FROM = 40
"""Width in body sizes from which the quiet column has room."""


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
        self._build_choice()
        self.body.addWidget(self._card, 1)
        self._build_right(look, ticker, now)
        # Keys answer only while the focus is in this pane: never from another one.
        self.answers.listen(self)
        self.offers.listen(self)
        presenter.changed.connect(lambda _: self.show_screen())
        self.show_screen()

    def _build_choice(self) -> None:
        """Which pot, where there are several; the worst one leads until one is chosen."""
        self.choice = QComboBox()
        name_it(self.choice, "pot.choose", "Which pot")
        self.choice.activated.connect(
            lambda place: self._presenter.on_choose_pot(str(self.choice.itemData(place)))
        )
        self.body.addWidget(self.choice, 0, Qt.AlignmentFlag.AlignLeft)

    # -- building ------------------------------------------------------------------------

    def _build_right(self, look: Look, ticker: Ticks, now: Callable[[], float]) -> None:
        self.question = Question(look, "pot.question")
        self.branch = AmberNote(look, "pot.branch")
        self.hints = Heading(look, "pot.hints", "")
        self.refusal = Heading(look, "pot.refusal", "", "bold", "error")
        self.wait = Heading(look, "pot.wait_caption", "", "bold", "ink")
        self.digits = Countdown(look, "pot.wait", "Time that the vent stays open")
        self.lid = Lid(look, "pot.lid", NO_LID)
        self.last = FigureView(look, "pot.last", FigureShown("You reported", "–", explains=False))
        self.notes = Heading(look, "pot.notes", "")
        words = AnswerShown("Space", "Hold for 1.5 seconds", "asks for the word")
        self.hold = HoldButton(look, "pot.hold", words, ticker, now)
        self.hold.held.connect(self._presenter.on_hold)
        self.answers = AnswerGrid(look, "pot.answers")
        self.answers.answered.connect(self._answered)
        self.offers = AnswerGrid(look, "pot.offers")
        self.offers.answered.connect(self._offered)
        self._lay_right(look)

    def _lay_right(self, look: Look) -> None:
        right = self._card.right
        for widget in (self.question, self.branch, self.hints):
            right.addWidget(widget)
        right.addLayout(self._entry(look))
        right.addWidget(self._build_examined())
        right.addWidget(self.refusal)
        right.addWidget(self.wait)
        right.addWidget(self.digits, 2)
        picture = QHBoxLayout()
        picture.addWidget(self.last, 1, Qt.AlignmentFlag.AlignVCenter)
        picture.addWidget(self.lid, 1)
        right.addLayout(picture, 3)
        right.addWidget(self.notes)
        right.addStretch(1)
        for answer in (self.hold, self.answers, self.offers):
            right.addWidget(answer)
        self.more = QPushButton("Something else …")
        name_it(self.more, "pot.more", "Something else happened")
        self.more.setMenu(QMenu(self.more))
        right.addWidget(self.more, 0, Qt.AlignmentFlag.AlignRight)

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

    def _build_examined(self) -> QWidget:
        self.examined = QWidget()
        row = QHBoxLayout(self.examined)
        row.setContentsMargins(0, 0, 0, 0)
        self.examined_by, self.examined_note = QLineEdit(), QLineEdit()
        name_it(self.examined_by, "pot.examined_by", "Examined by")
        name_it(self.examined_note, "pot.examined_note", "What was found")
        self.examined_by.setPlaceholderText("examined by")
        self.examined_note.setPlaceholderText("what was found")
        button = QPushButton("Record the examination")
        name_it(button, "pot.examined", "Record the examination")
        button.clicked.connect(
            lambda: self._presenter.on_examined(self.examined_by.text(), self.examined_note.text())
        )
        for widget in (self.examined_by, self.examined_note, button):
            row.addWidget(widget)
        return self.examined

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
        self._draw_choice(screen)
        self.examined.setVisible(screen.examine)
        self._draw_field(screen)
        self._draw_wait(screen)
        self.lid.setVisible(screen.lid is not None)
        self.lid.draw(screen.lid or NO_LID)
        self.last.setVisible(screen.last is not None)
        if screen.last is not None:
            self.last.draw(screen.last)
        self.hold.setVisible(screen.kind is AskKind.HOLD)
        self._draw_answers(screen)
        self._narrow(screen)

    def _draw_choice(self, screen: PotScreen) -> None:
        self.choice.setVisible(len(screen.pots) > 1)
        shown = [(self.choice.itemData(n), self.choice.itemText(n))
                 for n in range(self.choice.count())]  # fmt: skip
        if shown != list(screen.pots):
            self.choice.clear()
            for pot_id, name in screen.pots:
                self.choice.addItem(name, pot_id)
        self.choice.setCurrentIndex(max(0, self.choice.findData(screen.pot_id)))

    def _narrow(self, screen: PotScreen) -> None:
        """The quiet column needs the width of a walk; it is empty while nothing is asked."""
        wide = self.width() > COLUMN_FROM * self.look.metrics.body_px
        self._column.setVisible(wide and (screen.asks or bool(screen.reported)))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Show the quiet column where there is room for it."""
        super().resizeEvent(event)
        self._narrow(self._presenter.screen)

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
            if typing and self._has_keyboard():
                self.field.edit.setFocus(Qt.FocusReason.OtherFocusReason)
        self.field.set_unit(screen.unit)
        self._name_record()

    def _has_keyboard(self) -> bool:
        focused = QApplication.focusWidget()
        return focused is not None and (focused is self or self.isAncestorOf(focused))

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
        offers = (*screen.free, *screen.offers)
        self.offers.draw({f"pot.offer.{a.id}": a.shown for a in offers})
        self.offers.setVisible(bool(offers))
        self._draw_odd(screen.odd)

    def _draw_odd(self, odd: tuple[Answer, ...]) -> None:
        menu = self.more.menu()
        if [act.objectName() for act in menu.actions()] == [f"pot.offer.{a.id}" for a in odd]:
            return
        menu.clear()
        for answer in odd:
            act = menu.addAction(answer.shown.words)
            act.setObjectName(f"pot.offer.{answer.id}")
            act.setToolTip(answer.shown.second)
            act.triggered.connect(lambda _=False, act=answer.id: self._presenter.on_offer(act))
        self.more.setVisible(bool(odd))

    def take_focus(self) -> None:
        """Bring the keyboard to the question: its field, or its first answer."""
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        if self.field.isVisible():
            self.field.edit.setFocus(Qt.FocusReason.OtherFocusReason)
        elif self.answers.isVisible() and self.answers.buttons:
            next(iter(self.answers.buttons.values())).setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.setFocus(Qt.FocusReason.OtherFocusReason)

    # -- what the person does -----------------------------------------------------------------

    def _answered(self, name: str) -> None:
        self._presenter.on_choice(name.removeprefix("pot.answer."))

    def _offered(self, name: str) -> None:
        self._presenter.on_offer(name.removeprefix("pot.offer."))

    def _typed(self) -> None:
        self._presenter.on_typed(self.field.edit.text(), self.warmth.edit.text())
