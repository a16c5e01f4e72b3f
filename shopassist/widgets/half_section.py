"""The half section of a blank, to scale: upper half cut, lower half seen from outside."""

from itertools import pairwise

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPixmap, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from shopassist.core.quantities import Metre
from shopassist.core.section import Point, Section
from shopassist.widgets import strokes
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Drawn
from shopassist.widgets.prose import wrapped
from shopassist.widgets.section_shown import SectionShown

HATCH_U = 1.5
LEADER_U = 1.8
"""Height of the leader to the number of the thinnest wall, in units of space from the top."""
PALE, OUTSIDE = 0.35, 0.75
"""How much of their colour resin and wood keep that are seen from outside."""


class HalfSection(Drawn[SectionShown]):
    """Wood hatched at 45°, resin flat, bore paper-white, mould in a thin dash."""

    def __init__(
        self, look: Look, name: str, shown: SectionShown, parent: QWidget | None = None
    ) -> None:
        self._tile: tuple[tuple[int, str, str, float], QBrush] | None = None
        super().__init__(look, name, "Half section of the blank", shown, parent)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def spoken(self) -> str:
        """The drawing in words."""
        return self.shown.spoken or self.shown.missing

    def sizeHint(self) -> QSize:
        """A landscape."""
        em = self.look.metrics.body_px
        return QSize(22 * em, 17 * em)

    def minimumSizeHint(self) -> QSize:
        """Smaller than this nothing can be told."""
        em = self.look.metrics.body_px
        return QSize(12 * em, 9 * em)

    def thinnest_at(self) -> QPointF | None:
        """Where the leader of the thinnest wall begins, in this widget's pixels."""
        section = self.shown.section
        if section is None or section.thinnest is None:
            return None
        scale = _Scale(self, section)
        return scale.point(section.thinnest[1])

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw what is known, on paper of its own: nothing behind it is painted for it."""
        painter.fillRect(dirty, self.colour("sheet"))
        section = self.shown.section
        if section is None:
            self._missing(painter)
            return
        scale = _Scale(self, section)
        self._resin(painter, section, scale)
        self._wood(painter, section, scale)
        self._bore(painter, section, scale)
        self._faced(painter, scale)
        self._axis(painter, scale)
        self._dimensions(painter, scale)
        self._thinnest(painter, section, scale)

    def _missing(self, painter: QPainter) -> None:
        font, step = self.look.font("body"), 1.4 * self.look.metrics.body_px
        lines = wrapped(self.look, "body", self.shown.missing, 0.85 * self.width())
        y = (self.height() - step * (len(lines) - 1)) / 2
        for line in lines:
            strokes.write(painter, (self.width() / 2, y), line, font, self.colour("graphite"),
                          strokes.CENTRE)  # fmt: skip
            y += step

    # -- the upper half is cut, the lower one seen from outside ----------------------------------

    def _resin(self, painter: QPainter, section: Section, scale: "_Scale") -> None:
        """Resin up to its level, the mould round it in a thin dash."""
        if not section.cavity:
            return
        resin, level = self.colour("resin"), section.level
        pale = self._pale()
        if _is_straight(section.cavity):
            end = section.cavity[-1].at if level is None else min(level, section.cavity[-1].at)
            reach = scale.point(Point(Metre(end), section.cavity[0].radius))
            first = scale.point(section.cavity[0])
            upper = QRectF(first, QPointF(reach.x(), scale.axis))
            strokes.fill(painter, upper, resin)
            strokes.fill(painter, upper.translated(0, upper.height()), pale)
        else:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=False)
            painter.setPen(Qt.PenStyle.NoPen)
            if level is not None:
                painter.setClipRect(scale.upto(level))
            for below, colour in ((False, resin), (True, pale)):
                painter.setBrush(colour)
                painter.drawPolygon(QPolygonF(scale.half(section.cavity, below=below)))
            painter.setClipping(False)
        self._mould(painter, section, scale)

    def _pale(self) -> QColor:
        return _mixed(self.colour("resin"), self.colour("sheet"), PALE)

    def _mould(self, painter: QPainter, section: Section, scale: "_Scale") -> None:
        """Straight walls need no smoothing."""
        straight, whole = _is_straight(section.cavity), scale.whole(section.cavity)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=not straight)
        painter.setPen(QPen(self.colour("graphite"), 1, Qt.PenStyle.DashLine))
        painter.drawLines(_edges(whole))

    def _wood(self, painter: QPainter, section: Section, scale: "_Scale") -> None:
        if not section.core:
            return
        outside = QBrush(_mixed(self.colour("wood"), self._pale(), OUTSIDE))
        self._body(painter, scale.half(section.core), self._hatched(), 2.4)
        self._body(painter, scale.half(section.core, below=True), outside, 1.6)
        painter.setPen(QPen(self.colour("ink"), 1.0))
        for first, last in section.flutes:
            painter.drawLine(scale.point(first, below=True), scale.point(last, below=True))

    def _body(self, painter: QPainter, outline: list[QPointF], inside: QBrush, edge: float) -> None:
        """The edge is laid over the filling in single strokes: a path costs three times as much."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=False)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(inside)
        painter.drawPolygon(QPolygonF(outline))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
        painter.setPen(QPen(self.colour("ink"), edge))
        painter.drawLines(_edges(outline))

    def _hatched(self) -> QBrush:
        """Wood with its lines at 45°: one tile, made once a look."""
        step = max(4, round(HATCH_U * self.look.u * 1.4))
        wood, line = self.colour("wood"), self.colour("band_edge")
        key = (step, wood.name(), line.name(), self.devicePixelRatioF())
        if self._tile is None or self._tile[0] != key:
            self._tile = key, QBrush(_tile(step, wood, line, key[3]))
        return self._tile[1]

    # -- the bore, its wander, the thinnest wall ---------------------------------------------

    def _bore(self, painter: QPainter, section: Section, scale: "_Scale") -> None:
        if section.bore is None:
            return
        start, end = section.bore
        top_left, bottom = scale.point(start), scale.point(Point(end.at, end.radius))
        hole = QRectF(top_left, QPointF(bottom.x(), scale.axis))
        strokes.fill(painter, hole, self.colour("sheet"))
        ink = self.colour("ink")
        strokes.across(painter, hole.left(), hole.right(), hole.top(), ink, 1.6)
        strokes.down(painter, hole.right(), hole.top(), hole.bottom(), ink, 1.6)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
        for name, style in (("likely", Qt.PenStyle.DashLine), ("worst", Qt.PenStyle.DotLine)):
            points = [scale.point(Point(each.at, getattr(each, name))) for each in section.cone]
            painter.setPen(QPen(self.colour("band_edge"), 1.4, style))
            for first, last in pairwise(points):
                painter.drawLine(first, last)

    def _thinnest(self, painter: QPainter, section: Section, scale: "_Scale") -> None:
        if section.thinnest is None:
            return
        low, high = (scale.point(each) for each in section.thinnest)
        ink = self.colour("ink")
        strokes.down(painter, low.x(), high.y(), low.y(), ink, 2.4)
        # At the height of the words of its number, which stands at the top beside the drawing.
        top = LEADER_U * self.look.u
        strokes.down(painter, low.x(), top, high.y(), ink, 1.2)
        strokes.across(painter, low.x(), self.width() - self.look.u, top, ink, 1.2)
        if self.shown.thin:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
            painter.setPen(QPen(ink, 1.2))
            painter.setBrush(self.colour("amber"))
            middle = QPointF(low.x(), (low.y() + high.y()) / 2)
            painter.drawEllipse(middle, 4.5, 4.5)

    # -- lines round it ------------------------------------------------------------------------

    def _faced(self, painter: QPainter, scale: "_Scale") -> None:
        if self.shown.finished is None:
            return
        x = scale.x(self.shown.finished)
        strokes.dashes_down(painter, x, (scale.area.top(), scale.area.bottom()),
                            self.colour("graphite"))  # fmt: skip

    def _axis(self, painter: QPainter, scale: "_Scale") -> None:
        pen = QPen(self.colour("ink"), 1.2, Qt.PenStyle.DashDotLine)
        painter.setPen(pen)
        overhang = 4 * self.look.u
        painter.drawLine(QPointF(scale.area.left() - overhang, scale.axis),
                         QPointF(scale.area.right() + overhang, scale.axis))  # fmt: skip

    def _dimensions(self, painter: QPainter, scale: "_Scale") -> None:
        look, area = self.look, scale.area
        blue, line = self.colour("blue"), self.colour("graphite")
        u = look.u
        if self.shown.length:
            y = area.bottom() + 4 * u
            strokes.across(painter, area.left(), area.right(), y, line)
            self._ends(painter, ((area.left(), y), (area.right(), y)), line)
            self._label(painter, QPointF(area.center().x(), y), self.shown.length, blue)
        if self.shown.diameter:
            x = area.left() - 5 * u
            strokes.down(painter, x, area.top(), area.bottom(), line)
            self._ends(painter, ((x, area.top()), (x, area.bottom())), line)
            painter.save()
            painter.translate(x, area.center().y() - area.height() / 4)
            painter.rotate(-90)
            self._label(painter, QPointF(0, 0), self.shown.diameter, blue)
            painter.restore()

    def _ends(self, painter: QPainter, ends: tuple[tuple[float, float], ...], line: QColor) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
        painter.setPen(QPen(line, 1.6))
        reach = self.look.u
        for x, y in ends:
            painter.drawLine(QPointF(x - reach, y + reach), QPointF(x + reach, y - reach))

    def _label(self, painter: QPainter, at: QPointF, words: str, ink: QColor) -> None:
        font = self.look.font("bold")
        width, height = font.advance(words) + 2 * self.look.u, 1.3 * font.caps
        patch = QRectF(at.x() - width / 2, at.y() - height / 2, width, height)
        painter.fillRect(patch, self.colour("sheet"))
        baseline = at.y() + font.caps / 2
        strokes.write(painter, (at.x(), baseline), words, font, ink, strokes.CENTRE)


