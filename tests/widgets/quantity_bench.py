"""A window with one quantity field in it, for the tests of that field."""

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QPushButton, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from shopassist.core.entry import Entry, EntrySpec
from shopassist.core.errors import EntryError
from shopassist.core.wording import Wording
from shopassist.widgets.look import Look
from shopassist.widgets.quantity_edit import QuantityEdit


class Bench:
    """A window with one field, something else to go to, and what the field has told."""

    def __init__(
        self,
        qtbot: QtBot,
        look: Look,
        spec: EntrySpec,
        wording: Wording,
        *,
        strict: bool = False,
        compact: bool = False,
    ) -> None:
        self.qtbot = qtbot
        self.window = QWidget()
        qtbot.addWidget(self.window)
        self.edit = QuantityEdit(
            look, "mix.amount", "Needed", spec, wording, strict=strict, compact=compact
        )
        self.other = QLineEdit()
        column = QVBoxLayout(self.window)
        column.addWidget(self.edit)
        column.addWidget(self.other)
        self.edited: list[Entry | None] = []
        self.committed: list[Entry | None] = []
        self.refused: list[EntryError] = []
        self.edit.edited.connect(self.edited.append)
        self.edit.committed.connect(self.committed.append)
        self.edit.refused.connect(self.refused.append)
        with qtbot.waitActive(self.window):
            self.window.show()
            self.window.activateWindow()
        self.edit.setFocus()

    def type(self, text: str) -> None:
        QTest.keyClicks(self.edit.line, text)

    def press(
        self, key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier
    ) -> None:
        QTest.keyClick(self.edit.line, key, modifier)

    def leave(self) -> None:
        self.other.setFocus()

    def state(self) -> str:
        return str(self.edit.line.property("state"))

    @property
    def choices(self) -> list[str]:
        buttons = self.edit.findChildren(QPushButton)
        return [b.accessibleName() for b in buttons if b.isVisible()]
