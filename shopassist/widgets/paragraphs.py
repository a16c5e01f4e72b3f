"""A column of wrapped words in a scroll area: a short text of several weights."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from shopassist.widgets.fonts import Role
from shopassist.widgets.look import Look
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading

Paragraph = tuple[Role, str, str]
"""Role of the font, name of the ink, words."""


class Paragraphs(QScrollArea):
    """Redrawn only when the words change; scrolled by the keyboard when it has the focus."""

    def __init__(self, look: Look, name: str, title: str, *, whole: bool = False) -> None:
        """Where it stands in something that is scrolled itself it is ``whole``."""
        super().__init__()
        name_it(self, name, title)
        self._whole = whole
        self._look = look
        self._title = title
        self._shown: tuple[Paragraph, ...] = ()
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.viewport().setAutoFillBackground(False)
        if whole:
            self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
            self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._build()

    def draw(self, paragraphs: tuple[Paragraph, ...]) -> None:
        """Show other paragraphs."""
        if paragraphs != self._shown:
            self._shown = paragraphs
            self._build()

    def _build(self) -> None:
        inner = QWidget()
        inner.setAutoFillBackground(False)
        column = self._column = QVBoxLayout(inner)
        column.setContentsMargins(0, 0, round(2 * self._look.u), 0)
        column.setSpacing(round(0.8 * self._look.u))
        for number, (role, ink, words) in enumerate(self._shown):
            if role == "bold" and number:
                column.addSpacing(round(1.6 * self._look.u))
            column.addWidget(Heading(self._look, f"{self.objectName()}.{number}", words, role, ink))
        column.addStretch(1)
        self.setWidget(inner)
        self.setAccessibleDescription(" ".join(words for _, _, words in self._shown))
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Words break elsewhere."""
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        if self._whole:
            self.setMinimumHeight(max(0, self._column.heightForWidth(self.viewport().width())))
