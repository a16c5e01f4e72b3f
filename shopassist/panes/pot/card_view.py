"""The card of the pot pane: one item at a time, quiet column at the left, answers at the foot."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QApplication,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from shopassist.core.pot.cards import AskKind
from shopassist.panes.pot.field import TypedField
from shopassist.panes.pot.presenter import PotPresenter, PotScreen
from shopassist.panes.pot.screen import MORE, OFFER, RECORD
from shopassist.widgets.answer_button import GAP_MM, LEAST_GAP_MM, AnswerGrid
from shopassist.widgets.branch_note import BranchNote
from shopassist.widgets.countdown import Countdown
from shopassist.widgets.figure_view import FigureView
from shopassist.widgets.hold_button import HoldButton, Ticks
from shopassist.widgets.lid import Lid
from shopassist.widgets.look import Look
from shopassist.widgets.piece import name_it
from shopassist.widgets.pot_card import PotCardFrame, QuietColumn, StopButton
from shopassist.widgets.prose import Heading, Question
from shopassist.widgets.shown import AnswerShown, FigureShown, LidShown

NO_LID = LidShown(())
COLUMN_FROM = 46
"""Width in body sizes from which the quiet column has room."""
ODD_COLUMNS, FREE_COLUMNS, ANSWER_COLUMNS, OFFER_COLUMNS = 4, 3, 2, 3


class CardView(QWidget):
    """Draws the list page of the presenter's screen; decides nothing."""

    def __init__(
        self, look: Look, presenter: PotPresenter, ticker: Ticks, now: Callable[[], float]
    ) -> None:
        super().__init__()
        self.look, self._presenter = look, presenter
        self._field_of = ""
        self.column = QuietColumn(look, "pot.reported", "You reported")
        self.stop = StopButton(look, "pot.stop", "Stop", "leave it as it is, walk away")
        self.stop.clicked.connect(lambda: presenter.on_offer("stop"))
        self.lid = Lid(look, "pot.lid", NO_LID)
        self.column.set_picture(self.lid)
        self.column.set_stop(self.stop)
        self.rest: QWidget = self
        """What has the keyboard where nothing is typed."""
        self._asked: tuple[object, ...] = ()
        self._card = PotCardFrame(look, "pot.card", self.column)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(self._card)
        self._build_top(look)
        self._build_middle(look)
        self._build_foot(look, ticker, now)

    # -- building ------------------------------------------------------------------------

    def _build_top(self, look: Look) -> None:
        """What is asked and what must be seen: never folded, never scrolled."""
        self.question = Question(look, "pot.question")
        self.branch = BranchNote(look, "pot.branch")
        self.cautions = Heading(look, "pot.cautions", "", "bold", "ink")
        self.refusal = Heading(look, "pot.refusal", "", "bold", "error")
        self._card.top.setSpacing(round(1.5 * look.u))
        for widget in (self.question, self.branch, self.cautions):
            self._card.top.addWidget(widget)
        self._card.top.addLayout(self._entry(look))
        self._card.top.addWidget(self.refusal)

    def _entry(self, look: Look) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(round(3 * look.u))
        self.field = TypedField(look, "pot.answer.typed_reading", "What the gauge reads")
        self.warmth = TypedField(look, "pot.answer.temperature", "Temperature of the pot")
        self.hints = Heading(look, "pot.hints", "")
        self.field.edit.entered.connect(self._typed)
        self.warmth.edit.entered.connect(self._typed)
        self.field.edit.textChanged.connect(self._name_record)
        row.addWidget(self.field, 3)
        row.addWidget(self.warmth, 3)
        row.addWidget(self.hints, 2, Qt.AlignmentFlag.AlignVCenter)
        return row

    def _build_middle(self, look: Look) -> None:
        """Gives way where the window is short: first the notes, then what the pot line says too."""
        right = self._card.right
        self.wait = Heading(look, "pot.wait_caption", "", "bold", "ink")
        self.digits = Countdown(look, "pot.wait", "Time that the vent stays open")
        self.last = FigureView(look, "pot.last", FigureShown("You reported", "–", explains=False))
        self.notes = Heading(look, "pot.notes", "")
        right.addWidget(self.wait)
        right.addWidget(self.digits, 2)
        beside = QHBoxLayout()
        beside.setSpacing(round(4 * look.u))
        beside.addWidget(self.last, 1, Qt.AlignmentFlag.AlignTop)
        beside.addWidget(self.notes, 2, Qt.AlignmentFlag.AlignTop)
        right.addLayout(beside)
        right.addStretch(1)
        self._card.fold(self.last)
        self._card.fold(self.notes)

    def _build_foot(self, look: Look, ticker: Ticks, now: Callable[[], float]) -> None:
        foot = self._card.foot
        foot.setSpacing(look.mm(6))
        words = AnswerShown("Space", "Hold for 1.5 seconds", "let go, and nothing is recorded")
        self.hold = HoldButton(look, "pot.hold", words, ticker, now)
        self.hold.held.connect(self._held)
        self.answers = AnswerGrid(look, "pot.answers")
        self.offers = AnswerGrid(look, "pot.offers", columns=OFFER_COLUMNS)
        for grid in (self.answers, self.offers):
            grid.answered.connect(self._pressed)
        for widget in (self._build_examined(), self.hold, self.answers, self.offers):
            foot.addWidget(widget)

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

    def draw(self, screen: PotScreen) -> None:
        """Draw one item."""
        kept = self._holds_keyboard()
        self.column.draw(screen.reported)
        self.lid.draw(screen.lid or NO_LID)
        self.lid.setVisible(screen.lid is not None)
        self.stop.setVisible(bool(screen.stop))
        self.question.draw(screen.question)
        self.question.setVisible(bool(screen.question))
        self.branch.show_branch(
            screen.branch_key, "".join(screen.branch[:1]), " ".join(screen.branch[1:])
        )
        _line(self.cautions, "\n".join(screen.cautions))
        _line(self.refusal, screen.refusal)
        self.examined.setVisible(screen.examine)
        self._draw_field(screen)
        self._draw_middle(screen)
        self.hold.setVisible(screen.kind is AskKind.HOLD)
        self._draw_buttons(screen)
        self.narrow(screen)
        self._tighten()
        asked = _asked(screen)
        if kept and asked != self._asked:
            self.take_focus()
        self._asked = asked

    def let_go(self) -> None:
        """Another page is in front: no button and no key answers anything."""
        for grid in (self.answers, self.offers):
            grid.draw({})
        self.hold.hide()

    def _draw_field(self, screen: PotScreen) -> None:
        typing = screen.kind is AskKind.TYPE
        self.field.setVisible(typing)
        self.warmth.setVisible(typing and screen.with_temperature)
        _line(self.hints, "\n".join(screen.hints))
        if screen.field != self._field_of:
            # A new item starts empty: an earlier value is never offered again.
            self._field_of = screen.field
            self.field.edit.clear()
            self.warmth.edit.clear()
        self.field.set_unit(screen.unit)
        self.warmth.set_unit(screen.warmth_unit)

    def _draw_middle(self, screen: PotScreen) -> None:
        _line(self.wait, screen.wait_caption)
        self.digits.setVisible(bool(screen.wait_digits))
        if screen.wait_digits:
            self.digits.set_digits(screen.wait_digits)
        if screen.last is not None:
            self.last.draw(screen.last)
        self._card.wants(self.last, screen.last is not None)
        self.notes.draw("\n".join(screen.notes))
        self._card.wants(self.notes, bool(screen.notes))

    def _draw_buttons(self, screen: PotScreen) -> None:
        free = FREE_COLUMNS if screen.kind is None else ANSWER_COLUMNS
        self.answers.set_most(ODD_COLUMNS if screen.odd else free)
        self.answers.draw({answer.name: answer.shown for answer in screen.answers})
        self.answers.setVisible(bool(screen.answers))
        self.offers.draw({answer.name: answer.shown for answer in screen.offers})
        self.offers.setVisible(bool(screen.offers))
        self._name_record()

    def is_narrow(self) -> bool:
        """Whether there is no room for a second column."""
        return self.width() <= COLUMN_FROM * self.look.metrics.body_px

    def narrow(self, screen: PotScreen) -> None:
        """The quiet column needs the width of a walk; all odd things together need it too."""
        for widget in (self.column, self._card.between):
            widget.setVisible(not self.is_narrow() and not screen.odd)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Show the quiet column where there is room for it."""
        super().resizeEvent(event)
        self._presenter.on_room(narrow=self.is_narrow())
        self.narrow(self._presenter.screen)
        self._tighten()

    def _tighten(self) -> None:
        """Where the window is low the gaps shrink, never the answers."""
        layout = self._card.row
        for gap in (GAP_MM, LEAST_GAP_MM):
            for grid in (self.answers, self.offers):
                grid.set_gap(gap)
            self._card.foot.setSpacing(self.look.mm(gap))
            layout.invalidate()
            if layout.minimumHeightForWidth(self.width()) <= self.height():
                return

    def tick(self, screen: PotScreen) -> None:
        """Redraw what depends on the time alone."""
        if screen.wait_digits and self.digits.isVisible():
            self.digits.set_digits(screen.wait_digits)

    # -- the keyboard ------------------------------------------------------------------------

    def _holds_keyboard(self) -> bool:
        focused = QApplication.focusWidget()
        return focused is not None and (focused is self.rest or self.isAncestorOf(focused))

    def take_focus(self) -> None:
        """Bring the keyboard to the question: its field, or the card, whose keys are digits.

        Never to an answer: a Space too many would give it.
        """
        target = self.field.edit if self.field.isVisible() else self.rest
        target.setFocus(Qt.FocusReason.OtherFocusReason)

    def _name_record(self) -> None:
        button = self.answers.buttons.get(RECORD)
        if button is not None:
            text, unit = self.field.edit.text().strip(), self._presenter.screen.unit
            words = f"Record {text} {unit}".strip() if text else "Record"
            button.draw(AnswerShown("Enter", words, filled=True))

    # -- what the person does -----------------------------------------------------------------

    def _pressed(self, name: str) -> None:
        if name == RECORD:
            self._typed()
        elif name == MORE:
            self._presenter.on_more()
        elif name.startswith(OFFER):
            self._presenter.on_offer(name.removeprefix(OFFER))
        elif self._still_asked():
            self._presenter.on_choice(name.removeprefix("pot.answer."))

    def _typed(self) -> None:
        if self._still_asked():
            self._presenter.on_typed(self.field.edit.text(), self.warmth.edit.text())

    def _held(self) -> None:
        if self._still_asked():
            self._presenter.on_hold()

    def _still_asked(self) -> bool:
        """Whether what is on the screen is still the question; else it is drawn, not answered."""
        still = _asked(self._presenter.screen) == self._asked
        if not still:
            self._presenter.changed.emit(None)
        return still


def _asked(screen: PotScreen) -> tuple[object, ...]:
    return screen.field, screen.kind, screen.odd, screen.belief


def _line(heading: Heading, words: str) -> None:
    heading.draw(words)
    heading.setVisible(bool(words))
