"""Buttons that choose a page, in one row; and a column that may be scrolled."""

from collections.abc import Callable, Iterable, Mapping
from typing import TypeVar

from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QScrollArea, QWidget

from shopassist.widgets.piece import name_it

K = TypeVar("K", bound=str)


def tabs(
    name: str, entries: Iterable[tuple[K, str]], choose: Callable[[K], object]
) -> dict[K, QPushButton]:
    """Make a button for each page, named ``name.1`` and on; pressed, it chooses its key."""
    made: dict[K, QPushButton] = {}
    for number, (key, words) in enumerate(entries, 1):
        button = QPushButton(words)
        name_it(button, f"{name}.{number}", words)
        button.setProperty("kind", "tab")
        button.setCheckable(True)
        button.clicked.connect(lambda _=False, key=key: choose(key))
        made[key] = button
    return made


def row_of(buttons: Mapping[K, QPushButton], spacing: int | None = None) -> QHBoxLayout:
    """Lay buttons from the left."""
    row = QHBoxLayout()
    if spacing is not None:
        row.setSpacing(spacing)
    for button in buttons.values():
        row.addWidget(button)
    row.addStretch(1)
    return row


def grounded(widget: QWidget) -> QWidget:
    """Give a widget the ground of the sheet: what changes on it repaints nothing beneath."""
    widget.setBackgroundRole(QPalette.ColorRole.AlternateBase)
    widget.setAutoFillBackground(True)
    return widget


def scrolled(
    inside: QWidget, area: QScrollArea | None = None, *, by_keys: bool = True
) -> QScrollArea:
    """Let a column be scrolled where it is too high, on the ground of the sheet, without a frame.

    A form is scrolled by its entries and needs no stop of its own for the keyboard.
    """
    made = area or QScrollArea()
    if not by_keys:
        made.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    elif not made.accessibleName():
        made.setAccessibleName(inside.accessibleName())  # the keyboard stops here: by what name
    made.setWidgetResizable(True)
    made.setFrameShape(QFrame.Shape.NoFrame)
    made.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    made.setBackgroundRole(QPalette.ColorRole.AlternateBase)
    made.setWidget(inside)
    grounded(inside)
    return made
