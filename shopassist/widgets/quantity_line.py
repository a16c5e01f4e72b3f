"""The raised box that a quantity is typed into, with its unit at the right."""

import re

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QFocusEvent,
    QInputMethodEvent,
    QKeyEvent,
    QKeySequence,
    QMouseEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QLabel, QLineEdit

from shopassist.widgets.look import Look
from shopassist.widgets.piece import name_it

_TAKEN_LENGTH = 120
"""More than an entry may have, so that too much is told and not cut off in silence."""
_OWN_UNIT = re.compile(r"[^\d\s.,+\-−/½⅓⅔¼¾⅛⅜⅝⅞\u2009]")
_STEPS = (Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_PageUp, Qt.Key.Key_PageDown)
_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class QuantityLine(QLineEdit):
    """One line of free text. A strict one takes keys alone: nothing pasted, dropped or repeated."""

    entered = Signal()
    left = Signal()

    def __init__(self, look: Look, name: str, label: str, *, strict: bool = False) -> None:
        super().__init__()
        name_it(self, name, label)
        self.look = look
        self.strict = strict
        self.unit = QLabel(self)
        self.unit.setProperty("kind", "label")
        self.unit.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setMaxLength(_TAKEN_LENGTH)
        self.setProperty("typed", "true")
        self.setProperty("state", "")
        if strict:
            self.setAcceptDrops(False)
            self.setContextMenuPolicy(Qt.ContextMenuPolicy.NoContextMenu)
        self.textChanged.connect(self._show_unit)
        look.changed.connect(self._fit)

    def set_unit(self, unit: str) -> None:
        """Print the unit that a bare number takes."""
        if unit != self.unit.text():
            self.unit.setText(unit)
            self._fit()

    def dress(self, state: str) -> None:
        """Look typed (``""``), like a ``default`` or like an ``error``."""
        if state != self.property("state"):
            self.setProperty("state", state)
            self.setProperty("typed", "false" if state == "default" else "true")
            if self.testAttribute(Qt.WidgetAttribute.WA_WState_Polished):
                self.style().unpolish(self)
                self.style().polish(self)
            self._fit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter is told; a strict line also refuses paste, steps and a key that repeats."""
        if event.key() in _ENTER:
            if not event.isAutoRepeat():
                self.entered.emit()
                event.setAccepted(self.strict)  # a form around it may go on to its next entry
        elif self.strict and self._refuses(event):
            event.ignore()
        else:
            super().keyPressEvent(event)

    @staticmethod
    def _refuses(event: QKeyEvent) -> bool:
        repeats = event.isAutoRepeat() and event.text().isprintable() and event.text() != ""
        return repeats or event.key() in _STEPS or event.matches(QKeySequence.StandardKey.Paste)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """The middle button pastes on some systems."""
        if not (self.strict and event.button() == Qt.MouseButton.MiddleButton):
            super().mouseReleaseEvent(event)

    def inputMethodEvent(self, event: QInputMethodEvent) -> None:
        """Take composed characters; a strict line lets nothing be replaced."""
        if not (self.strict and event.replacementLength()):
            super().inputMethodEvent(event)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """A strict line has no menu, so no paste from it."""
        if self.strict:
            event.accept()
        else:  # pragma: no cover - opens a menu and waits for it
            super().contextMenuEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Arriving by key selects everything: the next digit replaces it."""
        super().focusInEvent(event)
        if event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason):
            self.selectAll()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Leaving is told; a menu or another window in front is no leaving."""
        super().focusOutEvent(event)
        if event.reason() not in (
            Qt.FocusReason.PopupFocusReason,
            Qt.FocusReason.ActiveWindowFocusReason,
        ):
            self.left.emit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the unit at the right."""
        super().resizeEvent(event)
        self._place()

    def _show_unit(self) -> None:
        """A unit that was typed stands for itself."""
        self.unit.setVisible(not _OWN_UNIT.search(self.text()))

    def _fit(self) -> None:
        self.unit.adjustSize()
        gap = round(2 * self.look.u) if self.unit.text() else 0
        self.setTextMargins(0, 0, self.unit.width() + gap if gap else 0, 0)
        self._show_unit()
        self._place()

    def _place(self) -> None:
        right = self.width() - round(2 * self.look.u)
        self.unit.move(right - self.unit.width(), (self.height() - self.unit.height()) // 2)
