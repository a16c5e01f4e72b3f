import tomllib
from collections.abc import Mapping
from pathlib import Path

import pytest

from shopassist.core.pot.plate import PLATE_FIELDS
from shopassist.core.records import Remark
from shopassist.core.sheet_remarks import sheet_remarks
from shopassist.core.sheets import SHEET_FIELDS
from shopassist.panes.records.form import Cell
from shopassist.panes.records.presenter import Kind, RecordsPresenter
from shopassist.store.sheet_files import read_toml
from tests.shops import Shop


class RecordsBench:
    """A shop with its records."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.shop = Shop(folder)
        kinds = (
            Kind("resin", "Resin sheets", SHEET_FIELDS, self.shop.sheets, self._remarks),
            Kind("pot", "Pots", PLATE_FIELDS, self.shop.plates),
        )
        self.pane = RecordsPresenter(kinds, self.shop.words, lambda path: read_toml(Path(path)))

    def _remarks(self, mapping: Mapping[str, object]) -> tuple[Remark, ...]:
        return sheet_remarks(mapping, self.shop.words.read_si)

    def file(self, text: str) -> str:
        path = self.folder / "given.toml"
        path.write_text(text, "utf-8")
        tomllib.loads(text)
        return str(path)

    def cell(self, place: str) -> str:
        return self.whole(place).text

    def problem(self, place: str) -> str:
        return self.whole(place).problem

    def whole(self, place: str) -> Cell:
        for group in self.pane.screen.groups:
            for cell in group.cells:
                if cell.field.place == place:
                    return cell
        raise AssertionError(place)

    def remarks(self, title: str) -> tuple[str, ...]:
        return next(group.remarks for group in self.pane.screen.groups if group.title == title)

    def asks(self, title: str) -> tuple[str, ...]:
        return next(group.asks for group in self.pane.screen.groups if group.title == title)


@pytest.fixture
def bench(tmp_path: Path) -> RecordsBench:
    return RecordsBench(tmp_path)
