"""The bare Qt programs that the bench measures against: the least that shows the same.

``python bench_floor.py JOB CENSUS [NUMBER]``; a window of plain widgets where the program has its
own, no layouts, no style sheet, nothing computed.
"""

import sys
import time
from itertools import pairwise
from pathlib import Path

from PySide6.QtCore import QLineF, QPointF, QRect, QRectF, Qt, QTimer
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QPushButton, QWidget

from chores.bench_probe import Census, Painted, idle_cpu, keystrokes, report_first_paint, settle


class Painter(QWidget):
    """A bare painter: a filled area, an edge, a text."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.text = "0"

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the least that is something."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), self.palette().base())
        painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
        painter.drawText(self.rect(), self.text)


class Drawing(Painter):
    """A bare half section: the shapes of ours in the same room, nothing worked out."""

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw two filled halves with their edges, dashed lines and two dimensions."""
        painter = QPainter(self)
        palette, room = self.palette(), QRectF(self.rect()).adjusted(40, 20, -20, -40)
        painter.fillRect(self.rect(), palette.base())
        painter.fillRect(room, palette.midlight())
        for side in (-1, 1):
            self._half(painter, room, side)
        painter.fillRect(
            room.adjusted(0, 0.4 * room.height(), 0, -room.height() / 2), palette.base()
        )
        left, top, wide, high = room.x(), room.y(), room.width(), room.height()
        lines = [QLineF(left, top + y * high, left + wide, top + y * high) for y in ACROSS]
        lines += [QLineF(left + x * wide, top, left + x * wide, top + high) for x in DOWN]
        painter.setPen(QPen(palette.text().color(), 1, Qt.PenStyle.DashLine))
        painter.drawLines(lines)
        painter.drawText(QPointF(room.center().x(), room.bottom() + 24), self.text)
        painter.translate(left - 16, room.center().y())
        painter.rotate(-90)
        painter.drawText(QPointF(0, 0), self.text)

    def _half(self, painter: QPainter, room: QRectF, side: int) -> None:
        axis, high, step = room.center().y(), side * room.height(), room.width() / CORNERS
        edge = [
            QPointF(room.left() + n * step, axis + high * (n % 3 + 12) / 40)
            for n in range(CORNERS + 1)
        ]
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self.palette().mid())
        painter.drawPolygon(
            QPolygonF([QPointF(room.left(), axis), *edge, QPointF(room.right(), axis)])
        )
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(self.palette().text().color(), 2))
        painter.drawLines([QLineF(a, b) for a, b in pairwise(edge)])
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=False)


CORNERS = 24
"""As many as the outline of the core that the bench types."""
ACROSS, DOWN = (0.0, 0.36, 0.38, 0.5, 1.0), (0.0, 0.9, 1.0)
"""Mould, wander, axis, dimension; ends and facing: shares of the room."""
KINDS = {
    "label": QLabel,
    "edit": QLineEdit,
    "button": QPushButton,
    "painter": Painter,
    "drawing": Drawing,
}


def window_of(census: Census) -> tuple[QWidget, list[QWidget]]:
    """Build the bare window; also returns what repaints after a keystroke."""
    window = QWidget()
    window.resize(census.width, census.height)
    changing: list[QWidget] = []
    for piece in census.pieces:
        widget: QWidget = KINDS[piece.kind](window)
        widget.setGeometry(QRect(*piece.rect))
        if isinstance(widget, QLabel | QLineEdit | QPushButton):
            widget.setText(piece.text)
        elif isinstance(widget, Painter):
            widget.text = piece.text or "0"
        if piece.repainted and not isinstance(widget, QLineEdit):
            changing.append(widget)
    return window, changing


def type_and_paint(census: Census, count: int) -> list[float]:
    """Time keystrokes in one line edit that change labels and one painter."""
    app = QApplication.instance() or QApplication([])
    painted = Painted(app)
    window, changing = window_of(census)
    edit = QLineEdit("50", window)
    turns = iter(range(10**9))

    def changed() -> None:
        number = f"{next(turns)}.0"
        for widget in changing:
            if isinstance(widget, Painter):
                widget.text = number + widget.text[len(number) :]
                widget.update()
            elif isinstance(widget, QLabel | QPushButton):
                widget.setText(number)

    edit.textEdited.connect(changed)
    window.show()
    settle(0.3)
    return keystrokes(edit, {edit, *changing}, painted, count)


def idle(census: Census, seconds: float) -> float:
    """Measure one label that ticks each second in the same window."""
    app = QApplication.instance() or QApplication([])
    window, _ = window_of(census)
    clock = QLabel("00:00", window)
    clock.resize(120, 40)
    timer = QTimer()
    begun = time.monotonic()
    timer.timeout.connect(lambda: clock.setText(f"{time.monotonic() - begun:05.0f}"))
    timer.start(1000)
    window.show()
    app.processEvents()
    return idle_cpu(seconds)


def main(words: list[str]) -> None:
    """Do one job and print its seconds, a number a line."""
    job, census, number = words[0], Census.load(Path(words[1])), float(words[2])
    if job == "first-paint":
        app = QApplication([])
        report_first_paint(window_of(census)[0], int(number))
        del app
    elif job == "keystroke":
        print(*type_and_paint(census, int(number)), sep="\n")
    else:
        print(idle(census, number))


if __name__ == "__main__":
    main(sys.argv[1:])
