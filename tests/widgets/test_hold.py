import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QKeyEvent
from pytestqt.qtbot import QtBot

from shopassist.widgets.alarm_band import HALF_PERIOD_S, AlarmBand
from shopassist.widgets.hold_button import HoldButton
from shopassist.widgets.look import Look
from shopassist.widgets.shown import AlarmShown, AnswerShown
from tests.widgets.conftest import HandTicks


@pytest.fixture
def button(look: Look, qtbot: QtBot, ticks: HandTicks) -> HoldButton:
    made = HoldButton(look, "pot.hold", AnswerShown("", "All seen"), ticks, lambda: ticks.now)
    qtbot.addWidget(made)
    made.show()
    return made


def counted(button: HoldButton) -> list[int]:
    held: list[int] = []
    button.held.connect(lambda: held.append(1))
    return held


@pytest.mark.parametrize("way", ["mouse", "space"])
def test_a_hold_of_one_and_a_half_seconds_confirms(
    button: HoldButton, qtbot: QtBot, ticks: HandTicks, way: str
) -> None:
    held = counted(button)
    if way == "mouse":
        qtbot.mousePress(button, Qt.MouseButton.LeftButton)
    else:
        qtbot.keyPress(button, Qt.Key.Key_Space)
    ticks.advance(1.4)
    assert held == []
    assert button.share == pytest.approx(1.4 / 1.5, abs=0.03)
    assert not button.grab().isNull()
    ticks.advance(0.15)
    assert held == [1]
    assert ticks.listeners == []
    ticks.advance(3)
    assert held == [1]


@pytest.mark.parametrize("end", ["release", "slide", "focus", "hide"])
def test_letting_go_early_cancels(
    button: HoldButton, qtbot: QtBot, ticks: HandTicks, end: str
) -> None:
    held = counted(button)
    qtbot.mousePress(button, Qt.MouseButton.LeftButton)
    ticks.advance(1.3)
    if end == "release":
        qtbot.mouseRelease(button, Qt.MouseButton.LeftButton)
    elif end == "slide":
        qtbot.mouseMove(button, QPoint(5, 5))
        qtbot.mouseMove(button, QPoint(-50, -50))
    elif end == "focus":
        button.setFocus()
        button.clearFocus()
    else:
        button.hide()
    if end != "focus":
        assert ticks.listeners == []
    ticks.advance(2)
    assert held == [] or end == "focus"


def test_repeated_space_of_a_held_key_is_one_hold(
    button: HoldButton, qtbot: QtBot, ticks: HandTicks
) -> None:
    held = counted(button)
    qtbot.keyPress(button, Qt.Key.Key_Space)
    for _ in range(10):
        ticks.advance(0.1)
        for kind in (QKeyEvent.Type.KeyRelease, QKeyEvent.Type.KeyPress):
            event = QKeyEvent(
                kind, Qt.Key.Key_Space, Qt.KeyboardModifier.NoModifier, " ", autorep=True
            )
            (button.keyReleaseEvent if kind == QKeyEvent.Type.KeyRelease else button.keyPressEvent)(
                event
            )
    ticks.advance(0.6)
    assert held == [1]


def test_enter_does_nothing(button: HoldButton, qtbot: QtBot, ticks: HandTicks) -> None:
    held = counted(button)
    for key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_A):
        qtbot.keyPress(button, key)
        ticks.advance(2)
        qtbot.keyRelease(button, key)
    assert held == []
    assert not button.isDefault() if hasattr(button, "isDefault") else True


def test_two_presses_serve_who_cannot_hold(
    button: HoldButton, qtbot: QtBot, ticks: HandTicks
) -> None:
    held = counted(button)
    button.set_two_presses(True)
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    ticks.advance(0.5)
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert held == []
    ticks.advance(0.6)
    qtbot.keyClick(button, Qt.Key.Key_Space)
    assert held == [1]
    qtbot.keyClick(button, Qt.Key.Key_Space)
    assert held == [1]


def test_a_hold_is_twenty_five_millimetres_high(button: HoldButton, look: Look) -> None:
    assert button.minimumSizeHint().height() >= 25 * look.metrics.px_per_mm - 1


@pytest.mark.parametrize("priority", ["high", "medium", "low"])
def test_alarms_flash_below_three_a_second_and_only_at_their_edge(
    look: Look, qtbot: QtBot, ticks: HandTicks, priority: str
) -> None:
    band = AlarmBand(look, "alarm", ticks)
    qtbot.addWidget(band)
    band.resize(1000, band.sizeHint().height())
    band.draw(AlarmShown(priority, "Pour now", "3 min left"))  # type: ignore[arg-type]
    rates = [rate for rate, _ in ticks.listeners]
    assert rates == ([HALF_PERIOD_S[priority]] if priority in HALF_PERIOD_S else [])
    assert all(1 / (2 * rate) <= 3 for rate in rates)
    lit = band.grab().toImage()
    ticks.advance(0.05)
    dim = band.grab().toImage()
    edge = band.rect().adjusted(0, 6, 0, -6)
    assert lit.copy(edge) == dim.copy(edge)
    band.draw(None)
    assert not band.isVisible()
    assert ticks.listeners == []


def test_silence_and_acknowledge_are_two_acts(look: Look, qtbot: QtBot, ticks: HandTicks) -> None:
    band = AlarmBand(look, "alarm", ticks)
    qtbot.addWidget(band)
    band.draw(AlarmShown("high", "Pour now", acknowledge="", silence="Silence"))
    assert band.acknowledge.isHidden()
    with qtbot.waitSignal(band.silenced):
        band.silence.click()
    band.draw(AlarmShown("high", "Pour now"))
    with qtbot.waitSignal(band.acknowledged):
        band.acknowledge.click()
    assert band.silence.ring_colour() == look.tokens.on_alarm
    assert band.accessibleName() == "high alarm"
    band.draw(None)
