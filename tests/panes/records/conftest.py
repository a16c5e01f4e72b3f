import tomllib
from pathlib import Path

import pytest

from shopassist.core.pot.plate import PLATE_FIELDS
from shopassist.core.sheets import SHEET_FIELDS
from shopassist.panes.records.presenter import Kind, RecordsPresenter
from shopassist.store.sheet_files import read_toml
from tests.shops import Shop


class RecordsBench:
    """A shop with its records."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.shop = Shop(folder)
        kinds = (
            Kind("resin", "Resin sheets", SHEET_FIELDS, self.shop.sheets),
            Kind("pot", "Pots", PLATE_FIELDS, self.shop.plates),
        )
        self.pane = RecordsPresenter(kinds, self.shop.words, lambda path: read_toml(Path(path)))

    def file(self, text: str) -> str:
        path = self.folder / "given.toml"
        path.write_text(text, "utf-8")
        tomllib.loads(text)
        return str(path)

    def cell(self, place: str) -> str:
        return self._cell(place)[0]

    def problem(self, place: str) -> str:
        return self._cell(place)[1]

    def _cell(self, place: str) -> tuple[str, str]:
        for group in self.pane.screen.groups:
            for cell in group.cells:
                if cell.field.place == place:
                    return cell.text, cell.problem
        raise AssertionError(place)


@pytest.fixture
def bench(tmp_path: Path) -> RecordsBench:
    return RecordsBench(tmp_path)
