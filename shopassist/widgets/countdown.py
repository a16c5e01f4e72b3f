"""The large digits. A tick repaints only the figures that changed."""

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from shopassist.widgets import fonts
from shopassist.widgets.fonts import Role
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Piece, describe

FIGURES = "0123456789"


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
        self._start = 0.0
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
        before, cells = self._text, self._cells
        self._text = text
        if shape(before) != shape(text):
            self._fit()
            self.updateGeometry()
            self.update()
            return
        changed = QRect()
        for old, new, cell in zip(before, text, cells, strict=True):
            if old != new:
                changed = changed.united(cell)
        self.update(changed)

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
        self._start = x
        self._cells = []
        for sign in self._text:
            advance = measure.horizontalAdvance(sign)
            self._cells.append(QRectF(x, 0, advance, self.height()).toAlignedRect())
            x += advance

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw the digits whose cells need it."""
        painter.fillRect(dirty, self.colour(self.ground))
        painter.setFont(self._font)
        painter.setPen(self.colour(self.words))
        caps = self._font.pixelSize() * self.look.caps
        baseline = (self.height() + caps) / 2
        x = self._start
        measure = QFontMetricsF(self._font)
        for sign, cell in zip(self._text, self._cells, strict=True):
            if cell.intersects(dirty):
                painter.drawText(QPointF(x, baseline), sign)
            x += measure.horizontalAdvance(sign)


def shape(text: str) -> str:
    """Return the text with every figure a nought: what decides about its width."""
    return "".join("0" if sign in FIGURES else sign for sign in text)
