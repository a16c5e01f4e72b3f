"""Sheet, calendar, table and backups through the real window."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QDesktopServices
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from shopassist import app
from shopassist.app.arguments import arguments
from shopassist.app.joined import Joined
from shopassist.app.shelf import FileShelf
from shopassist.clock.system import SystemClock
from shopassist.core.errors import StoreError
from shopassist.core.pot.words import Belief
from tests.panes.hands import press

pypdf = pytest.importorskip("pypdf")


@pytest.fixture
def folder(tmp_path: Path, qapp: QApplication) -> Path:
    """The demo shop, in which every pane has life in it."""
    asked = arguments(["--demo", "--data-dir", str(tmp_path / "shop")])
    base, _ = app.opened(asked, SystemClock())
    base.close()
    return tmp_path / "shop"


def started(folder: Path) -> Joined:
    made = app.build(["--data-dir", str(folder)])
    made.window.resize(1366, 740)
    made.window.show()
    settle()
    return made


def ended(made: Joined) -> None:
    made.close()
    made.window.close()
    made.window.deleteLater()
    made.theme.deleteLater()
    settle()


def settle() -> None:
    for _ in range(4):
        QApplication.processEvents()


@pytest.fixture
def program(folder: Path) -> Iterator[Joined]:
    made = started(folder)
    yield made
    ended(made)


def test_the_sheet_has_the_grams_of_the_screen(program: Joined) -> None:
    program.window.show_pane("out")
    settle()
    pane = program.presenters.out
    for name in ("sheet", "calendar", "batch", "table"):
        pane.on_file(name)
        assert Path(pane.screen.written).stat().st_size > 100, name
    (path,) = program.base.paths.sheets.glob("*.pdf")
    page = " ".join(pypdf.PdfReader(path).pages[0].extract_text().split())
    figures = program.presenters.mix.screen.figures
    assert figures
    for each in figures:
        assert f"{each.value} {each.unit}".replace("\u2009", " ") in page
    assert "Shut the pot's inlet valve" in page
    assert "It is no safety device." in page


def test_in_every_style_the_sheet_is_one_page_and_says_the_same(program: Joined) -> None:
    widths = set()
    for units, decimal in (("metric", "."), ("metric", ","), ("us", ".")):
        program._settle(units=units, decimal=decimal)
        pane = program.presenters.out
        pane.on_file("sheet")
        read = pypdf.PdfReader(pane.screen.written)
        assert len(read.pages) == 1
        widths.add(round(float(read.pages[0].mediabox.width)))
        page = " ".join(read.pages[0].extract_text().split())
        figures = program.presenters.mix.screen.figures
        assert any(decimal in each.value for each in figures)
        for each in figures:
            assert f"{each.value} {each.unit}".replace("\u2009", " ") in page
        sheet = pane.sheet()
        for block in sheet.blocks:
            for row in block.rows:
                assert " ".join(row.value.split()) in page, row
    assert len(widths) == 2, "A4 and Letter"


def test_the_sheet_is_previewed_and_printed_as_the_file_is_written(
    program: Joined, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from PySide6.QtPrintSupport import QPrintPreviewDialog

    now = program.presenters.out._now()
    monkeypatch.setattr(program.presenters.out, "_now", lambda: now)
    program.window.show_pane("out")
    settle()
    press(program.window, "out.print")
    dialog = program.window.findChild(QPrintPreviewDialog, "print.preview")
    assert dialog is not None
    line = program.window.pot_line
    assert dialog.y() > line.mapToGlobal(line.rect().bottomLeft()).y(), "the pot stays in sight"
    printer = dialog.printer()
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    dialog.paintRequested.emit(printer)
    program.presenters.out.on_file("sheet")
    on_paper, in_file = (
        pypdf.PdfReader(path).pages
        for path in (tmp_path / "printed.pdf", program.presenters.out.screen.written)
    )
    assert len(on_paper) == 1
    assert on_paper[0].extract_text().split() == in_file[0].extract_text().split()
    dialog.close()


@pytest.mark.parametrize(
    ("key", "pane"), [(Qt.Key.Key_E, "out"), (Qt.Key.Key_8, "plan"), (Qt.Key.Key_7, "turn")]
)
def test_the_panes_of_the_week_are_one_key_away(program: Joined, key: Qt.Key, pane: str) -> None:
    QTest.keyClick(program.window, key, Qt.KeyboardModifier.ControlModifier)
    settle()
    assert program.window.board.focus == pane
    assert program.panes[pane].view is not None
    focus = QApplication.focusWidget()
    assert focus is not None
    assert program.panes[pane].isAncestorOf(focus)


def test_a_backup_is_made_by_itself_and_comes_back(folder: Path) -> None:
    first = started(folder)
    checker = first.late.checker
    assert checker is not None
    checker.join(30)
    settle()
    pane = first.presenters.out
    pane.on_page("backups")
    assert len(pane.screen.copies) == 1
    batches = first.services.batches.ids()
    first.services.batches.open("After the backup")
    pane.on_choose(0)
    pane.on_restore()
    ended(first)
    again = started(folder)
    assert again.services.batches.ids() == batches
    pots = again.services.pots
    assert all(pots.state(each).belief is Belief.UNKNOWN for each in pots.worst())
    assert again.late.desk is not None
    assert again.base.state.get("restored") == ""
    again.late._copy_done(StoreError("The disk is full."))
    ended(again)


def test_a_file_is_shown_by_the_systems_own_viewer(
    program: Joined, monkeypatch: pytest.MonkeyPatch
) -> None:
    shown: list[str] = []
    monkeypatch.setattr(QDesktopServices, "openUrl", lambda url: shown.append(url.toLocalFile()))
    program.presenters.out.on_file("table")
    program.presenters.out.on_open()
    assert shown == [program.presenters.out.screen.written]


def test_files_that_cannot_be_are_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"\xff\xfe")
    shelf = FileShelf(SystemClock())
    with pytest.raises(StoreError, match="could not be written"):
        shelf.text(str(tmp_path / "file"), "a.csv", "x")
    with pytest.raises(StoreError, match="cannot be read"):
        shelf.read(str(tmp_path / "file"))
