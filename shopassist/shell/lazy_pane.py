"""A pane that is built when it first comes into sight."""

from collections.abc import Callable

from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget


class LazyPane(QWidget):
    """Stands in a pane's place and passes on what the window says to it."""

    def __init__(self, name: str, build: Callable[[], QWidget]) -> None:
        super().__init__()
        self.setObjectName(f"{name}.place")
        self._build = build
        self._focused = False
        self.view: QWidget | None = None
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)

    def built(self) -> QWidget:
        """The pane itself; built now if it was not yet."""
        if self.view is None:
            self.view = self._build()
            self._column.addWidget(self.view)
            if self.isVisible():  # now, not at the next turn: the keyboard goes into it at once
                self.view.show()
            self._tell_focus()
        return self.view

    def showEvent(self, event: QShowEvent) -> None:
        """Build before the first paint of this pane; time went by while it was out of sight."""
        self.built()
        super().showEvent(event)
        self.tick()

    def set_focused(self, focused: bool) -> None:  # noqa: FBT001 - reads as a property
        """Whether this is the pane in hand."""
        self._focused = focused
        self._tell_focus()

    def _tell_focus(self) -> None:
        tell = getattr(self.view, "set_focused", None)
        if tell is not None:
            tell(self._focused)

    def take_focus(self) -> None:
        """Bring the keyboard into the pane."""
        take = getattr(self.built(), "take_focus", None)
        if take is not None:
            take()

    def tick(self) -> None:
        """Pass a second on, while the pane is in sight."""
        if self.view is None or not self.isVisible():
            return
        tick = getattr(self.view, "tick", None)
        if tick is not None:
            tick()
