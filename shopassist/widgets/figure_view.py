"""A number with its label, unit, explain mark and range."""

import math

from PySide6.QtCore import QPointF, QRect, QSize, Signal
from PySide6.QtGui import QPainter, QRegion, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from shopassist.widgets import bracket, strokes
from shopassist.widgets.explain_mark import TARGET_MM, ExplainTarget, drawn_side
from shopassist.widgets.fonts import Role
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Drawn, on_sheet
from shopassist.widgets.shown import FigureShown

SOURCE_TOKEN = {
    "computed": "ink",
    "typed": "blue",
    "default": "graphite",
    "missing": "graphite",
}


MARK_GAP = 1.4
"""Room between unit and mark, in units of space; the target reaches over the whole number."""

USUAL = "00 000.0"


class FigureView(Drawn[FigureShown]):
    """What was worked out is ink, what was typed blue; a range is brown and has edges."""

    explain_asked = Signal()

    def __init__(
        self, look: Look, name: str, shown: FigureShown, parent: QWidget | None = None
    ) -> None:
        self._measured: tuple[FigureShown | None, float] = None, 0.0
        """What was measured last, and the room of its number."""
        self._asked = 0.0
        """Room that was asked for the number."""
        self._level = False
        super().__init__(look, name, shown.label, shown, parent)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.mark = ExplainTarget(look, f"{name}.explain", f"Explain {shown.label}", self)
        self.mark.clicked.connect(self.explain_asked)
        on_sheet(self)
        self._place()

    def draw(self, shown: FigureShown) -> None:
        """Show another value."""
        if shown == self.shown:
            return
        if shown.label != self.shown.label:
            self.setAccessibleName(shown.label)
            self.mark.setAccessibleName(f"Explain {shown.label}")
        super().draw(shown)
        if self._number_width() > self._asked:
            # The number itself is never cut, whatever grows beside it; nor is its room taken back.
            self._asked = self._number_width()
            self.updateGeometry()
            self._place()

    def stand_level(self, on: bool) -> None:  # noqa: FBT001 - a layout's choice
        """Stand in a row with large numbers: words and number keep to the lines of theirs."""
        if on != self._level:
            self._level, self._hinted = on, None
            self._place()
            self.updateGeometry()
            self.update()

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
        least = max(self._number_width(), self._asked)
        return QSize(math.ceil(least), round(self._height()))

    def relook(self) -> None:
        """Take the changed look."""
        self._measured, self._asked = (None, 0.0), 0.0
        super().relook()
        self._place()

    def resizeEvent(self, _: QResizeEvent) -> None:
        """Keep the target over the number."""
        self._place()

    def reshaped(self, before: FigureShown) -> bool:
        """Another number of usual length asks for no other room."""
        if _frame(before) == _frame(self.shown):
            return False
        self._asked = 0.0
        self._place()
        return super().reshaped(before)

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
        role = "lead" if self._level else self._role()
        return label + 1.1 * self.look.font(role).caps

    def _height(self) -> float:
        height = self._number_baseline() + 0.35 * self.look.metrics.body_px
        return height + self._step() * (bool(self.shown.bracket) + bool(self.shown.note))

    def _number_width(self) -> float:
        if self._measured[0] is not self.shown:
            self._measured = self.shown, self._room_of(self.shown.value)
        return self._measured[1]

    def _room_of(self, value: str) -> float:
        """Width of a number with its unit and mark."""
        shown, look = self.shown, self.look
        width = look.font(self._role()).advance(value)
        if shown.unit:
            width += 1.4 * look.u + look.font("title").advance(shown.unit)
        if shown.explains:
            width += MARK_GAP * look.u + drawn_side(look)
        return width

    def _room(self) -> float:
        """Room for a number of usual length, so that a keystroke lays nothing out anew."""
        return self._room_of(USUAL) if _is_usual(self.shown) else self._number_width()

    def _width(self) -> float:
        look, shown = self.look, self.shown
        body = look.font("body")
        widest = max(self._room(), body.advance(shown.label), body.advance(shown.note))
        if shown.bracket:
            text = body.advance(shown.bracket.text)
            widest = max(widest, (bracket.WIDTH_U + 2) * look.u + text)
        return widest + 2

    def _place(self) -> None:
        mark = self.mark
        if mark.isHidden() == self.shown.explains:
            mark.setVisible(self.shown.explains)
        side = self.look.mm(TARGET_MM)
        y = round(self._number_baseline() - (self.look.font("title").caps + side) / 2)
        mark.setGeometry(0, y, max(side, min(self.width(), math.ceil(self._room()))), side)

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw label, number, unit, bracket and note."""
        look, shown = self.look, self.shown
        body, step = look.font("body"), self._step()
        grey = self.colour("graphite")
        if shown.label and dirty.top() < int(step):
            baseline = body.ascent
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
        if shown.explains:
            left = self._number_width() - drawn_side(look)
            top = baseline - (look.font("title").caps + drawn_side(look)) / 2
            painter.drawPixmap(QPointF(round(left), round(top)), self.mark.picture())
        if shown.bracket:
            baseline += step
            right = float(self.width())
            bracket.paint_with_words(painter, look, (0, baseline), shown.bracket, right)
        if shown.note:
            baseline += step
            note = strokes.cut(body, shown.note, self.width())
            strokes.write(painter, (0, baseline), note, body, grey)


def _is_usual(shown: FigureShown) -> bool:
    return shown.explains and len(shown.value) < len(USUAL)


def _frame(shown: FigureShown) -> tuple[object, ...]:
    """What its size depends on."""
    value = USUAL if _is_usual(shown) else shown.value
    return value, shown.unit, shown.label, shown.note, shown.bracket, shown.explains, shown.lead
