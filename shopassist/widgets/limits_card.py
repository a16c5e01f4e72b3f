"""What the program is not: shown beside the window on the first run, never over it."""

from PySide6.QtCore import QRect, QRectF, Qt, Signal
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import QPushButton, QVBoxLayout

from shopassist.widgets import strokes
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Piece
from shopassist.widgets.prose import Heading


class LimitsCard(Piece):
    """Title, a few lines, one button that says it was read."""

    read = Signal()

    def __init__(
        self, look: Look, name: str, title: str, lines: tuple[str, ...], words: str
    ) -> None:
        super().__init__(look, name, title)
        column = QVBoxLayout(self)
        side = round(3 * look.u)
        column.setContentsMargins(side, round(3.4 * look.u), side, side)
        column.setSpacing(round(2.4 * look.u))
        column.addWidget(Heading(look, f"{name}.title", title, "title", "ink"))
        for index, line in enumerate(lines):
            column.addWidget(Heading(look, f"{name}.line.{index}", line, "body", "ink"))
        self.button = QPushButton(words)
        self.button.setObjectName(f"{name}.read")
        self.button.setAccessibleName(words)
        self.button.clicked.connect(self.read)
        column.addSpacing(round(2 * look.u))
        column.addWidget(self.button, 0, Qt.AlignmentFlag.AlignLeft)
        column.addStretch(1)

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw the sheet with a heavy edge at its top."""
        del dirty
        rect = QRectF(self.rect())
        strokes.box(painter, rect, QPen(self.colour("ink"), 1.5), self.colour("sheet"))
        strokes.fill(painter, QRectF(0, 0, rect.width(), 4), self.colour("ink"))
