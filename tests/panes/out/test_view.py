"""The Out pane on screen, by keyboard."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QPushButton

from shopassist.panes.out.view import OutView
from shopassist.store.resources import resource
from shopassist.widgets import fonts
from shopassist.widgets.look import Look
from shopassist.widgets.theme import Theme
from tests.panes.out.conftest import OutBench


@pytest.fixture
def view(qapp: QApplication, bench: OutBench) -> Iterator[OutView]:
    look = Look(fonts.load(sorted(resource("fonts").glob("*.otf"))))
    look.set_pitch(1 / 0.253)
    Theme(qapp, look)
    made = OutView(look, bench.pane)
    made.resize(940, 560)
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


def press(view: OutView, name: str) -> None:
    button = view.findChild(QPushButton, f"out.{name}")
    assert button is not None, name
    assert button.isVisible(), name
    button.setFocus()
    QTest.keyClick(button, Qt.Key.Key_Space)
    settle()


def type_into(view: OutView, name: str, text: str) -> None:
    line = view.findChild(QLineEdit, f"out.{name}")
    assert line is not None, name
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, text)
    QTest.keyClick(line, Qt.Key.Key_Return)
    settle()


def test_files_are_written_by_keyboard(view: OutView, bench: OutBench) -> None:
    assert not view.files["sheet"].isEnabled()
    bench.shop.mixed("Knobs")
    settle()
    view.take_focus()
    assert QApplication.focusWidget() is view.files["sheet"]
    type_into(view, "folder", "/there")
    for name in ("sheet", "calendar", "batch", "table"):
        press(view, name)
    assert len(bench.shelf.files) == 4
    assert view.written.words == "Written: /there/batches.csv"
    asked: list[str] = []
    bench.pane.open_asked.connect(asked.append)
    press(view, "open")
    assert asked == ["/there/batches.csv"]
    path = next(each for each in bench.shelf.files if each.endswith(".json"))
    type_into(view, "import_path", path)
    press(view, "import")
    assert "as batch" in view.written.words
    type_into(view, "import_path", "/nowhere")
    press(view, "import")
    assert view.message.isVisible()


def test_a_backup_is_chosen_and_put_back_by_keyboard(view: OutView, bench: OutBench) -> None:
    press(view, "page.2")
    press(view, "copy_now")
    press(view, "copy_now")
    assert view.copies.count() == 2
    assert not view.restore.isVisible()
    view.take_focus()
    QTest.keyClick(view.copies, Qt.Key.Key_Down)
    settle()
    assert view.copies.currentRow() >= 0
    press(view, "restore")
    assert bench.copies.wanted
    assert view.restore.text() == "Leave the log as it is"
    bench.pane.on_choose(1)
    assert view.copies.currentRow() == 1
