"""A high alarm that nobody answered, in the place of the panes: what is so and what to do."""

from collections.abc import Callable

from PySide6.QtCore import QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPen, QShowEvent
from PySide6.QtWidgets import QAbstractButton, QHBoxLayout, QVBoxLayout, QWidget

from shopassist.widgets import icons, strokes
from shopassist.widgets.hold_button import Ticks
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Piece, describe, name_it
from shopassist.widgets.prose import Heading
from shopassist.widgets.shown import AlarmShown

BUTTON_MM, SIDE_MM, MARK_MM, EDGE_MM = 21.0, 17.0, 24.0, 3.0
HALF_PERIOD_S = 0.25
ANSWERS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)


class AlarmButton(QAbstractButton):
    """An answer large enough for gloves."""

    def __init__(self, look: Look, name: str, words: str) -> None:
        super().__init__()
        self._look = look
        self.setText(words)
        name_it(self, name, words)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def ring_colour(self) -> str:
        """Colour of the focus ring on this field."""
        return self._look.tokens.on_alarm

    def sizeHint(self) -> QSize:
        """Twenty-one millimetres high, as wide as its words and air."""
        words = self._look.font("across_side").advance(self.text())
        return QSize(round(words + self._look.mm(16)), self._look.mm(BUTTON_MM))

    def paintEvent(self, _: QPaintEvent) -> None:
        """Draw outline and words; pressed, the other way round."""
        look = self._look
        field, text = look.colour(look.tokens.alarm), look.colour(look.tokens.on_alarm)
        if self.isDown():
            field, text = text, field
        painter = QPainter(self)
        strokes.box(painter, QRectF(self.rect()), QPen(text, 3), field)
        baseline = (self.height() + look.font("across_side").caps) / 2
        at = (self.width() / 2, baseline)
        strokes.write(painter, at, self.text(), look.font("across_side"), text, strokes.CENTRE)
        painter.end()


class AlarmView(Piece):
    """One key answers; Escape goes back to the panes and the band stays."""

    acknowledged = Signal()
    silenced = Signal()
    left = Signal()

    def __init__(self, look: Look, name: str, ticker: Ticks, parent: QWidget | None = None) -> None:
        super().__init__(look, name, "Alarm", parent)
        self._ticker, self._lit = ticker, True
        self._stop: Callable[[], None] | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.words = Heading(look, f"{name}.words", "", "across_caption", "on_alarm")
        self.detail = Heading(look, f"{name}.detail", "", "across_side", "on_alarm")
        self.acknowledge = AlarmButton(look, f"{name}.acknowledge", "Acknowledge")
        self.silence = AlarmButton(look, f"{name}.silence", "Silence 2 min")
        self.acknowledge.clicked.connect(self.acknowledged)
        self.silence.clicked.connect(self.silenced)
        column = QVBoxLayout(self)
        side = look.mm(SIDE_MM)
        column.setContentsMargins(side + look.mm(MARK_MM + 10), side, side, side)
        column.setSpacing(look.mm(8))
        column.addWidget(self.words)
        column.addWidget(self.detail)
        column.addStretch(1)
        row = QHBoxLayout()
        row.setSpacing(look.mm(14))
        row.addWidget(self.acknowledge)
        row.addWidget(self.silence)
        row.addStretch(1)
        column.addLayout(row)

    def ring_colour(self) -> str:
        """No ring round the whole view."""
        return self.look.tokens.alarm

    def draw(self, shown: AlarmShown) -> None:
        """Show another alarm, or the same with another silence."""
        self.words.draw(shown.words)
        self.detail.draw(shown.detail)
        if shown.silence and shown.silence != self.silence.text():
            self.silence.setText(shown.silence)
            self.silence.setAccessibleName(shown.silence)
            self.silence.updateGeometry()
        describe(self, f"{shown.words}, {shown.detail}")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter or Space acknowledges, Escape leaves; a key that sticks does neither."""
        if event.isAutoRepeat():
            return
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        elif event.key() in ANSWERS:
            self.acknowledged.emit()
        else:
            super().keyPressEvent(event)

    def showEvent(self, event: QShowEvent) -> None:
        """Flash while in sight."""
        super().showEvent(event)
        if self._stop is None:
            self._stop = self._ticker.every(HALF_PERIOD_S, self._turn)

    def still(self) -> None:
        """Listen to no ticks any more."""
        if self._stop is not None:
            self._stop()
            self._stop = None

    def _turn(self) -> None:
        if not self.isVisible():
            self.still()
            return
        self._lit = not self._lit
        edge = self.look.mm(EDGE_MM)
        whole = self.rect()
        for strip in (
            QRect(0, 0, whole.width(), edge), QRect(0, whole.height() - edge, whole.width(), edge),
            QRect(0, 0, edge, whole.height()), QRect(whole.width() - edge, 0, edge, whole.height()),
        ):  # fmt: skip
            self.update(strip)

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Fill the ground, draw the edge and the mark."""
        tokens, look = self.look.tokens, self.look
        field, text = look.colour(tokens.alarm), look.colour(tokens.on_alarm)
        painter.fillRect(dirty, field)
        edge, whole = look.mm(EDGE_MM), self.rect()
        if self._lit:
            pen = QPen(text, edge)
            inner = QRectF(whole).adjusted(edge / 2, edge / 2, -edge / 2, -edge / 2)
            strokes.box(painter, inner, pen, field, 0)
        side = look.mm(MARK_MM)
        icons.draw(
            painter, "triangle", QRectF(look.mm(SIDE_MM), look.mm(SIDE_MM), side, side), text
        )
