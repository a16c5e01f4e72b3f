"""Sheet and calendar as files, read back by other tools."""

from datetime import UTC, datetime
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from shopassist.core.errors import StoreError
from shopassist.core.quantities import Second, UtcSecond
from shopassist.desktop.batch_sheet import html, write_batch_sheet
from shopassist.desktop.calendar_file import calendar_bytes
from shopassist.services.coming import Event
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


def test_a_calendar_is_read_by_its_rules() -> None:
    # The night in which European clocks are put back: instants are UTC and stay where they are.
    night = UtcSecond(datetime(2026, 10, 25, 0, 30, tzinfo=UTC).timestamp())
    events = (Event("a", "Hold until; gel, late" + " ü" * 60, night, "estimated", Second(1200.0)),
              Event("b", "Turn", UtcSecond(night + 3600)))  # fmt: skip
    data = calendar_bytes(events, UtcSecond(night - 9999))
    lines = data.split(b"\r\n")
    assert all(len(line) <= 75 for line in lines)
    assert b"\n" not in data.replace(b"\r\n", b"")
    whole = data.replace(b"\r\n ", b"").decode().split("\r\n")
    assert (whole[0], whole[-2], whole[-1]) == ("BEGIN:VCALENDAR", "END:VCALENDAR", "")
    assert [line for line in whole if line.startswith("DTSTART")] == [
        "DTSTART:20261025T003000Z", "DTSTART:20261025T013000Z",
    ]  # fmt: skip
    assert whole.count("BEGIN:VALARM") == whole.count("END:VALARM") == 2
    assert "TRIGGER:-PT20M" in whole
    assert any(line.startswith("SUMMARY:Hold until\\; gel\\, late") for line in whole)
    uids = [line for line in whole if line.startswith("UID:")]
    assert len(set(uids)) == 2
