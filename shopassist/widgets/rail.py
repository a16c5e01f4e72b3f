"""The rail: every pane, words always under icons."""

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QVBoxLayout, QWidget

from shopassist.widgets import icons, strokes
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Piece, describe, name_it
from shopassist.widgets.shown import RailShown

PRIMARY = 3
WIDTH_BODIES = 5.6
LEAST_PX = 80
LEAST_ICON = 0.9
"""Below this size in body heights an icon says nothing: the word stands alone."""


class RailButton(QAbstractButton):
    """One pane's entry."""

    def __init__(self, look: Look, name: str, shown: RailShown, parent: QWidget) -> None:
        super().__init__(parent)
        self.look, self.shown = look, shown
        name_it(self, name, shown.word)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.draw(shown)

    def draw(self, shown: RailShown) -> None:
        """Show another state."""
        self.shown = shown
        state = "shown" if shown.shown else ""
        alarm = f"{shown.badge} alarm" if shown.badge else ""
        describe(self, ", ".join(word for word in (state, alarm) if word))
        self.update()

    def sizeHint(self) -> QSize:
        """Icon and word, at least nine millimetres."""
        body = self.look.metrics.body_px
        return QSize(rail_width(self.look), max(self.look.mm(9), round(3.6 * body)))

    def minimumSizeHint(self) -> QSize:
        """Never lower than a word with air; its icon stands where there is room."""
        return QSize(rail_width(self.look), max(self.look.mm(9), round(2.4 * self._em())))

    def _em(self) -> float:
        return float(self.look.metrics.body_px)

    def paintEvent(self, _: QPaintEvent) -> None:
        """Draw the icon over its word, the bar of a shown pane, the badge of an alarm."""
        painter = QPainter(self)
        look, tokens, em = self.look, self.look.tokens, self._em()
        if self.isDown():
            painter.fillRect(self.rect(), look.colour(tokens.select))
        on = self.shown.shown
        colour = look.colour(tokens.blue if on else tokens.graphite)
        word = look.font("body")
        room = self.height() - 0.42 * em - 1.7 * word.caps
        side, gap = (min(1.72 * em, room), 0.42 * em) if room >= LEAST_ICON * em else (0.0, 0.0)
        top = (self.height() - side - gap - word.caps) / 2
        middle = self.width() / 2
        if side:
            icons.draw(painter, self.shown.key, QRectF(middle - side / 2, top, side, side), colour)
        font = look.font("bold" if self.shown.focused or on else "body")
        baseline = top + side + gap + word.caps
        strokes.write(painter, (middle, baseline), self.shown.word, font, colour, strokes.CENTRE)
        if on:
            strokes.fill(painter, QRectF(0, 0, 5, self.height()), look.colour(tokens.blue))
        at = (middle + side * 0.62, top - 2) if side else (self.width() - 1.1 * em, 1.0)
        self._badge(painter, QRectF(*at, 0.95 * em, 0.95 * em))
        painter.end()

    def _badge(self, painter: QPainter, rect: QRectF) -> None:
        badge, look = self.shown.badge, self.look
        if badge is None:
            return
        tokens = look.tokens
        fill = {"high": tokens.error, "medium": tokens.amber, "low": tokens.select}[badge]
        ink = look.colour(tokens.ink)
        if badge == "low":
            strokes.box(painter, rect, QPen(ink, 1.5), look.colour(fill), 0)
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
        path = icons.lines("12,1 23.5,22 0.5,22 z")
        painter.translate(rect.topLeft())
        painter.scale(rect.width() / icons.GRID, rect.height() / icons.GRID)
        painter.setPen(QPen(ink, 2.4))
        painter.setBrush(look.colour(fill))
        painter.drawPath(path)
        if badge == "high":
            painter.drawLine(12, 9, 12, 15)
            painter.drawPoint(12, 19)
        painter.resetTransform()


def rail_width(look: Look) -> int:
    """Width of the rail: room for the longest word at the body size."""
    return max(LEAST_PX, round(WIDTH_BODIES * look.metrics.body_px))


class RailRule(Piece):
    """The short line between the primary panes and the others."""

    def sizeHint(self) -> QSize:
        """A line with a little air."""
        return QSize(rail_width(self.look), round(2 * self.look.u))

    def paint(self, painter: QPainter, dirty: object) -> None:
        """Draw the line."""
        del dirty
        inset = self.width() * 0.2
        y = self.height() / 2
        strokes.across(painter, inset, self.width() - inset, y, self.colour("stroke"))


class Rail(QWidget):
    """The entries; only words and shapes, no colour alone."""

    chosen = Signal(str)

    def __init__(self, look: Look, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.look = look
        name_it(self, name, "Panes")
        self.buttons: dict[str, RailButton] = {}
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(0)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding)

    def draw(self, entries: Sequence[RailShown]) -> None:
        """Show the entries; buttons are made once."""
        for index, shown in enumerate(entries):
            if shown.key not in self.buttons:
                self._add(shown, index)
            elif self.buttons[shown.key].shown != shown:
                self.buttons[shown.key].draw(shown)

    def _add(self, shown: RailShown, index: int) -> None:
        if index == PRIMARY:
            rule = RailRule(self.look, f"{self.objectName()}.rule", "", self)
            rule.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
            self._column.addWidget(rule)
        button = RailButton(self.look, f"{self.objectName()}.{shown.key}", shown, self)
        button.clicked.connect(lambda: self.chosen.emit(shown.key))
        self.buttons[shown.key] = button
        self._column.addWidget(button)
