"""Targets and gaps in millimetres, on every screen there is."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QPushButton, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from shopassist.widgets.alarm_band import AlarmBand
from shopassist.widgets.answer_button import AnswerButton, AnswerGrid
from shopassist.widgets.explain_mark import ExplainMark
from shopassist.widgets.look import Look
from shopassist.widgets.pot_card import QuietColumn, StopButton
from shopassist.widgets.shown import AlarmShown, AnswerShown, Reported
from shopassist.widgets.theme import Theme
from tests.widgets.conftest import HandTicks

PITCHES = [1 / 0.18, 1 / 0.253, 1 / 0.161, 1 / 0.18 / 1.5]
ANSWERS = {
    "pot.answer.one": AnswerShown("1", "One"),
    "pot.answer.two": AnswerShown("2", "Two", "a second line"),
    "pot.answer.three": AnswerShown("3", "Three"),
    "pot.answer.unsure": AnswerShown("4", "Can't tell", "nothing moves on"),
}


@pytest.mark.parametrize("pitch", PITCHES)
def test_answers_are_nineteen_by_forty_and_six_apart(
    look: Look, qtbot: QtBot, pitch: float
) -> None:
    look.set_pitch(pitch)
    grid = AnswerGrid(look, "pot.answers")
    qtbot.addWidget(grid)
    grid.draw(ANSWERS)
    grid.resize(grid.minimumSizeHint())
    grid.show()
    boxes = [button.geometry() for button in grid.buttons.values()]
    for box in boxes:
        assert box.width() >= 40 * pitch - 1
        assert box.height() >= 19 * pitch - 1
    assert boxes[1].left() - boxes[0].right() - 1 >= 6 * pitch - 1
    assert boxes[2].top() - boxes[0].bottom() - 1 >= 6 * pitch - 1
    assert boxes[0].x() == boxes[2].x()
    assert boxes[0].y() == boxes[1].y()


@pytest.mark.parametrize("pitch", PITCHES)
def test_stop_is_twenty_five_high_and_thirteen_from_anything(
    look: Look, qtbot: QtBot, pitch: float
) -> None:
    look.set_pitch(pitch)
    column = QuietColumn(look, "pot.quiet", "You reported")
    qtbot.addWidget(column)
    column.draw(tuple(Reported(f"Row {n}", "seen") for n in range(30)))
    stop = StopButton(look, "pot.stop", "Stop", "leave the vent open, walk away")
    column.set_stop(stop)
    column.resize(column.sizeHint().width(), 600)
    column.show()
    assert stop.height() >= 25 * pitch - 1
    assert stop.geometry().top() - column._scroll.geometry().bottom() >= 13 * pitch - 1
    bar = column._scroll.verticalScrollBar()
    assert bar.maximum() > 0


@pytest.mark.parametrize("pitch", PITCHES)
def test_the_explain_mark_is_nine_millimetres(look: Look, qtbot: QtBot, pitch: float) -> None:
    look.set_pitch(pitch)
    mark = ExplainMark(look, "x.explain", "Explain")
    qtbot.addWidget(mark)
    assert mark.minimumSizeHint().width() >= 9 * pitch - 1


@pytest.mark.parametrize("pitch", PITCHES)
def test_ordinary_buttons_are_nine_millimetres(look: Look, qtbot: QtBot, pitch: float) -> None:
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    theme = Theme(app, look)
    look.set_pitch(pitch)
    button = QPushButton("Another cup")
    qtbot.addWidget(button)
    button.ensurePolished()
    assert button.sizeHint().height() >= 9 * pitch - 1
    app.setStyleSheet("")
    theme.deleteLater()


def test_the_buttons_of_an_alarm_are_nine_millimetres(
    look: Look, qtbot: QtBot, ticks: HandTicks
) -> None:
    band = AlarmBand(look, "alarm", ticks)
    qtbot.addWidget(band)
    band.draw(AlarmShown("low", "Pour soon"))
    assert band.silence.height() >= 9 * look.metrics.px_per_mm - 1
    band.hide()


def test_answers_are_given_by_mouse_and_by_their_key(look: Look, qtbot: QtBot) -> None:
    grid = AnswerGrid(look, "pot.answers")
    qtbot.addWidget(grid)
    grid.draw(ANSWERS)
    grid.show()
    with qtbot.waitSignal(grid.answered) as given:
        qtbot.mouseClick(grid.buttons["pot.answer.two"], Qt.MouseButton.LeftButton)
    assert given.args == ["pot.answer.two"]
    with qtbot.waitActive(grid):
        grid.activateWindow()
    with qtbot.assertNotEmitted(grid.answered, wait=0):
        qtbot.keyClick(grid.buttons["pot.answer.one"], Qt.Key.Key_4)
    grid.listen(grid)
    grid.buttons["pot.answer.one"].setFocus()
    with qtbot.waitSignal(grid.answered) as given:
        qtbot.keyClick(grid.buttons["pot.answer.one"], Qt.Key.Key_4)
    assert given.args == ["pot.answer.unsure"]


def test_a_digit_that_moved_to_other_answers_is_let_go(look: Look, qtbot: QtBot) -> None:
    grid, other = AnswerGrid(look, "pot.answers"), AnswerGrid(look, "pot.offers")
    place = QWidget()
    qtbot.addWidget(place)
    column = QVBoxLayout(place)
    column.addWidget(grid)
    column.addWidget(other)
    other.draw({"pot.offer.reading": AnswerShown("1", "Type a reading")})
    other.listen(place)
    place.show()
    with qtbot.waitActive(place):
        place.activateWindow()
    other.draw({"pot.offer.reading": AnswerShown("", "Type a reading")})
    grid.draw({"pot.answer.open": AnswerShown("1", "Open")})
    grid.listen(place)
    button = grid.buttons["pot.answer.open"]
    button.setFocus()
    with qtbot.waitSignal(grid.answered) as given:
        qtbot.keyClick(button, Qt.Key.Key_1)
    assert given.args == ["pot.answer.open"]


def test_the_same_answers_keep_their_buttons(look: Look, qtbot: QtBot) -> None:
    grid = AnswerGrid(look, "pot.answers")
    qtbot.addWidget(grid)
    grid.draw(ANSWERS)
    before = dict(grid.buttons)
    grid.draw({**ANSWERS, "pot.answer.one": AnswerShown("1", "Uno", enabled=False)})
    assert grid.buttons == before
    assert grid.buttons["pot.answer.one"].accessibleName() == "Uno"
    assert not grid.buttons["pot.answer.one"].isEnabled()
    grid.draw({"pot.answer.other": AnswerShown("1", "Other")})
    assert list(grid.buttons) == ["pot.answer.other"]


def test_long_answers_wrap_and_are_not_cut(look: Look, qtbot: QtBot) -> None:
    words = "was shut, I opened it slowly: hiss"
    button = AnswerButton(look, "a", AnswerShown("1", words, "and it goes on"))
    qtbot.addWidget(button)
    button.resize(button.minimumSizeHint())
    from shopassist.widgets.prose import wrapped

    rows = wrapped(look, "title", words, 100)
    assert " ".join(rows) == words
    assert len(rows) > 1
    assert not button.grab().isNull()
