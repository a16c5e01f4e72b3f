"""The lid from above: clamps numbered in working order, and the holes."""

import math

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from shopassist.widgets import strokes
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Drawn
from shopassist.widgets.shown import LidHole, LidShown

SIDE_BODIES = 11
SEAL, RIM, CLAMP_AT, CLAMP = 0.80, 0.88, 0.93, 0.25
OUT_BY = 0.07
"""An unhooked clamp stands so much farther out; shares of half the drawing's side."""
HOOK, HOOK_WIDE = 0.20, 0.09
"""The hook reaches so far inward from the middle of its clamp."""
LEAST, NAMED = 2.2, 4.0
"""Half the side under which the lid is not drawn, and its holes are not named, in body sizes."""
GAUGES = ("gauge", "second gauge")
LINE = 1.35
"""Line step of the words under the drawing, in body sizes."""


class Lid(Drawn[LidShown]):
    """Filled clamp = snug, hollow = slack; a bar over the rim = hooked; blue ring = this one now.

    Numbers stay upright. Words under the lid tell the pass and what does not sit on it.
    """

    def __init__(
        self, look: Look, name: str, shown: LidShown, parent: QWidget | None = None
    ) -> None:
        super().__init__(look, name, "Lid from above", shown, parent)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)

    def spoken(self) -> str:
        """Return what the owner wrote, or the plain facts."""
        shown = self.shown
        if shown.spoken:
            return shown.spoken
        slack = [number for number in shown.numbers if number not in shown.snug]
        return f"{len(shown.numbers)} clamps, {len(slack)} slack"

    def _words(self) -> list[str]:
        return [words for words in (self.shown.caption, self.shown.beside) if words]

    def _under(self) -> float:
        return len(self._words()) * LINE * self.look.metrics.body_px

    def sizeHint(self) -> QSize:
        """A square and its words."""
        side = round(SIDE_BODIES * self.look.metrics.body_px)
        return QSize(side, side + round(self._under()))

    def minimumSizeHint(self) -> QSize:
        """Smaller than this the numbers touch."""
        side = round(7 * self.look.metrics.body_px)
        return QSize(side, side + round(self._under()))

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw the disc, the centre lines, the clamps, the holes, and the words under them."""
        del dirty
        room, body = self.height() - self._under(), self.look.metrics.body_px
        half = min(self.width(), room) / 2 - 2
        if half < LEAST * body:  # a lid that nobody can read stands in nobody's way
            painter.translate(self.width() / 2, max(0.0, room / 2))
            self._write(painter, 0.0)
            return
        ink = self.colour("ink")
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
        painter.translate(self.width() / 2, room / 2)
        half /= CLAMP_AT + OUT_BY + CLAMP / 2 + 0.04
        painter.setPen(QPen(ink, 2.5))
        painter.setBrush(self.colour("raised"))
        painter.drawEllipse(QPointF(0, 0), RIM * half, RIM * half)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(self.colour("stroke"), 1.3))
        painter.drawEllipse(QPointF(0, 0), SEAL * half, SEAL * half)
        self._centre_lines(painter, RIM * half)
        named = half >= NAMED * body and not self._names_touch(half)
        for hole in self.shown.holes:
            self._hole(painter, hole, half, named=named)
        self._clamps(painter, half)
        self._write(painter, room / 2)

    def _write(self, painter: QPainter, y: float) -> None:
        step = LINE * self.look.metrics.body_px
        for number, words in enumerate(self._words()):
            bold = words == self.shown.caption
            font = self.look.font("bold" if bold else "body")
            cut = strokes.cut(font, words, self.width())
            at = (0.0, y + (number + 0.8) * step)
            strokes.write(painter, at, cut, font, self.colour("ink"), strokes.CENTRE)

    def _centre_lines(self, painter: QPainter, reach: float) -> None:
        pen = QPen(self.colour("stroke"), 1)
        pen.setDashPattern([9, 3, 2, 3])
        painter.setPen(pen)
        painter.drawLine(QPointF(-reach, 0), QPointF(reach, 0))
        painter.drawLine(QPointF(0, -reach), QPointF(0, reach))

    def _clamps(self, painter: QPainter, half: float) -> None:
        count = len(self.shown.numbers)
        for index, number in enumerate(self.shown.numbers):
            turn = (index + 0.5) / count
            self._clamp(painter, turn, number, half)

    def _clamp(self, painter: QPainter, turn: float, number: int, half: float) -> None:
        ink, raised = self.colour("ink"), self.colour("raised")
        snug, angle = number in self.shown.snug, 2 * math.pi * turn
        out = (CLAMP_AT + (0 if self.shown.hooked else OUT_BY)) * half
        at = QPointF(math.sin(angle) * out, -math.cos(angle) * out)
        side = CLAMP * half
        rect = QRectF(-side / 2, -side / 2, side, side)
        painter.save()
        painter.translate(at)
        painter.rotate(math.degrees(angle))
        painter.setPen(QPen(ink, 2))
        painter.setBrush(ink if snug else raised)
        if self.shown.hooked:
            wide = HOOK_WIDE * half
            painter.drawRect(QRectF(-wide / 2, 0, wide, HOOK * half))
        painter.drawRoundedRect(rect, 3, 3)
        if number == self.shown.present:
            painter.setPen(QPen(self.colour("blue"), 3))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(rect.adjusted(-4.5, -4.5, 4.5, 4.5), 5, 5)
        painter.restore()
        font = self.look.font_px(min(0.66 * side, 1.1 * self.look.metrics.body_px), bold=True)
        caps = font.pixelSize() * self.look.caps
        words = (at.x(), at.y() + caps / 2)
        strokes.write(painter, words, str(number), font, raised if snug else ink, strokes.CENTRE)

    def _names_touch(self, half: float) -> bool:
        """Whether two names would be written over each other."""
        font = self.look.font("axis")
        rects = []
        for hole in self.shown.holes:
            at, wide = self._name_at(hole, half), font.advance(hole.label)
            rects.append(QRectF(at.x() - wide / 2, at.y() - font.caps, wide, font.caps))
        return any(a.intersects(b) for n, a in enumerate(rects) for b in rects[:n])

    def _name_at(self, hole: LidHole, half: float) -> QPointF:
        """The middle of a name's baseline."""
        at, radius = self._hole_at(hole, half)
        return at + QPointF(0, radius + 1.05 * self.look.font("axis").pixelSize())

    def _hole_at(self, hole: LidHole, half: float) -> tuple[QPointF, float]:
        angle = 2 * math.pi * hole.turn
        reach = hole.radius * SEAL * half
        gauge = hole.kind in GAUGES
        return (
            QPointF(math.sin(angle) * reach, -math.cos(angle) * reach),
            (0.125 if gauge else 0.062) * half,
        )

    def _hole(self, painter: QPainter, hole: LidHole, half: float, *, named: bool) -> None:
        at, radius = self._hole_at(hole, half)
        ink = self.colour("ink")
        painter.setPen(QPen(ink, 1.8))
        painter.setBrush(self.colour("raised"))
        painter.drawEllipse(at, radius, radius)
        if hole.kind in GAUGES:
            painter.drawLine(at, at + QPointF(0.6 * radius, -0.6 * radius))
        elif hole.kind == "relief":
            painter.drawEllipse(at, radius * 0.4, radius * 0.4)
        elif hole.kind == "inlet":
            painter.drawLine(at - QPointF(radius, 0), at + QPointF(radius, 0))
            painter.drawLine(at - QPointF(0, radius), at + QPointF(0, radius))
        if not named:
            return
        below = self._name_at(hole, half).toTuple()
        strokes.write(painter, below, hole.label, self.look.font("axis"), ink, strokes.CENTRE)
