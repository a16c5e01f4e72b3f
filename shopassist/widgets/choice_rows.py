"""Buttons side by side; in more rows where one of them would be cut."""

from collections.abc import Sequence

from PySide6.QtCore import QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QGridLayout, QPushButton, QWidget


class ChoiceRows(QWidget):
    """Lays its buttons from the left, as many in a row as there is room for."""

    def __init__(self, buttons: Sequence[QPushButton], gap: int) -> None:
        super().__init__()
        self._buttons, self._gap, self._across = tuple(buttons), gap, 0
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(gap)
        self._lay(len(self._buttons))

    def _lay(self, across: int) -> None:
        if across == self._across:
            return
        for column in range(len(self._buttons) + 1):
            self._grid.setColumnStretch(column, int(column == across))
        self._across = across
        for number, button in enumerate(self._buttons):
            self._grid.addWidget(button, *divmod(number, across))

    def _width(self, across: int) -> int:
        """Room for so many in a row, each column as wide as its widest."""
        wide = [button.sizeHint().width() for button in self._buttons]
        columns = (max(wide[column::across]) for column in range(min(across, len(wide))))
        return sum(columns) + self._gap * across

    def minimumSizeHint(self) -> QSize:
        """One under another at worst."""
        return QSize(self._width(1), self._grid.minimumSize().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Take as many into a row as are whole."""
        super().resizeEvent(event)
        most = range(len(self._buttons), 1, -1)
        self._lay(next((across for across in most if self._width(across) <= self.width()), 1))
