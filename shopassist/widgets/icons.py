"""Icons on a grid of 24, drawn from paths: one painter for rail, card and tray sizes."""

import math
from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen, QPixmap

GRID = 24.0
STROKE = 1.8
Fill = QPainterPath | None
Drawing = tuple[QPainterPath, Fill]


def lines(*runs: str) -> QPainterPath:
    """Build a path from runs of "x,y x,y …"; a run that ends with "z" is closed."""
    path = QPainterPath()
    for run in runs:
        words = run.split()
        points = [QPointF(*map(float, word.split(","))) for word in words if word != "z"]
        path.moveTo(points[0])
        for point in points[1:]:
            path.lineTo(point)
        if words[-1] == "z":
            path.closeSubpath()
    return path


def triangle_down(x: float, top: float, size: float) -> QPainterPath:
    """Build a plumb mark."""
    return lines(f"{x - size / 2},{top} {x + size / 2},{top} {x},{top + size * 0.87} z")


def _mix() -> Drawing:
    path = lines("4.5,8 6.5,20.5 15.5,20.5 17.5,8", "3.5,8 18.5,8", "5.4,13 16.7,13")
    path.addPath(lines("10,17 20.5,3"))
    return path, None


def _cure() -> Drawing:
    path = lines("2.5,18 21.5,18", "5,18 5,20.5", "19,18 19,20.5", "8,18 8,12.5 16,12.5 16,18")
    path.addPath(lines("12,8 12,18"))
    return path, triangle_down(12, 3.5, 5.5)


def _pot() -> Drawing:
    path = lines("5.5,10.5 5.5,20.5 18.5,20.5 18.5,10.5", "3.5,10.5 20.5,10.5", "5,10.5 7,6.5")
    path.addPath(lines("19,10.5 17,6.5", "7,6.5 17,6.5", "10,6.5 10,3.5 14,3.5 14,6.5"))
    path.addPath(lines("2.8,7.5 2.8,13.5", "21.2,7.5 21.2,13.5"))
    return path, None


def _blank() -> Drawing:
    path = lines("1.5,14 22.5,14")
    path.moveTo(4, 14)
    path.lineTo(4, 8)
    path.cubicTo(QPointF(8, 3.5), QPointF(10, 13), QPointF(14, 8.5))
    path.cubicTo(QPointF(16.5, 5.5), QPointF(18.5, 5.5), QPointF(20, 8))
    path.lineTo(20, 14)
    path.addPath(lines("4,14 4,19.5 20,19.5 20,14", "5.5,12.5 8.5,9.5", "10.5,13 13.5,10"))
    path.addPath(lines("15.5,12.5 18.5,9.5"))
    return path, None


def _stabilise() -> Drawing:
    path = lines("4.5,3.5 4.5,20.5 19.5,20.5 19.5,3.5", "4.5,8 19.5,8")
    for x, y, r in ((9.0, 16.5, 1.7), (14.5, 14.0, 2.0), (10.2, 11.2, 1.2)):
        path.addEllipse(QPointF(x, y), r, r)
    return path, None


def _warm_up() -> Drawing:
    path = lines("3.5,3.5 20.5,3.5 20.5,20.5 3.5,20.5 z")
    for x in (8.0, 12.0, 16.0):
        path.moveTo(x, 17)
        path.cubicTo(QPointF(x - 2.6, 14), QPointF(x + 2.6, 13.5), QPointF(x, 12))
        path.cubicTo(QPointF(x - 2.6, 10.5), QPointF(x + 2.6, 9), QPointF(x, 7))
    return path, None


def _plan() -> Drawing:
    return lines(
        "3.5,3.5 3.5,8.5", "3.5,6 10.5,6", "8.5,9.5 8.5,14.5", "8.5,12 16,12", "14,15.5 14,20.5",
        "14,18 21,18",
    ), None  # fmt: skip


def _turn() -> Drawing:
    path = lines("1.5,9.5 4.5,9.5", "19.5,9.5 22.5,9.5", "4.5,6 4.5,13", "19.5,6 19.5,13")
    path.moveTo(4.5, 6)
    path.cubicTo(QPointF(8, 6), QPointF(8.5, 2.8), QPointF(12, 2.8))
    path.cubicTo(QPointF(15.5, 2.8), QPointF(16, 6), QPointF(19.5, 6))
    path.moveTo(4.5, 13)
    path.cubicTo(QPointF(8, 13), QPointF(8.5, 16.2), QPointF(12, 16.2))
    path.cubicTo(QPointF(15.5, 16.2), QPointF(16, 13), QPointF(19.5, 13))
    path.addPath(lines("12,17.6 18.5,21.5", "10.5,19.2 13.5,16.4"))
    return path, None


