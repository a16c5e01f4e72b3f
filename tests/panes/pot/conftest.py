from pathlib import Path

import pytest

from shopassist.core.pot.cards import AskKind
from shopassist.panes.pot.presenter import PotPresenter, PotScreen
from tests.app.answers import HEALTHY, TYPED
from tests.shops import Shop


class PotBench:
    """A shop with its pot pane; answers as an honest person with a healthy pot does."""

    def __init__(self, folder: Path, *, plate: bool = True) -> None:
        self.shop = Shop(folder)
        if plate:
            self.pot = self.shop.plate()
        self.join()

    def join(self) -> None:
        self.pane = PotPresenter(self.shop.pots, self.shop.hand, self.shop.words, self.shop.loads)

    @property
    def screen(self) -> PotScreen:
        return self.pane.screen

    @property
    def item(self) -> str:
        return self.screen.field.split(".")[0]

    def wait(self, seconds: float) -> None:
        self.shop.clock.advance(seconds)

    def step(self, answers: dict[str, str] | None = None) -> None:
        """Answer what is asked now."""
        screen, item = self.screen, self.item
        chosen = {**HEALTHY, **(answers or {})}
        if screen.kind is AskKind.HOLD:
            self.pane.on_hold()
        elif screen.kind is AskKind.TYPE and item in TYPED and item not in (answers or {}):
            self.wait(61)
            self.pane.on_typed(TYPED[item], "20 °C" if screen.with_temperature else "")
        elif screen.wait_digits and not screen.answers:
            self.wait(60)
        elif screen.kind is not None:
            ids = [each.id for each in screen.answers]
            self.pane.on_choice(chosen.get(item, ids[0]))
        else:
            self.pane.on_offer("air_on")
        assert not self.screen.refusal, (item, self.screen.refusal)

    def until(self, item: str, most: int = 90) -> "PotBench":
        for _ in range(most):
            if self.item == item:
                return self
            self.step()
        raise AssertionError((item, self.item, self.screen.belief))

    def until_belief(self, belief: str, most: int = 90) -> "PotBench":
        for _ in range(most):
            if str(self.screen.belief) == belief and not self.screen.asks:
                return self
            self.step()
        raise AssertionError((belief, self.item, self.screen.belief))

    def held(self) -> "PotBench":
        return self.until_belief("pressurised")


@pytest.fixture
def bench(tmp_path: Path) -> PotBench:
    return PotBench(tmp_path)
