"""The half section of a blank, to scale: upper half cut, lower half seen from outside."""

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from shopassist.core.section import Point, Section
from shopassist.widgets import strokes
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Drawn
from shopassist.widgets.section_shown import SectionShown

HATCH_U = 1.5
PALE = 0.35
"""Opacity of what is seen from outside, and of resin that is cut away."""


class HalfSection(Drawn[SectionShown]):
    """Wood hatched at 45°, resin flat, bore paper-white, mould in a thin dash."""

    def __init__(
        self, look: Look, name: str, shown: SectionShown, parent: QWidget | None = None
    ) -> None:
        super().__init__(look, name, "Half section of the blank", shown, parent)
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
        """Draw what is known."""
        del dirty
        section = self.shown.section
        if section is None:
            self._missing(painter)
            return
        scale = _Scale(self, section)
        self._cut(painter, section, scale)
        self._outside(painter, section, scale)
        self._bore(painter, section, scale)
        self._faced(painter, scale)
        self._axis(painter, scale)
        self._dimensions(painter, scale)
        self._thinnest(painter, section, scale)

    def _missing(self, painter: QPainter) -> None:
        font = self.look.font("body")
        middle = (self.width() / 2, self.height() / 2)
        strokes.write(painter, middle, self.shown.missing, font, self.colour("graphite"),
                      strokes.CENTRE)  # fmt: skip

    # -- the upper half: cut -------------------------------------------------------------------

    def _cut(self, painter: QPainter, section: Section, scale: "_Scale") -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
        cavity = scale.half(section.cavity)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.save()
        if section.level is not None:
            painter.setClipRect(scale.upto(section.level))
        painter.fillPath(cavity, self.colour("resin"))
        painter.restore()
        core = scale.half(section.core)
        painter.fillPath(core, self.colour("wood"))
        self._hatch(painter, core)
        painter.setPen(QPen(self.colour("ink"), 2.4))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPath(core)
        dashed = QPen(self.colour("graphite"), 1.2, Qt.PenStyle.DashLine)
        painter.setPen(dashed)
        painter.drawPath(cavity)

    def _hatch(self, painter: QPainter, path: QPainterPath) -> None:
        painter.save()
        painter.setClipPath(path)
        pen = QPen(self.colour("band_edge"), 1.0)
        painter.setPen(pen)
        area = path.boundingRect()
        step = HATCH_U * self.look.u * 1.4
        x = area.left() - area.height()
        while x < area.right():
            painter.drawLine(QPointF(x, area.bottom()), QPointF(x + area.height(), area.top()))
            x += step
        painter.restore()

    # -- the lower half: seen from outside -----------------------------------------------------

    def _outside(self, painter: QPainter, section: Section, scale: "_Scale") -> None:
        painter.save()
        cavity = scale.half(section.cavity, below=True)
        painter.setOpacity(PALE)
        painter.save()
        if section.level is not None:
            painter.setClipRect(scale.upto(section.level))
        painter.fillPath(cavity, self.colour("resin"))
        painter.restore()
        core = scale.half(section.core, below=True)
        painter.setOpacity(0.75)
        painter.fillPath(core, self.colour("wood"))
        painter.setOpacity(1.0)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(self.colour("ink"), 1.6))
        painter.drawPath(core)
        painter.setPen(QPen(self.colour("graphite"), 1.2, Qt.PenStyle.DashLine))
        painter.drawPath(cavity)
        painter.setPen(QPen(self.colour("ink"), 1.0))
        for first, last in section.flutes:
            painter.drawLine(scale.point(first, below=True), scale.point(last, below=True))
        painter.restore()

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
            painter.drawPolyline(QPolygonF(points))

    def _thinnest(self, painter: QPainter, section: Section, scale: "_Scale") -> None:
        if section.thinnest is None:
            return
        low, high = (scale.point(each) for each in section.thinnest)
        ink = self.colour("ink")
        strokes.down(painter, low.x(), high.y(), low.y(), ink, 2.4)
        top = scale.area.top() - 2.2 * self.look.u
        strokes.down(painter, low.x(), top, high.y(), ink, 1.2)
        strokes.across(painter, low.x(), float(self.width()), top, ink, 1.2)
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
        font, measure = self.look.font("bold"), self.look.measure("bold")
        width = measure.horizontalAdvance(words) + 2 * self.look.u
        height = 1.3 * measure.capHeight()
        patch = QRectF(at.x() - width / 2, at.y() - height / 2, width, height)
        painter.fillRect(patch, self.colour("sheet"))
        baseline = at.y() + measure.capHeight() / 2
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

    def half(self, points: tuple[Point, ...], *, below: bool = False) -> QPainterPath:
        """One half of a body of revolution, closed along the axis."""
        path = QPainterPath()
        if not points:
            return path
        path.moveTo(self.x(points[0].at), self.axis)
        for each in points:
            path.lineTo(self.point(each, below=below))
        path.lineTo(self.x(points[-1].at), self.axis)
        path.closeSubpath()
        return path
