"""A row of papers to scale: coarse at the left, each step with its ratio, skipped ones marked."""

from PySide6.QtCore import QRect, QRectF, QSize
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QSizePolicy, QWidget

from shopassist.panes.turn.screen import Gap, LadderShown, Rung
from shopassist.widgets import strokes
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Drawn

HEIGHT, LINE = 6.2, 3.0
"""In body sizes: the whole, and where the rule lies."""
INSET = 2.0


class Ladder(Drawn[LadderShown]):
    """Draws one ``LadderShown``."""

    def __init__(
        self, look: Look, name: str, shown: LadderShown, parent: QWidget | None = None
    ) -> None:
        super().__init__(look, name, "Papers", shown, parent)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def spoken(self) -> str:
        """Every paper with its grain."""
        return self.shown.spoken

    def _em(self) -> float:
        return float(self.look.metrics.body_px)

    def sizeHint(self) -> QSize:
        """Names over the rule, grains under it."""
        return QSize(round(22 * self._em()), round(HEIGHT * self._em()))

    def minimumSizeHint(self) -> QSize:
        """Of any width."""
        return QSize(round(8 * self._em()), self.sizeHint().height())

    def _x(self, at: float) -> float:
        rungs = self.shown.rungs
        first, last = rungs[0].at, rungs[-1].at
        share = (at - first) / (last - first) if last > first else 0.5
        inset = INSET * self._em()
        return inset + share * (self.width() - 2 * inset)

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Steps that are too far lie on a brown field; papers that would help are dashed."""
        del dirty
        if not self.shown.rungs:
            return
        line = LINE * self._em()
        for gap in self.shown.gaps:
            self._gap(painter, gap, line)
        strokes.across(painter, 0, self.width(), line, self.colour("ink"), 2)
        reached = {"name": -1e9, "grain": -1e9}
        for rung in self.shown.rungs:
            self._rung(painter, rung, line, reached)

    def _gap(self, painter: QPainter, gap: Gap, line: float) -> None:
        em, left, right = self._em(), self._x(gap.start), self._x(gap.end)
        colour = self.colour("band_edge" if gap.too_far else "graphite")
        if gap.too_far:
            field = QRectF(left, line - 1.1 * em, right - left, 1.1 * em)
            strokes.fill(painter, field, self.colour("band"))
        font = self.look.font("axis")
        if font.advance(gap.words) <= right - left - 4:
            at = ((left + right) / 2, line - 0.3 * em)
            strokes.write(painter, at, gap.words, font, colour, strokes.CENTRE)

    def _rung(self, painter: QPainter, rung: Rung, line: float, reached: dict[str, float]) -> None:
        em, x = self._em(), self._x(rung.at)
        top, foot = line - 1.25 * em, line + 0.45 * em
        if rung.lent:
            strokes.dashes_down(painter, x, (top, foot), self.colour("band_edge"))
        else:
            strokes.down(painter, x, top, foot, self.colour("ink"), 3)
        ink = self.colour("band_edge" if rung.lent else "ink")
        role = "body" if rung.lent else "bold"
        places = (("name", rung.label, role, top - 0.45 * em),
                  ("grain", rung.grain, "axis", foot + 1.35 * em))  # fmt: skip
        for kind, words, used, baseline in places:
            font = self.look.font(used)  # type: ignore[arg-type]
            wide = font.advance(words)
            left = min(max(0.0, x - wide / 2), self.width() - wide)
            if left >= reached[kind] + 0.3 * em:
                strokes.write(painter, (left, baseline), words, font, ink)
                reached[kind] = left + wide
