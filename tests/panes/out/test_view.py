"""The Out pane on screen, by keyboard."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from shopassist.panes.out.view import OutView
from shopassist.widgets.look import Look
from tests.panes.hands import press, settle, shown, type_into
from tests.panes.out.conftest import OutBench


@pytest.fixture
def view(look: Look, bench: OutBench) -> Iterator[OutView]:
    yield from shown(OutView(look, bench.pane))


def test_files_are_written_by_keyboard(view: OutView, bench: OutBench) -> None:
    assert not view.files["sheet"].isEnabled()
    bench.shop.mixed("Knobs")
    settle()
    view.take_focus()
    assert QApplication.focusWidget() is view.files["sheet"]
    type_into(view, "out.folder", "/there")
    for name in ("sheet", "calendar", "batch", "table"):
        press(view, f"out.{name}")
    assert len(bench.shelf.files) == 4
    assert view.written.words == "Written: /there/batches.csv"
    asked: list[str] = []
    bench.pane.open_asked.connect(asked.append)
    press(view, "out.open")
    assert asked == ["/there/batches.csv"]
    path = next(each for each in bench.shelf.files if each.endswith(".json"))
    type_into(view, "out.import_path", path)
    press(view, "out.import")
    assert "as batch" in view.written.words
    type_into(view, "out.import_path", "/nowhere")
    press(view, "out.import")
    assert view.message.isVisible()


def test_a_backup_is_chosen_and_put_back_by_keyboard(view: OutView, bench: OutBench) -> None:
    press(view, "out.page.2")
    press(view, "out.copy_now")
    press(view, "out.copy_now")
    assert view.copies.count() == 2
    assert not view.restore.isVisible()
    view.take_focus()
    QTest.keyClick(view.copies, Qt.Key.Key_Down)
    settle()
    assert view.copies.currentRow() >= 0
    press(view, "out.restore")
    assert bench.copies.wanted
    assert view.restore.text() == "Leave the log as it is"
    bench.pane.on_choose(1)
    assert view.copies.currentRow() == 1
