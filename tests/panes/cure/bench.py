"""A cure pane without a window, over a real shop."""

from pathlib import Path

from shopassist.core.entry import Entry
from shopassist.panes.cure.form import TEMPERATURE
from shopassist.panes.cure.presenter import CurePresenter
from shopassist.panes.cure.screen import CureScreen, Line
from tests.shops import Shop


class Bench(Shop):
    """The shop with its cure presenter."""

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        self.told = 0
        self.cure_pane = CurePresenter(
            self.batches, self.cure, self.waits, self.hand, self.clock, self.words
        )
        self.cure_pane.changed.connect(lambda _: self.count())

    def count(self) -> None:
        self.told += 1

    @property
    def screen(self) -> CureScreen:
        return self.cure_pane.screen

    def page(self) -> str:
        return self.screen.page

    def entry(self, text: str) -> Entry:
        return self.words.read(text, TEMPERATURE)

    def line(self, aim: str) -> Line:
        return next(x for x in self.screen.lines if x.id == f"cure.milestone.{aim}")
