"""Enter takes an entry and goes on to the next one."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QScrollArea
from pytestqt.qtbot import QtBot

from shopassist.core.entry import EntrySpec
from shopassist.core.entry.asked import Ask
from shopassist.core.wording import Wording
from shopassist.widgets.entry_grid import EntryGrid
from shopassist.widgets.look import Look

ASKS = (
    Ask("width", "Width", EntrySpec("Metre", "mm", "box.width", lowest=0.0)),
    Ask("shape", "Shape", choices=(("round", "round"), ("square", "square"))),
    Ask("name", "Name"),
    Ask("depth", "Depth", EntrySpec("Metre", "mm", "box.depth", lowest=0.0)),
)


@pytest.fixture
def grid(look: Look, qtbot: QtBot) -> EntryGrid:
    made = EntryGrid(look, "box", ASKS, Wording(), columns=1)
    qtbot.addWidget(made)
    made.show()
    made.activateWindow()
    QApplication.processEvents()
    made.first().setFocus()
    return made


def focused() -> str:
    widget = QApplication.focusWidget()
    return widget.objectName() if widget is not None else ""


def press(qtbot: QtBot, words: str = "", key: Qt.Key = Qt.Key.Key_Return) -> None:
    widget = QApplication.focusWidget()
    assert widget is not None
    qtbot.keyClicks(widget, words)
    qtbot.keyClick(widget, key)


def test_enter_goes_from_entry_to_entry_and_stays_at_the_last(
    grid: EntryGrid, qtbot: QtBot
) -> None:
    told: list[object] = []
    grid.committed.connect(lambda name, entry: told.append((name, entry.value)))
    for words, then in (("48", "box.shape"), ("", "box.name"), ("knob", "box.depth")):
        press(qtbot, words)
        assert focused() == then
    press(qtbot, "41", Qt.Key.Key_Enter)
    assert focused() == "box.depth"
    assert told == [("width", pytest.approx(0.048)), ("depth", pytest.approx(0.041))]


def test_what_is_out_of_sight_or_locked_is_passed_over(grid: EntryGrid, qtbot: QtBot) -> None:
    grid.show_only(frozenset({"width", "name", "depth"}))
    grid.lines["name"].setReadOnly(True)
    press(qtbot, "48")
    assert focused() == "box.depth"


def test_what_is_refused_keeps_the_keyboard(grid: EntryGrid, qtbot: QtBot) -> None:
    press(qtbot, "48 kg")
    assert focused() == "box.width"
    press(qtbot)
    assert focused() == "box.width"


def test_other_keys_and_enter_elsewhere_are_left_to_others(grid: EntryGrid, qtbot: QtBot) -> None:
    del qtbot
    none, shift = Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ShiftModifier
    grid.first().clearFocus()
    for key, with_ in ((Qt.Key.Key_A, none), (Qt.Key.Key_Return, shift), (Qt.Key.Key_Return, none)):
        event = QKeyEvent(QKeyEvent.Type.KeyPress, key, with_)
        grid.keyPressEvent(event)
        assert not event.isAccepted()


def test_the_next_entry_is_scrolled_into_sight(look: Look, qtbot: QtBot) -> None:
    grid, area = EntryGrid(look, "box", ASKS, Wording(), columns=1), QScrollArea()
    qtbot.addWidget(area)
    area.setWidgetResizable(True)
    area.setWidget(grid)
    area.resize(200, 90)
    area.show()
    area.activateWindow()
    QApplication.processEvents()
    grid.choices["shape"].setFocus()
    press(qtbot)
    assert focused() == "box.name"
    line = grid.lines["name"]
    seen = line.visibleRegion().boundingRect()
    assert seen.height() == line.height()
