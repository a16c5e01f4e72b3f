from collections.abc import Iterator

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QPushButton, QWidget

from shopassist.core.cabinet import CABINET_FIELDS
from shopassist.panes.warmup.drafts import BOX, SPECS
from shopassist.panes.warmup.presenter import WarmupPresenter
from shopassist.panes.warmup.view import WarmupView
from shopassist.store.resources import resource
from shopassist.widgets import fonts
from shopassist.widgets.look import Look
from shopassist.widgets.theme import Theme
from shopassist.widgets.tokens import DARK
from tests.panes.warmup.bench import LOG, Bench

DYNAMIC = {"warmup.note", "warmup.cure"}


@pytest.fixture
def look(qapp: QApplication) -> Look:
    made = Look(fonts.load(sorted(resource("fonts").glob("*.otf"))))
    made.set_pitch(1 / 0.253)
    Theme(qapp, made)
    return made


@pytest.fixture
def view(look: Look, bench: Bench) -> Iterator[WarmupView]:
    bench.ready()
    made = WarmupView(look, bench.pane, bench.words)
    made.resize(948, 540)
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


def named(view: WarmupView, name: str) -> QWidget:
    found = view.findChild(QWidget, name)
    assert found is not None, name
    return found


def keys(widget: QWidget, text: str) -> None:
    assert isinstance(widget, QLineEdit)
    widget.setFocus()
    widget.selectAll()
    QTest.keyClicks(widget, text)
    QTest.keyClick(widget, Qt.Key.Key_Return)
    settle()


def test_every_name_it_answers_for_is_there_and_speaks(view: WarmupView) -> None:
    for name in WarmupPresenter.IDS:
        found = named(view, name.replace("<n>", "1"))
        if name.partition(".<n>")[0] not in DYNAMIC and name != "warmup.tell_pot":
            assert found.accessibleName(), name


def test_a_value_typed_by_the_keyboard_moves_the_figures(view: WarmupView, bench: Bench) -> None:
    before = view.figures[0].shown
    keys(named(view, "warmup.shop"), "5")
    assert view.figures[0].shown != before
    assert dict(bench.screen.fields)["shop"].value == pytest.approx(278.15)


def test_the_hour_of_the_pour_is_typed_and_a_wrong_one_said_beside_it(view: WarmupView) -> None:
    before = view.lead.shown
    keys(named(view, "warmup.pour_at"), "10:15")
    assert view.lead.shown != before
    keys(named(view, "warmup.pour_at"), "soonish")
    assert view.entries.pour_error.isVisible()
    keys(named(view, "warmup.pour_at"), "9:00")
    assert not view.entries.pour_error.isVisible()


def test_the_cabinets_own_entries_show_only_where_it_is_typed(view: WarmupView) -> None:
    assert not any(view.entries.edits[name].isVisible() for name in BOX)
    combo = named(view, "warmup.cabinet")
    assert isinstance(combo, QComboBox)
    combo.setCurrentIndex(combo.count() - 1)
    combo.activated.emit(combo.count() - 1)
    settle()
    assert all(view.entries.edits[name].isVisible() for name in BOX)
    view.take_focus()
    assert view.entries.edits["width"].line.hasFocus()


def test_refused_resin_is_said_beside_the_choice(view: WarmupView) -> None:
    combo = view.entries.inside
    combo.setCurrentIndex(2)
    combo.activated.emit(2)
    settle()
    assert view.entries.refused.isVisible()
    assert view.notes[0].isVisible()
    combo.activated.emit(1)
    settle()
    assert not view.entries.refused.isVisible()
    assert view.entries.edits["count"].isVisible()


def test_the_keyboard_goes_to_the_shop_where_nothing_is_blank(view: WarmupView) -> None:
    view.entries.inside.activated.emit(1)
    settle()
    view.take_focus()
    assert view.entries.edits["shop"].line.hasFocus()


def test_tab_goes_through_the_entries_in_the_order_they_are_read(view: WarmupView) -> None:
    view.entries.cabinet.setFocus()
    seen = []
    for _ in range(40):
        focused = QApplication.focusWidget()
        if isinstance(focused, QLineEdit | QComboBox):
            seen.append(focused.objectName())
        QTest.keyClick(QApplication.focusWidget() or view, Qt.Key.Key_Tab)
    wanted = ["cabinet", "thermostat", "shop", "goal", "inside", "pot", "moulds", "resin", "wood",
              "pour_at"]  # fmt: skip
    assert seen[: len(wanted)] == [f"warmup.{name}" for name in wanted]


