from collections.abc import Iterator
from pathlib import Path

import pytest

from shopassist.clock.manual import ManualClock
from shopassist.core.atmosphere import air_pressure
from shopassist.core.quantities import Metre
from shopassist.core.wording import THIN
from shopassist.panes.turn.asks import ALL
from shopassist.panes.turn.presenter import TurnPresenter
from shopassist.services.plan import PlanService
from shopassist.services.stabilise import StabiliseService
from shopassist.services.turn_desk import TurnService
from tests.shops import Shop

SPECS = {each.name: each.spec for each in ALL}
MONDAY = 1_790_578_800.0


class TurnBench:
    """A shop with its Turn pane; acts as the person at the pane does."""

    def __init__(self, folder: Path) -> None:
        self.shop = shop = Shop(folder, ManualClock(MONDAY, 7200))
        self.wood = StabiliseService(
            shop.journal, shop.batches, shop.clock, lambda: air_pressure(Metre(0.0))
        )
        self.plan = PlanService(
            shop.journal, shop.batches, shop.clock, self.wood.state, shop.cure.view
        )
        self.service = TurnService(
            shop.batches, shop.sheets, shop.cure, self.plan, self.wood.state, shop.clock
        )
        self.pane = TurnPresenter(shop.batches, self.service, shop.hand, shop.clock, shop.words)

    def page(self, page: str) -> "TurnBench":
        self.pane.on_page(page)
        return self

    def type(self, **texts: str) -> "TurnBench":
        """Type or choose entries, as their kind asks."""
        for name, text in texts.items():
            spec = SPECS[name]
            if spec is None:
                self.pane.on_chosen(name, text)
            else:
                entry = self.shop.words.read(text, spec) if text else None
                self.pane.on_committed(name, entry)
        return self

    def faults(self, *wanted: str) -> "TurnBench":
        for number, (key, _, on) in enumerate(self.pane.screen.faults):
            if on != (key in wanted):
                self.pane.on_fault(number)
        return self

    def figures(self) -> dict[str, str]:
        found = {e.label: f"{e.value} {e.unit}".strip() for e in self.pane.screen.figures}
        return {label: words.replace(THIN, " ") for label, words in found.items()}

    def note(self) -> str:
        return " ".join(self.pane.screen.note)

    def wait(self, hours: float) -> None:
        self.shop.clock.advance(hours * 3600)


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[TurnBench]:
    made = TurnBench(tmp_path)
    yield made
    made.shop.close()
