"""The Stabilise pane on screen, by keyboard."""

from collections.abc import Iterator

import pytest
from PySide6.QtWidgets import QComboBox

from shopassist.panes.stabilise.view import StabiliseView
from shopassist.widgets.look import Look
from tests.panes.hands import press, settle, shown, type_into
from tests.panes.stabilise.conftest import WoodBench


@pytest.fixture
def view(look: Look, bench: WoodBench) -> Iterator[StabiliseView]:
    yield from shown(StabiliseView(look, bench.pane, bench.shop.words))


def test_a_set_goes_into_the_oven_by_keyboard(view: StabiliseView, bench: WoodBench) -> None:
    view.take_focus()
    type_into(view, "stabilise.mass", "1220.4")
    assert view.mass.isHidden()
    view.take_focus()
    press(view, "stabilise.act.1")
    assert bench.pane.screen.wait == "Next weighing" or "weighing" in view.what.words
    type_into(view, "stabilise.mass", "1100")
    press(view, "stabilise.correct_mass")
    assert [each.answer for each in view.facts.shown].count("1 100 g") == 0


def test_the_set_is_described_on_its_pages(view: StabiliseView, bench: WoodBench) -> None:
    press(view, "stabilise.page.2")
    type_into(view, "stabilise.diameter", "52")
    type_into(view, "stabilise.length", "130")
    box = view.findChild(QComboBox, "stabilise.species")
    assert box is not None
    box.setCurrentIndex(box.findText("Basswood"))
    box.activated.emit(box.currentIndex())
    settle()
    assert "Ceiling of the uptake" in bench.figures()
    press(view, "stabilise.page.4")
    type_into(view, "stabilise.bath", "Tin 4")
    for number in (3, 5, 6, 7, 8):
        press(view, f"stabilise.page.{number}")
    assert view.pages["cautions"].isChecked()
    assert bench.shop.batches.get(bench.pane.screen.batch_id).entries["stabilise.bath"].text == (
        "Tin 4"
    )


def test_a_wrong_size_is_told_under_its_field(view: StabiliseView, bench: WoodBench) -> None:
    bench.set_up()
    press(view, "stabilise.page.6")
    type_into(view, "stabilise.oven", "85 °C")
    problem = view.grids[4]._problems["core_goal"]
    assert problem.isVisible()
    assert problem.text().startswith("The middle never comes")


def test_digits_count_while_it_is_in_sight(view: StabiliseView, bench: WoodBench) -> None:
    bench.covered()
    press(view, "stabilise.act.1")
    bench.shop.clock.advance(90)
    view.tick()
    assert view.wait.text == "1:30"
    type_into(view, "stabilise.dial", "900 mbar")
    assert view.figures[0].isVisible()
    view.take_focus()
    press(view, "stabilise.act.1")
    press(view, "stabilise.act.1")
    view.take_focus()
    view.tick()


def test_a_number_asks_for_its_explanation(view: StabiliseView, bench: WoodBench) -> None:
    bench.set_up()
    asked: list[object] = []
    bench.pane.explained.connect(asked.append)
    view.figures[1].explain_asked.emit()
    assert len(asked) == 1
    bench.covered()
    view._explain(7)
    view._act(9)
    assert len(asked) == 1


def test_a_grid_shows_only_what_matters(view: StabiliseView, bench: WoodBench) -> None:
    grid = view.grids[0]
    press(view, "stabilise.page.2")
    grid.show_only(frozenset({"species"}))
    assert grid.first() is grid.choices["species"]
    grid.show_only(frozenset({"pieces"}))
    assert grid.first() is grid.quantities["pieces"].line
    grid.show_only(frozenset())
    assert grid.first() is grid
    view.grids[2].show_only(frozenset({"bath"}))
    assert view.grids[2].first() is view.grids[2].lines["bath"]
