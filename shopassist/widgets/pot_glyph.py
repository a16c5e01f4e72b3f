"""The glyph of each pot state: hollow or filled, lid, clamps. It tells the states apart in grey."""

import math
from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen

from shopassist.widgets.icons import GRID, lines
from shopassist.widgets.tokens import PotFace

_BODY = "5,9 5,21.5 19,21.5 19,9"
_CLAMPS = ("3.4,4.5 3.4,11.5", "20.6,4.5 20.6,11.5")
_HEAVY = 2.2


class _Pen:
    """Strokes and fills of one glyph."""

    def __init__(self, painter: QPainter, text: QColor, field: QColor) -> None:
        self.painter, self.text, self.field = painter, text, field

    def stroke(self, path: QPainterPath, width: float = _HEAVY, *, dashed: bool = False) -> None:
        pen = QPen(self.text, width, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap)
        pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        if dashed:
            pen.setCapStyle(Qt.PenCapStyle.FlatCap)
            pen.setDashPattern([1.5, 1.15])
        self.painter.setPen(pen)
        self.painter.setBrush(Qt.BrushStyle.NoBrush)
        self.painter.drawPath(path)

    def fill(self, path: QPainterPath, colour: QColor | None = None) -> None:
        self.painter.setPen(Qt.PenStyle.NoPen)
        self.painter.setBrush(colour or self.text)
        self.painter.drawPath(path)


def _rounded(x: float, y: float, width: float, height: float, radius: float) -> QPainterPath:
    path = QPainterPath()
    path.addRoundedRect(QRectF(x, y, width, height), radius, radius)
    return path


def _unknown(pen: _Pen) -> None:
    pen.stroke(lines("3.5,5 20.5,5 20.5,21.5 3.5,21.5 z"), 2.0, dashed=True)
    mark = QPainterPath(QPointF(8.8, 10.6))
    mark.cubicTo(QPointF(8.8, 6.4), QPointF(15.2, 6.6), QPointF(15.2, 10.4))
    mark.cubicTo(QPointF(15.2, 12.8), QPointF(12, 12.8), QPointF(12, 15.4))
    pen.stroke(mark)
    dot = QPainterPath()
    dot.addEllipse(QPointF(12, 18.6), 1.4, 1.4)
    pen.fill(dot)


def _open(pen: _Pen) -> None:
    pen.stroke(lines("3.6,10 7,10", "17,10 20.4,10", _BODY))
    pen.stroke(lines("2.8,8.2 3.2,6.2 20.8,1.8"))


def _closed(pen: _Pen) -> None:
    pen.stroke(lines(_BODY, "2.6,9 21.4,9", "6.5,9 8.5,5 15.5,5 17.5,9"))
    pen.stroke(lines(*_CLAMPS), 2.6)


def _pressurised(pen: _Pen) -> None:
    pen.fill(_rounded(4, 8.6, 16, 13.4, 1.4))
    lid = lines("5.5,7.2 8,3 16,3 18.5,7.2 z")
    pen.fill(lid)
    pen.fill(_rounded(1.4, 6.2, 21.2, 2.8, 0.8))
    pen.fill(_rounded(1.4, 4, 3.2, 8, 0.8))
    pen.fill(_rounded(19.4, 4, 3.2, 8, 0.8))
    arrow = lines("8.2,15.4 15.8,15.4", "10,12.9 7.4,15.4 10,17.9", "14,12.9 16.6,15.4 14,17.9")
    inner = QPen(pen.field, 1.9, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap)
    inner.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    pen.painter.setPen(inner)
    pen.painter.setBrush(Qt.BrushStyle.NoBrush)
    pen.painter.drawPath(arrow)


def _letting_down(pen: _Pen) -> None:
    pen.stroke(lines("8.5,9.5 4.2,9.5 4.2,21.5 19.8,21.5 19.8,9.5 15.5,9.5"))
    pen.stroke(lines("12,17 12,2.6", "7.4,7 12,2.4 16.6,7"))


def _proving(pen: _Pen) -> None:
    pen.stroke(lines(_BODY, "3,9 21,9", "7.5,9 9,5.6 15,5.6 16.5,9"), 2.0)
    clock = QPainterPath()
    clock.addEllipse(QPointF(12, 15.2), 4.1, 4.1)
    pen.stroke(clock, 1.6)
    pen.stroke(lines("12,12.4 12,15.2 14,16.4"), 1.6)


def _clear_to_crack(pen: _Pen) -> None:
    pen.stroke(lines("5,10.5 5,21.5 19,21.5 19,10.5", "3.4,10.5 20.6,10.5"))
    pen.stroke(lines("3.4,7.4 20.6,7.4"), 1.0)
    pen.stroke(lines("5,4.2 2.6,4.2 2.6,13 5,13", "19,4.2 21.4,4.2 21.4,13 19,13"), 1.9)


def _clear_to_open(pen: _Pen) -> None:
    pen.stroke(lines("5,12 5,21.5 19,21.5 19,12", "3.6,12 20.4,12"))
    pen.stroke(lines("4.6,4.6 19.4,4.6", "8,4.6 9.4,2 14.6,2 16,4.6"))
    pen.stroke(lines("3.4,15 1,9.4", "20.6,15 23,9.4"), 2.0)


def _suspect(pen: _Pen) -> None:
    pen.stroke(lines("12,2.6 22.2,20.8 1.8,20.8 z"), 2.6)
    pen.stroke(lines("12,9 12,14"), 2.8)
    dot = QPainterPath()
    dot.addEllipse(QPointF(12, 17.6), 1.6, 1.6)
    pen.fill(dot)


_GLYPHS: dict[PotFace, Callable[[_Pen], None]] = {
    "unknown": _unknown,
    "open": _open,
    "closed": _closed,
    "pressurised": _pressurised,
    "letting_down": _letting_down,
    "proving": _proving,
    "clear_to_crack": _clear_to_crack,
    "clear_to_open": _clear_to_open,
    "suspect": _suspect,
}
STRIPED: frozenset[PotFace] = frozenset({"letting_down", "proving"})
HATCHED: frozenset[PotFace] = frozenset({"unknown"})
EDGED: frozenset[PotFace] = frozenset({"suspect"})
LIVED: frozenset[PotFace] = frozenset({"clear_to_crack", "clear_to_open"})


def draw(painter: QPainter, face: PotFace, rect: QRectF, text: QColor, field: QColor) -> None:
    """Draw the glyph of a state into a rectangle."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
    painter.translate(rect.topLeft())
    painter.scale(rect.width() / GRID, rect.height() / GRID)
    _GLYPHS[face](_Pen(painter, text, field))
    painter.restore()


def slanted(painter: QPainter, rect: QRectF, colour: QColor, pitch: float) -> None:
    """Fill an edge with slanted stripes."""
    painter.save()
    painter.setClipRect(rect)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    rise = rect.width()
    for step in range(-1, math.ceil((rect.height() + rise) / pitch) + 1):
        y = rect.top() + step * pitch
        left, right = rect.left(), rect.right()
        stripe = QPainterPath(QPointF(left, y + rise))
        stripe.lineTo(right, y)
        stripe.lineTo(right, y + pitch / 2)
        stripe.lineTo(left, y + rise + pitch / 2)
        stripe.closeSubpath()
        painter.drawPath(stripe)
    painter.restore()
