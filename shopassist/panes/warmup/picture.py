"""The coming hours drawn: air, pot, and what stands in it, with its range and the goal."""

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPen, QPolygonF

from shopassist.panes.warmup.screen import PictureShown, Series, SeriesKind
from shopassist.widgets import strokes
from shopassist.widgets.piece import Drawn

WIDE_EM, LEAST_EM = 26.0, 9.0
DASHES: dict[SeriesKind, tuple[str, float, list[float]]] = {
    "air": ("graphite", 1.5, [1.0, 2.0]),
    "pot": ("line", 2.0, [6.0, 2.0, 1.0, 2.0]),
    "contents": ("ink", 2.0, [5.0, 3.0]),
}
"""Colour, thickness and dashes: all of it lies ahead, so nothing is solid."""


class Picture(Drawn[PictureShown]):
    """Draws one ``PictureShown``."""

    def spoken(self) -> str:
        """Return the picture in words."""
        return self.shown.spoken or self.shown.empty

    def sizeHint(self) -> QSize:
        """The least that can be read: the layout stretches it."""
        em = self.look.metrics.body_px
        return QSize(round(WIDE_EM * em), round(LEAST_EM * em))

    def minimumSizeHint(self) -> QSize:
        """The least that can be read."""
        em = self.look.metrics.body_px
        return QSize(round(LEAST_EM * em), round(LEAST_EM * em))

    # -- places ----------------------------------------------------------------------------------

    def _area(self) -> QRectF:
        face = self.look.font("axis")
        left = max([0.0, *(face.advance(tick.label) for tick in self.shown.up)])
        left += 1.5 * self.look.u
        top = 1.2 * self.look.font("body").high + 1.5 * face.high
        bottom = 1.7 * face.high
        right = max([0.0, *(face.advance(each.label) for each in self.shown.series)])
        return QRectF(
            left, top, self.width() - left - right - 2 * self.look.u, self.height() - top - bottom
        )

    def _x(self, at: float) -> float:
        area, shown = self._area(), self.shown
        return area.left() + area.width() * (at - shown.start) / (shown.end - shown.start)

    def _y(self, at: float) -> float:
        area, shown = self._area(), self.shown
        return area.bottom() - area.height() * (at - shown.low) / (shown.high - shown.low)

    def _points(self, points: tuple[tuple[float, float], ...]) -> list[QPointF]:
        return [QPointF(self._x(x), self._y(y)) for x, y in points]

    # -- drawing ---------------------------------------------------------------------------------

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Paper first, then range, goal, curves, words."""
        del dirty
        body = self.look.font("body")
        baseline = self.look.font("body").ascent
        words = strokes.cut(body, self.shown.caption, self.width())
        strokes.write(painter, (0, baseline), words, body, self.colour("graphite"))
        if not self.shown.series:
            self._empty(painter)
            return
        self._axes(painter)
        self._band(painter)
        for series in self.shown.series:
            self._curve(painter, series)
        self._marks(painter)
        self._goal(painter)
        self._labels(painter)

    def _empty(self, painter: QPainter) -> None:
        middle = (self.width() / 2, self.height() / 2)
        font, grey = self.look.font("body"), self.colour("graphite")
        strokes.across(painter, 0, self.width(), self.height() - 2.0, self.colour("hair"))
        words = strokes.cut(font, self.shown.empty, self.width())
        strokes.write(painter, middle, words, font, grey, strokes.CENTRE)

    def _axes(self, painter: QPainter) -> None:
        area, font = self._area(), self.look.font("axis")
        face, grey, ink = self.look.font("axis"), self.colour("graphite"), self.colour("ink")
        for tick in self.shown.up:
            y = self._y(tick.at)
            strokes.across(painter, area.left(), area.right(), y, self.colour("hair"))
            at = (area.left() - self.look.u, y + face.caps / 2)
            strokes.write(painter, at, tick.label, font, grey, strokes.RIGHT)
        strokes.across(painter, area.left(), area.right(), area.bottom(), ink, 1.5)
        for tick in self.shown.across:
            x, long = self._x(tick.at), bool(tick.label)
            strokes.down(painter, x, area.bottom(), area.bottom() + (7 if long else 4), ink, 1)
            at = (x, area.bottom() + 7 + face.ascent)
            strokes.write(painter, at, tick.label, font, grey, strokes.CENTRE)

    def _band(self, painter: QPainter) -> None:
        low = self._points(tuple((x, bottom) for x, bottom, _ in self.shown.band))
        high = self._points(tuple((x, top) for x, _, top in self.shown.band))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self.colour("band"))
        painter.drawPolygon(QPolygonF([*low, *reversed(high)]))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(self.colour("band_edge"), 1))
        painter.drawPolyline(low)
        painter.drawPolyline(high)

    def _goal(self, painter: QPainter) -> None:
        if self.shown.goal is not None:
            area, y = self._area(), self._y(self.shown.goal)
            strokes.dots_across(painter, area.left(), area.right(), y, self.colour("line"))
            self._patch(painter, (area.left() + 3 * self.look.u, y), self.shown.goal_label)

    def _patch(self, painter: QPainter, at: tuple[float, float], words: str) -> None:
        """Write words on paper, over whatever runs there."""
        font = self.look.font("axis")
        x, y = at
        wide, high = font.advance(words), font.high
        edge = self.look.u
        paper = QRectF(x - edge, y - high / 2, wide + 2 * edge, high)
        strokes.fill(painter, paper, self.colour("sheet"))
        place = (x, y + font.caps / 2)
        strokes.write(painter, place, words, font, self.colour("line"))

    def _curve(self, painter: QPainter, series: Series) -> None:
        token, width, dashes = DASHES[series.kind]
        pen = QPen(self.colour(token), width)
        pen.setDashPattern(dashes)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(pen)
        painter.drawPolyline(self._points(series.points))

    def _labels(self, painter: QPainter) -> None:
        """Each curve's word beside its end; words that would touch move apart."""
        font = self.look.font("axis")
        step = 1.1 * font.high
        ends = sorted((self._y(each.points[-1][1]), each) for each in self.shown.series)
        below = -step
        x = self._area().right() + self.look.u
        for y, series in ends:
            place = max(y, below + step)
            below = place
            at = (x, place + font.caps / 2)
            strokes.write(painter, at, series.label, font, self.colour(DASHES[series.kind][0]))

    def _marks(self, painter: QPainter) -> None:
        area, font, ink = self._area(), self.look.font("axis"), self.colour("ink")
        face = self.look.font("axis")
        room = area.left()
        for mark in self.shown.marks:
            x = self._x(mark.at)
            strokes.down(painter, x, area.top(), area.bottom(), ink, 1)
            half = face.advance(mark.label) / 2
            middle = min(max(x, room + half), area.right() - half)
            at = (middle, area.top() - self.look.u)
            strokes.write(painter, at, mark.label, font, ink, strokes.CENTRE)
            room = middle + half + 2 * self.look.u
        if self.shown.now is not None:
            size = 0.8 * self.look.metrics.body_px
            strokes.plumb(painter, self._x(self.shown.now), area.bottom() - size, size, ink)
