"""A result on the rule of its tolerance: hollow bracket, ink ends, plumb mark."""

from PySide6.QtCore import QRect, QSize
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QSizePolicy, QWidget

from shopassist.widgets import strokes
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Drawn
from shopassist.widgets.shown import DeviationShown


class DeviationRule(Drawn[DeviationShown]):
    """The allowed span as a hollow bracket over graduations, the result as a plumb mark."""

    def __init__(
        self, look: Look, name: str, shown: DeviationShown, parent: QWidget | None = None
    ) -> None:
        super().__init__(look, name, "Against the tolerance", shown, parent)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def spoken(self) -> str:
        """Return what the owner wrote for it."""
        return self.shown.spoken

    def sizeHint(self) -> QSize:
        """Plumb mark, bracket, graduations and one line of words."""
        return QSize(40 * self.look.metrics.body_px // 3, round(3.5 * self.look.metrics.body_px))

    def minimumSizeHint(self) -> QSize:
        """Of any width."""
        return QSize(6 * self.look.metrics.body_px, self.sizeHint().height())

    def _x(self, at: float) -> float:
        shown = self.shown
        span = shown.end - shown.start
        share = (at - shown.start) / span if span > 0 else 0.5
        return 1 + min(max(share, 0.0), 1.0) * (self.width() - 2)

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw the bracket, the rule and the mark."""
        del dirty
        shown, em = self.shown, float(self.look.metrics.body_px)
        ink, line = self.colour("ink"), 1.55 * em
        left, right = self._x(shown.low), self._x(shown.high)
        top = line - 0.55 * em
        strokes.across(painter, left, right, top, ink)
        strokes.across(painter, 0, self.width(), line, ink, 2)
        for x in (left, right):
            strokes.down(painter, x, top - 2, line + 0.3 * em, ink, 2)
        self._ticks(painter, line)
        if shown.at is not None:
            size = 0.66 * em
            x = min(max(self._x(shown.at), size / 2), self.width() - size / 2)
            strokes.down(painter, x, top - 0.2 * em, line + 0.35 * em, ink, 3)
            strokes.plumb(painter, x, top - 0.75 * em, size, ink)

    def _ticks(self, painter: QPainter, line: float) -> None:
        em, grey = float(self.look.metrics.body_px), self.colour("graphite")
        font = self.look.font("body")
        for tick in self.shown.ticks:
            x = self._x(tick.at)
            length = 0.5 * em if tick.label else 0.3 * em
            strokes.down(painter, x, line, line + length, self.colour("stroke"), 1)
            width = font.advance(tick.label)
            left = min(max(0.0, x - width / 2), self.width() - width)
            strokes.write(painter, (left, line + 1.6 * em), tick.label, font, grey)
