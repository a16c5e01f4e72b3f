"""Pieces that fill their own ground show the window as it is without that, in every pane."""

import pytest
from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QImage, QPalette
from PySide6.QtWidgets import QApplication, QWidget

from shopassist.widgets.theme import Choice
from tests.app.driver import Person


def filled(window: QWidget) -> list[QWidget]:
    """What fills its ground as a sheet does, among what is seen."""
    role = QPalette.ColorRole.AlternateBase
    return [
        each for each in window.findChildren(QWidget)
        if each.autoFillBackground() and each.backgroundRole() == role and each.isVisible()
    ]  # fmt: skip


def grabbed(window: QWidget) -> QImage:
    """The window once nothing is laid out any more."""
    last = window.grab().toImage()
    for _ in range(20):
        QCoreApplication.processEvents()
        now = window.grab().toImage()
        if now == last:
            return now
        last = now
    raise AssertionError("the window does not come to rest")


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_what_fills_its_ground_hides_nothing(
    shopkeeper: Person, qapp: QApplication, theme: Choice
) -> None:
    window = shopkeeper.program.window
    qapp.setCursorFlashTime(0)
    shopkeeper.program.theme.choose(theme)
    window.resize(1500, 900)
    seen: set[str] = set()
    for key in shopkeeper.program.panes:
        window.show_pane(key)
        before = grabbed(window)
        pieces = filled(window)
        for piece in pieces:
            piece.setAutoFillBackground(False)
        after = grabbed(window)
        for piece in pieces:
            piece.setAutoFillBackground(True)
        assert after == before, key
        seen |= {type(piece).__name__ for piece in pieces}
    assert {"FigureView", "Stops", "Echo", "QuantityEdit"} <= seen
