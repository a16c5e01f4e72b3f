"""Lines, boxes and words drawn crisply at every scale factor.

Straight edges are rounded to device pixels; at 125 or 150 % logical ones lie between them.
"""

from typing import cast

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen, QPolygonF

from shopassist.widgets.fonts import Face

LEFT, CENTRE, RIGHT = 0.0, 0.5, 1.0
_LINE_PX = 8
"""Up to here a side is a line's thickness."""
_DASHES = [2.0, 1.5]
"""Four pixels of ink and three of paper, in the thickness of the line."""


def aligned(painter: QPainter, rect: QRectF) -> QRectF:
    """Return the rectangle rounded to device pixels, never thinner than one."""
    device = painter.deviceTransform()
    if not device.isScaling():  # nor turned: all there is to do is to round
        return _rounded(rect, device.dx(), device.dy())
    back, fine = device.inverted()
    if not fine or device.isRotating():
        return rect
    return back.mapRect(_rounded(device.mapRect(rect), 0.0, 0.0))


def _rounded(on: QRectF, dx: float, dy: float) -> QRectF:
    """The rectangle, moved as said, in whole pixels; given back where it was."""
    x, y, wide, high = cast("tuple[float, float, float, float]", on.getRect())
    left, top = round(x + dx), round(y + dy)
    width, height = _side(left, x + dx, wide), _side(top, y + dy, high)
    return QRectF(left - dx, top - dy, width, height)


def _side(start: int, exact: float, size: float) -> int:
    """A line keeps its thickness wherever it starts: round the size, not the far edge."""
    if size <= 0:
        return 0
    return max(1, round(size) if size < _LINE_PX else round(exact + size) - start)


def fill(painter: QPainter, rect: QRectF, colour: QColor) -> None:
    """Fill a rectangle with sharp edges."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=False)
    painter.fillRect(aligned(painter, rect), colour)


def across(
    painter: QPainter, left: float, right: float, y: float, colour: QColor, thick: float = 1.0
) -> None:
    """Draw a horizontal line whose middle lies at ``y``."""
    fill(painter, QRectF(left, y - thick / 2, right - left, thick), colour)


def down(
    painter: QPainter, x: float, top: float, bottom: float, colour: QColor, thick: float = 1.0
) -> None:
    """Draw a vertical line whose middle lies at ``x``."""
    fill(painter, QRectF(x - thick / 2, top, thick, bottom - top), colour)


def dashes_down(painter: QPainter, x: float, span: tuple[float, float], colour: QColor) -> None:
    """Draw a vertical line of dashes two pixels wide."""
    line = aligned(painter, QRectF(x - 1, span[0] + 1, 2, span[1] - span[0] - 1))
    pen = QPen(colour, line.width())
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    pen.setDashPattern(_DASHES)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=False)
    painter.setPen(pen)
    middle = line.center().x()
    painter.drawLine(QPointF(middle, line.top()), QPointF(middle, line.bottom()))


def dots_across(painter: QPainter, left: float, right: float, y: float, colour: QColor) -> None:
    """Draw a horizontal line of square dots."""
    x = left
    while x < right - 1:
        fill(painter, QRectF(x, y - 1, 2, 2), colour)
        x += 5


def box(
    painter: QPainter,
    rect: QRectF,
    edge: QPen | None,
    inside: QColor | None = None,
    radius: float = 4.0,
) -> None:
    """Draw a rounded box; its edge lies wholly inside the rectangle."""
    on = aligned(painter, rect)
    scale = painter.deviceTransform().m11() or 1.0
    thick = max(1, round(edge.widthF() * scale)) / scale if edge else 0.0
    inner = on.adjusted(thick / 2, thick / 2, -thick / 2, -thick / 2)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
    if edge is None:
        painter.setPen(Qt.PenStyle.NoPen)
    else:
        pen = QPen(edge)
        pen.setWidthF(thick)
        painter.setPen(pen)
    painter.setBrush(inside if inside is not None else Qt.BrushStyle.NoBrush)
    painter.drawRoundedRect(inner, radius, radius)


def plumb(painter: QPainter, x: float, top: float, size: float, colour: QColor) -> None:
    """Draw the filled triangle, point down, that only ever means now or measured here."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    half = size / 2
    painter.drawPolygon(
        QPolygonF([QPointF(x - half, top), QPointF(x + half, top), QPointF(x, top + size * 0.87)])
    )


def write(
    painter: QPainter,
    at: tuple[float, float],
    words: str,
    font: Face,
    colour: QColor,
    align: float = LEFT,
) -> float:
    """Write words at (x, baseline); returns their width."""
    width = font.advance(words)
    painter.setFont(font)
    painter.setPen(colour)
    painter.drawStaticText(QPointF(at[0] - align * width, at[1] - font.ascent), font.laid(words))
    return width


def cut(font: Face, words: str, width: float) -> str:
    """Shorten words that do not fit, with an ellipsis in the middle of nothing else."""
    if font.advance(words) <= width:
        return words
    return QFontMetricsF(font).elidedText(words, Qt.TextElideMode.ElideRight, max(0.0, width))
