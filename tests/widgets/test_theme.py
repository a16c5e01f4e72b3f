from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QApplication, QLineEdit, QPushButton, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from shopassist.widgets.focus_ring import MARGIN, FocusRing
from shopassist.widgets.look import Look
from shopassist.widgets.theme import _SHEET, Theme, palette_of, sheet_of
from shopassist.widgets.tokens import DARK, LIGHT


@pytest.fixture
def theme(look: Look) -> Iterator[Theme]:
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    sheet, palette = app.styleSheet(), app.palette()
    made = Theme(app, look)
    yield made
    app.setStyleSheet(sheet)
    app.setPalette(palette)
    made.deleteLater()


def test_the_sheet_is_short() -> None:
    assert len(_SHEET.strip().splitlines()) < 60


def test_the_palette_takes_its_colours_from_the_tokens() -> None:
    for tokens in (LIGHT, DARK):
        made = palette_of(tokens)
        assert made.color(QPalette.ColorRole.Window).name() == tokens.bench.lower()
        assert made.color(QPalette.ColorRole.Text).name() == tokens.ink.lower()
        text = made.color(QPalette.ColorGroup.Disabled, QPalette.ColorRole.ButtonText)
        assert text.name() == tokens.disabled.lower()


def test_a_choice_changes_the_look_at_once(theme: Theme, look: Look) -> None:
    assert look.tokens is LIGHT
    theme.choose("dark")
    assert look.tokens is DARK
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    assert app.styleSheet() == sheet_of(look)
    assert app.palette().color(QPalette.ColorRole.Window).name() == DARK.bench.lower()
    theme.choose("light")
    assert look.tokens is LIGHT


def test_the_system_is_followed_only_when_asked(
    theme: Theme, look: Look, monkeypatch: pytest.MonkeyPatch
) -> None:
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    app.styleHints().setColorScheme(Qt.ColorScheme.Dark)
    try:
        dark = app.styleHints().colorScheme() == Qt.ColorScheme.Dark
        theme.choose("light")
        assert look.tokens is LIGHT
        theme.choose("system")
        assert look.tokens is (DARK if dark else LIGHT)
    finally:
        app.styleHints().unsetColorScheme()


@pytest.fixture
def window(look: Look, qtbot: QtBot) -> tuple[QWidget, QPushButton, QLineEdit, FocusRing]:
    page = QWidget()
    qtbot.addWidget(page)
    column = QVBoxLayout(page)
    button, entry = QPushButton("One"), QLineEdit()
    column.addWidget(button)
    column.addWidget(entry)
    ring = FocusRing(page, look)
    page.resize(300, 200)
    with qtbot.waitActive(page):
        page.show()
        page.activateWindow()
    return page, button, entry, ring


def test_the_ring_lies_round_what_has_the_focus_and_follows_it(
    window: tuple[QWidget, QPushButton, QLineEdit, FocusRing], qtbot: QtBot
) -> None:
    page, button, entry, ring = window
    button.setFocus()
    assert ring.target is button
    assert ring.geometry() == button.geometry().adjusted(-MARGIN, -MARGIN, MARGIN, MARGIN)
    entry.setFocus()
    assert ring.geometry() == entry.geometry().adjusted(-MARGIN, -MARGIN, MARGIN, MARGIN)
    page.resize(400, 240)
    qtbot.waitUntil(lambda: ring.geometry().center() == entry.geometry().center())
    assert not ring.mask().contains(ring.rect().center())
    assert not ring.grab().isNull()


def test_the_ring_goes_when_its_control_goes(
    window: tuple[QWidget, QPushButton, QLineEdit, FocusRing], qtbot: QtBot
) -> None:
    _, button, entry, ring = window
    entry.setFocus()
    entry.setParent(None)
    entry.deleteLater()
    qtbot.waitUntil(lambda: ring.target is not entry)
    button.setFocus()
    assert ring.target is button
    button.hide()
    qtbot.waitUntil(lambda: ring.target is not button or not ring.isVisible())


def test_the_ring_takes_no_presses_and_no_focus(
    window: tuple[QWidget, QPushButton, QLineEdit, FocusRing],
) -> None:
    ring = window[3]
    assert ring.testAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
    assert ring.focusPolicy() == Qt.FocusPolicy.NoFocus
