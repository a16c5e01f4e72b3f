"""Where the keyboard goes when what it was in is gone: never into something out of sight."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget
from shiboken6 import isValid


def take_focus(pane: QWidget) -> None:
    """Bring the keyboard into a pane, to what is in sight there."""
    take = getattr(pane, "take_focus", None)
    if take is not None:
        take()
    held = QApplication.focusWidget()
    if held is not None and not held.isVisible():
        pane.window().focusNextChild()


def give_back(before: QWidget | None, pane: QWidget) -> None:
    """Bring the keyboard back to where it was, or into the pane where that is gone by now."""
    if before is not None and isValid(before) and before.isVisible():
        before.setFocus(Qt.FocusReason.OtherFocusReason)
    else:
        take_focus(pane)
