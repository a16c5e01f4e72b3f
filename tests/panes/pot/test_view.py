"""A whole run through the pot's view, by mouse and by touch; and what must not answer."""

import tomllib
import warnings
from collections.abc import Callable, Iterable, Iterator
from functools import cache
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QMimeData, QPoint, QRect, Qt
from PySide6.QtGui import (
    QContextMenuEvent,
    QDragEnterEvent,
    QInputMethodEvent,
    QKeyEvent,
    QKeySequence,
    QPointingDevice,
)
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QPushButton, QWidget

from shopassist.core.figures import Figure
from shopassist.core.pot.cards import AskKind
from shopassist.panes.pot.field import StrictEdit
from shopassist.panes.pot.view import PotView
from shopassist.store.resources import resource
from shopassist.widgets import fonts
from shopassist.widgets.look import Look
from shopassist.widgets.theme import Theme
from shopassist.widgets.ticker import Ticker
from tests.app.answers import HEALTHY, TYPED
from tests.panes.pot.conftest import PotBench

Hit = Callable[[QWidget], None]


class ViewBench(PotBench):
    """The bench with its view; everything is done with a finger or the mouse."""

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        self.ticker = Ticker(lambda: self.shop.now)
        self.look = Look(fonts.load(sorted(resource("fonts").glob("*.otf"))))
        self.look.set_pitch(1 / 0.253)
        self.view = PotView(
            self.look, self.pane, self.ticker, lambda: float(self.shop.clock.read().since_boot)
        )
        self.view.resize(930, 540)
        self.view.show()
        self.hit: Hit = mouse
        settle()

    def find(self, name: str) -> QWidget:
        found = self.view.findChild(QWidget, name)
        assert found is not None, name
        assert found.isVisible(), name
        return found

    def press(self, name: str) -> None:
        self.hit(self.find(name))
        settle()

    def act(self) -> None:
        """Do what is asked, on the screen alone."""
        screen, item = self.screen, self.item
        if screen.kind is AskKind.HOLD:
            self.hold()
        elif screen.kind is AskKind.TYPE and item in TYPED:
            self.wait(61)
            field = self.find("pot.answer.typed_reading")
            self.hit(field)
            QTest.keyClicks(field, TYPED[item])
            self.press("pot.answer.record")
        elif screen.wait_digits and not screen.answers:
            self.wait(60)
            self.view.tick()
        else:
            ids = [each.id for each in screen.answers]
            self.press(f"pot.answer.{HEALTHY.get(item, ids[0])}")
        assert not self.screen.refusal, (item, self.screen.refusal)

    def hold(self) -> None:
        button = self.find("pot.hold")
        QTest.mousePress(button, Qt.MouseButton.LeftButton)
        self.wait(1.6)
        self.ticker.call_all()
        QTest.mouseRelease(button, Qt.MouseButton.LeftButton)
        settle()

    def go(self, belief: str, most: int = 90) -> None:
        for _ in range(most):
            if str(self.screen.belief) == belief and not self.screen.asks:
                return
            self.act()
        raise AssertionError((belief, self.item))

    def go_item(self, item: str, most: int = 90) -> None:
        for _ in range(most):
            if self.item == item:
                return
            self.act()
        raise AssertionError((item, self.item))


def mouse(widget: QWidget) -> None:
    QTest.mouseClick(widget, Qt.MouseButton.LeftButton)


def touch(widget: QWidget) -> None:
    """A finger on the window over the middle of the widget, and off again."""
    window = widget.window().windowHandle()
    at = widget.mapTo(widget.window(), widget.rect().center())
    QTest.touchEvent(window, finger()).press(0, at, window).commit()
    QTest.touchEvent(window, finger()).release(0, at, window).commit()


@cache
def finger() -> QPointingDevice:
    return QTest.createTouchDevice()


def settle() -> None:
    for _ in range(3):
        QApplication.processEvents()


@pytest.fixture
def made(tmp_path: Path, qapp: QApplication) -> Iterator[ViewBench]:
    bench = ViewBench(tmp_path)
    theme = Theme(qapp, bench.look)
    settle()
    yield bench
    bench.view.close()
    bench.view.deleteLater()
    theme.deleteLater()
    settle()


@pytest.mark.parametrize("hand", [mouse, touch])
def test_a_whole_run_by_mouse_and_by_touch(made: ViewBench, hand: Hit) -> None:
    made.hit = hand
    made.go("pressurised")
    assert made.find("pot.last").isVisible()
    made.press("pot.offer.let_down")
    assert not made.view.head.isVisible()
    made.go("open")
    assert made.item == "aftercare"
    made.press("pot.answer.cleaned")
    assert made.item == "run"


def test_a_space_too_many_gives_no_answer(made: ViewBench) -> None:
    made.view.take_focus()
    for item in ("run", "gasket", "dry_fit"):
        made.go_item(item)
        focused = QApplication.focusWidget()
        assert focused is made.view
        for _ in range(3):
            QTest.keyClick(focused, Qt.Key.Key_Space)
            QTest.keyClick(focused, Qt.Key.Key_Return)
        settle()
        assert made.item == item


