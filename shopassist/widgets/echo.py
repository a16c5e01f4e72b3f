"""The line under an entry: how it was read, or what to change."""

from PySide6.QtGui import QResizeEvent

from shopassist.widgets.look import Look
from shopassist.widgets.prose import Heading, wrapped

INKS = {"label": "graphite", "strong": "ink", "error": "error"}


class Echo(Heading):
    """Words that change with every key: nothing is laid out anew while they need as many lines."""

    def __init__(self, look: Look, name: str) -> None:
        super().__init__(look, name, "")
        self._lines = 1
        self.setProperty("kind", "label")

    def text(self) -> str:
        """The words that stand here."""
        return self.words

    def say(self, words: str, kind: str) -> None:
        """Show other words, or the same in another way."""
        if (words, kind) == (self.words, self.property("kind")):
            return
        self.words = words
        self.setAccessibleName(words)
        self.setProperty("kind", kind)
        self.ink, self.role = INKS[kind], "bold" if kind == "strong" else "body"
        if self._count() != self._lines:
            self._lines = self._count()
            self.updateGeometry()
        self.update()

    def _count(self) -> int:
        return max(1, len(wrapped(self.look, self.role, self.words, self.width())))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Count the lines anew at another width."""
        super().resizeEvent(event)
        self._lines = self._count()
