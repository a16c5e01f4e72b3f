"""The view for reading from across the bench: one countdown, white on nearly black."""

from PySide6.QtCore import QRect, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter
from PySide6.QtWidgets import QVBoxLayout, QWidget

from shopassist.widgets import strokes
from shopassist.widgets.countdown import Countdown
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Drawn, Piece, describe
from shopassist.widgets.ruled_edge import RuledEdge
from shopassist.widgets.shown import BenchShown
from shopassist.widgets.wait_block import NO_RULE

SIDE_MM = 17.0


class BenchCaption(Drawn[BenchShown]):
    """What the digits count to, and the batch at the right."""

    def spoken(self) -> str:
        """Both."""
        return f"{self.shown.caption}, {self.shown.side}".strip(", ")

    def sizeHint(self) -> QSize:
        """Capitals of 9.3 mm with air."""
        return QSize(600, round(1.9 * self.look.font("across_caption").caps))

    def minimumSizeHint(self) -> QSize:
        """Words may be cut."""
        return QSize(0, self.sizeHint().height())

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Write both; the caption has the right of way."""
        del dirty
        look = self.look
        font, side = look.font("across_caption"), look.font("across_side")
        baseline = (self.height() + look.font("across_caption").caps) / 2
        words = strokes.cut(font, self.shown.caption, self.width())
        x = strokes.write(painter, (0, baseline), words, font, self.colour("ink"))
        right = strokes.cut(side, self.shown.side, self.width() - x - look.mm(8))
        at = (float(self.width()), baseline)
        strokes.write(painter, at, right, side, self.colour("graphite"), strokes.RIGHT)


class BenchView(Piece):
    """Stands in the place of the panes, between pot line and next line."""

    left = Signal()

    def __init__(self, look: Look, name: str, parent: QWidget | None = None) -> None:
        across = look.across()
        super().__init__(across, name, "Across the bench", parent)
        across.setParent(self)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.shown = BenchShown("")
        self.caption = BenchCaption(across, f"{name}.caption", "Counts to", self.shown)
        self.digits = Countdown(across, f"{name}.digits", "Countdown", "across_digits")
        self.rule = RuledEdge(across, f"{name}.rule", NO_RULE)
        self.rule.set_roles("across_side", "across_caption")
        column = QVBoxLayout(self)
        side = look.mm(SIDE_MM)
        column.setContentsMargins(side, look.mm(3), side, look.mm(3))
        column.setSpacing(look.mm(2))
        column.addWidget(self.caption)
        column.addWidget(self.digits, 1)
        column.addWidget(self.rule)

    def ring_colour(self) -> str:
        """No ring: the whole view has the focus."""
        return self.look.tokens.sheet

    def draw(self, shown: BenchShown) -> None:
        """Show other facts round the digits."""
        if shown == self.shown:
            return
        self.shown = shown
        self.caption.draw(shown)
        self.digits.setAccessibleName(shown.caption)
        self.rule.draw(shown.rule or NO_RULE)
        self.rule.setVisible(shown.rule is not None)
        describe(self, shown.caption)

    def set_digits(self, text: str) -> None:
        """Show other digits."""
        self.digits.set_digits(text)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape leaves."""
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """A press anywhere leaves."""
        if self.rect().contains(event.position().toPoint()):
            self.left.emit()

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Fill the ground."""
        painter.fillRect(dirty, self.colour("sheet"))
