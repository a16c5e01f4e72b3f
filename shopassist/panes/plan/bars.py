"""The bars of a batch to scale: start strokes, hands, waits, brackets, room, and now."""

from PySide6.QtCore import QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainter
from PySide6.QtWidgets import QSizePolicy, QWidget

from shopassist.panes.plan.screen import BarRow, BarsShown, Thread
from shopassist.widgets import strokes
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Drawn

PITCH, AXIS, FOOT = 1.42, 3.2, 3.0
RULE = 2.15
"""Heights in body sizes: a row, all above the first one, the words at the bottom; and where the
rule lies."""
LABEL_SHARE, LABEL_EM = 0.42, 15.0
LEAST_PX = 3.0
"""A bar of no length still has to be seen."""
BETWEEN = " · "
"""Parts of the words at the bottom: a line is broken between them."""
SHUT_ALPHA = 130
"""Closed hours lie behind everything: half the bench's colour."""
KEYS = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}


class Bars(Drawn[BarsShown]):
    """One row a stage. ``chosen`` carries a stage, ``stepped`` a row up or down."""

    chosen = Signal(str)
    stepped = Signal(int)

    def __init__(self, look: Look, name: str, shown: BarsShown, parent: QWidget | None = None):
        super().__init__(look, name, "Stages of the batch", shown, parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)

    def spoken(self) -> str:
        """Every row in words."""
        if self.shown.empty:
            return self.shown.empty
        return "; ".join(row.words for row in self.shown.rows)

    def _em(self) -> float:
        return float(self.look.metrics.body_px)

    def sizeHint(self) -> QSize:
        """All rows, under the rule."""
        lines = len(self.shown.rows) + len(self.shown.threads)
        return QSize(round(26 * self._em()), round((AXIS + FOOT + lines * PITCH) * self._em()))

    def minimumSizeHint(self) -> QSize:
        """All rows; the width may shrink."""
        return QSize(round(16 * self._em()), self.sizeHint().height())

    # -- places --------------------------------------------------------------------------------

    def _left(self) -> float:
        return min(LABEL_SHARE * self.width(), LABEL_EM * self._em())

    def _x(self, at: float) -> float:
        shown, left = self.shown, self._left()
        share = (at - shown.start) / (shown.end - shown.start)
        return left + min(max(share, 0.0), 1.0) * (self.width() - left - 2)

    def _top(self, number: int) -> float:
        return (AXIS + number * PITCH) * self._em()

    def row_rect(self, key: str) -> QRect | None:
        """Where a stage's row lies, to scroll to it."""
        for number, row in enumerate(self.shown.rows):
            if row.key == key:
                return QRect(0, round(self._top(number)), self.width(), round(PITCH * self._em()))
        return None

    # -- choosing ------------------------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Choose the stage of the row."""
        number = int((event.position().y() / self._em() - AXIS) // PITCH)
        if 0 <= number < len(self.shown.rows):
            self.chosen.emit(self.shown.rows[number].key)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Up and down go from row to row."""
        step = KEYS.get(Qt.Key(event.key()))
        if step is None:
            super().keyPressEvent(event)
        else:
            self.stepped.emit(step)

    # -- drawing -------------------------------------------------------------------------------

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """From the back: closed hours, rule, rows, now, words."""
        del dirty
        if self.shown.empty:
            middle = (self.width() / 2, 2 * self._em())
            font, grey = self.look.font("body"), self.colour("graphite")
            words = strokes.cut(font, self.shown.empty, self.width())
            strokes.write(painter, middle, words, font, grey, strokes.CENTRE)
            return
        bottom = self._top(len(self.shown.rows) + len(self.shown.threads))
        self._shut(painter, bottom)
        for number, row in enumerate(self.shown.rows):
            self._row(painter, row, self._top(number))
        for number, thread in enumerate(self.shown.threads, len(self.shown.rows)):
            self._thread(painter, thread, self._top(number))
        self._rule(painter)
        self._now(painter, bottom)
        self._caption(painter, bottom)

    def _shut(self, painter: QPainter, bottom: float) -> None:
        tint = QColor(self.colour("bench"))
        tint.setAlpha(SHUT_ALPHA)
        for start, end in self.shown.shut:
            left, right = self._x(start), self._x(end)
            tall = QRectF(left, self._top(0), right - left, bottom - self._top(0))
            strokes.fill(painter, tall, tint)

    def _rule(self, painter: QPainter) -> None:
        em, line = self._em(), RULE * self._em()
        font = self.look.font("axis")
        strokes.across(painter, self._left(), self.width(), line, self.colour("ink"), 2)
        reached = self._left()
        for tick in self.shown.ticks:
            x, wide = self._x(tick.at), font.advance(tick.label)
            length = 0.6 * em if tick.label else 0.3 * em
            ink = self.colour("ink" if tick.label else "stroke")
            strokes.down(painter, x, line - length, line, ink, 2 if tick.label else 1)
            if tick.label and x >= reached and x + wide <= self.width():
                at = (x, line - 0.85 * em)
                strokes.write(painter, at, tick.label, font, self.colour("graphite"))
                reached = x + wide + 0.5 * em

    def _row(self, painter: QPainter, row: BarRow, top: float) -> None:
        em = self._em()
        if row.selected:
            rect = QRectF(0, top, self.width(), PITCH * em)
            strokes.fill(painter, rect, self.colour("select"))
        role = "bold" if row.kind == "running" else "body"
        ink = self.colour("graphite" if row.kind == "done" else "ink")
        font = self.look.font(role)  # type: ignore[arg-type]
        words = strokes.cut(font, row.name, self._left() - 1.5 * em)
        baseline = top + (PITCH * em + font.caps) / 2
        strokes.write(painter, (0.3 * em, baseline), words, font, ink)
        middle = top + PITCH * em / 2
        if row.kind == "done":
            self._block(painter, (row.start, row.end), middle, "graphite")
        else:
            self._ahead(painter, row, middle)

    def _ahead(self, painter: QPainter, row: BarRow, middle: float) -> None:
        em = self._em()
        self._bracket(painter, row, middle)
        left, right = self._x(row.start), self._x(row.end)
        if row.room > row.end:
            strokes.dots_across(painter, max(right, self._x(row.late)) + 3, self._x(row.room),
                                middle, self.colour("stroke"))  # fmt: skip
        strokes.across(painter, left, right, middle, self.colour("ink"), 2)
        if row.kind == "running":
            self._block(painter, (row.start, min(self.shown.now, row.end)), middle, "graphite")
        elif row.free > row.start:
            self._block(painter, (row.start, row.free), middle, "ink")
        if row.start >= self.shown.start:
            tall = 0.5 * em
            thick = 4.0 if row.critical else 2.0
            strokes.down(painter, left, middle - tall, middle + tall, self.colour("ink"), thick)

    def _block(
        self, painter: QPainter, span: tuple[float, float], middle: float, token: str
    ) -> None:
        left, right = self._x(span[0]), self._x(span[1])
        if span[1] < self.shown.start or span[0] > self.shown.end:
            return
        thick = 0.46 * self._em()
        rect = QRectF(left, middle - thick / 2, max(right - left, LEAST_PX), thick)
        strokes.fill(painter, rect, self.colour(token))

    def _bracket(self, painter: QPainter, row: BarRow, middle: float) -> None:
        left, right = self._x(row.early), self._x(row.late)
        if right - left < LEAST_PX:
            return
        half, edge = 0.36 * self._em(), self.colour("band_edge")
        rect = QRectF(left, middle - half, right - left, 2 * half)
        strokes.fill(painter, rect, self.colour("band"))
        for at, x in ((row.early, left), (row.late, right)):
            if self.shown.start < at < self.shown.end:
                strokes.down(painter, x, middle - half - 1, middle + half + 1, edge, 2)

    def _thread(self, painter: QPainter, thread: Thread, top: float) -> None:
        em = self._em()
        font = self.look.font("body")
        strokes.across(painter, 0, self.width(), top + 1, self.colour("hair"))
        words = strokes.cut(font, thread.name, self._left() - 1.5 * em)
        baseline = top + (PITCH * em + font.caps) / 2
        strokes.write(painter, (0.3 * em, baseline), words, font, self.colour("graphite"))
        middle = top + PITCH * em / 2
        for each in thread.places:
            if each.end < self.shown.start or each.start > self.shown.end:
                continue
            left, right = self._x(each.start), self._x(each.end)
            token = "graphite" if each.kind == "done" else "stroke"
            strokes.across(painter, left, right, middle, self.colour(token), 2)
            if each.hands_end > each.start:
                self._block(painter, (each.start, each.hands_end), middle, token)

    def _now(self, painter: QPainter, bottom: float) -> None:
        x, size, line = self._x(self.shown.now), 0.72 * self._em(), RULE * self._em()
        ink = self.colour("ink")
        strokes.down(painter, x, line, bottom, ink, 2)
        strokes.plumb(painter, x, line + 1, size, ink)

    def _caption(self, painter: QPainter, bottom: float) -> None:
        font = self.look.font("axis")
        lines = [""]
        for part in self.shown.caption.split(BETWEEN):
            longer = f"{lines[-1]}{BETWEEN}{part}" if lines[-1] else part
            if lines[-1] and font.advance(longer) > self.width():
                lines.append(part)
            else:
                lines[-1] = longer
        at = bottom + 0.45 * self._em() + font.ascent
        for number, line in enumerate(lines):
            words = strokes.cut(font, line, self.width())
            place = (0.0, at + number * font.high)
            strokes.write(painter, place, words, font, self.colour("graphite"))
