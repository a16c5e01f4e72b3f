"""A card that stands beside the panes, never over them: what the program is not, what stops."""

from PySide6.QtCore import QRect, QRectF, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPen
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from shopassist.widgets import strokes
from shopassist.widgets.card_room import CardRoom
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Piece, name_it
from shopassist.widgets.prose import Heading


class LimitsCard(Piece):
    """Title, a few lines, something to fill in where it is given, and the ways on."""

    read = Signal()
    """The first way on was taken."""
    chosen = Signal(str)
    """Any way on was taken, by its key."""

    def __init__(
        self, look: Look, name: str, title: str, lines: tuple[str, ...],
        ways: tuple[tuple[str, str], ...], inner: QWidget | None = None,
    ) -> None:  # fmt: skip
        super().__init__(look, name, title)
        self.leave = ""
        """Key of the way that Escape takes; empty: it takes none."""
        column = QVBoxLayout(self)
        side = round(3 * look.u)
        column.setContentsMargins(side, round(3.4 * look.u), side, side)
        column.setSpacing(round(2.4 * look.u))
        column.addWidget(Heading(look, f"{name}.title", title, "title", "ink"))
        self.room = CardRoom(round(2.4 * look.u))
        name_it(self.room, f"{name}.room", title)
        for index, line in enumerate(lines):
            words = Heading(look, f"{name}.line.{index}", line, "body", "ink")
            self.room.column.addWidget(words)
        if inner is not None:
            self.room.column.addWidget(inner)
        column.addWidget(self.room, 1000)
        column.addSpacing(round(2 * look.u))
        self._ways = [self._way(key, words) for key, words in ways]
        for button in self._ways:
            column.addWidget(button, 0, Qt.AlignmentFlag.AlignLeft)
        self.chosen.connect(lambda key: self.read.emit() if key == ways[0][0] else None)
        column.addStretch(1)

    def _way(self, key: str, words: str) -> QPushButton:
        button = QPushButton(words)
        button.setObjectName(f"{self.objectName()}.{key}")
        button.setAccessibleName(words)
        button.clicked.connect(lambda: self.chosen.emit(key))
        return button

    def take_focus(self) -> None:
        """Put the keyboard on the first way on."""
        self._ways[0].setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape takes the way that leaves everything as it is, where there is one."""
        if event.key() == Qt.Key.Key_Escape and self.leave:
            self.chosen.emit(self.leave)
        else:
            super().keyPressEvent(event)

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw the sheet with a heavy edge at its top."""
        del dirty
        rect = QRectF(self.rect())
        strokes.box(painter, rect, QPen(self.colour("ink"), 1.5), self.colour("sheet"))
        strokes.fill(painter, QRectF(0, 0, rect.width(), 4), self.colour("ink"))
