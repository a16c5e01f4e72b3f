"""The view a high alarm fills the window with, and the list of alarms."""

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QPushButton
from pytestqt.qtbot import QtBot

from shopassist.widgets.alarm_card import AlarmCard
from shopassist.widgets.alarm_view import BUTTON_MM, AlarmView
from shopassist.widgets.look import Look
from shopassist.widgets.shown import AlarmShown, AlarmsShown
from tests.widgets.conftest import HandTicks

SHOWN = AlarmShown("high", "Knobs 12: pressurise now", "Close the lid.", silence="Silent 1:40")


@pytest.fixture
def view(look: Look, qtbot: QtBot, ticks: HandTicks) -> AlarmView:
    made = AlarmView(look, "alarm.view", ticks)
    qtbot.addWidget(made)
    made.resize(1366, 560)
    made.draw(SHOWN)
    made.show()
    return made


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space])
def test_one_key_answers(view: AlarmView, qtbot: QtBot, key: Qt.Key) -> None:
    with qtbot.waitSignal(view.acknowledged):
        qtbot.keyClick(view, key)


def test_escape_leaves_and_a_key_that_sticks_does_nothing(view: AlarmView, qtbot: QtBot) -> None:
    with qtbot.waitSignal(view.left):
        qtbot.keyClick(view, Qt.Key.Key_Escape)
    answered: list[int] = []
    view.acknowledged.connect(lambda: answered.append(1))
    held = QKeyEvent(
        QEvent.Type.KeyPress, Qt.Key.Key_Space, Qt.KeyboardModifier.NoModifier, " ", True
    )
    QApplication.sendEvent(view, held)
    qtbot.keyClick(view, Qt.Key.Key_Q)
    assert answered == []


def test_its_answers_are_large_enough_for_gloves(view: AlarmView, look: Look) -> None:
    for button in (view.acknowledge, view.silence):
        assert button.sizeHint().height() >= BUTTON_MM * look.metrics.px_per_mm - 1
    assert view.silence.text() == "Silent 1:40"
    assert view.acknowledge.ring_colour() == look.tokens.on_alarm
    assert view.ring_colour() == look.tokens.alarm


def test_its_edge_alone_flashes_and_out_of_sight_it_is_still(
    view: AlarmView, ticks: HandTicks
) -> None:
    assert len(ticks.listeners) == 1
    lit = view.grab().toImage()
    ticks.advance(0.03)
    dim = view.grab().toImage()
    inner = view.rect().adjusted(30, 30, -30, -30)
    assert lit != dim
    assert lit.copy(inner) == dim.copy(inner)
    view.hide()
    ticks.advance(0.03)
    assert ticks.listeners == []


def test_buttons_answer_to_the_mouse(view: AlarmView, qtbot: QtBot) -> None:
    with qtbot.waitSignal(view.silenced):
        qtbot.mouseClick(view.silence, Qt.MouseButton.LeftButton)
    view.silence.setDown(True)
    assert not view.silence.grab().isNull()


def test_the_list_shows_what_stands_and_asks_whether_a_test_was_heard(
    look: Look, qtbot: QtBot
) -> None:
    card = AlarmCard(look, "alarms")
    qtbot.addWidget(card)
    card.resize(380, 500)
    card.show()
    card.draw(AlarmsShown((("Pour now", "Pour what is mixed."),), "Never tried.", asks=False))
    assert [pair[0].isVisible() for pair in card.lines[:2]] == [True, False]
    assert not card.asked.isVisible()
    card.draw(AlarmsShown((("No alarm is on.", ""),), "Never tried.", asks=True))
    assert card.asked.isVisible()
    assert not card.lines[0][1].isVisible()
    card.take_focus()
    told: list[str] = []
    card.tested.connect(told.append)
    for name in ("test.low", "test.medium", "test.high"):
        button = card.findChild(QPushButton, f"alarms.{name}")
        assert isinstance(button, QPushButton)
        button.click()
    assert told == ["low", "medium", "high"]
    assert not card.grab().isNull()
