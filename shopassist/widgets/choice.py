"""One of several words, dropped down; looks like the entries beside it."""

from PySide6.QtCore import QPointF
from PySide6.QtGui import QPainter, QPaintEvent, QPalette, QPen, QWheelEvent
from PySide6.QtWidgets import QComboBox

FROM_RIGHT = 0.9
"""Middle of the mark from the right edge, in heights of the words."""


class Choice(QComboBox):
    """A drop-down list with an open angle at its right; a passing wheel chooses nothing."""

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the box, then the angle."""
        super().paintEvent(event)
        state = QPalette.ColorGroup.Normal if self.isEnabled() else QPalette.ColorGroup.Disabled
        role = QPalette.ColorRole.Dark if self.isEnabled() else QPalette.ColorRole.Text
        high = self.fontMetrics().height()
        reach = high / 4
        x, y = self.width() - FROM_RIGHT * high, self.height() / 2 - reach / 2
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(self.palette().color(state, role), 1.8))
        points = [QPointF(x - reach, y), QPointF(x, y + reach), QPointF(x + reach, y)]
        painter.drawPolyline(points)
        painter.end()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave the wheel to the form around: what was chosen is not changed in passing."""
        if self.view().isVisible():
            super().wheelEvent(event)
        else:
            event.ignore()
