"""A number with its label, unit, explain mark and range."""

from PySide6.QtCore import QPoint, QRect, QSize, Signal
from PySide6.QtGui import QPainter, QRegion, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from shopassist.widgets import bracket, strokes
from shopassist.widgets.explain_mark import ExplainMark, drawn_side
from shopassist.widgets.fonts import Role
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Drawn
from shopassist.widgets.shown import FigureShown

SOURCE_TOKEN = {
    "computed": "ink",
    "typed": "blue",
    "default": "graphite",
    "missing": "graphite",
}


MARK_GAP = 1.4
"""Room between unit and mark, in units of space; the target reaches over the unit."""

USUAL = "00 000.0"


class FigureView(Drawn[FigureShown]):
    """What was worked out is ink, what was typed blue; a range is brown and has edges."""

    explain_asked = Signal()

    def __init__(
        self, look: Look, name: str, shown: FigureShown, parent: QWidget | None = None
    ) -> None:
        super().__init__(look, name, shown.label, shown, parent)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.mark = ExplainMark(look, f"{name}.explain", f"Explain {shown.label}", self)
        self.mark.clicked.connect(self.explain_asked)
        self._place()

    def draw(self, shown: FigureShown) -> None:
        """Show another value."""
        if shown == self.shown:
            return
        if shown.label != self.shown.label:
            self.setAccessibleName(shown.label)
            self.mark.setAccessibleName(f"Explain {shown.label}")
        super().draw(shown)
        if self._number_width() > self.width():
            self.updateGeometry()  # the number itself is never cut
        self._place()

    def spoken(self) -> str:
        """Number, unit, range and note."""
        shown = self.shown
        words = [f"{shown.value} {shown.unit}".strip()]
        if shown.bracket:
            words.append(shown.bracket.text)
        if shown.note:
            words.append(shown.note)
        return ", ".join(words)

    def sizeHint(self) -> QSize:
        """As wide as the longest line, as high as the lines there are."""
        return QSize(round(self._width()), round(self._height()))

    def minimumSizeHint(self) -> QSize:
        """Words may be cut, the number never."""
        return QSize(round(self._number_width()), round(self._height()))

    def relook(self) -> None:
        """Take the changed look."""
        super().relook()
        self._place()

    def resizeEvent(self, _: QResizeEvent) -> None:
        """Keep the mark behind the unit."""
        self._place()

    def touched(self, before: FigureShown) -> QRegion | None:
        """The words over the number stay as they are."""
        if before.label != self.shown.label:
            return None
        top = int(self._step()) if self.shown.label else 0
        return QRegion(0, top, self.width(), self.height() - top)

    def _role(self) -> Role:
        return "lead" if self.shown.lead else "lead_small"

    def _step(self) -> float:
        return 1.5 * self.look.metrics.body_px

    def _number_baseline(self) -> float:
        label = self._step() if self.shown.label else 0.0
        return label + 1.1 * self.look.measure(self._role()).capHeight()

    def _height(self) -> float:
        height = self._number_baseline() + 0.35 * self.look.metrics.body_px
        return height + self._step() * (bool(self.shown.bracket) + bool(self.shown.note))

    def _number_width(self, value: str = "") -> float:
        shown, look = self.shown, self.look
        width = strokes.advance(look.font(self._role()), value or shown.value)
        if shown.unit:
            width += 1.4 * look.u + strokes.advance(look.font("title"), shown.unit)
        if shown.explains:
            width += MARK_GAP * look.u + drawn_side(look)
        return width

    def _width(self) -> float:
        look, shown = self.look, self.shown
        body = look.font("body")
        # Room for a number of usual length, so that a keystroke lays nothing out anew.
        usual = USUAL if len(shown.value) < len(USUAL) else shown.value
        widths = [
            self._number_width(usual if shown.explains else ""),
            strokes.advance(body, shown.label),
            strokes.advance(body, shown.note),
        ]
        if shown.bracket:
            text = strokes.advance(body, shown.bracket.text)
            widths.append((bracket.WIDTH_U + 2) * look.u + text)
        return max(widths) + 2

    def _place(self) -> None:
        mark = self.mark
        if mark.isHidden() == self.shown.explains:
            mark.setVisible(self.shown.explains)
        side = mark.sizeHint().width()
        middle = self._number_width() - drawn_side(self.look) / 2
        x = max(0, round(middle - side / 2))
        unit_caps = self.look.measure("title").capHeight()
        y = round(self._number_baseline() - unit_caps / 2 - side / 2)
        mark.setGeometry(QRect(QPoint(x, y), QSize(side, side)))

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw label, number, unit, bracket and note."""
        look, shown = self.look, self.shown
        body, step = look.font("body"), self._step()
        grey = self.colour("graphite")
        if shown.label and dirty.top() < int(step):
            baseline = look.measure("body").ascent()
            label = strokes.cut(body, shown.label, self.width())
            strokes.write(painter, (0, baseline), label, body, grey)
        baseline = self._number_baseline()
        colour = self.colour(SOURCE_TOKEN[shown.source])
        x = strokes.write(painter, (0, baseline), shown.value, look.font(self._role()), colour)
        if shown.unit:
            at = (x + 1.4 * look.u, baseline)
            strokes.write(
                painter,
                at,
                shown.unit,
                look.font_px(look.font("title").pixelSize(), bold=False),
                self.colour("ink"),
            )
        if shown.bracket:
            baseline += step
            right = float(self.width())
            bracket.paint_with_words(painter, look, (0, baseline), shown.bracket, right)
        if shown.note:
            baseline += step
            note = strokes.cut(body, shown.note, self.width())
            strokes.write(painter, (0, baseline), note, body, grey)
