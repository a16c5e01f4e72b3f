"""The sheet as a file, read back by another tool."""

from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from shopassist.core.errors import StoreError
from shopassist.desktop.batch_sheet import html, write_batch_sheet
from shopassist.store.resources import resource
from shopassist.widgets import fonts
from shopassist.widgets.batch_sheet_shown import SheetBlock, SheetRow, SheetShown

pypdf = pytest.importorskip("pypdf")
BLOCKS = (
    SheetBlock("Mix", (SheetRow("Resin, A", "194.6 g"), SheetRow("Poured", box=True)), 2),
    SheetBlock("Plan", tuple(SheetRow(f"Stage {n}", "Mon 09:00", box=True) for n in range(24)), 2),
)


@pytest.fixture
def family(qapp: QApplication) -> str:
    return fonts.load(sorted(resource("fonts").glob("*.otf")))


@pytest.mark.parametrize(("letter", "wide"), [(False, 595), (True, 612)])
def test_a_sheet_is_one_page_with_every_number(
    family: str, tmp_path: Path, letter: bool, wide: int
) -> None:
    path = tmp_path / "new" / "sheet.pdf"
    shown = SheetShown("Batch sheet: <Knobs>", "row 9", BLOCKS, ("No safety device.",), letter)
    assert write_batch_sheet(path, shown, family) > 5
    read = pypdf.PdfReader(path)
    assert len(read.pages) == 1
    assert round(float(read.pages[0].mediabox.width)) == pytest.approx(wide, abs=1)
    words = " ".join(read.pages[0].extract_text().split())
    for each in ("194.6", "<Knobs>", "Stage 23", "No safety device.", "____"):
        assert each in words


def test_words_of_a_sheet_are_no_markup() -> None:
    shown = SheetShown("<b>", "&", (SheetBlock("<i>", (SheetRow("<u>", "<s>"),)),), ("<p>",))
    assert "&lt;b&gt;" in html(shown)
    assert "<s>" not in html(shown)


def test_a_sheet_that_cannot_be_written_is_told(family: str, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(StoreError, match="could not be written"):
        write_batch_sheet(tmp_path / "file" / "sheet.pdf", SheetShown("a", "b", (), ()), family)
