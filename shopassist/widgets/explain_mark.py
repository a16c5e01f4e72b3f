"""The explain mark: a circle with two short bars, ready to say where a number comes from."""

import math

from PySide6.QtCore import QPointF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPixmap
from PySide6.QtWidgets import QAbstractButton, QWidget

from shopassist.widgets import icons
from shopassist.widgets.look import Look
from shopassist.widgets.piece import name_it

TARGET_MM = 9.0


class ExplainTarget(QAbstractButton):
    """Where a number is asked to explain itself; the number draws the mark itself."""

    def __init__(self, look: Look, name: str, label: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.look = look
        name_it(self, name, label)
        self._drawn: tuple[tuple[int, str, float], QPixmap] | None = None
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
        """Draw nothing."""

    def picture(self) -> QPixmap:
        """The mark; it moves with every digit before it, so it is drawn once a size and colour."""
        side, tokens = math.ceil(drawn_side(self.look)), self.look.tokens
        colour = tokens.ink if self.isDown() else tokens.blue
        key = (side, colour, self.devicePixelRatioF())
        if self._drawn is None or self._drawn[0] != key:
            self._drawn = key, icons.pixmap("explain", side, self.look.colour(colour), key[2])
        return self._drawn[1]


class ExplainMark(ExplainTarget):
    """A mark that stands by itself: drawn one body size high; the target is 9 mm."""

    def __init__(self, look: Look, name: str, label: str, parent: QWidget | None = None) -> None:
        super().__init__(look, name, label, parent)
        self.flush = False
        """Draw the mark at the right end of its target, not in the middle."""

    def paintEvent(self, _: QPaintEvent) -> None:
        """Draw the mark in the middle of its target."""
        side = drawn_side(self.look)
        left = self.width() - side - 1 if self.flush else (self.width() - side) / 2
        painter = QPainter(self)
        at = QPointF(round(left), round((self.height() - side) / 2))
        painter.drawPixmap(at, self.picture())
        painter.end()


def drawn_side(look: Look) -> float:
    """Side of the drawn mark, smaller than its target."""
    return 1.15 * look.metrics.body_px
