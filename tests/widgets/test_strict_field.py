"""A gauge reading is typed, key by key, by somebody who looks at the gauge."""

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import (
    QContextMenuEvent,
    QGuiApplication,
    QInputMethodEvent,
    QKeyEvent,
    QMouseEvent,
)
from pytestqt.qtbot import QtBot

from shopassist.core.entry import EntrySpec
from shopassist.core.wording import Wording
from shopassist.widgets.look import Look
from tests.widgets.quantity_bench import Bench

MASS = EntrySpec("Kilogram", field="mix.amount")
ENTER = Qt.Key.Key_Return


@pytest.fixture
def gauge(qtbot: QtBot, look: Look) -> Bench:
    return Bench(qtbot, look, EntrySpec("PascalGauge"), Wording(), strict=True)


def released(button: Qt.MouseButton) -> QMouseEvent:
    return QMouseEvent(
        QEvent.Type.MouseButtonRelease, QPointF(3, 3), QPointF(3, 3), button,
        Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier,
    )  # fmt: skip


def test_a_strict_field_is_taken_by_enter_alone(gauge: Bench) -> None:
    gauge.type("2.76")
    gauge.leave()
    assert not gauge.committed
    gauge.edit.line.setFocus()
    gauge.press(ENTER)
    assert [e.value for e in gauge.committed if e] == [pytest.approx(276000.0)]


def test_a_strict_field_is_never_filled_for_anybody(gauge: Bench) -> None:
    with pytest.raises(ValueError, match="starts empty"):
        gauge.edit.set_value(0.0)
    with pytest.raises(ValueError, match="starts empty"):
        gauge.edit.set_text("0 bar")
    gauge.edit.set_value(None)
    assert gauge.edit.text == ""


def test_a_strict_field_takes_no_paste_drop_steps_or_held_key(gauge: Bench) -> None:
    line = gauge.edit.line
    QGuiApplication.clipboard().setText("0")
    for keys in (
        (Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier),
        (Qt.Key.Key_Insert, Qt.KeyboardModifier.ShiftModifier),
    ):
        gauge.press(*keys)
    for key in (Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_PageUp, Qt.Key.Key_PageDown):
        gauge.press(key)
    held = QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_0, Qt.KeyboardModifier.NoModifier, "0", True)
    line.keyPressEvent(held)
    composed = QInputMethodEvent("", [])
    composed.setCommitString("0", -1, 1)
    line.inputMethodEvent(composed)
    line.mouseReleaseEvent(released(Qt.MouseButton.MiddleButton))
    menu = QContextMenuEvent(QContextMenuEvent.Reason.Mouse, QPoint(3, 3), QPoint(3, 3))
    line.contextMenuEvent(menu)
    assert menu.isAccepted()
    assert gauge.edit.text == ""
    assert not line.acceptDrops()


def test_a_plain_field_takes_a_paste(qtbot: QtBot, look: Look) -> None:
    made = Bench(qtbot, look, MASS, Wording())
    QGuiApplication.clipboard().setText("12,5 g")
    made.press(Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert made.edit.text == "12,5 g"
    composed = QInputMethodEvent("", [])
    composed.setCommitString("!")
    made.edit.line.inputMethodEvent(composed)
    assert made.edit.text == "12,5 g!"
    made.edit.line.mouseReleaseEvent(released(Qt.MouseButton.LeftButton))
    assert made.edit.text == "12,5 g!"


def test_a_held_enter_is_one_enter(gauge: Bench) -> None:
    gauge.type("1")
    held = QKeyEvent(QEvent.Type.KeyPress, ENTER, Qt.KeyboardModifier.NoModifier, "\r", True)
    gauge.edit.line.keyPressEvent(held)
    assert not gauge.committed
