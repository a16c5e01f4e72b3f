"""Drives the real window as a person would: keys to whatever has the focus, and a look round."""

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QWidget

from shopassist import app
from shopassist.app.joined import Joined
from shopassist.clock.manual import ManualClock

W = TypeVar("W", bound=QWidget)


class Person:
    """Hands on the keyboard of one running program."""

    def __init__(self, folder: Path, clock: ManualClock | None = None) -> None:
        self.folder = folder
        self.clock = clock or ManualClock(offset=3600)
        self.program: Joined = app.build(
            ["--data-dir", str(folder), "--clock", "manual"], self.clock
        )
        self.clock.moved = self.program.base.session.beat
        self.program.base.state.put("shop_told", "yes")
        self.program.window.resize(1366, 740)
        self.program.window.show()
        self.look()

    def look(self) -> None:
        """Let the window draw what happened."""
        for _ in range(3):
            QApplication.processEvents()

    def find(self, kind: type[W], name: str) -> W:
        found = self.program.window.findChild(kind, name)
        assert found is not None, f"there is no {name}"
        return found

    def visible(self, name: str) -> bool:
        found = self.program.window.findChild(QWidget, name)
        return found is not None and found.isVisible()

    def keys(self, text: str) -> None:
        """Type into whatever has the keyboard; a tab goes on."""
        for letter in text:
            target = QApplication.focusWidget()
            assert target is not None, "nothing has the keyboard"
            if letter == "\t":
                self.tab()
            else:
                QTest.keyClicks(target, letter)
        self.look()

    def key(
        self, key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier
    ) -> None:
        target = QApplication.focusWidget() or self.program.window
        QTest.keyClick(target, key, modifier)
        self.look()

    def sequence(self, keys: str) -> None:
        """Press a combination as it is written in a menu."""
        target = QApplication.focusWidget() or self.program.window
        QTest.keySequence(target, QKeySequence(keys))
        self.look()

    def enter(self) -> None:
        self.key(Qt.Key.Key_Return)

    def tab(self, times: int = 1) -> None:
        for _ in range(times):
            self.key(Qt.Key.Key_Tab)

    def tab_to(self, name: str, most: int = 60) -> None:
        """Go on with Tab until the named widget has the keyboard."""
        for _ in range(most):
            focused = QApplication.focusWidget()
            if focused is not None and focused.objectName() == name:
                return
            self.tab()
        raise AssertionError(f"Tab never reaches {name}")

    def press(self, name: str) -> None:
        """Press a button by the keyboard: Tab to it, then Space."""
        self.tab_to(name)
        self.key(Qt.Key.Key_Space)

    def click(self, name: str) -> None:
        self.find(QAbstractButton, name).click()
        self.look()

    def until(self, done: Callable[[], bool], what: str, most: int = 200) -> None:
        for _ in range(most):
            if done():
                return
            QApplication.processEvents()
        raise AssertionError(what)

    def close(self) -> None:
        self.program.close()
        self.program.window.close()
        self.look()
        self.program.window.deleteLater()
        self.program.theme.deleteLater()

    def kill(self) -> None:
        """The process is gone without a word: nothing is said to the journal any more."""
        program = self.program
        program._closed = True
        for stop in program._stops:
            stop()
        program.late.close()
        program.journal.close()
        program.window.hide()
        program.window.deleteLater()
        program.theme.deleteLater()
        self.look()
