"""The records pane by keyboard."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QWidget

from shopassist.core.quantities import Kilogram
from shopassist.panes.cure.presenter import CurePresenter
from shopassist.panes.records.view import RecordsView
from shopassist.store.resources import resource
from shopassist.widgets import fonts
from shopassist.widgets.look import Look
from shopassist.widgets.theme import Theme
from tests.panes.records.conftest import RecordsBench


@pytest.fixture
def view(qapp: QApplication, bench: RecordsBench) -> Iterator[RecordsView]:
    look = Look(fonts.load(sorted(resource("fonts").glob("*.otf"))))
    look.set_pitch(1 / 0.253)
    Theme(qapp, look)
    made = RecordsView(look, bench.pane)
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


def line(view: RecordsView, place: str) -> QLineEdit:
    found = view.findChild(QLineEdit, f"records.field.{place}")
    assert found is not None, place
    return found


def box(view: RecordsView, place: str) -> QComboBox:
    found = view.findChild(QComboBox, f"records.field.{place}")
    assert found is not None, place
    return found


def type_into(view: RecordsView, place: str, text: str) -> None:
    line(view, place).setFocus()
    line(view, place).selectAll()
    QTest.keyClicks(line(view, place), text)
    QTest.keyClick(line(view, place), Qt.Key.Key_Return)
    settle()


def press(view: RecordsView, name: str) -> None:
    view.acts[name].setFocus()
    QTest.keyClick(view.acts[name], Qt.Key.Key_Space)
    settle()


def test_a_sheet_is_written_and_saved_by_keyboard(view: RecordsView, bench: RecordsBench) -> None:
    view.take_focus()
    assert line(view, "name").hasFocus() or not view.isActiveWindow()
    type_into(view, "name", "Clear")
    box(view, "ratio.basis").setFocus()
    QTest.keyClicks(box(view, "ratio.basis"), "w")
    box(view, "ratio.basis").textActivated.emit(box(view, "ratio.basis").currentText())
    type_into(view, "ratio.a", "100")
    type_into(view, "ratio.b", "30")
    press(view, "save")
    assert [each.name for each in bench.shop.sheets.all()] == ["Clear"]
    assert "Saved as version 1." in view.status.words
    assert view.list.count() == 1
    assert not view.acts["save"].isEnabled()


def test_a_wrong_value_is_told_beside_its_field(view: RecordsView) -> None:
    type_into(view, "density.a", "heavy")
    cell = view._cells["density.a"]
    assert cell.problem.isVisible()
    assert line(view, "density.a").text() == "heavy"


def test_the_form_follows_the_kind_and_the_list(view: RecordsView, bench: RecordsBench) -> None:
    bench.shop.sheet()
    bench.shop.sheet("quick-opaque")
    bench.shop.plate()
    settle()
    view.list.setFocus()
    view.list.setCurrentRow(0)
    QTest.keyClick(view.list, Qt.Key.Key_Down)
    settle()
    assert line(view, "name").text() == "Slow clear"
    view.kind.setFocus()
    QTest.keyClick(view.kind, Qt.Key.Key_Down)
    view.kind.activated.emit(1)
    settle()
    assert line(view, "lid.clamps").text() == "6"
    assert box(view, "inlet.shut_off").currentText() in ("yes", "no")


def test_the_keyboard_stays_in_the_form_when_its_fields_are_those_of_another_kind(
    view: RecordsView, bench: RecordsBench
) -> None:
    line(view, "density.a").setFocus()
    bench.pane.on_kind(1)
    settle()
    assert QApplication.focusWidget() is line(view, "name")
    view.kind.setFocus()
    bench.pane.on_kind(0)
    settle()
    assert QApplication.focusWidget() is view.kind


def test_copy_new_and_remove_are_buttons(view: RecordsView, bench: RecordsBench) -> None:
    bench.shop.sheet()
    settle()
    bench.pane.on_select(0)
    press(view, "copy")
    assert line(view, "name").text() == "Slow clear copy"
    press(view, "new")
    assert bench.pane.screen.title == "New resin sheet"
    bench.pane.on_select(0)
    press(view, "remove")
    assert bench.shop.sheets.all() == ()


def test_a_file_is_read_by_its_path(view: RecordsView, bench: RecordsBench) -> None:
    path = bench.file('name = "From file"\nfamily = "glue"\n')
    view.file.setFocus()
    QTest.keyClicks(view.file, path)
    QTest.keyClick(view.file, Qt.Key.Key_Return)
    settle()
    assert line(view, "name").text() == "From file"
    assert box(view, "family").currentText() == "glue"
    assert view._cells["family"].problem.isVisible()


def test_second_times_typed_on_the_form_make_another_forecast(
    view: RecordsView, bench: RecordsBench
) -> None:
    """From the keys to the time that the cure pane counts to."""
    shop = bench.shop
    pane = CurePresenter(shop.batches, shop.cure, shop.waits, shop.hand, shop.clock, shop.words)
    name = shop.bare(family="amine epoxy", demould={"time": "24 h", "at": "23 °C"})
    settle()
    bench.pane.on_select(0)
    assert line(view, "demould.time_2").isVisible()
    assert not line(view, "demould.time_3").isVisible()
    assert not line(view, "hard.time_2").isVisible()

    def demould(version: int) -> tuple[float, str]:
        batch = shop.batches.open("Knob")
        shop.hand.take_batch(batch)
        shop.batches.use_sheet(batch, name, version)
        shop.warm(batch, 35.0)
        shop.batches.weigh(batch, 1, "a", Kilogram(0.1))
        shop.batches.weigh(batch, 1, "b", Kilogram(0.03))
        shop.batches.hardener_in(batch, 1)
        found = shop.cure.view(batch)
        stage = found.stage("demould") if found is not None else None
        assert stage is not None and stage.likely is not None
        lines = [each.range for each in pane.screen.lines if each.label == "Demould"]
        return stage.likely - shop.now, lines[0]

    before = demould(1)
    type_into(view, "demould.time_2", "8 h")
    assert line(view, "demould.time_3").isVisible()
    type_into(view, "demould.at_2", "40 °C")
    remark, asked = view.remarks["Demould"]
    assert remark.isVisible() and "52.9 ± 6.2 kJ/mol" in remark.text()
    assert not asked.isVisible()
    type_into(view, "demould.time_2", "3 h")
    assert asked.isVisible() and "hard to believe" in asked.text()
    type_into(view, "demould.time_2", "8 h")
    press(view, "save")
    assert "Saved as version 2." in view.status.words
    after = demould(2)
    # 24 h at 23 °C become at 35 °C 10.06 h by 55 kJ/mol, 10.40 h by 52.887.
    assert before[0] / 3600 == pytest.approx(10.056, abs=0.005)
    assert after[0] / 3600 == pytest.approx(10.398, abs=0.005)
    assert before[1] != after[1]


def held() -> QWidget:
    widget = QApplication.focusWidget()
    assert widget is not None
    return widget


def test_the_keyboard_goes_through_the_form_and_on_to_save(view: RecordsView) -> None:
    view._presenter.on_kind(1)  # a form made after the buttons
    settle()
    view.activateWindow()
    view.take_focus()
    fields = [cell.field.objectName() for cell in view._cells.values() if not cell.isHidden()]
    for name in fields:
        assert held().objectName() == name
        QTest.keyClick(held(), Qt.Key.Key_Tab)
    assert held().objectName() == "records.reason"
    view.take_focus()
    typed = {"name": "Pot", "rating.warmest": "32 °C", "lid.clamps": "6"}
    for name in fields:
        assert held().objectName() == name
        QTest.keyClicks(held(), typed.get(name.removeprefix("records.field."), ""))
        QTest.keyClick(held(), Qt.Key.Key_Return)
    assert held().objectName() == "records.save"
    QTest.keyClick(held(), Qt.Key.Key_Return)
    assert "Saved as version 1." in view.status.words
    assert held() is view.list, "a button that is disabled leaves the keyboard to the list"


def test_a_form_made_while_the_keyboard_is_in_another_shows_its_name(
    view: RecordsView, bench: RecordsBench
) -> None:
    bench.shop.plate()
    view.activateWindow()
    view.take_focus()
    view._presenter.on_kind(1)
    settle()
    assert held().objectName() == "records.field.name"
    assert line(view, "name").text() == "Big pot"


def test_what_has_to_be_put_right_is_brought_into_sight(view: RecordsView) -> None:
    view._presenter.on_kind(1)
    settle()
    view.activateWindow()
    type_into(view, "name", "Pot")
    type_into(view, "rating.warmest", "32 °C")
    type_into(view, "lid.clamps", "six")
    view._area.verticalScrollBar().setValue(view._area.verticalScrollBar().maximum())
    press(view, "save")
    assert view.status.words == "Not saved yet: 1 to put right."
    wrong = view._cells["lid.clamps"]
    assert held() is wrong.field
    assert wrong.visibleRegion().boundingRect().height() == wrong.height()


def test_fields_of_a_row_stand_level_where_a_label_takes_two_lines(view: RecordsView) -> None:
    view._presenter.on_kind(1)
    for width in (930, 620, 1400):
        view.resize(width, 575)
        settle()
        for row in view._rows:
            tops = {cell.field.mapTo(view, cell.field.rect().topLeft()).y() for cell in row}
            assert len(tops) == 1
            for cell in row:
                assert cell.label.height() >= cell.label.heightForWidth(cell.label.width())