class _Scale:
    """Metres to pixels: the axis lies across, the mould's floor at the left."""

    def __init__(self, widget: HalfSection, section: Section) -> None:
        points = (*section.cavity, *section.core)
        length = max((each.at for each in points), default=0.0) or 1e-3
        radius = max((each.radius for each in points), default=0.0) or 1e-3
        u = widget.look.u
        left, top, right, bottom = 8.5 * u, 4 * u, 4 * u, 7.5 * u
        room_x = max(widget.width() - left - right, 1.0)
        room_y = max(widget.height() - top - bottom, 1.0)
        self.k = min(room_x / length, room_y / (2 * radius))
        width, height = self.k * length, self.k * 2 * radius
        self.left = left + (room_x - width) / 2
        self.axis = top + room_y / 2
        self.area = QRectF(self.left, self.axis - height / 2, width, height)

    def x(self, at: float) -> float:
        return self.left + self.k * at

    def point(self, each: Point, *, below: bool = False) -> QPointF:
        return QPointF(self.x(each.at), self.axis + (1 if below else -1) * self.k * each.radius)

    def upto(self, level: float) -> QRectF:
        """Everything on the near side of a level."""
        area = self.area
        return QRectF(area.left() - 2, area.top() - 2, self.k * level + 2, area.height() + 4)

    def whole(self, points: tuple[Point, ...]) -> list[QPointF]:
        """Both halves of an outline."""
        upper = [self.point(each) for each in points]
        lower = [self.point(each, below=True) for each in reversed(points)]
        return [*upper, *lower]

    def half(self, points: tuple[Point, ...], *, below: bool = False) -> list[QPointF]:
        """One half of a body of revolution, closed along the axis."""
        side = self.k if below else -self.k
        left, k, axis = self.left, self.k, self.axis
        first, last = (QPointF(left + k * points[end].at, axis) for end in (0, -1))
        edge = [QPointF(left + k * each.at, axis + side * each.radius) for each in points]
        return [first, *edge, last]


