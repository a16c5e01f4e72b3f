from pathlib import Path

import pytest

from shopassist.panes.blank.asks import ALL
from shopassist.panes.blank.presenter import BlankPresenter
from tests.shops import Shop

SPECS = {each.name: each.spec for each in ALL}


class BlankBench:
    """A shop with its Blank pane."""

    def __init__(self, folder: Path) -> None:
        self.shop = Shop(folder)
        self.pane = BlankPresenter(
            self.shop.batches, self.shop.sheets, self.shop.hand, self.shop.words
        )

    def type(self, **texts: str) -> "BlankBench":
        """Type or choose entries, as their kind asks."""
        for name, text in texts.items():
            spec = SPECS[name]
            if spec is None:
                self.pane.on_chosen(name, text)
            else:
                self.pane.on_committed(name, self.shop.words.read(text, spec))
        return self

    def knob(self) -> "BlankBench":
        return self.type(
            mould_diameter="48 mm", mould_depth="40 mm",
            stations="0: 22; 8: 22; 12: 14; 18: 14; 28: 40; 34: 42; 37: 36",
            drill="7 mm", bore_depth="16 mm", pieces="12",
        )  # fmt: skip

    def figure(self, name: str) -> str:
        screen = self.pane.screen
        shown = {"for_one": screen.figures[0], "for_all": screen.figures[1], "wall": screen.wall}
        return f"{shown[name].value} {shown[name].unit}".strip()

    def problem(self, name: str) -> str:
        return self.pane.screen.answers[name].problem


@pytest.fixture
def bench(tmp_path: Path) -> BlankBench:
    return BlankBench(tmp_path)
