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
        self.column = QVBoxLayout(inside)
        self.column.setContentsMargins(0, 0, 0, 0)
        self.column.setSpacing(spacing)
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
        width = self.maximumViewportSize().width()
        column = self.column
        return column.heightForWidth(width) if column.hasHeightForWidth() else (
            column.sizeHint().height()
        )  # fmt: skip
