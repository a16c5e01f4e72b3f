"""The sheet over the pane on which a logged warm-up is typed."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QPainter, QPaintEvent, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QPlainTextEdit, QPushButton, QVBoxLayout, QWidget

from shopassist.panes.warmup.presenter import WarmupPresenter
from shopassist.panes.warmup.screen import LearnShown
from shopassist.widgets.look import Look
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading
from shopassist.widgets.wait_block import TwoEnds

RESULTS = 4
EXAMPLE = "0 18.5\n15 26.0\n30 31.5\n1:00 36.5"


class LearnSheet(QWidget):
    """A log at the left, what it tells at the right."""

    def __init__(self, look: Look, presenter: WarmupPresenter) -> None:
        super().__init__()
        name_it(self, "warmup.learn", "Learn the cabinet from a logged warm-up")
        self.look, self._presenter = look, presenter
        self.log = QPlainTextEdit()
        name_it(self.log, "warmup.learn.log", "Minutes and degrees, one reading a line")
        self.log.setTabChangesFocus(True)
        self.log.setPlaceholderText(EXAMPLE)
        self.setFocusProxy(self.log)
        self._build()
        escape = QShortcut(QKeySequence(Qt.Key.Key_Escape), self)
        escape.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        escape.activated.connect(presenter.on_learn_close)

    def _build(self) -> None:
        look = self.look
        column = QVBoxLayout(self)
        side = round(3 * look.u)
        column.setContentsMargins(side, side, side, side)
        self.hint = Heading(look, "warmup.learn.hint", "")
        column.addWidget(self.hint)
        row = QHBoxLayout()
        row.setSpacing(round(4 * look.u))
        row.addWidget(self.log, 1)
        right = QVBoxLayout()
        self.results = [
            TwoEnds(look, f"warmup.learn.result.{n}", "", ("", "")) for n in range(1, RESULTS + 1)
        ]
        for each in self.results:
            right.addWidget(each)
        self.message = Heading(look, "warmup.learn.message", "", "bold", "error")
        self.reason = Heading(look, "warmup.learn.keep_reason", "")
        right.addWidget(self.message)
        right.addStretch(1)
        right.addWidget(self.reason)
        row.addLayout(right, 2)
        column.addLayout(row, 1)
        column.addLayout(self._buttons())

    def _buttons(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(round(2 * self.look.u))
        self.work_out = QPushButton("Work it out")
        self.keep = QPushButton("Keep in the cabinet's record")
        self.close_it = QPushButton("Close")
        for name, button in (
            ("work_out", self.work_out), ("keep", self.keep), ("close", self.close_it),
        ):  # fmt: skip
            name_it(button, f"warmup.learn.{name}", button.text())
            button.setAutoDefault(True)
            row.addWidget(button)
        row.addStretch(1)
        self.work_out.setProperty("kind", "primary")
        self.work_out.clicked.connect(lambda: self._presenter.on_learn_log(self.log.toPlainText()))
        self.keep.clicked.connect(self._presenter.on_learn_keep)
        self.close_it.clicked.connect(self._presenter.on_learn_close)
        return row

    def draw(self, shown: LearnShown) -> None:
        """Show what the log tells."""
        self.hint.draw(shown.hint)
        self.message.draw(shown.message)
        self.message.setVisible(bool(shown.message))
        self.reason.draw(shown.keep_reason)
        self.reason.setVisible(bool(shown.keep_reason))
        self.keep.setEnabled(shown.can_keep)
        pairs = (*shown.result, *[("", "")] * RESULTS)
        for view, pair in zip(self.results, pairs, strict=False):
            view.draw(pair)
            view.setVisible(bool(pair[0]))

    def paintEvent(self, _: QPaintEvent) -> None:
        """Paper, so that nothing shows through."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), self.look.colour(self.look.tokens.sheet))
        painter.end()
