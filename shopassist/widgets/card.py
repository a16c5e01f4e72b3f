"""A narrow card that stands for another pane: its key number, and one line."""

import math

from PySide6.QtCore import QRect, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from shopassist.core.frozen import replace
from shopassist.widgets import bracket, icons, strokes
from shopassist.widgets.figure_view import SOURCE_TOKEN
from shopassist.widgets.look import Look
from shopassist.widgets.piece import describe, name_it
from shopassist.widgets.shown import CardShown

NUMBER_BODIES = 4.4


class Card(QAbstractButton):
    """Pressed, its pane takes the focus place."""

    def __init__(
        self, look: Look, name: str, shown: CardShown, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.look, self.shown = look, shown
        self._row = False
        self._digits = QRect()
        """Where the digits of a card stand, since they were painted last."""
        self._at = (0.0, 0.0)
        self._px = 0.0
        name_it(self, name, shown.title)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        # It paints every pixel of its own, so nothing behind it is painted for its digits.
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        look.changed.connect(self.updateGeometry)
        self._describe()

    def draw(self, shown: CardShown) -> None:
        """Show other facts."""
        if shown != self.shown:
            self.shown = shown
            self.setAccessibleName(shown.title)
            self._describe()
            self.update()

    def set_value(self, value: str) -> None:
        """Show other digits; nothing else is painted anew."""
        if value == self.shown.value:
            return
        same_length = len(value) == len(self.shown.value)
        self.shown = replace(self.shown, value=value)
        self._describe()
        self.update(self._digits) if same_length else self.update()

    def set_row(self, on: bool) -> None:  # noqa: FBT001 - a layout's choice
        """Fold to one line, for windows under a thousand pixels wide."""
        if on != self._row:
            self._row = on
            vertical = QSizePolicy.Policy.Fixed if on else QSizePolicy.Policy.Expanding
            self.setSizePolicy(QSizePolicy.Policy.Expanding, vertical)
            self.updateGeometry()
            self.update()

    def _describe(self) -> None:
        shown = self.shown
        number = f"{shown.value} {shown.unit}".strip()
        words = (shown.caption, number, shown.bracket.text if shown.bracket else "", shown.line)
        describe(self, ", ".join(word for word in words if word))

    def sizeHint(self) -> QSize:
        """A third of a narrow window, or one line."""
        em = self.look.metrics.body_px
        if self._row:
            return QSize(20 * em, max(self.look.mm(9), round(3 * em)))
        return QSize(round(20.6 * em), round(17 * em))

    def minimumSizeHint(self) -> QSize:
        """Header and number."""
        em = self.look.metrics.body_px
        return QSize(10 * em, self.sizeHint().height() if self._row else round(8.5 * em))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the card, or its digits alone."""
        painter = QPainter(self)
        tokens = self.look.tokens
        if not self._digits.isNull() and self._digits.contains(event.rect()):
            self._paint_digits(painter)
            painter.end()
            return
        inside = self.look.colour(tokens.select if self.isDown() else tokens.sheet)
        edge = QPen(self.look.colour(tokens.hair), 1)
        painter.fillRect(event.rect(), self.look.colour(tokens.bench))
        strokes.box(painter, QRectF(self.rect()), edge, inside)
        if self._row:
            self._paint_row(painter)
        else:
            self._paint_card(painter)
        painter.end()

    def _paint_digits(self, painter: QPainter) -> None:
        tokens = self.look.tokens
        painter.fillRect(self._digits, self.look.colour(tokens.sheet))
        colour = self.look.colour(getattr(tokens, SOURCE_TOKEN[self.shown.source]))
        font = self.look.font_px(self._px, bold=True)
        strokes.write(painter, self._at, self.shown.value, font, colour)

    def _paint_row(self, painter: QPainter) -> None:
        look, shown, em = self.look, self.shown, float(self.look.metrics.body_px)
        tokens = look.tokens
        x, middle = 3 * look.u, self.height() / 2
        side = 1.5 * em
        grey, ink = look.colour(tokens.graphite), look.colour(tokens.ink)
        icons.draw(painter, shown.icon, QRectF(x, middle - side / 2, side, side), grey)
        x += side + 1.5 * look.u
        baseline = middle + em * look.caps / 2
        x += strokes.write(painter, (x, baseline), shown.title, look.font("bold"), ink)
        x += 2.4 * look.u
        big = middle + 1.7 * em * look.caps / 2
        x += self._value(painter, (x, big), 1.7 * em) + look.u
        body = look.font("body")
        x += strokes.write(painter, (x, big), shown.unit, body, grey) + 2.4 * look.u
        caption = strokes.cut(body, shown.caption, self.width() - x - 2 * look.u)
        strokes.write(painter, (x, baseline), caption, body, grey)

    def _paint_card(self, painter: QPainter) -> None:
        look, em = self.look, float(self.look.metrics.body_px)
        side, right = 3 * look.u, self.width() - 3 * look.u
        self._header(painter, side, right)
        top = 2.9 * em
        block = self._block_height()
        y = top + max(0.6 * em, (self.height() - top - block) * 0.42)
        self._number(painter, (side, right), y)

    def _value(self, painter: QPainter, at: tuple[float, float], px: float) -> float:
        """Write the number, and keep where it stands; returns its width."""
        look, shown = self.look, self.shown
        colour = look.colour(getattr(look.tokens, SOURCE_TOKEN[shown.source]))
        self._at, self._px = at, px
        width = strokes.write(painter, at, shown.value, look.font_px(px, bold=True), colour)
        # Figures and colons: as high as capitals, nothing below the line, the caption close above.
        air = round(0.2 * look.metrics.body_px)
        high = math.ceil(px * look.caps) + 2 * air
        self._digits = QRect(round(at[0]), round(at[1]) - high + air, round(width), high)
        return width

    def _header(self, painter: QPainter, left: float, right: float) -> None:
        look, tokens, em = self.look, self.look.tokens, float(self.look.metrics.body_px)
        grey, ink = look.colour(tokens.graphite), look.colour(tokens.ink)
        size, baseline = 1.55 * em, 1.9 * em
        icons.draw(painter, self.shown.icon, QRectF(left, baseline - 1.2 * em, size, size), grey)
        x = left + size + 1.6 * look.u
        title = look.font("title")
        x += strokes.write(painter, (x, baseline), self.shown.title, title, ink)
        words = strokes.cut(look.font("body"), self.shown.right, right - x - 2 * look.u)
        at = (right, baseline)
        strokes.write(painter, at, words, look.font("body"), grey, strokes.RIGHT)
        strokes.across(painter, left, right, 2.9 * em, look.colour(tokens.hair))

    def _block_height(self) -> float:
        em, shown = self.look.metrics.body_px, self.shown
        lines = bool(shown.bracket) + bool(shown.line)
        return em * (1.4 + NUMBER_BODIES * self.look.caps + 0.9) + lines * 2.0 * em

    def _fitting(self, room: float) -> float:
        """The size of the number: the usual one, smaller where the card is narrow."""
        px = NUMBER_BODIES * self.look.metrics.body_px
        wide = self.look.font_px(px, bold=True).advance(self.shown.value)
        return px if wide <= room else px * room / wide

    def _number(self, painter: QPainter, sides: tuple[float, float], y: float) -> None:
        look, shown, em = self.look, self.shown, float(self.look.metrics.body_px)
        tokens, (left, right) = look.tokens, sides
        grey, body = look.colour(tokens.graphite), look.font("body")
        y += em
        words = strokes.cut(body, shown.caption, right - left)
        strokes.write(painter, (left, y), words, body, grey)
        px = self._fitting(right - left)
        y += 0.7 * em + px * look.caps
        x = left + self._value(painter, (left, y), px)
        unit = look.font_px(1.2 * em, bold=False)
        strokes.write(painter, (x + 1.8 * look.u, y), shown.unit, unit, grey)
        if shown.bracket:
            y += 2.1 * em
            bracket.paint_with_words(painter, look, (left, y), shown.bracket, right)
        if shown.line:
            y += 2.1 * em
            line = strokes.cut(body, shown.line, right - left)
            strokes.write(painter, (left, y), line, body, grey)
