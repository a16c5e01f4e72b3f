"""The field for a gauge reading: empty, large, typed key by key, in the run's own unit."""

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QDragEnterEvent,
    QInputMethodEvent,
    QKeyEvent,
    QKeySequence,
    QPainter,
    QResizeEvent,
)
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QSizePolicy, QWidget

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
    """The edit with its unit printed inside at the right; as high as a glove needs."""

    def __init__(self, look: Look, name: str, label: str, parent: QWidget | None = None) -> None:
        super().__init__(look, f"{name}.box", label, parent)
        self.edit = StrictEdit(name, label)
        self._unit = QLabel(self.edit)
        self._unit.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self._unit.setObjectName(f"{name}.unit")
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self.edit)
        self.edit.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setFocusProxy(self.edit)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.relook()

    def set_unit(self, unit: str) -> None:
        """Print the unit in the field; it is fixed for the run."""
        if unit != self._unit.text():
            self._unit.setText(unit)
            self.edit.setAccessibleDescription(unit)
            self._place()

    def relook(self) -> None:
        """Take the changed look."""
        look = self.look
        self.edit.setFont(look.font("question"))
        palette = self.edit.palette()
        palette.setColor(palette.ColorRole.Text, self.colour("blue"))
        self.edit.setPalette(palette)
        self._unit.setFont(look.font_px(look.font("title").pixelSize(), bold=False))
        self._place()
        super().relook()

    def resizeEvent(self, _: QResizeEvent) -> None:
        """Keep the unit at the right."""
        self._place()

    def _place(self) -> None:
        side = round(3 * self.look.u)
        size = self._unit.sizeHint()
        self.edit.setTextMargins(side // 2, 0, size.width() + side, 0)
        left, top = self.width() - size.width() - side, (self.height() - size.height()) // 2
        self._unit.setGeometry(left, top, size.width(), size.height())

    def sizeHint(self) -> QSize:
        """High enough for a glove."""
        return QSize(self.look.mm(60), max(self.look.mm(19), self.edit.sizeHint().height()))

    def minimumSizeHint(self) -> QSize:
        """Never lower."""
        return QSize(self.look.mm(36), self.sizeHint().height())

    def paint(self, painter: QPainter, dirty: object) -> None:
        """Nothing beside the edit."""
