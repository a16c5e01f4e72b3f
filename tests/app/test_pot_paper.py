"""The pot's list on paper, shown as it will be printed, and its readings for a spreadsheet."""

import csv
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtPrintSupport import QPrinter, QPrintPreviewDialog
from PySide6.QtWidgets import QApplication

from tests.app.pot_bench import PotDesk

pypdf = pytest.importorskip("pypdf")


@pytest.fixture
def desk(tmp_path: Path, qapp: QApplication) -> Iterator[PotDesk]:
    made = PotDesk(tmp_path)
    yield made
    made.close()


def test_the_preview_shows_what_the_file_holds(desk: PotDesk, tmp_path: Path) -> None:
    desk.person.press("pot.paper")
    window = desk.person.program.window
    dialog = window.findChild(QPrintPreviewDialog, "print.preview")
    assert dialog is not None
    line = window.pot_line
    assert dialog.y() > line.mapToGlobal(line.rect().bottomLeft()).y(), "the pot stays in sight"
    printer = dialog.printer()
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    dialog.paintRequested.emit(printer)
    written = desk.screen.said.removeprefix("Written: ")
    on_paper, in_file = (pypdf.PdfReader(p).pages for p in (tmp_path / "printed.pdf", written))
    assert len(on_paper) == len(in_file) == 2
    for printed, filed in zip(on_paper, in_file, strict=True):
        assert printed.extract_text().split() == filed.extract_text().split()
    dialog.close()


def test_the_readings_go_to_a_file_from_their_page(desk: PotDesk) -> None:
    desk.held()
    desk.person.program.presenters.pot.on_page("readings")
    desk.person.look()
    desk.person.press("pot.save_csv")
    written = Path(desk.screen.said.removeprefix("Written: "))
    head, *rows = csv.reader(written.read_text("utf-8-sig").splitlines())
    assert head[-1] == "What it was"
    assert [row[2] for row in rows] == ["0.7", "2.76"]
