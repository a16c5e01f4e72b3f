"""The sheet that every pane stands on: title line, hairline, body; the header is always equal."""

from PySide6.QtCore import QEvent, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPen, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from shopassist.widgets import strokes
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Piece, describe

EDGE = 5
"""From here on inwards a sheet is all one colour."""
TITLE_AT, LINE_AT = 1.75, 2.5
"""Baseline of the title and place of the hairline, in body sizes."""


class PaneFrame(Piece):
    """A pane; ``body`` takes its widgets."""

    def __init__(self, look: Look, name: str, title: str, parent: QWidget | None = None) -> None:
        super().__init__(look, name, title, parent)
        self.title = title
        self._right = ""
        self._focused = False
        self._steps: tuple[str, ...] = ()
        self._present: int | None = None
        self._sheet: QWidget | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        # It paints every pixel of its own, so nothing behind it is painted for it.
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.body = QVBoxLayout(self)
        self._margins()

    @property
    def focused(self) -> bool:
        """Whether this is the pane in hand."""
        return self._focused

    def set_right(self, words: str) -> None:
        """Set the words at the right of the title line: the batch or pot in hand."""
        if words != self._right:
            self._right = words
            self._describe()
            self.update(self._header())

    def set_focused(self, focused: bool) -> None:  # noqa: FBT001 - reads as a property
        """Draw the line on the top edge, or not."""
        if focused != self._focused:
            self._focused = focused
            self.update(self._header())

    def set_steps(self, words: tuple[str, ...], present: int | None = None) -> None:
        """Show the cards of a walk in the title line; the present one is bold and underlined."""
        if (words, present) != (self._steps, self._present):
            self._steps, self._present = words, present
            self._describe()
            self.update(self._header())

    @property
    def laid_over(self) -> QWidget | None:
        """The sheet that lies over the body."""
        return self._sheet

    def show_sheet(self, sheet: QWidget | None) -> None:
        """Lay a sheet over the body, or take it away; it is not modal."""
        if self._sheet is not None and self._sheet is not sheet:
            self._sheet.hide()
        self._sheet = sheet
        if sheet is not None:
            sheet.setParent(self)
            self._place_sheet()
            sheet.show()
            sheet.raise_()
            sheet.setFocus(Qt.FocusReason.OtherFocusReason)

    def sizeHint(self) -> QSize:
        """Return what the body asks."""
        return self.body.sizeHint()

    def relook(self) -> None:
        """Take the changed look."""
        self._margins()
        self._place_sheet()
        super().relook()

    def resizeEvent(self, _: QResizeEvent) -> None:
        """Keep the sheet over the body."""
        self._place_sheet()

    def changeEvent(self, event: QEvent) -> None:
        """Redraw when enabled or disabled."""
        super().changeEvent(event)
        self.update()

    def _em(self) -> float:
        return float(self.look.metrics.body_px)

    def _header(self) -> QRect:
        return QRect(0, 0, self.width(), round(LINE_AT * self._em()) + 3)

    def _margins(self) -> None:
        side = round(3 * self.look.u)
        top = round(LINE_AT * self._em() + 2 * self.look.u)
        self.body.setContentsMargins(side, top, side, side)
        self.body.setSpacing(round(2 * self.look.u))

    def _place_sheet(self) -> None:
        if self._sheet is not None:
            top = round(LINE_AT * self._em()) + 1
            self._sheet.setGeometry(1, top, self.width() - 2, self.height() - top - 1)

    def _describe(self) -> None:
        words = [self._right] if self._right else []
        if self._present is not None:
            words.append(f"{self._present + 1} of {len(self._steps)}, {self._steps[self._present]}")
        describe(self, ", ".join(words))

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw the sheet, the focus line and the title line."""
        edge = self.colour("hair")
        if self.rect().adjusted(EDGE, EDGE, -EDGE, -EDGE).contains(dirty):
            painter.fillRect(dirty, self.colour("sheet"))
        else:
            painter.fillRect(dirty, self.colour("bench"))
            strokes.box(painter, QRectF(self.rect()), QPen(edge, 1), self.colour("sheet"))
        if not dirty.intersects(self._header()):
            return
        if self._focused:
            strokes.fill(painter, QRectF(3, 0, self.width() - 6, 3), self.colour("blue"))
        side, baseline = 3 * self.look.u, TITLE_AT * self._em()
        line = LINE_AT * self._em()
        strokes.across(painter, side, self.width() - side, line, edge)
        title = self.look.font("title")
        x = side + strokes.write(painter, (side, baseline), self.title, title, self.colour("ink"))
        x = self._draw_steps(painter, x, baseline)
        body = self.look.font("body")
        right = self.width() - side
        words = strokes.cut(body, self._right, right - x - 2 * self.look.u)
        at = (right, baseline)
        strokes.write(painter, at, words, body, self.colour("graphite"), strokes.RIGHT)

    def _steps_fit(self, x: float) -> bool:
        face, u = self.look.font("bold"), self.look.u
        wide = sum(face.advance(word) + 4.4 * u for word in self._steps)
        return x + 1.6 * u + wide <= self.width() - 3 * u

    def _draw_steps(self, painter: QPainter, x: float, baseline: float) -> float:
        look, line = self.look, LINE_AT * self._em()
        if self._present is not None and not self._steps_fit(x):
            words = f"{self._present + 1} of {len(self._steps)}  {self._steps[self._present]}"
            x += 6 * look.u
            width = strokes.write(
                painter, (x, baseline), words, look.font("bold"), self.colour("ink")
            )
            strokes.fill(painter, QRectF(x, line - 1.5, width, 4), self.colour("blue"))
            return x + width
        for index, word in enumerate(self._steps):
            here = index == self._present
            x += 6 * look.u if index == 0 else 4.4 * look.u
            colour = self.colour("ink" if here else "graphite")
            font = look.font("bold" if here else "body")
            width = strokes.write(painter, (x, baseline), word, font, colour)
            if here:
                strokes.fill(painter, QRectF(x, line - 1.5, width, 4), self.colour("blue"))
            elif self._present is not None and index < self._present:
                strokes.fill(painter, QRectF(x, line - 1, width, 2), colour)
            x += width
        return x
