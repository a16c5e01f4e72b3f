"""The Turn pane on screen, by keyboard."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit

from shopassist.core.batch import Typed
from shopassist.panes.turn.ladder import Ladder
from shopassist.panes.turn.screen import LadderShown, Rung
from shopassist.panes.turn.view import TurnView
from shopassist.widgets.look import Look
from tests.panes.hands import press, settle, shown, type_into
from tests.panes.turn.conftest import TurnBench


@pytest.fixture
def view(look: Look, bench: TurnBench) -> Iterator[TurnView]:
    yield from shown(TurnView(look, bench.pane, bench.shop.words))


def test_the_speed_of_a_piece_by_keyboard(view: TurnView, bench: TurnBench) -> None:
    view.take_focus()
    line = QApplication.focusWidget()
    assert line is not None
    QTest.keyClicks(line, "60")
    settle()
    assert view.figures[0].isVisible()
    QTest.keyClick(line, Qt.Key.Key_Return)
    type_into(view, "turn.knob", "6000")
    assert view.note.isVisible()
    assert view.speed.shown.at == pytest.approx(6000.0)
    press(view, "turn.fault.2")
    assert bench.pane.screen.faults[1][2]
    assert view.faults[1].isChecked()
    assert not view.pecks.isVisible()


def test_a_bore_by_keyboard(view: TurnView, bench: TurnBench) -> None:
    press(view, "turn.page.2")
    assert view.missing.isVisible()
    for name, text in (("drill", "8"), ("depth", "60"), ("stock", "30")):
        type_into(view, f"turn.{name}", text)
    assert view.pecks.isVisible()
    assert not view.missing.isVisible()
    box = view.findChild(QComboBox, "turn.both_ends")
    assert box is not None
    box.setCurrentIndex(1)
    box.activated.emit(1)
    settle()
    assert "from each end" in view.pecks.spoken()


def test_the_putty_is_counted_on_its_card(view: TurnView, bench: TurnBench) -> None:
    press(view, "turn.page.3")
    type_into(view, "turn.grooves", "6.6")
    assert not view.wait.isVisible()
    press(view, "turn.act.1")
    assert view.wait.text == "5:00"
    bench.shop.clock.advance(30)
    view.tick()
    assert view.wait.text == "4:30"
    bench.shop.clock.advance(270)
    view.tick()
    assert view.caption.words.startswith("Press it in")
    press(view, "turn.act.1")
    assert view.act.text() == "It has set"
    press(view, "turn.act.1")
    assert not view.act.isVisible()
    press(view, "turn.page.1")
    view.tick()


def test_papers_are_drawn_to_scale(view: TurnView, bench: TurnBench) -> None:
    press(view, "turn.page.4")
    type_into(view, "turn.papers", "240 320 800")
    assert view.ladder.isVisible()
    assert [each.label for each in view.ladder.shown.rungs if each.lent] == ["P500"]
    assert not view.ladder.grab().isNull()
    view.ladder.resize(120, 90)
    assert not view.ladder.grab().isNull()
    assert "P240 58.5" in view.ladder.spoken()


def test_a_line_shows_what_stands_though_the_keyboard_is_in_it(
    view: TurnView, bench: TurnBench
) -> None:
    batch = bench.shop.batches.open("Knobs")
    bench.shop.batches.enter(batch, "turn.papers", Typed("240 320", None))
    bench.shop.hand.take_batch(batch)
    press(view, "turn.page.4")
    line = view.findChild(QLineEdit, "turn.papers")
    assert line is not None
    line.setFocus()
    settle()
    assert line.text() == "240 320"
    bench.shop.batches.enter(batch, "turn.papers", Typed("320 400", None))
    bench.pane.changed.emit(None)
    assert line.text() == "320 400"
    QTest.keyClicks(line, "0 ")
    bench.pane.changed.emit(None)
    assert line.text() != "320 400", "what is being typed is not overwritten"


def test_coats_and_air_have_their_pages(view: TurnView, bench: TurnBench) -> None:
    press(view, "turn.page.6")
    type_into(view, "turn.air", "16")
    type_into(view, "turn.humidity", "71")
    type_into(view, "turn.surface", "12")
    assert "dew settles" in view.note.what
    press(view, "turn.page.5")
    type_into(view, "turn.recoat", "6")
    assert view.figures[0].shown.label == "Next coat after"


def test_every_number_asks_for_its_explanation(view: TurnView, bench: TurnBench) -> None:
    asked: list[object] = []
    bench.pane.explained.connect(asked.append)
    type_into(view, "turn.diameter", "60")
    view.figures[0].explain_asked.emit()
    view._explain(5)
    assert len(asked) == 1


@pytest.mark.parametrize("rungs", [(), (Rung(1.0, "P80", "201 µm"),)])
def test_a_ladder_of_few_rungs_is_drawn(look: Look, rungs: tuple[Rung, ...]) -> None:
    made = Ladder(look, "turn.ladder", LadderShown(rungs))
    made.resize(300, made.sizeHint().height())
    assert not made.grab().isNull()
    assert made.minimumSizeHint().width() < made.sizeHint().width()
    made.deleteLater()
    settle()
