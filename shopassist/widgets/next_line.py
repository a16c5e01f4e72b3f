"""The next line: the most urgent dated event, readable from two metres."""

from PySide6.QtCore import QRect, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter
from PySide6.QtWidgets import QSizePolicy, QWidget

from shopassist.widgets import strokes
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Drawn
from shopassist.widgets.shown import NextShown

HEIGHT_MM = 15.5


class NextLine(Drawn[NextShown]):
    """Event in bold, its range in brown at the right."""

    chosen = Signal()

    def __init__(
        self, look: Look, name: str, shown: NextShown, parent: QWidget | None = None
    ) -> None:
        super().__init__(look, name, "Next event", shown, parent)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)

    def spoken(self) -> str:
        """All words of the line."""
        return f"{self.shown.event}, {self.shown.range}".strip(", ")

    def sizeHint(self) -> QSize:
        """Edge to edge, 15.5 mm."""
        return QSize(600, self.look.mm(HEIGHT_MM))

    def minimumSizeHint(self) -> QSize:
        """Never lower than its height."""
        return QSize(0, self.look.mm(HEIGHT_MM))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Open the pane that the event belongs to."""
        if self.rect().contains(event.position().toPoint()):
            self.chosen.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Open it by Enter or Space."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self.chosen.emit()
        else:
            super().keyPressEvent(event)

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw the edge and the words; the event has the right of way over its range."""
        del dirty
        look, shown = self.look, self.shown
        painter.fillRect(self.rect(), self.colour("sheet"))
        strokes.across(painter, 0, self.width(), 1, self.colour("ink"), 2)
        face = look.font("next")
        baseline = (self.height() + 2 + face.caps) / 2
        margin = look.mm(4)
        x = float(margin)
        x += strokes.write(
            painter, (x, baseline), shown.caption, look.font("body"), self.colour("graphite")
        )
        x += look.mm(3)
        right = self.width() - margin
        font, thin = look.font("next"), look.font("next_range")
        event = strokes.cut(font, shown.event, right - x)
        x += strokes.write(painter, (x, baseline), event, font, self.colour("ink"))
        room = right - x - look.mm(6)
        if thin.advance(shown.range) > room:  # half a range would say another thing: smaller first
            thin = look.font_px(look.font("report").pixelSize(), bold=False)
        words = strokes.cut(thin, shown.range, room)
        edge = self.colour("band_edge")
        strokes.write(painter, (right, baseline), words, thin, edge, strokes.RIGHT)