def test_the_field_takes_the_keyboard_and_starts_empty(made: ViewBench) -> None:
    made.view.take_focus()
    made.go_item("hold_pressure")
    field = made.find("pot.answer.typed_reading")
    assert QApplication.focusWidget() is field
    QTest.keyClicks(field, "2.76")
    record = made.find("pot.answer.record")
    assert record.accessibleName() == "Record 2.76 bar"
    QTest.keyClick(field, Qt.Key.Key_Return)
    settle()
    made.go_item("baseline")
    assert isinstance(field, QLineEdit)
    assert field.text() == ""


def test_what_was_refused_stands_in_red_beside_the_field(made: ViewBench) -> None:
    made.go_item("hold_pressure")
    field = made.find("pot.answer.typed_reading")
    made.press("pot.answer.typed_reading")
    QTest.keyClicks(field, "9 bar")
    made.press("pot.answer.record")
    assert made.find("pot.refusal").accessibleName().startswith("Hold at")
    assert made.view.card.refusal.ink == "error"


def test_everything_else_stands_on_one_card_and_leads_back(made: ViewBench) -> None:
    made.go("pressurised")
    made.press("pot.more")
    assert not made.view.card.column.isVisible()
    made.find("pot.offer.lost_track")
    made.press("pot.answer.back")
    assert made.view.card.column.isVisible()
    made.press("pot.more")
    made.press("pot.offer.doubt")
    assert made.find("pot.branch").accessibleName().startswith("You reported a doubt")
    assert str(made.screen.belief) == "suspect"


def test_an_examination_is_typed_without_answering_anything(made: ViewBench) -> None:
    made.go("pressurised")
    made.pane.on_offer("doubt")
    settle()
    for name, words in (("examined_by", "inspector 12"), ("examined_note", "gasket 2, vent 1")):
        QTest.keyClicks(made.find(f"pot.{name}"), words)
    settle()
    assert str(made.screen.belief) == "suspect"
    assert made.screen.kind is None
    button = made.find("pot.examined")
    assert isinstance(button, QPushButton)
    button.click()
    settle()
    assert str(made.screen.belief) == "letting down"
    assert not made.view.card.examined.isVisible()


def test_waits_tick_and_end_on_their_own(made: ViewBench) -> None:
    made.go("pressurised")
    made.press("pot.offer.let_down")
    made.go_item("dwell")
    before = made.view.card.digits.text
    made.wait(5)
    made.view.tick()
    assert made.view.card.digits.text != before
    made.wait(3600)
    made.view.tick()
    settle()
    assert not made.view.card.digits.isVisible()


def test_a_narrow_pane_keeps_the_answers_whole(made: ViewBench) -> None:
    made.go("pressurised")
    made.view.resize(460, 620)
    settle()
    assert not made.view.card.column.isVisible()
    whole_in(made, made.view.card.answers.buttons.values())
    assert list(made.view.card.answers.buttons) == [
        "pot.offer.free.reading",
        "pot.offer.free.supply",
    ]
    assert made.find("pot.last").height() >= made.view.card.last.sizeHint().height()


@pytest.mark.parametrize("pitch", [1 / 0.253, 1 / 0.18, 2 / 0.253])
def test_every_card_keeps_targets_for_gloves(made: ViewBench, pitch: float) -> None:
    """From one to two times the pixels of a common screen; the window grows with them."""
    made.look.set_pitch(pitch)
    scale = pitch * 0.253
    made.view.resize(round(930 * scale), round(545 * scale))
    settle()
    seen: set[str] = set()
    for _ in range(90):
        grids = (made.view.card.answers, made.view.card.offers)
        whole_in(made, [b for grid in grids if grid.isVisible() for b in grid.buttons.values()])
        seen.add(made.item)
        if str(made.screen.belief) == "pressurised" and not made.screen.asks:
            made.press("pot.more")
            whole_in(made, made.view.card.answers.buttons.values())
            made.pane.on_offer("let_down")
            settle()
        elif made.item == "aftercare" and "lid_off" in seen:
            break
        made.act()
    assert len(seen) > 30


def whole_in(made: ViewBench, buttons: Iterable[QWidget]) -> None:
    """Nineteen by forty millimetres, inside the pane, apart from one another."""
    places: list[QRect] = []
    for button in buttons:
        corner = button.mapTo(made.view, QPoint(0, 0))
        rect = QRect(corner, button.size())
        assert rect.height() >= made.look.mm(19), (made.item, button.objectName(), rect)
        assert rect.width() >= made.look.mm(40), (made.item, button.objectName(), rect)
        assert made.view.rect().contains(rect), (made.item, button.objectName(), rect)
        assert not any(rect.intersects(other) for other in places), (made.item, rect)
        places.append(rect)


