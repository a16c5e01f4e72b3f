"""Hairlines: separation only, never meaning."""

from PySide6.QtCore import QRect, QSize
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QSizePolicy, QWidget

from shopassist.widgets import strokes
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Piece


class Hair(Piece):
    """One device pixel, across or down."""

    def __init__(self, look: Look, *, down: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(look, "", "", parent)
        self._down = down
        across, along = QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding
        self.setSizePolicy(*((across, along) if down else (along, across)))

    def sizeHint(self) -> QSize:
        """One pixel thick."""
        return QSize(1, 8) if self._down else QSize(8, 1)

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw the line."""
        del dirty
        colour = self.colour("hair")
        if self._down:
            strokes.down(painter, 0.5, 0, self.height(), colour)
        else:
            strokes.across(painter, 0, self.width(), 0.5, colour)
