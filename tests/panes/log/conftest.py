from pathlib import Path

import pytest

from shopassist.app.shelf import FileShelf
from shopassist.panes.log.presenter import LogPresenter
from tests.shops import Shop


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

    def read(self) -> None:
        self.shop.index.read_all()


@pytest.fixture
def bench(tmp_path: Path) -> LogBench:
    return LogBench(tmp_path)
