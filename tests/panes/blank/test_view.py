"""The Blank pane on screen, by keyboard."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QPushButton

from shopassist.panes.blank.view import BlankView
from shopassist.store.resources import resource
from shopassist.widgets import fonts
from shopassist.widgets.look import Look
from shopassist.widgets.theme import Theme
from shopassist.widgets.tokens import DARK
from tests.panes.blank.conftest import BlankBench


@pytest.fixture
def view(qapp: QApplication, bench: BlankBench) -> Iterator[BlankView]:
    look = Look(fonts.load(sorted(resource("fonts").glob("*.otf"))))
    look.set_pitch(1 / 0.253)
    Theme(qapp, look)
    made = BlankView(look, bench.pane, bench.shop.words)
    made.resize(930, 575)
    made.show()
    settle()
    yield made
    made.close()
    made.deleteLater()
    settle()


def settle() -> None:
    for _ in range(4):
        QApplication.processEvents()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def type_into(view: BlankView, name: str, text: str) -> None:
    line = view.findChild(QLineEdit, f"blank.{name}")
    assert line is not None, name
    assert line.isVisible(), name
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, text)
    QTest.keyClick(line, Qt.Key.Key_Return)
    settle()


def press(view: BlankView, name: str) -> None:
    button = view.findChild(QPushButton, f"blank.{name}")
    assert button is not None, name
    button.setFocus()
    QTest.keyClick(button, Qt.Key.Key_Space)
    settle()


def test_sizes_typed_are_drawn_at_once(view: BlankView, bench: BlankBench) -> None:
    empty = view.drawing.grab().toImage()
    type_into(view, "mould_diameter", "48")
    type_into(view, "mould_depth", "40")
    assert view.drawing.grab().toImage() != empty
    press(view, "page.2")
    type_into(view, "stations", "0: 22; 8: 22; 12: 14; 18: 14; 28: 40; 34: 42; 37: 36")
    press(view, "page.3")
    type_into(view, "drill", "7")
    assert view.wall.shown.value == "2.4"
    assert view.note.isVisible()
    assert view.drawing.thinnest_at() is not None
    press(view, "use")
    assert bench.shop.batches.get(bench.shop.hand.batch).need is not None
    assert view.in_mix.isVisible()


def test_the_entries_follow_the_kind_of_mould(view: BlankView) -> None:
    box = view.findChild(QComboBox, "blank.mould")
    assert box is not None
    box.setCurrentIndex(box.findData("box"))
    box.activated.emit(box.currentIndex())
    settle()
    width = view.findChild(QLineEdit, "blank.mould_width")
    across = view.findChild(QLineEdit, "blank.mould_diameter")
    assert width is not None
    assert across is not None
    assert width.isVisible()
    assert not across.isVisible()


def test_the_drawing_changes_with_theme_and_content(view: BlankView, bench: BlankBench) -> None:
    bench.knob()
    settle()
    light = view.drawing.grab().toImage()
    bench.type(grooves="square 3 x 2 at 4; vee 3 x 2 at 24 along 4 times 4", bore_depth="30 mm")
    settle()
    assert view.drawing.grab().toImage() != light
    view.look.set_tokens(DARK)
    settle()
    assert view.drawing.grab().toImage() != light
    assert view.drawing.minimumSizeHint().width() < view.drawing.width()
    assert "Thinnest" in view.drawing.accessibleDescription()


def test_numbers_ask_for_their_explanation(view: BlankView, bench: BlankBench) -> None:
    bench.knob()
    asked: list[object] = []
    bench.pane.explained.connect(asked.append)
    view.wall.explain_asked.emit()
    view.figures["for_all"].explain_asked.emit()
    assert len(asked) == 2
    view.take_focus()


def test_without_a_drawing_there_is_no_leader(view: BlankView) -> None:
    assert view.drawing.thinnest_at() is None