def test_a_plan_fits_the_small_window_without_scrolling(view: WarmupView) -> None:
    area = named(view, "warmup.area")
    assert area.verticalScrollBar().maximum() == 0  # type: ignore[attr-defined]


@pytest.mark.parametrize("size", [(948, 540), (750, 600), (620, 400), (1400, 800)])
def test_nothing_is_wider_than_the_pane(view: WarmupView, size: tuple[int, int]) -> None:
    view.resize(*size)
    settle()
    for child in view.findChildren(QWidget):
        if child.isVisible() and child.objectName().startswith("warmup."):
            right = child.mapTo(view, child.rect().topRight()).x()
            assert right <= view.width(), child.objectName()


def test_explain_marks_ask_by_the_keyboard(view: WarmupView, bench: Bench) -> None:
    mark = named(view, "warmup.switch_on.explain")
    mark.setFocus()
    QTest.keyClick(mark, Qt.Key.Key_Space)
    assert [each.id for each in bench.explained] == ["warmup.switch_on"]


def test_the_lines_of_the_cure_are_explained_by_the_keyboard(
    view: WarmupView, bench: Bench
) -> None:
    mark = named(view, "warmup.cure.1.explain")
    assert not mark.isVisible()
    bench.mixed("Knobs", 17.0, bench.sheet())
    settle()
    assert mark.isVisible()
    assert mark.accessibleName() == f"Explain {bench.screen.cure_lines[0][0]}"
    mark.setFocus()
    QTest.keyClick(mark, Qt.Key.Key_Space)
    assert [each.id for each in bench.explained] == ["warmup.cure.1"]


def test_the_pots_record_is_told_by_a_button(view: WarmupView, bench: Bench) -> None:
    assert not view.tell_pot.isVisible()
    bench.plate()
    keys(named(view, "warmup.thermostat"), "40")
    assert view.tell_pot.isVisible()
    QTest.mouseClick(view.tell_pot, Qt.MouseButton.LeftButton)
    settle()
    assert not view.tell_pot.isVisible()


def test_a_log_is_typed_worked_out_and_kept(view: WarmupView, bench: Bench) -> None:
    bench.ready(name="Small box", heater={"power": "40 W"})
    settle()
    QTest.mouseClick(view.entries.learn, Qt.MouseButton.LeftButton)
    settle()
    assert view.sheet.isVisible()
    assert view.sheet.log.hasFocus()
    view.sheet.log.setPlainText("nothing")
    QTest.mouseClick(view.sheet.work_out, Qt.MouseButton.LeftButton)
    assert view.sheet.message.isVisible()
    assert not view.sheet.keep.isEnabled()
    view.sheet.log.setPlainText(LOG)
    QTest.mouseClick(view.sheet.work_out, Qt.MouseButton.LeftButton)
    assert view.sheet.results[0].isVisible()
    QTest.mouseClick(view.sheet.keep, Qt.MouseButton.LeftButton)
    settle()
    assert not view.sheet.isVisible()
    assert view.entries.learn.hasFocus()


def test_escape_closes_the_sheet(view: WarmupView, bench: Bench) -> None:
    bench.pane.on_learn()
    settle()
    QTest.keyClick(view.sheet.log, Qt.Key.Key_Escape)
    settle()
    assert not view.sheet.isVisible()
    bench.pane.on_learn()
    settle()
    QTest.mouseClick(view.sheet.close_it, Qt.MouseButton.LeftButton)
    settle()
    assert not view.sheet.isVisible()


def test_the_picture_says_in_words_what_it_draws(view: WarmupView) -> None:
    words = view.picture.accessibleDescription()
    assert words.startswith("Switched on ")
    assert "warm means 28 degrees Celsius" in words


def test_a_tick_redraws_with_the_minute_only(view: WarmupView, bench: Bench) -> None:
    keys(named(view, "warmup.pour_at"), bench.words.clock(bench.now + 900))
    before = view.picture.shown
    view.tick()
    assert view.picture.shown is before
    bench.clock.advance(600.0)
    view.tick()
    assert view.picture.shown != before


def test_an_empty_pane_and_every_state_paint_in_both_themes(
    view: WarmupView, bench: Bench, look: Look
) -> None:
    bench.pane.on_cabinet("")
    settle()
    assert not view.grab().isNull()
    look.set_tokens(DARK)
    bench.ready()
    bench.pane.on_learn()
    settle()
    assert not view.grab().isNull()
    assert isinstance(named(view, "warmup.learn.keep"), QPushButton)


def test_every_entry_has_a_label_and_every_record_field_a_place() -> None:
    assert len({spec.field for spec in SPECS.values()}) == len(SPECS)
    assert all(field.label for field in CABINET_FIELDS)
