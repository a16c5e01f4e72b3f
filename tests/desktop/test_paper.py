"""The pot's list as a PDF: two sides of a sheet, every word on them, read back as text."""

import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from shopassist.core.errors import StoreError
from shopassist.core.style import UnitChoice
from shopassist.core.wording import METRIC, US
from shopassist.desktop.fitted_pages import SMALLEST
from shopassist.desktop.paper import html, write_pdf, write_sheet
from shopassist.panes.pot.paper import paper_of
from shopassist.store.resources import resource
from shopassist.widgets import fonts
from shopassist.widgets.paper_shown import PaperLine, PaperShown
from tests.shops import Shop


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    made = Shop(tmp_path)
    yield made
    made.close()


@pytest.fixture
def family(qapp: QApplication) -> str:
    return fonts.load(sorted(resource("fonts").glob("*.otf")))


def shown(shop: Shop) -> PaperShown:
    made = paper_of(shop.pots, shop.plate(), shop.words)
    assert made is not None
    return made


def pages(path: Path) -> int:
    return path.read_bytes().count(b"/Type /Page\n")


@pytest.mark.parametrize("units", [METRIC, US])
def test_the_whole_list_stands_on_both_sides_of_one_sheet(
    shop: Shop, family: str, tmp_path: Path, units: object
) -> None:
    shop.words.units = units  # type: ignore[assignment]
    sheet = shown(shop)
    assert sheet.letter is (units == US)
    path = tmp_path / "new" / "list.pdf"
    assert write_sheet(path, sheet, family) >= 9.0
    assert pages(path) == 2


@pytest.mark.parametrize(
    ("units", "rated", "most"),
    [(METRIC, "Rated 4.10 bar (59.5 psi)", "Fill to 3.43 bar (49.7 psi) at most"),
     (US, "Rated 59.5 psi (4.10 bar)", "Fill to 49.7 psi (3.43 bar) at most")],
)  # fmt: skip
def test_pressures_of_the_plate_stand_in_both_units(
    shop: Shop, units: UnitChoice, rated: str, most: str
) -> None:
    """The dial at the pot may be in the other one."""
    shop.words.units = units
    facts = shown(shop).facts
    assert {rated, most} <= set(facts)
    assert "6 clamps, 3 passes" in facts


def test_letting_down_begins_on_the_second_side(shop: Shop, family: str, tmp_path: Path) -> None:
    pypdf = pytest.importorskip("pypdf")
    path = tmp_path / "list.pdf"
    write_pdf(path, shown(shop), family)
    read = [page.extract_text() for page in pypdf.PdfReader(path).pages]
    first, second = (" ".join(words.split()) for words in read)
    assert "Letting down is overleaf" in first
    assert "Hold" in first
    assert "Let down: isolate" not in first
    for heading in ("Let down: isolate, vent, zero", "Prove", "Crack and open", "Odd things"):
        assert heading in second
    assert "Air on" not in second.split("Odd things")[0]


def test_every_word_can_be_read_back(shop: Shop, family: str, tmp_path: Path) -> None:
    reader = shutil.which("pdftotext")
    if reader is None:
        pytest.skip("needs a reader of PDF text")
    sheet = shown(shop)
    path = tmp_path / "list.pdf"
    write_pdf(path, sheet, family)
    read = subprocess.run([reader, "-raw", path, "-"], capture_output=True, check=True)
    words = "".join(read.stdout.decode().split())
    for wanted in (
        sheet.title, sheet.revision, *sheet.facts, *sheet.foot,
        *(line.question for _, lines in sheet.parts for line in lines),
        *(line.answer for _, lines in sheet.parts for line in lines),
        *(text for _, text in sheet.odd),
    ):  # fmt: skip
        assert "".join(wanted.split()) in words, wanted


def test_the_page_is_escaped_and_leaves_room_to_write() -> None:
    line = PaperLine("1", "Less < more?", "bar", write=True)
    bare = PaperLine("2", "Wait.", "")
    made = html(PaperShown("A & B", "1", ("x",), (("Ready", (line, bare)),), (), ("foot",)))
    assert "A &amp; B" in made
    assert "Less &lt; more?" in made
    assert "________ bar" in made
    assert ">____<" in made


def test_what_never_fits_is_said_and_not_cut(family: str, tmp_path: Path) -> None:
    line = PaperLine("1", "word " * 9000, "bar")
    with pytest.raises(StoreError, match="does not fit"):
        write_pdf(tmp_path / "x.pdf", PaperShown("t", "r", (), (("A", (line,)),), (), ()), family)
    assert SMALLEST >= 5


def test_a_folder_that_cannot_be_made_is_told(shop: Shop, family: str, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    with pytest.raises(StoreError, match="could not be written"):
        write_sheet(tmp_path / "file" / "list.pdf", shown(shop), family)


def test_a_page_that_cannot_be_written_is_told(shop: Shop, family: str, tmp_path: Path) -> None:
    taken = tmp_path / "list.pdf"
    taken.mkdir()
    with pytest.raises(StoreError, match="could not be written"):
        write_sheet(taken, shown(shop), family)


def test_without_a_plate_there_is_no_sheet(shop: Shop) -> None:
    pot = shop.plate()
    from dataclasses import replace

    shop.pots._records[pot] = replace(
        shop.pots._records[pot], state=replace(shop.pots.state(pot), plate=None)
    )
    assert paper_of(shop.pots, pot, shop.words) is None
