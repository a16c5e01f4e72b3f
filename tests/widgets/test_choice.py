"""A drop-down list that looks like the entries beside it."""

from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QColor, QWheelEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from shopassist.widgets.choice import Choice
from shopassist.widgets.look import Look
from shopassist.widgets.theme import palette_of, sheet_of


def dressed(look: Look, qtbot: QtBot) -> Choice:
    made = Choice()
    qtbot.addWidget(made)
    made.setPalette(palette_of(look.tokens))
    made.setStyleSheet(sheet_of(look))
    made.addItems(["round", "square"])
    made.resize(200, 30)
    made.show()
    return made


def turn_wheel(over: Choice) -> QWheelEvent:
    at = QPointF(20, 10)
    none, stay = Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier
    phase = Qt.ScrollPhase.NoScrollPhase
    event = QWheelEvent(at, at, QPoint(0, 0), QPoint(0, -120), none, stay, phase, False)
    QApplication.sendEvent(over, event)
    return event


def test_a_passing_wheel_chooses_nothing_and_scrolls_the_form(look: Look, qtbot: QtBot) -> None:
    choice = dressed(look, qtbot)
    event = turn_wheel(choice)
    assert choice.currentText() == "round"
    assert not event.isAccepted()


def test_it_has_one_edge_all_round_and_an_angle_at_its_right(look: Look, qtbot: QtBot) -> None:
    choice = dressed(look, qtbot)
    picture = choice.grab().toImage()
    raised = QColor(look.tokens.raised)
    ground = {
        (x, y) for x in range(150, 200) for y in range(4, 26) if picture.pixelColor(x, y) != raised
    }
    inside = {(x, y) for x, y in ground if x < 195}
    assert inside, "no angle is drawn"
    xs, ys = {x for x, _ in inside}, {y for _, y in inside}
    assert max(xs) - min(xs) < 14
    assert max(ys) - min(ys) < 10
    choice.setEnabled(False)
    assert choice.grab().toImage() != picture
