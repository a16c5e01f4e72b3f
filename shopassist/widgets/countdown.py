"""The large digits. A tick repaints only the figures that changed."""

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPixmap, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from shopassist.widgets import fonts
from shopassist.widgets.fonts import Role
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Piece, describe

FIGURES = "0123456789"
LARGE_PX = 40
"""From this size on the white at both sides of a figure is wider than a pixel."""
OUTLINE_PX = 64
"""Above this size Qt keeps no picture of a letter and fills its outline at each painting."""
MOST_PICTURES = 120


class Countdown(Piece):
    """Digits of a fixed size that never roll and never push anything.

    They fill the room given and are never smaller than their role asks. All figures have one
    width, so only another number of signs changes their size.
    """

    def __init__(
        self,
        look: Look,
        name: str,
        label: str,
        role: Role = "digits",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(look, name, label, parent)
        self.role: Role = role
        self.words = "ink"
        self.ground = "sheet"
        self._text = "–"
        self._cells: list[QRect] = []
        self._places: list[QPointF] = []
        self._pictures: dict[tuple[str, int, float], QPixmap] = {}
        """Large figures, each as it is drawn in any cell: all begin on a whole pixel."""
        self._font: QFont = look.font(role)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self._fit()

    @property
    def text(self) -> str:
        """The digits as they stand."""
        return self._text

    def say(self, words: str) -> None:
        """Change the words for a screen reader; the owner decides how seldom."""
        describe(self, words)

    def set_digits(self, text: str) -> None:
        """Show other digits."""
        if text == self._text:
            return
        before, self._text = self._text, text
        first = next((i for i, (a, b) in enumerate(zip(before, text, strict=False)) if a != b), 0)
        if len(before) != len(text) or shape(before[first:]) != shape(text[first:]):
            self._fit()
            self.updateGeometry()
            self.update()
            return
        # What changes is always a tail: one rectangle is enough.
        self.update(self._cells[first].united(self._cells[-1]))

    def sizeHint(self) -> QSize:
        """Room for the digits in the least size."""
        px = fonts.role_px(self.role, self.look.metrics, self.look.caps)
        measure = QFontMetricsF(self.look.font_px(px, bold=True))
        width = measure.horizontalAdvance(shape(self._text)) + 2
        return QSize(round(width), round(1.16 * measure.capHeight()))

    def minimumSizeHint(self) -> QSize:
        """Never smaller than the least size."""
        return self.sizeHint()

    def relook(self) -> None:
        """Take the changed look."""
        self._fit()
        super().relook()

    def resizeEvent(self, _: QResizeEvent) -> None:
        """Fit the digits to the room."""
        self._fit()

    def _fit(self) -> None:
        look = self.look
        least = fonts.role_px(self.role, look.metrics, look.caps)
        measure = QFontMetricsF(look.font_px(1000, bold=True))
        wide = measure.horizontalAdvance(shape(self._text)) / 1000
        fitting = min(self.width() / wide, self.height() / (1.16 * look.caps))
        self._font = look.font_px(max(least, int(fitting)), bold=True)
        self._lay()

    def _lay(self) -> None:
        measure = QFontMetricsF(self._font)
        # The ink of the widest first figure stands on the margin.
        x = -min(measure.leftBearing(figure) for figure in FIGURES)
        whole = self._font.pixelSize() > OUTLINE_PX
        baseline = (self.height() + self._font.pixelSize() * self.look.caps) / 2
        self._cells, self._places = [], []
        self._pictures.clear()
        for sign in self._text:
            advance = measure.horizontalAdvance(sign)
            left = float(round(x)) if whole else x
            self._cells.append(QRectF(left, 0, advance, self.height()).toAlignedRect())
            self._places.append(QPointF(left, baseline))
            x += advance

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw the digits whose cells need it."""
        painter.fillRect(dirty, self.colour(self.ground))
        colour, ratio = self.colour(self.words), self.devicePixelRatioF()
        painter.setFont(self._font)
        painter.setPen(colour)
        # Cells are whole pixels and lap over their neighbours by one, which bears no ink.
        lap = 1 if self._font.pixelSize() >= LARGE_PX else 0
        # Between whole pixels a picture would be smoothed.
        pictured = self._font.pixelSize() > OUTLINE_PX and ratio.is_integer()
        for number, (sign, cell) in enumerate(zip(self._text, self._cells, strict=True)):
            if not cell.adjusted(lap, 0, -lap, 0).intersects(dirty):
                continue
            if pictured:
                painter.drawPixmap(cell.topLeft(), self._picture(number, colour, ratio))
            else:
                painter.drawText(self._places[number], sign)

    def _picture(self, number: int, colour: QColor, ratio: float) -> QPixmap:
        """One figure in its cell, drawn when it is first wanted."""
        sign, cell = self._text[number], self._cells[number]
        key = (sign, colour.rgba(), ratio)
        found = self._pictures.get(key)
        if found is None:
            if len(self._pictures) >= MOST_PICTURES:
                self._pictures.clear()
            found = self._pictures[key] = QPixmap(cell.size() * ratio)
            found.setDevicePixelRatio(ratio)
            found.fill(Qt.GlobalColor.transparent)
            painter = QPainter(found)
            painter.setFont(self._font)
            painter.setPen(colour)
            painter.drawText(self._places[number] - QPointF(cell.topLeft()), sign)
            painter.end()
        return found


def shape(text: str) -> str:
    """Return the text with every figure a nought: what decides about its width."""
    return "".join("0" if sign in FIGURES else sign for sign in text)
