"""The Stabilise pane on screen, by keyboard."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QPushButton, QWidget

from shopassist.panes.stabilise.view import StabiliseView
from shopassist.store.resources import resource
from shopassist.widgets import fonts
from shopassist.widgets.look import Look
from shopassist.widgets.theme import Theme
from tests.panes.stabilise.conftest import WoodBench


@pytest.fixture
def view(qapp: QApplication, bench: WoodBench) -> Iterator[StabiliseView]:
    look = Look(fonts.load(sorted(resource("fonts").glob("*.otf"))))
    look.set_pitch(1 / 0.253)
    Theme(qapp, look)
    made = StabiliseView(look, bench.pane, bench.shop.words)
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


def type_into(view: QWidget, name: str, text: str) -> None:
    line = view.findChild(QLineEdit, f"stabilise.{name}")
    assert line is not None, name
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, text)
    QTest.keyClick(line, Qt.Key.Key_Return)
    settle()


def press(view: QWidget, name: str) -> None:
    button = view.findChild(QPushButton, f"stabilise.{name}")
    assert button is not None, name
    assert button.isVisible(), name
    button.setFocus()
    QTest.keyClick(button, Qt.Key.Key_Space)
    settle()


def test_a_set_goes_into_the_oven_by_keyboard(view: StabiliseView, bench: WoodBench) -> None:
    view.take_focus()
    type_into(view, "mass", "1220.4")
    assert view.mass.isHidden()
    view.take_focus()
    press(view, "act.1")
    assert bench.pane.screen.wait == "Next weighing" or "weighing" in view.what.words
    type_into(view, "mass", "1100")
    press(view, "correct_mass")
    assert [each.answer for each in view.facts.shown].count("1 100 g") == 0


def test_the_set_is_described_on_its_pages(view: StabiliseView, bench: WoodBench) -> None:
    press(view, "page.2")
    type_into(view, "diameter", "52")
    type_into(view, "length", "130")
    box = view.findChild(QComboBox, "stabilise.species")
    assert box is not None
    box.setCurrentIndex(box.findText("Basswood"))
    box.activated.emit(box.currentIndex())
    settle()
    assert "Ceiling of the uptake" in bench.figures()
    press(view, "page.3")
    type_into(view, "bath", "Tin 4")
    press(view, "page.4")
    press(view, "page.5")
    assert view.pages["cautions"].isChecked()
    assert bench.shop.batches.get(bench.pane.screen.batch_id).entries["stabilise.bath"].text == (
        "Tin 4"
    )


def test_a_wrong_size_is_told_under_its_field(view: StabiliseView, bench: WoodBench) -> None:
    bench.set_up()
    press(view, "page.4")
    type_into(view, "oven", "85 °C")
    problem = view.grids[2]._problems["core_goal"]
    assert problem.isVisible()
    assert problem.text().startswith("The middle never comes")


def test_digits_count_while_it_is_in_sight(view: StabiliseView, bench: WoodBench) -> None:
    bench.covered()
    press(view, "act.1")
    bench.shop.clock.advance(90)
    view.tick()
    assert view.wait.text == "1:30"
    type_into(view, "dial", "900 mbar")
    assert view.figures[0].isVisible()
    view.take_focus()
    press(view, "act.1")
    press(view, "act.1")
    view.take_focus()
    view.tick()


def test_a_number_asks_for_its_explanation(view: StabiliseView, bench: WoodBench) -> None:
    bench.set_up()
    asked: list[object] = []
    bench.pane.explained.connect(asked.append)
    view.figures[0].explain_asked.emit()
    assert len(asked) == 1
    bench.covered()
    view._explain(5)
    view._act(9)
    assert len(asked) == 1


def test_a_grid_shows_only_what_matters(view: StabiliseView, bench: WoodBench) -> None:
    grid = view.grids[0]
    press(view, "page.2")
    grid.show_only(frozenset({"species"}))
    assert grid.first() is grid.choices["species"]
    grid.show_only(frozenset({"pieces"}))
    assert grid.first() is grid.quantities["pieces"].line
    grid.show_only(frozenset())
    assert grid.first() is grid
    view.grids[1].show_only(frozenset({"bath"}))
    assert view.grids[1].first() is view.grids[1].lines["bath"]
