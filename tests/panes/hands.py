"""Hands on one pane: it is shown as a window of its own, and worked by keys."""

from collections.abc import Iterator
from typing import TypeVar

from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QPushButton, QWidget

V = TypeVar("V", bound=QWidget)


def settle() -> None:
    """Let the pane draw what happened."""
    for _ in range(4):
        QApplication.processEvents()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def shown(made: V, width: int = 940, height: int = 570) -> Iterator[V]:
    """Show a pane at about its size in a low window, and take it away again."""
    made.resize(width, height)
    made.show()
    settle()
    yield made
    made.close()
    made.deleteLater()
    settle()


def type_into(view: QWidget, name: str, text: str) -> None:
    """Type in place of what stands in an entry; an empty text empties it."""
    line = view.findChild(QLineEdit, name)
    assert line is not None, name
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, text) if text else line.clear()
    QTest.keyClick(line, Qt.Key.Key_Return)
    settle()


def press(view: QWidget, name: str) -> None:
    """Press a button that is in sight, by the space bar."""
    button = view.findChild(QPushButton, name)
    assert button is not None, name
    assert button.isVisible(), name
    button.setFocus()
    QTest.keyClick(button, Qt.Key.Key_Space)
    settle()
