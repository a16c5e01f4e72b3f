"""Explain this number: a sheet inside its pane, not a window. Escape puts it away."""

from PySide6.QtCore import QRect, QRectF, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QScrollArea, QVBoxLayout, QWidget

from shopassist.widgets import strokes
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Piece
from shopassist.widgets.prose import Heading
from shopassist.widgets.shown import ExplainShown, SheetSection

LABEL_SHARE = 0.36
_TURNS: dict[int, float] = {
    Qt.Key.Key_Down: 0.2,
    Qt.Key.Key_Up: -0.2,
    Qt.Key.Key_PageDown: 0.9,
    Qt.Key.Key_PageUp: -0.9,
}
"""Shares of a page that a key moves."""


class ExplainSheet(Piece):
    """Number, formula, inputs with their origin, constants, rounding, what is left out, checks."""

    closed = Signal()

    def __init__(self, look: Look, name: str, parent: QWidget | None = None) -> None:
        super().__init__(look, name, "Explanation", parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.shown: ExplainShown | None = None
        self.close_button = QPushButton("Close")
        self.close_button.setObjectName(f"{name}.close")
        self.close_button.setAccessibleName("Close the explanation")
        self.close_button.clicked.connect(self.closed)
        self._scroll = QScrollArea()
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroll.viewport().setAutoFillBackground(False)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        side = round(3 * look.u)
        column = QVBoxLayout(self)
        column.setContentsMargins(side, side, side, side)
        column.addWidget(self._scroll, 1)
        foot = QHBoxLayout()
        foot.addStretch(1)
        foot.addWidget(self.close_button)
        column.addLayout(foot)
        self.hide()

    def ring_colour(self) -> str:
        """Colour of the focus ring, which lies inside the sheet."""
        return self.look.tokens.blue

    def draw(self, shown: ExplainShown) -> None:
        """Show an explanation."""
        if shown == self.shown:
            return
        self.shown = shown
        self.setAccessibleName(f"Explanation of {shown.title}")
        page = QWidget()
        rows = QVBoxLayout(page)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(round(self.look.u))
        self._fill(rows, shown)
        rows.addStretch(1)
        self._scroll.setWidget(page)
        page.setAutoFillBackground(False)

    def _fill(self, rows: QVBoxLayout, shown: ExplainShown) -> None:
        look, name = self.look, self.objectName()
        rows.addWidget(Heading(look, f"{name}.title", shown.title, "title", "ink"))
        rows.addWidget(Heading(look, f"{name}.value", shown.value, "lead", "ink"))
        if shown.formula:
            rows.addSpacing(round(look.u))
            rows.addWidget(Heading(look, f"{name}.formula", shown.formula, "bold", "band_edge"))
        for index, section in enumerate(shown.sections):
            rows.addSpacing(round(3 * look.u))
            rows.addWidget(SectionView(look, f"{name}.section.{index}", section))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape closes."""
        if event.key() == Qt.Key.Key_Escape:
            self.closed.emit()
        elif event.key() in (
            Qt.Key.Key_Down,
            Qt.Key.Key_Up,
            Qt.Key.Key_PageDown,
            Qt.Key.Key_PageUp,
        ):
            bar = self._scroll.verticalScrollBar()
            down = event.key() in (Qt.Key.Key_Down, Qt.Key.Key_PageDown)
            page = event.key() in (Qt.Key.Key_PageDown, Qt.Key.Key_PageUp)
            step = bar.pageStep() if page else 3 * self.look.metrics.body_px
            bar.setValue(bar.value() + (step if down else -step))
        else:
            super().keyPressEvent(event)

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw the paper."""
        painter.fillRect(dirty, self.colour("sheet"))
        strokes.fill(painter, QRectF(0, 0, 4, self.height()), self.colour("blue"))


class SectionView(QWidget):
    """Heading over rows of label and words."""

    def __init__(self, look: Look, name: str, section: SheetSection) -> None:
        super().__init__()
        self.setObjectName(name)
        self.setAccessibleName(section.heading)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(round(0.5 * look.u))
        column.addWidget(Heading(look, f"{name}.heading", section.heading, "bold", "ink"))
        for index, (label, words) in enumerate(section.rows):
            row = QHBoxLayout()
            row.setSpacing(round(2 * look.u))
            at = f"{name}.{index}"
            if label:
                left = Heading(look, f"{at}.label", label)
                row.addWidget(left, round(100 * LABEL_SHARE), Qt.AlignmentFlag.AlignTop)
            right = Heading(look, f"{at}.words", words, "body", "ink")
            row.addWidget(right, round(100 * (1 - LABEL_SHARE)), Qt.AlignmentFlag.AlignTop)
            column.addLayout(row)
