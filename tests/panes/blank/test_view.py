"""The Blank pane on screen, by keyboard."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QLineEdit

from shopassist.panes.blank.view import BlankView
from shopassist.widgets.look import Look
from shopassist.widgets.tokens import DARK
from tests.panes.blank.conftest import BlankBench
from tests.panes.hands import press, settle, shown, type_into


@pytest.fixture
def view(look: Look, bench: BlankBench) -> Iterator[BlankView]:
    yield from shown(BlankView(look, bench.pane, bench.shop.words))


def test_sizes_typed_are_drawn_at_once(view: BlankView, bench: BlankBench) -> None:
    empty = view.drawing.grab().toImage()
    type_into(view, "blank.mould_diameter", "48")
    type_into(view, "blank.mould_depth", "40")
    assert view.drawing.grab().toImage() != empty
    press(view, "blank.page.2")
    type_into(view, "blank.stations", "0: 22; 8: 22; 12: 14; 18: 14; 28: 40; 34: 42; 37: 36")
    press(view, "blank.page.3")
    type_into(view, "blank.drill", "7")
    assert view.wall.shown.value == "2.4"
    assert view.note.isVisible()
    assert view.drawing.thinnest_at() is not None
    press(view, "blank.use")
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


def test_the_drawing_follows_an_outline_while_it_is_typed(
    view: BlankView, bench: BlankBench
) -> None:
    type_into(view, "blank.mould_diameter", "48")
    type_into(view, "blank.mould_depth", "40")
    press(view, "blank.page.2")
    line = view.findChild(QLineEdit, "blank.stations")
    assert line is not None
    line.setFocus()
    drawn, said = [], []
    for letter in "0: 22; 37: 36":
        QTest.keyClicks(line, letter)
        settle()
        drawn.append(len(view.drawing.shown.section.core) if view.drawing.shown.section else 0)
        said.append(bench.problem("stations"))
    assert drawn[-1] > 0
    assert drawn.index(drawn[-1]) < len(drawn) - 1, "it followed before the last key"
    assert not any(said), "nothing is found wrong with half a line"
    QTest.keyClicks(line, "; 8:")
    settle()
    assert view.drawing.shown.section is not None
    assert len(view.drawing.shown.section.core) == drawn[-1], "what stood goes on to count"
    assert not bench.problem("stations")
    QTest.keyClick(line, Qt.Key.Key_Return)
    settle()
    assert bench.problem("stations"), "done, it is told what is wrong"
    assert line.text() == "0: 22; 37: 36; 8:"


@pytest.mark.parametrize("size", [(400, 380), (300, 700)])
def test_the_leader_stands_level_with_the_words_of_its_number(
    view: BlankView, bench: BlankBench, size: tuple[int, int]
) -> None:
    """In a high pane the drawing stands in the middle, its number at the top beside it."""
    bench.knob()
    settle()
    drawing = view.drawing
    drawing.setParent(None)
    drawing.resize(*size)
    picture, ink = drawing.grab().toImage(), drawing.colour("ink")
    right = drawing.width() - round(2 * drawing.look.u)
    inked = [y for y in range(picture.height() // 2) if picture.pixelColor(right, y) == ink]
    assert inked
    words = drawing.look.font("body").ascent - drawing.look.font("body").caps / 2
    assert abs(inked[0] - words) < drawing.look.u
    drawing.deleteLater()