def test_several_pots_are_chosen_in_the_head(made: ViewBench) -> None:
    mapping = tomllib.loads(resource("demo", "pots", "big-pot.toml").read_text("utf-8"))
    version, problems = made.shop.plates.save(mapping | {"name": "Small pot"})
    assert version is not None, problems
    settle()
    choice = made.find("pot.choose")
    assert isinstance(choice, QComboBox)
    choice.setCurrentIndex(1)
    choice.activated.emit(1)
    settle()
    assert made.screen.pot_id == version.id


def test_pages_are_chosen_by_their_tabs(made: ViewBench) -> None:
    made.go("pressurised")
    for number in (2, 3, 4, 1):
        made.press(f"pot.page.{number}")
        assert made.view.tabs[made.screen.page].isChecked()
    assert made.screen.page == "list"


def test_a_page_shows_its_numbers_and_explains_them(made: ViewBench) -> None:
    asked: list[Figure] = []
    made.pane.explained.connect(asked.append)
    made.go("pressurised")
    made.press("pot.page.2")
    assert "pushes on the lid like" in made.find("pot.vessel.force").accessibleName()
    made.press("pot.vessel.force.explain")
    assert [figure.id for figure in asked] == ["pot.vessel.force"]
    made.view.tick()
    made.press("pot.page.3")
    made.find("pot.air.fill")
    made.pane.on_offer("free.reading")
    made.pane.on_typed("2.5")
    made.press("pot.page.2")
    assert made.find("pot.vessel.force").accessibleName().startswith("2.50 bar")
    assert not made.view.findChildren(QWidget, "pot.answer.back")


def test_readings_are_drawn_when_the_page_is_first_looked_at(made: ViewBench) -> None:
    made.press("pot.page.4")
    assert not made.view.findChild(QWidget, "pot.chart.run").isVisible()  # type: ignore[union-attr]
    made.press("pot.page.1")
    made.go("pressurised")
    made.press("pot.page.4")
    made.find("pot.chart.run")
    table = made.find("pot.readings")
    assert table.accessibleDescription().count("bar") == 2
    made.wait(120)
    made.view.tick()
    settle()
    assert table.isVisible()


def test_digits_on_a_page_of_numbers_answer_nothing(made: ViewBench) -> None:
    made.go_item("ring")
    made.press("pot.page.2")
    for key in (Qt.Key.Key_1, Qt.Key.Key_2, Qt.Key.Key_3):
        QTest.keyClick(made.view, key)
    settle()
    made.press("pot.page.1")
    assert made.item == "ring"


def test_air_is_let_out_from_any_page(made: ViewBench) -> None:
    made.go("pressurised")
    made.press("pot.page.3")
    made.view.setFocus()
    QTest.keyClick(made.view, Qt.Key.Key_F8)
    settle()
    assert str(made.screen.belief) == "letting down"
    assert made.screen.page == "list"
    assert not made.view.out.isVisible()


def test_vent_now_from_a_page_is_one_press(made: ViewBench) -> None:
    made.go("pressurised")
    made.press("pot.page.2")
    made.press("pot.offer.vent_now")
    assert str(made.screen.belief) == "letting down"


def test_nothing_is_pasted_dropped_or_repeated_into_a_reading(made: ViewBench) -> None:
    made.go_item("baseline")
    edit = made.find("pot.answer.typed_reading")
    assert isinstance(edit, StrictEdit)
    QApplication.clipboard().setText("2.76")
    QTest.keySequence(edit, QKeySequence(QKeySequence.StandardKey.Paste))
    for key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
        QTest.keyClick(edit, key)
    edit.insertFromMimeData(QApplication.clipboard().mimeData())
    with warnings.catch_warnings():
        # Qt 6.12 wants a place in parts of a pixel, which Qt 6.11 does not take.
        warnings.simplefilter("ignore", DeprecationWarning)
        drag = QDragEnterEvent(
            QPoint(2, 2), Qt.DropAction.CopyAction, QMimeData(), Qt.MouseButton.LeftButton,
            Qt.KeyboardModifier.NoModifier,
        )  # fmt: skip
    QApplication.sendEvent(edit, drag)
    assert not drag.isAccepted()
    menu = QContextMenuEvent(QContextMenuEvent.Reason.Mouse, QPoint(2, 2), QPoint(2, 2))
    edit.contextMenuEvent(menu)
    assert menu.isAccepted()
    edit.keyPressEvent(QKeyEvent(
        QEvent.Type.KeyPress, Qt.Key.Key_2, Qt.KeyboardModifier.NoModifier, "2", autorep=True
    ))  # fmt: skip
    edit.keyPressEvent(QKeyEvent(
        QEvent.Type.KeyPress, Qt.Key.Key_Return, Qt.KeyboardModifier.NoModifier, "", autorep=True
    ))  # fmt: skip
    composed = QInputMethodEvent()
    composed.setCommitString("9", -1, 1)
    edit.inputMethodEvent(composed)
    assert edit.text() == ""
    composed = QInputMethodEvent()
    composed.setCommitString("1")
    edit.inputMethodEvent(composed)
    assert edit.text() == "1"
    assert made.item == "baseline"
