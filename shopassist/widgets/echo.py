"""The line under an entry: how it was read, or what to change."""

from PySide6.QtGui import QResizeEvent

from shopassist.widgets.look import Look
from shopassist.widgets.piece import on_sheet
from shopassist.widgets.prose import Heading

INKS = {"label": "graphite", "strong": "ink", "error": "error"}


class Echo(Heading):
    """Words that change with every key: nothing is laid out anew while they need as many lines."""

    def __init__(self, look: Look, name: str) -> None:
        super().__init__(look, name, "")
        self._lines: list[str] = []
        self.setProperty("kind", "label")
        on_sheet(self)

    def text(self) -> str:
        """The words that stand here."""
        return self.words

    def say(self, words: str, kind: str) -> None:
        """Show other words, or the same in another way."""
        if (words, kind) == (self.words, self.property("kind")):
            return
        before, ink, role = self._lines, self.ink, self.role
        self.words = words
        self.setAccessibleName(words)
        self.setProperty("kind", kind)
        self.ink, self.role = INKS[kind], "bold" if kind == "strong" else "body"
        self._lines = self._wrapped(self.width())
        if max(1, len(self._lines)) != max(1, len(before)):
            self.updateGeometry()
            self.update()
        elif (ink, role) != (self.ink, self.role):
            self.update()
        else:
            for number, pair in enumerate(zip(before, self._lines, strict=False)):
                if pair[0] != pair[1]:
                    self.update(self._band(number))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Break the lines anew at another width."""
        super().resizeEvent(event)
        self._lines = self._wrapped(self.width())
