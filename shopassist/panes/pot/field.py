"""The field for a gauge reading: empty, large, typed key by key, in the run's own unit."""

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QDragEnterEvent,
    QFontMetricsF,
    QInputMethodEvent,
    QKeyEvent,
    QKeySequence,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QSizePolicy, QWidget

from shopassist.widgets import strokes
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Piece, name_it

LONGEST = 40
"""Characters that any entry may have."""
_REFUSED = (Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_PageUp, Qt.Key.Key_PageDown)


class StrictEdit(QLineEdit):
    """Takes keys only: no paste, no drop, no arrows that change a value, no menu."""

    entered = Signal()

    def __init__(self, name: str, label: str) -> None:
        super().__init__()
        name_it(self, name, label)
        self.setFrame(False)
        self.setMaxLength(LONGEST)
        self.setAcceptDrops(False)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.NoContextMenu)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Take typing; a repeating key and a paste are not typing."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if not event.isAutoRepeat():
                self.entered.emit()
        elif event.key() in _REFUSED or event.matches(QKeySequence.StandardKey.Paste):
            event.ignore()
        elif event.isAutoRepeat() and event.text().isprintable():
            event.accept()
        else:
            super().keyPressEvent(event)

    def insertFromMimeData(self, *_: object) -> None:  # noqa: N802 - Qt's own name
        """Refuse what comes from the clipboard."""

    def inputMethodEvent(self, event: QInputMethodEvent) -> None:
        """Take composed characters, never a replacement of what stands."""
        if event.replacementLength() == 0:
            super().inputMethodEvent(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Refuse what is dragged."""
        event.ignore()

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """No menu, so no paste from it."""
        event.accept()


class TypedField(Piece):
    """The box round the edit, with its unit at the right."""

    def __init__(self, look: Look, name: str, label: str, parent: QWidget | None = None) -> None:
        super().__init__(look, f"{name}.box", label, parent)
        self.edit = StrictEdit(name, label)
        self._unit = ""
        self._row = QHBoxLayout(self)
        self._row.addWidget(self.edit)
        self.setFocusProxy(self.edit)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.relook()

    def set_unit(self, unit: str) -> None:
        """Print the unit beside the field; it is fixed for the run."""
        if unit != self._unit:
            self._unit = unit
            self.edit.setAccessibleDescription(unit)
            self.relook()

    def relook(self) -> None:
        """Take the changed look."""
        look = self.look
        self.edit.setFont(look.font("question"))
        palette = self.edit.palette()
        palette.setColor(palette.ColorRole.Text, self.colour("blue"))
        palette.setColor(palette.ColorRole.Base, self.colour("raised"))
        self.edit.setPalette(palette)
        side = round(3 * look.u)
        unit = QFontMetricsF(look.font("title")).horizontalAdvance(self._unit)
        self._row.setContentsMargins(side, 2, side + round(unit + 2 * look.u), 2)
        super().relook()

    def sizeHint(self) -> QSize:
        """High enough for a glove."""
        return QSize(self.look.mm(60), max(self.look.mm(19), self.edit.sizeHint().height() + 8))

    def minimumSizeHint(self) -> QSize:
        """Never lower."""
        return QSize(self.look.mm(36), self.sizeHint().height())

    def paint(self, painter: QPainter, dirty: object) -> None:
        """Draw the box and the unit."""
        del dirty
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(self.colour("stroke"), 1.5))
        painter.setBrush(self.colour("raised"))
        painter.drawRoundedRect(self.rect().adjusted(1, 1, -1, -1), 4, 4)
        font = self.look.font("title")
        wide = QFontMetricsF(font).horizontalAdvance(self._unit)
        x = self.width() - 3 * self.look.u - wide
        y = (self.height() + QFontMetricsF(font).capHeight()) / 2
        strokes.write(painter, (x, y), self._unit, font, self.colour("graphite"))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint by way of the piece."""
        super().paintEvent(event)
