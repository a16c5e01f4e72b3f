from collections.abc import Iterator
from pathlib import Path

import pytest

from shopassist.clock.manual import ManualClock
from shopassist.core.plan import Planned
from shopassist.core.stages import Stage
from shopassist.panes.plan.panel import ASKS
from shopassist.panes.plan.presenter import PlanPresenter
from shopassist.services.plan import PlanService
from shopassist.services.stabilise import StabiliseService
from tests.fakes import MemoryState
from tests.shops import Shop

SPECS = {each.name: each.spec for each in ASKS}
MONDAY = 1_790_578_800.0
"""Monday 28 September 2026, nine in the morning where the clock is two hours ahead."""


class PlanBench:
    """A shop with its Plan pane; acts as the person at the pane does."""

    def __init__(self, folder: Path) -> None:
        self.shop = Shop(folder, ManualClock(MONDAY, 7200))
        self._join()

    def _join(self) -> None:
        shop = self.shop
        self.wood = StabiliseService(shop.journal, shop.batches, shop.clock, lambda: 101325.0)  # type: ignore[arg-type, return-value]
        self.service = PlanService(
            shop.journal, shop.batches, shop.clock, self.wood.state, shop.cure.view
        )
        self.pane = PlanPresenter(self.service, shop.batches, shop.hand, shop.clock, shop.words)

    def killed(self) -> None:
        """The program is gone and started again."""
        kept: MemoryState = self.shop.state
        self.shop = self.shop.killed()
        self.shop.state.kept.update(kept.kept)
        self.shop.hand._batch = kept.get("batch")
        self._join()

    def open(self, name: str = "Handles") -> str:
        batch = self.shop.batches.open(name)
        self.shop.hand.take_batch(batch)
        return batch

    def type(self, name: str, text: str) -> None:
        spec = SPECS[name]
        assert spec is not None
        self.pane.on_committed(name, self.shop.words.read(text, spec) if text else None)

    def press(self, words: str) -> None:
        """Press the button of the list with these words."""
        found = [each.words for each in self.pane.screen.dos]
        self.pane.on_do(found.index(words))

    def wait(self, hours: float) -> None:
        self.shop.clock.advance(hours * 3600)

    def stages(self, batch: str) -> tuple[Stage, ...]:
        return self.service.stages(self.shop.batches.get(batch))

    def look(self, batch: str) -> tuple[Planned, ...]:
        return self.service.outlook(batch, self.shop.words.offset).placed[batch]

    def listed(self) -> list[str]:
        return [words for _, _, words in self.pane.screen.today]

    def row(self, key: str) -> object:
        return next((each for each in self.pane.screen.bars.rows if each.key == key), None)


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[PlanBench]:
    made = PlanBench(tmp_path)
    yield made
    made.shop.close()
