"""Enter takes an entry and goes on to the next one; what was refused keeps the keyboard."""

from collections.abc import Iterable

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QScrollArea, QWidget

from shopassist.widgets.quantity_edit import QuantityEdit

ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


def go_on(event: QKeyEvent, fields: Iterable[QWidget]) -> None:
    """Bring the keyboard from the field that was entered to the next that can be typed in.

    A field has had its key before its parent hears of it; the last field keeps the keyboard.
    """
    if event.key() not in ENTER or event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier:
        event.ignore()
        return
    rest = iter(fields)
    here = next((each for each in rest if _line(each).hasFocus()), None)
    if here is None:
        event.ignore()
        return
    event.accept()
    if isinstance(here, QuantityEdit) and not here.is_settled:
        return
    target = next((line for each in rest if _takes_keys(line := _line(each))), None)
    if target is not None:
        target.setFocus(Qt.FocusReason.TabFocusReason)
        show_whole(target)


def _line(field: QWidget) -> QWidget:
    return field.line if isinstance(field, QuantityEdit) else field


def _takes_keys(field: QWidget) -> bool:
    locked = isinstance(field, QLineEdit) and field.isReadOnly()
    return field.isVisible() and field.isEnabled() and not locked


def show_whole(widget: QWidget) -> None:
    """Scroll until a widget is in sight; Qt does so for Tab alone."""
    around = widget.parentWidget()
    while around is not None:
        if isinstance(around, QScrollArea):
            around.ensureWidgetVisible(widget)
        around = around.parentWidget()
