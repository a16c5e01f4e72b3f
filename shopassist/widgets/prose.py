"""Words that wrap, drawn from the look."""

import re
from math import ceil, floor

from PySide6.QtCore import QPointF, QRect, QSize
from PySide6.QtGui import QPainter, QTextLayout, QTextOption
from PySide6.QtWidgets import QSizePolicy

from shopassist.widgets import strokes
from shopassist.widgets.fonts import Face, Role
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Piece

MOST_BROKEN = 1000
"""Lines that a face remembers: a layout asks for them a hundred times, then painting."""


class Heading(Piece):
    """A line of quiet words that wraps."""

    def __init__(
        self, look: Look, name: str, words: str, role: Role = "body", ink: str = "graphite"
    ) -> None:
        super().__init__(look, name, words)
        self.words, self.role, self.ink = words, role, ink
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def draw(self, words: str) -> None:
        """Show other words."""
        if words != self.words:
            self.words = words
            self.setAccessibleName(words)
            self.updateGeometry()
            self.update()

    def hasHeightForWidth(self) -> bool:
        """Words wrap."""
        return True

    def heightForWidth(self, width: int) -> int:
        """As many lines as they need."""
        return round(max(1, len(self._wrapped(width))) * self._step()) + 1

    def _wrapped(self, width: int) -> list[str]:
        return wrapped(self.look, self.role, self.words, width)

    def sizeHint(self) -> QSize:
        """Without wrapping."""
        parts = self.words.split("\n")
        face = self.look.font(self.role)
        width = max(face.advance(part) for part in parts)
        return QSize(round(width) + 2, round(len(parts) * self._step()) + 1)

    def minimumSizeHint(self) -> QSize:
        """One line of any width."""
        return QSize(0, round(self._step()) + 1)

    def _step(self) -> float:
        return 1.34 * self.look.font(self.role).pixelSize()

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Write the lines that need it."""
        font, colour, step = self.look.font(self.role), self.colour(self.ink), self._step()
        y = (step + self.look.font(self.role).caps) / 2
        for number, line in enumerate(self._wrapped(self.width())):
            if self._band(number).intersects(dirty):
                strokes.write(painter, (0, y + number * step), line, font, colour)

    def _band(self, number: int) -> QRect:
        """Where a line stands: what hangs below it and rises above it has room there."""
        step = self._step()
        top, bottom = floor(number * step), ceil((number + 1) * step)
        return QRect(0, top, self.width(), bottom - top)


class Question(Heading):
    """At most two short sentences in capitals of 5.6 mm; each starts a line of its own."""

    def __init__(self, look: Look, name: str, words: str = "") -> None:
        super().__init__(look, name, words, "question", "ink")


UNIT_SPACE = re.compile(r"(?<=\d) (?=[A-Za-z°%µ]{1,3}\b|%)")
"""The space between a number and its unit."""


def wrapped(look: Look, role: Role, words: str, width: float) -> list[str]:
    """Break words into lines; sentences ending in a line break keep it."""
    face = look.font(role)
    found: list[str] = []
    for part in filter(None, words.split("\n")):
        lines = face.broken.get((part, width))
        if lines is None:
            if len(face.broken) > MOST_BROKEN:
                face.broken.clear()
            lines = face.broken[part, width] = _break(face, part, width)
        found += lines
    return found


def _break(font: Face, part: str, width: float) -> list[str]:
    if font.advance(part) < width:
        return [part.rstrip()]
    # No line is broken inside a number or a range, nor before its unit.
    whole = UNIT_SPACE.sub("\u00a0", part.replace("\u2009", "\u00a0"))
    layout = QTextLayout(whole, font)
    option = QTextOption()
    option.setWrapMode(QTextOption.WrapMode.WordWrap)
    layout.setTextOption(option)
    found = []
    layout.beginLayout()
    while (line := layout.createLine()).isValid():
        line.setLineWidth(max(1.0, width))
        line.setPosition(QPointF(0, 0))
        start = line.textStart()
        found.append(part[start : start + line.textLength()].rstrip())
    layout.endLayout()
    return found
