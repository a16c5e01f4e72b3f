"""In a low room digits are whole; what stands under them goes first. Buttons break into rows."""

import pytest
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from shopassist.widgets.choice_rows import ChoiceRows
from shopassist.widgets.long_button import LongButton
from shopassist.widgets.look import Look
from shopassist.widgets.shown import RuleShown, Tick, WaitShown
from shopassist.widgets.wait_block import WaitBlock

RULE = RuleShown(0, 10, (Tick(0, "0"), Tick(10, "10")), 2, 2, 5, 6, 7, "likely", 8, "8:00")
SHOWN = WaitShown("Until demould", "1 h since hardener", "from 2 readings", RULE)


def in_a_room(widget: QWidget, qtbot: QtBot) -> QWidget:
    """A window that leaves its only child the size it is given."""
    room = QWidget()
    qtbot.addWidget(room)
    widget.setParent(room)
    room.resize(1000, 600)
    room.show()
    return room


@pytest.mark.parametrize("short", [0, 1, 60, 120])
def test_digits_are_never_cut_and_parts_go_whole(look: Look, qtbot: QtBot, short: int) -> None:
    block = WaitBlock(look, "x", SHOWN)
    room = in_a_room(block, qtbot)
    block.set_digits("5:56:04")
    whole = block.minimumSizeHint().height()
    assert whole == block.sizeHint().height()
    block.give_way(True)
    assert block.minimumSizeHint().height() < whole
    high = max(block.sizeHint().height() - short, block.minimumSizeHint().height())
    block.resize(600, high + 1)
    block.resize(600, high)
    assert room.isVisible()
    block.layout().activate()  # type: ignore[union-attr]
    least = block.digits.minimumSizeHint().height()
    assert block.digits.height() >= least
    for part in (block.rule, block.context):
        if part.isVisible():
            assert part.height() >= part.sizeHint().height()
            assert block.rect().contains(part.geometry())
    assert block.context.isVisible() == (short in (0, 60))
    assert block.rule.isVisible() == (short in (0, 1))
    block.draw(WaitShown("Until demould", "", "", None))
    assert not block.rule.isVisible()
    assert not block.context.isVisible()


def test_buttons_break_into_rows_where_one_would_be_cut(look: Look, qtbot: QtBot) -> None:
    del look
    buttons = [QPushButton(words) for words in ("resin and wood", "voids", "cracks", "bored")]
    rows = ChoiceRows(buttons, 5)
    room = in_a_room(rows, qtbot)
    for width, lines in ((900, 1), (rows.minimumSizeHint().width() + 5, 4), (900, 1)):
        rows.resize(width, 200)
        rows.layout().activate()  # type: ignore[union-attr]
        assert len({button.y() for button in buttons}) == lines
        for button in buttons:
            assert button.width() >= button.sizeHint().width()
            assert rows.rect().contains(button.geometry())
    assert room.isVisible()


def test_a_long_button_leaves_out_what_has_no_room(look: Look, qtbot: QtBot) -> None:
    del look
    button = LongButton()
    qtbot.addWidget(button)
    button.say("Start: Prepare moulds & cores, dry fit, measure")
    whole = button.sizeHint()
    button.resize(whole)
    button.show()
    assert button.text() == "Start: Prepare moulds && cores, dry fit, measure"
    button.resize(whole.width() - 60, whole.height())
    assert button.text().endswith("…")
    assert button.sizeHint() == whole
    assert button.minimumSizeHint().width() < whole.width() / 2
    button.resize(whole)
    assert not button.text().endswith("…")
    column, narrow = QWidget(), QVBoxLayout()
    qtbot.addWidget(column)
    column.setLayout(narrow)
    narrow.addWidget(button)
    assert narrow.minimumSize().width() < whole.width(), "it leaves its column as narrow as it is"
    button.say("Done")
    assert button.text() == "Done"
