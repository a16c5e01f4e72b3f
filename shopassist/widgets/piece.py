"""The base of the painted pieces."""

from typing import Generic, TypeVar

from PySide6.QtCore import QRect, QSize
from PySide6.QtGui import (
    QAccessible,
    QAccessibleEvent,
    QColor,
    QPainter,
    QPaintEvent,
    QPalette,
    QRegion,
)
from PySide6.QtWidgets import QWidget

from shopassist.widgets.look import Look

S = TypeVar("S")


def name_it(widget: QWidget, name: str, label: str) -> None:
    """Give a widget the name that tests find it by and the one that is read aloud."""
    widget.setObjectName(name)
    widget.setAccessibleName(label)


def describe(widget: QWidget, words: str) -> None:
    """Change what a screen reader says of a widget, only when it differs."""
    if widget.accessibleDescription() != words:
        widget.setAccessibleDescription(words)
        if QAccessible.isActive():  # pragma: no cover - needs a screen reader
            QAccessible.updateAccessibility(
                QAccessibleEvent(widget, QAccessible.Event.DescriptionChanged)
            )


def on_sheet(widget: QWidget) -> None:
    """Have a widget fill its own ground with the colour of the sheet that it stands on.

    Whatever lies behind it, up to the window, is then not painted anew when it changes.
    """
    widget.setBackgroundRole(QPalette.ColorRole.AlternateBase)
    widget.setAutoFillBackground(True)


class Piece(QWidget):
    """A widget that draws itself from the look."""

    def __init__(self, look: Look, name: str, label: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.look = look
        name_it(self, name, label)
        look.changed.connect(self.relook)

    def relook(self) -> None:
        """Take the changed look."""
        self.updateGeometry()
        self.update()

    def wear(self, look: Look) -> None:
        """Take another look for a while."""
        self.look = look
        self.relook()

    def colour(self, token: str) -> QColor:
        """Colour of a token by its name."""
        return self.look.colour(getattr(self.look.tokens, token))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint what needs it."""
        painter = QPainter(self)
        try:
            self.paint(painter, event.rect())
        finally:
            painter.end()

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw the piece; the dirty rectangle may be smaller than the piece."""
        raise NotImplementedError


class Drawn(Piece, Generic[S]):
    """A piece that shows one frozen value."""

    def __init__(
        self, look: Look, name: str, label: str, shown: S, parent: QWidget | None = None
    ) -> None:
        super().__init__(look, name, label, parent)
        self.shown = shown
        self._hinted: QSize | None = None
        """What it asked for when it was drawn last; None: not known any more."""
        describe(self, self.spoken())

    def relook(self) -> None:
        """Take the changed look."""
        self._hinted = None
        super().relook()

    def draw(self, shown: S) -> None:
        """Show another value; nothing happens when it is the same."""
        if shown == self.shown:
            return
        if self._hinted is None:
            self._hinted = self.sizeHint()
        old, self.shown = self.shown, shown
        describe(self, self.spoken())
        if self.reshaped(old):
            self.updateGeometry()
            self.update()
            return
        part = self.touched(old)
        if part is None:
            self.update()
        else:
            self.update(part)

    def reshaped(self, before: S) -> bool:
        """Whether it asks for another size than with the value before."""
        del before
        asked, self._hinted = self._hinted, self.sizeHint()
        return asked != self._hinted

    def touched(self, before: S) -> QRegion | None:
        """What has to be painted anew after another value; None: all of it."""
        del before
        return None

    def spoken(self) -> str:
        """Say what the piece shows, in words."""
        return ""
