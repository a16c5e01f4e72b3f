"""A ruled edge: what is past, the likely range, the gate, and now."""

from PySide6.QtCore import QRect, QRectF, QSize
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QSizePolicy, QWidget

from shopassist.widgets import strokes
from shopassist.widgets.fonts import Role
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Drawn
from shopassist.widgets.shown import RuleShown


class RuledEdge(Drawn[RuleShown]):
    """Time on a rule. The digits above it count to the gate, never to the middle of the range."""

    def __init__(
        self, look: Look, name: str, shown: RuleShown, parent: QWidget | None = None
    ) -> None:
        self.words: Role = "body"
        self.gate_words: Role = "bold"
        super().__init__(look, name, "Time rule", shown, parent)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def set_roles(self, words: Role, gate_words: Role) -> None:
        """Use larger words, for reading from far off."""
        self.words, self.gate_words = words, gate_words
        self.relook()

    def spoken(self) -> str:
        """Return what the owner wrote for it."""
        return self.shown.spoken

    def sizeHint(self) -> QSize:
        """As high as two lines of words and the rule between them."""
        return QSize(round(20 * self._em()), round(self._line_y() + 2.0 * self._em()))

    def minimumSizeHint(self) -> QSize:
        """Of any width."""
        return QSize(round(10 * self._em()), self.sizeHint().height())

    def _em(self) -> float:
        return float(self.look.font(self.words).pixelSize())

    def _line_y(self) -> float:
        return 2.75 * self._em()

    def _x(self, at: float) -> float:
        shown, inset = self.shown, 1.0
        span = shown.end - shown.start
        share = (at - shown.start) / span if span > 0 else 0.0
        return inset + min(max(share, 0.0), 1.0) * (self.width() - 2 * inset)

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw from the back to the front."""
        del dirty
        line = self._line_y()
        self._past(painter, line)
        self._range(painter, line)
        self._ticks(painter, line)
        strokes.across(painter, 0, self.width(), line, self.colour("ink"), 2)
        self._gate(painter, line)
        self._now(painter, line)

    def _past(self, painter: QPainter, line: float) -> None:
        if self.shown.past is None:
            return
        thick = 0.58 * self._em()
        rect = QRectF(0, line - thick, self._x(self.shown.past), thick)
        strokes.fill(painter, rect, self.colour("graphite"))

    def _range(self, painter: QPainter, line: float) -> None:
        shown, em = self.shown, self._em()
        if shown.low is None or shown.high is None:
            return
        edge = self.colour("band_edge")
        left, right = self._x(shown.low), self._x(shown.high)
        top = line - 1.15 * em
        strokes.fill(painter, QRectF(left, top, right - left, line - top), self.colour("band"))
        if shown.middle is not None:
            strokes.dashes_down(painter, self._x(shown.middle), (top, line), edge)
        strokes.down(painter, left, top - 0.12 * em, line, edge, 2)
        strokes.down(painter, right, top - 0.12 * em, line, edge, 2)
        self._whisker(painter, (left, right), line)
        self._range_words(painter, (left, right), top - 0.35 * em)

    def _whisker(self, painter: QPainter, ends: tuple[float, float], line: float) -> None:
        if self.shown.gate is None:
            return
        gate, y = self._x(self.shown.gate), line - 0.55 * self._em()
        colour = self.colour("band_edge")
        if gate > ends[1]:
            strokes.dots_across(painter, ends[1] + 3, gate, y, colour)
        elif gate < ends[0]:
            strokes.dots_across(painter, gate + 3, ends[0], y, colour)

    def _range_words(self, painter: QPainter, ends: tuple[float, float], baseline: float) -> None:
        words, font = self.shown.range_text, self.look.font(self.words)
        width = self.look.font(self.words).advance(words)
        left = max(0.0, min(ends[0], self.width() - width))
        taken = self._gate_words_span()
        if taken is not None and taken[0] - self._em() / 2 < left + width and taken[1] > left:
            # The gate's clock time has the right of way; the words go to its free side.
            left = max(0.0, taken[0] - self._em() / 2 - width)
            if self.shown.gate is not None and self._x(self.shown.gate) <= ends[0]:
                left = taken[1] + self._em() / 2
        room = self.width() - left
        if taken is not None and taken[0] >= left:
            room = taken[0] - left
        words = strokes.cut(font, words, room + 1)
        strokes.write(painter, (left, baseline), words, font, self.colour("band_edge"))

    def _gate_words_span(self) -> tuple[float, float] | None:
        if self.shown.gate is None or not self.shown.gate_text:
            return None
        width = self.look.font(self.gate_words).advance(self.shown.gate_text)
        left = min(max(0.0, self._x(self.shown.gate) - 2), self.width() - width)
        return left, left + width

    def _ticks(self, painter: QPainter, line: float) -> None:
        em, ink = self._em(), self.colour("ink")
        grey, font = self.colour("graphite"), self.look.font(self.words)
        face = self.look.font(self.words)
        reached = -em
        for tick in self.shown.ticks:
            x = self._x(tick.at)
            length = 0.75 * em if tick.label else 0.42 * em
            colour = ink if tick.label else self.colour("stroke")
            strokes.down(painter, x, line, line + length, colour, 2 if tick.label else 1)
            width = face.advance(tick.label)
            left = min(max(0.0, x - width / 2), self.width() - width)
            if tick.label and left >= reached + em / 3:
                strokes.write(painter, (left, line + 1.65 * em), tick.label, font, grey)
                reached = left + width

    def _gate(self, painter: QPainter, line: float) -> None:
        if self.shown.gate is None:
            return
        em, x = self._em(), self._x(self.shown.gate)
        x = min(max(x, 2.0), self.width() - 2.0)
        ink = self.colour("ink")
        strokes.down(painter, x, line - 1.3 * em, line, ink, 4)
        span = self._gate_words_span()
        if span is not None:
            at = (span[0], line - 1.6 * em)
            font = self.look.font(self.gate_words)
            strokes.write(painter, at, self.shown.gate_text, font, ink)

    def _now(self, painter: QPainter, line: float) -> None:
        if self.shown.now is None:
            return
        em, ink = self._em(), self.colour("ink")
        size = 0.72 * em
        x = min(max(self._x(self.shown.now), size / 2), self.width() - size / 2)
        top = line - 2.0 * em
        strokes.down(painter, x, top + 2, line + 0.55 * em, ink, 2)
        strokes.plumb(painter, x, top, size, ink)
