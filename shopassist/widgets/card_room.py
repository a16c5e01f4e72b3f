"""What a card beside the panes holds: as high as it needs, scrolled where the window is low."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QScrollArea, QVBoxLayout, QWidget

from shopassist.widgets.tabs import scrolled


class CardRoom(QScrollArea):
    """A column that is never squeezed: words keep their lines, entries their edges."""

    def __init__(self, spacing: int) -> None:
        super().__init__()
        inside = QWidget()
        outer = QVBoxLayout(inside)
        outer.setContentsMargins(0, 0, 0, 0)
        self.column = QVBoxLayout()
        self.column.setSpacing(spacing)
        outer.addLayout(self.column)
        outer.addStretch(1)
        scrolled(inside, self)

    def sizeHint(self) -> QSize:
        """As high as everything in it at this width."""
        return QSize(super().sizeHint().width(), self._needs())

    def minimumSizeHint(self) -> QSize:
        """Any height: the rest is scrolled."""
        return QSize(0, 0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Take no more than is needed, and no stop of the keyboard where nothing is hidden."""
        super().resizeEvent(event)
        self.fit()

    def fit(self) -> None:
        """Look again at how high everything is."""
        needs = self._needs()
        self.setMaximumHeight(needs)
        hidden = self.height() < needs
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus if hidden else Qt.FocusPolicy.NoFocus)

    def _needs(self) -> int:
        """Height beside a bar: else the bar, once there, makes the words need it."""
        width = self.maximumViewportSize().width() - self.verticalScrollBar().sizeHint().width()
        column = self.column
        wraps = column.hasHeightForWidth()
        return column.heightForWidth(width) if wraps else column.sizeHint().height()
