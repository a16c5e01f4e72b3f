"""A button with words that may be longer than its column."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QPushButton, QSizePolicy


class LongButton(QPushButton):
    """What has no room is left out, and dots say so; its name is read aloud whole."""

    def __init__(self) -> None:
        super().__init__()
        self._words = ""
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def say(self, words: str) -> None:
        """Show other words."""
        if words != self._words:
            self._words = words
            self.updateGeometry()
            self._fit()

    def sizeHint(self) -> QSize:
        """All words."""
        return QSize(self._frame() + self._wide(self._words) + 2, super().sizeHint().height())

    def minimumSizeHint(self) -> QSize:
        """As narrow as the column is."""
        return QSize(self._frame(), super().sizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Leave out more, or less."""
        super().resizeEvent(event)
        self._fit()

    def _wide(self, words: str) -> int:
        return self.fontMetrics().horizontalAdvance(words)

    def _frame(self) -> int:
        return super().sizeHint().width() - self._wide(self.text().replace("&&", "&"))

    def _fit(self) -> None:
        room = max(self.width() - self._frame(), 0)
        cut = self.fontMetrics().elidedText(self._words, Qt.TextElideMode.ElideRight, room)
        shown = cut.replace("&", "&&")
        if shown != self.text():
            self.setText(shown)
