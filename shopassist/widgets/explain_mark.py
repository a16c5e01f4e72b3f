"""The explain mark: a circle with two short bars, ready to say where a number comes from."""

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QWidget

from shopassist.widgets import icons
from shopassist.widgets.look import Look
from shopassist.widgets.piece import name_it

TARGET_MM = 9.0


class ExplainMark(QAbstractButton):
    """Drawn one body size high; the target is 9 mm."""

    def __init__(self, look: Look, name: str, label: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.look = look
        name_it(self, name, label)
        self.flush = False
        """Draw the mark at the right end of its target, not in the middle."""
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        look.changed.connect(self.updateGeometry)

    def sizeHint(self) -> QSize:
        """Nine millimetres each way."""
        side = self.look.mm(TARGET_MM)
        return QSize(side, side)

    def minimumSizeHint(self) -> QSize:
        """Never smaller."""
        return self.sizeHint()

    def paintEvent(self, _: QPaintEvent) -> None:
        """Draw the mark in the middle of its target."""
        side = drawn_side(self.look)
        left = self.width() - side - 1 if self.flush else (self.width() - side) / 2
        rect = QRectF(left, (self.height() - side) / 2, side, side)
        tokens = self.look.tokens
        colour = self.look.colour(tokens.ink if self.isDown() else tokens.blue)
        painter = QPainter(self)
        icons.draw(painter, "explain", rect, colour)
        painter.end()


def drawn_side(look: Look) -> float:
    """Side of the drawn mark, smaller than its target."""
    return 1.15 * look.metrics.body_px
