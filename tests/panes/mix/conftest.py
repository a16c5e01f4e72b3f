from pathlib import Path
from typing import cast

import pytest

from shopassist.core.entry import Entry, EntrySpec
from shopassist.panes.mix.asks import ALL
from shopassist.panes.mix.drafts import SPECS, FieldName
from shopassist.panes.mix.presenter import MixPresenter
from shopassist.panes.mix.screen import PageShown
from shopassist.panes.mix.sources import MixSources
from tests.shops import Shop

PAGE_SPECS = {ask.name: ask.spec for ask in ALL}
WEIGHT = EntrySpec("Kilogram", lowest=0.0, highest=200.0)


class MixBench:
    """A shop with its Mix pane; acts as the person at the pane does."""

    def __init__(self, folder: Path) -> None:
        self.shop = Shop(folder)
        self.pane = self._made()

    def _made(self) -> MixPresenter:
        shop = self.shop
        return MixPresenter(MixSources(
            shop.batches, shop.sheets, shop.hand, shop.cure, shop.clock, shop.words,
            lambda: shop.scales, lambda: shop.colours, lambda: shop.stock, shop.wood,
        ))  # fmt: skip

    def killed(self) -> None:
        """The program is gone and started again."""
        state = self.shop.state
        self.shop = self.shop.killed()
        self.shop.state.kept.update(state.kept)
        self.shop.hand._batch = state.get("batch")
        self.pane = self._made()

    def entry(self, name: str, text: str) -> Entry:
        return self.shop.words.read(text, SPECS[cast("FieldName", name)])

    def type(self, **texts: str) -> "MixBench":
        for name, text in texts.items():
            entry = self.entry(name, text) if text else None
            self.pane.on_committed(cast("FieldName", name), entry)
        return self

    def page(self, key: str, **texts: str) -> PageShown:
        """Turn to a page, type or choose its entries, and return what it says."""
        for name, text in texts.items():
            spec = PAGE_SPECS[name]
            if spec is None:
                self.pane.on_chosen(name, text)
            else:
                self.pane.on_entry_committed(name, self.shop.words.read(text, spec))
        if self.pane.screen.page is None or self.pane.screen.page.key != key:
            self.pane.on_page(key)
        shown = self.pane.screen.page
        assert shown is not None
        return shown

    def figures(self, shown: PageShown) -> dict[str, str]:
        """Figures of a page by their names without the pane."""
        return {
            name.removeprefix("mix."): f"{each.value} {each.unit}".strip()
            for name, each in zip(shown.figure_ids, shown.figures, strict=True)
        }

    def weigh(self, part: str, text: str, reason: str = "") -> "MixBench":
        entry = self.shop.words.read(text, WEIGHT)
        self.pane.on_weighed(part, entry, reason)  # type: ignore[arg-type]
        return self

    def hundred_thirty(self, amount: str = "214 g") -> "MixBench":
        return self.type(ratio_a="100", ratio_b="30", amount=amount)

    @property
    def grams(self) -> tuple[str, ...]:
        """Both parts and the total, as they stand large."""
        return tuple(f"{each.value} {each.unit}".strip() for each in self.pane.screen.figures)

    @property
    def stops(self) -> tuple[str, ...]:
        return tuple(f"{each.name} {each.number} {each.state}" for each in self.pane.screen.stops)

    @property
    def batch(self) -> str:
        return self.shop.hand.batch


@pytest.fixture
def bench(tmp_path: Path) -> MixBench:
    return MixBench(tmp_path)
