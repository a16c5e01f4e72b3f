"""The log on screen, by keyboard."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog, QLineEdit

from shopassist.panes.log.photos import Picture
from shopassist.panes.log.view import LogView
from shopassist.widgets.look import Look
from shopassist.widgets.paragraphs import Paragraphs
from shopassist.widgets.prose import Heading
from tests.panes.hands import press, settle, shown
from tests.panes.log.conftest import LogBench


@pytest.fixture
def view(look: Look, bench: LogBench) -> Iterator[LogView]:
    bench.shop.mixed("Oak", celsius=8.0)
    bench.shop.mixed("Ash")
    bench.read()
    yield from shown(LogView(look, bench.log))


def test_arrows_open_the_next_batch_and_space_marks_it(view: LogView, bench: LogBench) -> None:
    view.take_focus()
    assert bench.log.screen.title == "Ash"
    QTest.keyClick(view.table, Qt.Key.Key_Down)
    assert bench.log.screen.title == "Oak"
    QTest.keyClick(view.table, Qt.Key.Key_Space)
    settle()
    assert bench.log.screen.marked == 1
    assert view.table.model().index(1, 0).data().startswith("■")


def test_enter_takes_the_batch_in_hand(view: LogView, bench: LogBench) -> None:
    view.take_focus()
    QTest.keyClick(view.table, Qt.Key.Key_Down)
    QTest.keyClick(view.table, Qt.Key.Key_Return)
    settle()
    assert bench.shop.batches.get(bench.shop.hand.batch).name == "Oak"


def test_typing_in_the_search_narrows_the_table(view: LogView, bench: LogBench) -> None:
    view.activateWindow()
    QTest.keySequence(view, "Ctrl+F")
    view.search.setFocus()
    QTest.keyClicks(view.search, "oak")
    settle()
    assert view.table.model().rowCount() == 1
    QTest.keyClicks(view.search, " nowhere")
    settle()
    assert view.table.model().rowCount() == 0
    assert "Clear the search" in view.status.words
    assert bench.log.screen.query == "oak nowhere"


def test_outcome_note_and_next_time_are_kept(view: LogView, bench: LogBench) -> None:
    press(view, "log.outcome.good")
    view.note.setFocus()
    QTest.keyClicks(view.note, "Clean")
    QTest.keyClick(view.note, Qt.Key.Key_Return)
    view.next_time.setFocus()
    QTest.keyClicks(view.next_time, "Same again")
    QTest.keyClick(view.next_time, Qt.Key.Key_Return)
    settle()
    batch = bench.shop.batches.get(bench.log.ids[0])
    assert (batch.outcome, batch.notes, batch.next_time) == ("good", ("Clean",), "Same again")
    assert view.outcomes["good"].isChecked()
    assert view.note.text() == ""


def test_every_page_shows_its_words(view: LogView, bench: LogBench) -> None:
    for number, key in enumerate(("facts", "compare", "symptoms", "sheet", "photos"), 1):
        press(view, f"log.page.{number}")
        assert bench.log.screen.page == key
        assert view.pages[key].isChecked()
    press(view, "log.filter.5")
    assert view.filters["removed"].isChecked()


def test_the_name_is_changed_in_its_field(view: LogView, bench: LogBench) -> None:
    line = view.findChild(QLineEdit, "log.name")
    assert line is not None
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, "Elm")
    QTest.keyClick(line, Qt.Key.Key_Return)
    settle()
    assert bench.log.screen.title == "Elm"


def test_again_take_mark_and_remove_are_buttons(view: LogView, bench: LogBench) -> None:
    press(view, "log.mark")
    assert bench.log.screen.marked == 1
    press(view, "log.take_in_hand")
    press(view, "log.again")
    assert bench.log.screen.count == 3
    press(view, "log.remove")
    assert bench.log.screen.count == 2


def test_headings_and_cells_answer_only_for_what_is_shown(view: LogView) -> None:
    model = view.table.model()
    assert model.headerData(0, Qt.Orientation.Horizontal) == "Batch"
    assert model.headerData(0, Qt.Orientation.Vertical) is None
    assert model.index(0, 0).data(Qt.ItemDataRole.DecorationRole) is None
    assert model.rowCount(model.index(0, 0)) == 0
    assert model.columnCount(model.index(0, 0)) == 0


def test_what_was_learnt_can_be_saved(view: LogView, bench: LogBench) -> None:
    shop = bench.shop
    sheet = shop.sheet()
    for hours in (2.0, 2.1, 2.2):
        batch = shop.mixed(celsius=23.0, sheet=sheet)
        shop.clock.advance(hours * 3600)
        shop.warm(batch, 23.0)
        shop.batches.see(batch, "gelled")
    press(view, "log.page.4")
    press(view, "log.save_learnt")
    newest = shop.sheets.newest(sheet)
    assert newest is not None
    assert newest.number == 2


def test_the_shared_facts_are_listed(view: LogView, bench: LogBench) -> None:
    for batch, outcome in zip(bench.log.ids, ("good", "spoiled"), strict=True):
        bench.shop.batches.close(batch, outcome)
    bench.shop.batches.enter(bench.log.ids[1], "colour_name", None)
    press(view, "log.page.2")
    shared = view.findChild(Paragraphs, "log.shared")
    assert shared is not None
    assert "Coldest" in shared.accessibleDescription()
    shared.draw(shared._shown)


def test_a_narrow_table_leaves_columns_out_and_keeps_the_name(view: LogView) -> None:
    table = view.table
    for width, hidden in ((1200, set()), (300, {1, 2, 3}), (40, {1, 2, 3, 4})):
        table.resize(width, 300)
        settle()
        assert {c for c in range(5) if table.isColumnHidden(c)} >= hidden
        assert not table.isColumnHidden(0)


def picture(path: Path, wide: int = 4000, high: int = 3000) -> Path:
    image = QImage(wide, high, QImage.Format.Format_RGB32)
    image.fill(0x336699)
    assert image.save(str(path))
    return path


def test_photographs_are_shown_small_from_where_they_lie(
    view: LogView, bench: LogBench, tmp_path: Path
) -> None:
    press(view, "log.page.5")
    line = view.findChild(QLineEdit, "log.photo_path")
    assert line is not None
    for path in (picture(tmp_path / "knob.png"), tmp_path / "notes.txt"):
        path.touch()
        line.setText(str(path))
        QTest.keyClick(line, Qt.Key.Key_Return)
        settle()
        assert line.text() == ""
    shown = view.findChild(Picture, "log.photo.2.picture")
    assert shown is not None
    size = shown.sizeHint()
    assert 0 < size.width() < 1000
    assert size.width() / size.height() == pytest.approx(4 / 3, rel=0.01)
    assert 0 < shown.width() <= view.photos.area.viewport().width(), "nothing is cut off"
    assert shown.heightForWidth(40) == 30
    assert shown.minimumSizeHint().width() < 40
    assert not shown.grab().isNull()
    words = view.findChild(Heading, "log.photo.1.gone")
    assert words is not None
    assert "cannot be shown" in words.words
    (tmp_path / "knob.png").unlink()
    view.show_screen()
    settle()
    gone = view.findChild(Heading, "log.photo.2.gone")
    assert gone is not None
    assert "Not there any more" in gone.words
    press(view, "log.photo.1")
    assert [each.name for each in bench.log.screen.photos] == ["knob.png"]


def test_a_photograph_is_chosen_in_a_dialog_that_blocks_nothing(
    view: LogView, bench: LogBench, tmp_path: Path
) -> None:
    press(view, "log.page.5")
    press(view, "log.photo_choose")
    dialog = view.findChild(QFileDialog, "log.photo_dialog")
    assert dialog is not None
    dialog.fileSelected.emit(str(picture(tmp_path / "knob.png", 40, 30)))
    dialog.close()
    assert [each.name for each in bench.log.screen.photos] == ["knob.png"]
    broken = tmp_path / "broken.png"
    broken.write_bytes((tmp_path / "knob.png").read_bytes()[:60])
    bench.log.on_photo(str(broken))
    settle()
    assert view.findChild(Picture, "log.photo.1.picture") is None
