"""All alarms that stand, and the test of the sound, beside the panes."""

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QRect, QRectF, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPen
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from shopassist.widgets import strokes
from shopassist.widgets.card_room import CardRoom
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Piece, name_it
from shopassist.widgets.prose import Heading
from shopassist.widgets.shown import AlarmsShown

MOST = 8


class AlarmCard(Piece):
    """A list, three bursts to try, and the answer whether they were heard."""

    tested = Signal(str)
    heard = Signal()
    not_heard = Signal()
    closed = Signal()

    def __init__(self, look: Look, name: str) -> None:
        super().__init__(look, name, "Alarms")
        self._name = name
        column = QVBoxLayout(self)
        side = round(3 * look.u)
        column.setContentsMargins(side, round(3.4 * look.u), side, side)
        column.setSpacing(round(1.6 * look.u))
        column.addWidget(Heading(look, f"{name}.title", "Alarms", "title", "ink"))
        self.lines = [
            (
                Heading(look, f"{name}.line.{number}", "", "bold", "ink"),
                Heading(look, f"{name}.line.{number}.more", "", "body", "graphite"),
            )
            for number in range(MOST)
        ]
        self.room = CardRoom(round(1.6 * look.u))
        name_it(self.room, f"{name}.room", "Alarms that stand")
        for pair in self.lines:
            for heading in pair:
                self.room.column.addWidget(heading)
                heading.hide()
        column.addWidget(self.room, 1000)
        column.addSpacing(round(2 * look.u))
        self.sound = Heading(look, f"{name}.sound", "", "body", "ink")
        column.addWidget(self.sound)
        column.addWidget(Heading(look, f"{name}.test", "Play one, as it would sound:"))
        column.addLayout(self._tests())
        self.asked = QWidget()
        self.asked.setLayout(self._answers())
        self.asked.hide()
        column.addWidget(self.asked)
        column.addSpacing(round(2 * look.u))
        column.addWidget(self._button("close", "Close", self.closed.emit), 0, _LEFT)
        column.addStretch(1)

    def _tests(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(round(2 * self.look.u))
        for priority in ("low", "medium", "high"):
            act = partial(self.tested.emit, priority)
            row.addWidget(self._button(f"test.{priority}", priority.capitalize(), act))
        row.addStretch(1)
        return row

    def _answers(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(round(2 * self.look.u))
        row.addWidget(self._button("heard", "I heard it", self.heard.emit))
        row.addWidget(self._button("not_heard", "I heard nothing", self.not_heard.emit))
        row.addStretch(1)
        return row

    def take_focus(self) -> None:
        """Put the keyboard on the first test."""
        first = self.findChild(QPushButton, f"{self._name}.test.low")
        if isinstance(first, QPushButton):
            first.setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape puts it away."""
        if event.key() == Qt.Key.Key_Escape:
            self.closed.emit()
        else:
            super().keyPressEvent(event)

    def _button(self, name: str, words: str, act: Callable[[], object]) -> QPushButton:
        button = QPushButton(words)
        name_it(button, f"{self._name}.{name}", words)
        button.clicked.connect(lambda _=False: act())
        return button

    def draw(self, shown: AlarmsShown) -> None:
        """Show what stands now."""
        for number, (head, more) in enumerate(self.lines):
            there = number < len(shown.lines)
            for heading, words in zip((head, more), shown.lines[number] if there else ("", ""),
                                      strict=True):  # fmt: skip
                heading.draw(words)
                heading.setVisible(bool(words))
        self.room.updateGeometry()
        self.room.fit()
        self.sound.draw(shown.sound)
        self.asked.setVisible(shown.asks)

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw the sheet with a heavy edge at its top."""
        del dirty
        rect = QRectF(self.rect())
        strokes.box(painter, rect, QPen(self.colour("ink"), 1.5), self.colour("sheet"))
        strokes.fill(painter, QRectF(0, 0, rect.width(), 4), self.colour("ink"))


_LEFT = Qt.AlignmentFlag.AlignLeft