def _edges(outline: list[QPointF]) -> list[QPointF]:
    """Where each edge of a closed outline begins and ends, one edge after the other."""
    ends = [each for each in outline for _ in (0, 1)]
    return [*ends[1:], ends[0]]


def _is_straight(points: tuple[Point, ...]) -> bool:
    """A tube, or a box: its edges lie along the pixels."""
    return len(points) == 2 and points[0].radius == points[1].radius  # noqa: PLR2004 - two ends


def _mixed(over: QColor, under: QColor, share: float) -> QColor:
    """A colour that keeps so much of itself over another."""
    rest = 1 - share
    return QColor(
        round(share * over.red() + rest * under.red()),
        round(share * over.green() + rest * under.green()),
        round(share * over.blue() + rest * under.blue()),
    )


def _tile(step: int, ground: QColor, line: QColor, ratio: float) -> QPixmap:
    """A square that joins on all sides: one line at 45° through its corners."""
    made = QPixmap(round(step * ratio), round(step * ratio))
    made.setDevicePixelRatio(ratio)
    made.fill(ground)
    painter = QPainter(made)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
    painter.setPen(QPen(line, 1.0))
    for x in (-step, 0, step):
        painter.drawLine(QPointF(x, step), QPointF(x + step, 0))
    painter.end()
    return made
