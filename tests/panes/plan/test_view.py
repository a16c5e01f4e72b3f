"""The Plan pane on screen, by keyboard."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QCheckBox

from shopassist.panes.plan.bars import AXIS, PITCH, Bars
from shopassist.panes.plan.screen import BarsShown
from shopassist.panes.plan.view import PlanView
from shopassist.widgets.look import Look
from tests.panes.hands import press, settle, shown, type_into
from tests.panes.plan.conftest import PlanBench


@pytest.fixture
def view(look: Look, bench: PlanBench) -> Iterator[PlanView]:
    bench.open()
    yield from shown(PlanView(look, bench.pane, bench.shop.words))


def test_a_stage_is_begun_and_ended_by_the_space_bar_alone(
    view: PlanView, bench: PlanBench
) -> None:
    view.take_focus()
    focus = QApplication.focusWidget()
    assert focus is view.dos[0]
    QTest.keyClick(focus, Qt.Key.Key_Space)
    settle()
    assert view.dos[0].text() == "Done: Rough-turn cores, cut grooves"
    bench.wait(1)
    type_into(view, "plan.when", "10 min ago")
    press(view, "plan.do.1")
    assert bench.pane.screen.bars.rows[0].kind == "done"
    assert view.when.line.text() == ""
    assert "Dry in the oven" in view.dos[0].text()


def test_a_time_that_cannot_be_read_stays_beside_its_message(
    view: PlanView, bench: PlanBench
) -> None:
    type_into(view, "plan.when", "soonish")
    press(view, "plan.do.1")
    assert view.when.line.text() == "soonish"
    assert view.when.hint.text().startswith("This is not a clock time.")
    assert view.when.hint.property("kind") == "error"


def test_rows_are_walked_by_the_arrow_keys(view: PlanView, bench: PlanBench) -> None:
    view.bars.setFocus()
    QTest.keyClick(view.bars, Qt.Key.Key_Down)
    settle()
    assert view.stage.words == "Dry in the oven"
    QTest.keyClick(view.bars, Qt.Key.Key_Up)
    QTest.keyClick(view.bars, Qt.Key.Key_A)
    settle()
    assert view.stage.words == "Rough-turn cores, cut grooves"
    view.take_focus()
    assert QApplication.focusWidget() is view.bars


def test_a_click_chooses_the_stage_of_its_row(view: PlanView, bench: PlanBench) -> None:
    em = view.look.metrics.body_px
    y = round((AXIS + 1.5 * PITCH) * em)
    QTest.mouseClick(view.bars, Qt.MouseButton.LeftButton, pos=QPoint(30, y))
    assert view.stage.words == bench.pane.screen.bars.rows[1].name
    QTest.mouseClick(view.bars, Qt.MouseButton.LeftButton, pos=QPoint(30, 3))
    assert view.stage.words == bench.pane.screen.bars.rows[1].name


def test_durations_are_typed_on_the_stage_page(view: PlanView, bench: PlanBench) -> None:
    press(view, "plan.page.2")
    type_into(view, "plan.likely", "3")
    assert bench.pane.screen.stage.answers["likely"].value == pytest.approx(3 * 3600)
    type_into(view, "plan.high", "1")
    assert view.grid._problems["high"].isVisible()
    press(view, "plan.start")
    press(view, "plan.end")
    press(view, "plan.take_back")
    press(view, "plan.leave_out")
    assert view.acts["leave_out"].text() == "Bring it back"


def test_the_rules_of_the_shop_are_typed(view: PlanView, bench: PlanBench) -> None:
    press(view, "plan.page.3")
    type_into(view, "plan.hours", "Mon-Fri 17-21")
    assert view.hours.line.text() == "Mon–Fri 17–21"
    type_into(view, "plan.hours", "never")
    assert view.hours.line.text() == "never"
    assert view.hours.hint.text().startswith("These are no hours")
    type_into(view, "plan.due", "2026-10-30")
    assert view.due.hint.text() == "Fri 30 Oct 2026, 18:00"
    assert view.figures[-1].isVisible()
    box = view.findChild(QCheckBox, "plan.attended")
    assert box is not None
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_Space)
    settle()
    assert bench.service.shop.attended


def test_more_and_less_of_the_time_is_shown(view: PlanView, bench: PlanBench) -> None:
    few = len(view.bars.shown.rows)
    press(view, "plan.span.3")
    assert len(view.bars.shown.rows) == 24 > few
    press(view, "plan.span.2")
    assert view.spans["week"].isChecked()
    assert view.grab().width() == 940


def test_minutes_move_the_now_mark(view: PlanView, bench: PlanBench) -> None:
    before = view.bars.shown.now
    view.tick()
    assert view.bars.shown.now == pytest.approx(before)
    bench.wait(0.1)
    view.tick()
    assert view.bars.shown.now == pytest.approx(before + 360)


def test_every_number_asks_for_its_explanation(view: PlanView, bench: PlanBench) -> None:
    asked: list[object] = []
    bench.pane.explained.connect(asked.append)
    view.lead.explain_asked.emit()
    view.figures[1].explain_asked.emit()
    assert len(asked) == 2


def test_running_work_of_two_batches_is_drawn(view: PlanView, bench: PlanBench) -> None:
    bench.pane.on_start()
    bench.wait(0.5)
    other = bench.open("Other")
    bench.service.start(other, "dry")
    bench.wait(1)
    view.bars.resize(640, view.bars.sizeHint().height())
    for span in ("near", "week", "all"):
        bench.pane.on_span(span)
        assert not view.bars.grab().isNull()
    assert view.bars.shown.threads
    assert "Dry in the oven: running since" in view.bars.spoken()
    assert view.bars.minimumSizeHint().height() == view.bars.sizeHint().height()


def test_without_anything_to_draw_it_says_why(look: Look) -> None:
    bars = Bars(look, "plan.bars", BarsShown(empty="Take a batch in hand."))
    bars.resize(400, 100)
    assert bars.spoken() == "Take a batch in hand."
    assert not bars.grab().isNull()
    assert bars.row_rect("dry") is None
    bars.deleteLater()
    settle()


def test_the_order_is_typed_on_the_stage_page(view: PlanView, bench: PlanBench) -> None:
    bench.pane.on_select("drill")
    settle()
    type_into(view, "plan.after", "sealer")
    assert bench.pane.screen.stage.order["after"].text == "Turn the profile"
    assert "ring" in view.order["after"].hint.text()
    type_into(view, "plan.after", "rough")
    assert view.order["after"].line.text() == "Rough-turn cores, cut grooves"
    type_into(view, "plan.place", "chamber")
    assert bench.pane.screen.stage.order["place"].text == "chamber"
