from pathlib import Path

import pytest

from shopassist.app.shelf import FileShelf
from shopassist.panes.log.presenter import LogPresenter
from tests.shops import Shop

H = 3600.0


class LogBench:
    """A shop with its log."""

    def __init__(self, folder: Path) -> None:
        self._join(Shop(folder))

    def reopen(self) -> None:
        """Begin another sitting, whose index has read nothing yet."""
        self._join(self.shop.reopened())

    def _join(self, shop: Shop) -> None:
        self.shop = shop
        self.log = LogPresenter(
            self.shop.sheets, self.shop.hand, self.shop.index,
            self.shop.hindsight, self.shop.words, FileShelf.lies,
        )  # fmt: skip
        self.told = 0
        self.log.changed.connect(lambda _: self._tell())

    def _tell(self) -> None:
        self.told += 1

    def gelled_thrice(self) -> str:
        """Three batches of one sheet that gelled after about two hours; the sheet's id."""
        sheet = self.shop.sheet()
        for hours in (2.0, 2.1, 2.2):
            batch = self.shop.mixed(celsius=23.0, sheet=sheet)
            self.shop.clock.advance(hours * H)
            self.shop.warm(batch, 23.0)
            self.shop.batches.see(batch, "gelled")
        return sheet

    def read(self) -> None:
        self.shop.index.read_all()


@pytest.fixture
def bench(tmp_path: Path) -> LogBench:
    return LogBench(tmp_path)
