"""A page in Qt's preview, and on paper."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QPageLayout, QPalette, QTextDocument
from PySide6.QtPrintSupport import QPrinter, QPrintPreviewWidget
from PySide6.QtWidgets import QApplication, QWidget

from shopassist.desktop.batch_sheet import html
from shopassist.desktop.fitted_pages import _document
from shopassist.desktop.printing import TOO_SMALL, Page, Preview, preview
from shopassist.store.resources import resource
from shopassist.widgets import fonts
from shopassist.widgets.batch_sheet_shown import SheetBlock, SheetRow, SheetShown

pypdf = pytest.importorskip("pypdf")
WORDS = "".join(f"<p>Line {n}: 194.{n} g</p>" for n in range(40))


@pytest.fixture
def window(qapp: QApplication) -> Iterator[QWidget]:
    made = QWidget()
    made.resize(1000, 700)
    yield made
    made.deleteLater()


@pytest.fixture
def family(qapp: QApplication) -> str:
    return fonts.load(sorted(resource("fonts").glob("*.otf")))


def printed(dialog: Preview, path: Path) -> list[str]:
    """What the dialog's printer puts on paper, a text for each page."""
    printer = dialog.printer()
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(path))
    dialog.paintRequested.emit(printer)
    return [" ".join(page.extract_text().split()) for page in pypdf.PdfReader(path).pages]


@pytest.mark.parametrize(("letter", "wide"), [(False, 595), (True, 612)])
def test_the_page_is_shown_and_printed_whole(
    window: QWidget, family: str, tmp_path: Path, letter: bool, wide: int
) -> None:
    dialog = preview(Page("Sheet", WORDS, letter), family, window)
    QApplication.processEvents()
    shown = dialog.findChild(QPrintPreviewWidget)
    assert shown is not None
    assert shown.pageCount() == 1
    (words,) = printed(dialog, tmp_path / "page.pdf")
    assert all(f"Line {n}: 194.{n} g" in words for n in range(40))
    box = pypdf.PdfReader(tmp_path / "page.pdf").pages[0].mediabox
    assert float(box.width) == pytest.approx(wide, abs=1)
    dialog.close()


def test_in_a_dark_window_the_words_on_paper_are_black(
    window: QWidget, qapp: QApplication, family: str, tmp_path: Path
) -> None:
    shown = SheetShown("Knobs", "printed", (SheetBlock("Mix", (SheetRow("A", "1 g"),)),), ("Foot",))
    before = qapp.palette()
    dark = QPalette(before)
    for role in (QPalette.ColorRole.Text, QPalette.ColorRole.WindowText):
        dark.setColor(role, Qt.GlobalColor.white)
    qapp.setPalette(dark)
    try:
        printer = Preview(Page("Knobs", html(shown)), family, window).printer()
        inks = inks_of(_document(html(shown), family, 9.0, printer))
    finally:
        qapp.setPalette(before)
    assert inks == {"#000000"}


def inks_of(document: QTextDocument) -> set[str]:
    """Colours of every word; one that a word leaves open is the window's."""
    found: set[str] = set()
    block = document.begin()
    while block.isValid():
        pieces = block.begin()
        while not pieces.atEnd():
            fragment = pieces.fragment()
            brush = fragment.charFormat().foreground()
            is_set = brush.style() != Qt.BrushStyle.NoBrush
            if fragment.text().strip():
                found.add(brush.color().name() if is_set else "the window's")
            pieces += 1
        block = block.next()
    return found


def test_the_window_behind_it_can_still_be_used(window: QWidget, family: str) -> None:
    dialog = preview(Page("Sheet", WORDS), family, window)
    assert dialog.isVisible()
    assert not dialog.isModal()
    assert dialog.width() < window.width()
    dialog.close()


def test_what_does_not_fit_the_chosen_paper_is_said_on_it(
    window: QWidget, family: str, tmp_path: Path
) -> None:
    dialog = Preview(Page("Sheet", "<p>word</p>" * 110), family, window)
    assert len(printed(dialog, tmp_path / "upright.pdf")[0].split()) == 110
    dialog.printer().setPageOrientation(QPageLayout.Orientation.Landscape)
    (words,) = printed(dialog, tmp_path / "flat.pdf")
    assert words == TOO_SMALL
    dialog.deleteLater()
