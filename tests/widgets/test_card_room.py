"""Cards beside the panes keep whole lines in a low window."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QPushButton
from pytestqt.qtbot import QtBot

from shopassist.widgets.alarm_card import AlarmCard
from shopassist.widgets.limits_card import LimitsCard
from shopassist.widgets.look import Look
from shopassist.widgets.prose import Heading
from shopassist.widgets.shown import AlarmsShown

LINES = tuple(f"Line {n} of what stands on a card, long enough to be broken." for n in range(9))


@pytest.fixture
def card(look: Look, qtbot: QtBot) -> LimitsCard:
    made = LimitsCard(look, "about", "About", LINES, (("close", "Close"),))
    qtbot.addWidget(made)
    made.resize(360, 320)
    made.show()
    return made


def test_in_a_low_window_every_line_is_whole_and_the_way_on_in_sight(card: LimitsCard) -> None:
    for heading in card.findChildren(Heading):
        assert heading.height() >= heading.heightForWidth(heading.width())
    button = card.findChild(QPushButton, "about.close")
    assert button is not None
    assert card.rect().contains(button.geometry())
    assert card.room.verticalScrollBar().maximum() > 0
    assert card.room.focusPolicy() == Qt.FocusPolicy.StrongFocus


def test_in_a_high_window_nothing_is_scrolled_and_the_way_on_follows(card: LimitsCard) -> None:
    card.resize(360, 900)
    assert card.room.verticalScrollBar().maximum() == 0
    assert card.room.focusPolicy() == Qt.FocusPolicy.NoFocus
    button = card.findChild(QPushButton, "about.close")
    assert button is not None
    assert 0 < button.y() - card.room.geometry().bottom() < 40


@pytest.mark.parametrize("before", [(250, 300), (640, 460), (360, 900)])
def test_a_card_that_was_narrower_or_wider_before_shows_every_line(
    card: LimitsCard, before: tuple[int, int]
) -> None:
    card.resize(*before)
    QApplication.processEvents()
    card.resize(360, 640)
    QApplication.processEvents()
    assert card.room.verticalScrollBar().maximum() == 0
    for heading in card.room.findChildren(Heading):
        assert heading.height() == heading.heightForWidth(heading.width())


def test_escape_takes_the_way_that_leaves_where_there_is_one(
    card: LimitsCard, qtbot: QtBot
) -> None:
    card.take_focus()
    with qtbot.assertNotEmitted(card.chosen):
        qtbot.keyClick(card, Qt.Key.Key_Escape)
    card.leave = "close"
    with qtbot.waitSignal(card.chosen) as told:
        qtbot.keyClick(card, Qt.Key.Key_Escape)
    assert told.args == ["close"]
    qtbot.keyClick(card, Qt.Key.Key_B)


def test_many_alarms_are_scrolled_not_squeezed(look: Look, qtbot: QtBot) -> None:
    card = AlarmCard(look, "alarms")
    qtbot.addWidget(card)
    card.resize(360, 420)
    card.show()
    card.draw(AlarmsShown(tuple((line, line) for line in LINES[:8]), "Never tried.", asks=False))
    QApplication.processEvents()
    for pair in card.lines:
        for heading in pair:
            assert heading.height() >= heading.heightForWidth(heading.width())
    with qtbot.waitSignal(card.closed):
        qtbot.keyClick(card, Qt.Key.Key_Escape)
    qtbot.keyClick(card, Qt.Key.Key_B)