def _log() -> Drawing:
    return lines(
        "5,3 5,21", "9,5.5 19.5,5.5", "9,10 15.5,10", "9,14.5 20.5,14.5", "9,19 14,19"
    ), None


def _out() -> Drawing:
    return lines(
        "13,3 5,3 5,21 17.5,21 17.5,16.5", "8.5,8 13,8", "8.5,16.5 13,16.5", "8.5,12.2 21.5,12.2",
        "18,8.7 21.5,12.2 18,15.7",
    ), None  # fmt: skip


def octagon(centre: float = 12.0, radius: float = 10.0) -> QPainterPath:
    """Build the figure that means stop."""
    path = QPainterPath()
    for step in range(8):
        angle = math.radians(22.5 + 45 * step)
        point = QPointF(centre + radius * math.cos(angle), centre + radius * math.sin(angle))
        path.lineTo(point) if step else path.moveTo(point)
    path.closeSubpath()
    return path


def _stop() -> Drawing:
    return QPainterPath(), octagon()


def _silence() -> Drawing:
    path = lines("3.5,3.5 20.5,20.5", "10,20.5 14,20.5")
    path.moveTo(5, 17)
    path.cubicTo(QPointF(8.5, 13.5), QPointF(5, 5), QPointF(12, 4.5))
    path.cubicTo(QPointF(19, 5), QPointF(15.5, 13.5), QPointF(19, 17))
    path.closeSubpath()
    return path, None


def _correction() -> Drawing:
    return lines("3,17.5 21,17.5", "5,14.5 9,20.5", "9,14.5 13,20.5", "13,14.5 17,20.5",
                 "6,8 18,8", "6,4.5 13,4.5"), None  # fmt: skip


def _explain() -> Drawing:
    path = lines("8,9.8 16,9.8", "8,14.2 16,14.2")
    path.addEllipse(QPointF(12, 12), 9.8, 9.8)
    return path, None


def _triangle() -> Drawing:
    path = lines("12,2.8 22,20.5 2,20.5 z", "12,9 12,14.2")
    dot = QPainterPath()
    dot.addEllipse(QPointF(12, 17.4), 1.3, 1.3)
    return path, dot


def _square() -> Drawing:
    dot = QPainterPath()
    dot.addEllipse(QPointF(12, 7.6), 1.3, 1.3)
    return lines("3.5,3.5 20.5,3.5 20.5,20.5 3.5,20.5 z", "12,11 12,17"), dot


def _close() -> Drawing:
    return lines("6,6 18,18", "18,6 6,18"), None


_DRAWINGS: dict[str, Callable[[], Drawing]] = {
    "mix": _mix,
    "cure": _cure,
    "pot": _pot,
    "blank": _blank,
    "stabilise": _stabilise,
    "warm-up": _warm_up,
    "plan": _plan,
    "turn": _turn,
    "log": _log,
    "out": _out,
    "stop": _stop,
    "silence": _silence,
    "correction": _correction,
    "explain": _explain,
    "triangle": _triangle,
    "square": _square,
    "close": _close,
}
NAMES = tuple(_DRAWINGS)
_MADE: dict[str, Drawing] = {}


def drawing(name: str) -> Drawing:
    """Path to stroke and path to fill, on the grid."""
    if name not in _MADE:
        _MADE[name] = _DRAWINGS[name]()
    return _MADE[name]


def draw(
    painter: QPainter, name: str, rect: QRectF, colour: QColor, stroke: float = STROKE
) -> None:
    """Draw an icon into a rectangle."""
    path, solid = drawing(name)
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
    painter.translate(rect.topLeft())
    painter.scale(rect.width() / GRID, rect.height() / GRID)
    pen = QPen(colour, stroke, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(pen)
    painter.drawPath(path)
    if solid is not None:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        painter.drawPath(solid)
    painter.restore()


def pixmap(name: str, size: int, colour: QColor, ratio: float = 1.0) -> QPixmap:
    """Draw an icon into a picture of its own, for the tray and for buttons."""
    made = QPixmap(round(size * ratio), round(size * ratio))
    made.setDevicePixelRatio(ratio)
    made.fill(Qt.GlobalColor.transparent)
    painter = QPainter(made)
    draw(painter, name, QRectF(0, 0, size, size), colour)
    painter.end()
    return made
