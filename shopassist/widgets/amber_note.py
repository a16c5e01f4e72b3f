"""A caution beside the number it belongs to; it pushes nothing away."""

from PySide6.QtCore import QRect, QRectF, QSize
from PySide6.QtGui import QColor, QPainter, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from shopassist.widgets import icons, strokes
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Piece, describe
from shopassist.widgets.prose import wrapped

HEIGHT_BODIES = 3.5


class AmberNote(Piece):
    """First line what, second line why or what to do."""

    def __init__(self, look: Look, name: str, parent: QWidget | None = None) -> None:
        super().__init__(look, name, "Note", parent)
        self.what, self.why = "", ""
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        policy.setRetainSizeWhenHidden(False)
        self.setSizePolicy(policy)
        self.hide()

    def draw(self, what: str, why: str = "") -> None:
        """Show a note; no words hide it."""
        if (what, why) != (self.what, self.why):
            self.what, self.why = what, why
            self.setAccessibleName(what or "Note")
            describe(self, why)
            self.updateGeometry()
            self.update()
        self.setVisible(bool(what))

    def hasHeightForWidth(self) -> bool:
        """Words wrap."""
        return True

    def heightForWidth(self, width: int) -> int:
        """As many lines as the words need."""
        return round(self._lines_height(width))

    def sizeHint(self) -> QSize:
        """Two lines."""
        look = self.look
        words = max(
            look.font("bold").advance(self.what),
            look.font("body").advance(self.why),
        )
        width = round(words + self._block() + 3.4 * look.u)
        return QSize(width, round(self._lines_height(width)))

    def minimumSizeHint(self) -> QSize:
        """Narrow is possible, the words wrap."""
        width = round(self._block() + 8 * self.look.metrics.body_px)
        return QSize(width, round(HEIGHT_BODIES * self.look.metrics.body_px))

    def _block(self) -> float:
        return 2.4 * self.look.metrics.body_px

    def _room(self, width: float) -> float:
        return width - self._block() - 3 * self.look.u

    def _texts(self, width: float) -> tuple[list[str], list[str]]:
        room = self._room(width)
        return (
            wrapped(self.look, "bold", self.what, room),
            wrapped(self.look, "body", self.why, room),
        )

    def _lines_height(self, width: float) -> float:
        what, why = self._texts(width)
        em = self.look.metrics.body_px
        return max(HEIGHT_BODIES * em, (len(what) + len(why)) * 1.4 * em + 0.9 * em)

    def block_colours(self) -> tuple[str, str]:
        """Tokens of the block and of the mark on it."""
        return "amber", "on_amber"

    def draw_mark(self, painter: QPainter, place: QRectF, colour: QColor) -> None:
        """Draw what stands in the block."""
        icons.draw(painter, "triangle", place, colour)

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw the strip, the block with its triangle and the words."""
        del dirty
        look, em = self.look, float(self.look.metrics.body_px)
        ink = self.colour("ink")
        rect = QRectF(0, 0, self.width(), min(self.height(), self._lines_height(self.width())))
        field, mark = self.block_colours()
        strokes.box(painter, rect, None, self.colour("raised"))
        block = QRectF(0, 0, self._block(), rect.height())
        strokes.box(painter, block, None, self.colour(field))
        strokes.fill(painter, block.adjusted(6, 0, 0, 0), self.colour(field))
        strokes.box(painter, rect, QPen(ink, 1.5))
        side = 1.5 * em
        place = QRectF((block.width() - side) / 2, (rect.height() - side) / 2, side, side)
        self.draw_mark(painter, place, self.colour(mark))
        what, why = self._texts(rect.width())
        step = 1.4 * em
        y = (rect.height() - step * (len(what) + len(why))) / 2
        caps = em * look.caps
        x = self._block() + 1.5 * look.u
        for index, line in enumerate(what + why):
            font = look.font("bold" if index < len(what) else "body")
            strokes.write(painter, (x, y + (step + caps) / 2), line, font, ink)
            y += step
