"""A week in the shop: two batches from rough core to wax, begun and ended by the plan alone."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from shopassist.core.batch import Typed
from shopassist.core.civil import civil
from shopassist.core.quantities import Kelvin, Kilogram
from tests.panes.plan.conftest import PlanBench

H = 3600.0
HALF = 1800.0


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[PlanBench]:
    made = PlanBench(tmp_path)
    yield made
    made.shop.close()


class Week:
    """A person who does what the list says, in the hours of the shop, and sleeps at night."""

    def __init__(self, bench: PlanBench) -> None:
        self.bench = bench
        # The heartbeat is tried elsewhere, and a week of it takes long.
        bench.shop.clock.moved = None
        self.pressed: list[tuple[str, str]] = []
        self.most_due = 0

    def begin(self, name: str) -> str:
        shop = self.bench.shop
        batch = self.bench.open(name)
        shop.batches.use_sheet(batch, shop.sheet(), 1)
        shop.batches.enter(batch, "amount", Typed("200 g", 0.2, "Kilogram"))
        return batch

    def is_open(self) -> bool:
        shop = self.bench.shop
        here = civil(shop.now + shop.clock.offset_at(shop.now))
        return here.weekday < 6 and 9 <= here.hour < 18

    def done(self, batch: str) -> bool:
        found = self.bench.service.done(self.bench.shop.batches.get(batch))
        return len(found) == 24 and all(each.end is not None for each in found.values())

    def step(self) -> None:
        """Half an hour: press what there is to press, then let time go by."""
        shop = self.bench.shop
        if self.is_open():
            for _ in range(8):
                if not self.press_one():
                    break
            shop.clock.advance(HALF)
        else:
            # The laptop sleeps at night.
            while not self.is_open():
                shop.clock.suspend(HALF)
        self.most_due = max(self.most_due, len(list(self.bench.service.dues())))

    def press_one(self) -> bool:
        for number, each in enumerate(self.bench.pane.screen.dos):
            act = each.words.split(":", maxsplit=1)[0]
            if act == "In Mix":
                self.mix()
                return True
            if act == "In Pot":
                self.open_pot()
                return True
            if act == "Start" or "running longer" in each.note:
                self.pressed.append((each.words, each.note))
                self.bench.pane.on_do(number)
                assert self.bench.pane.screen.message == "", each
                return True
        return False

    def _asked(self, key: str) -> str:
        """The batch whose stage is asked for in its own pane."""
        outlook = self.bench.service.outlook(self.bench.shop.hand.batch, lambda _: 7200.0)
        return next(t.batch_id for t in outlook.todo if t.stage.key == key)

    def mix(self) -> None:
        batch, batches = self._asked("pour"), self.bench.shop.batches
        batches.add_temperature(batch, Kelvin(296.15), Kelvin(296.15), "resin")
        batches.weigh(batch, 1, "a", Kilogram(0.1538))
        batches.weigh(batch, 1, "b", Kilogram(0.0461))
        batches.hardener_in(batch, 1)
        self.bench.shop.clock.advance(20 * 60)
        batches.poured(batch)
        batches.load(batch, "big-pot")
        self.pressed.append(("In Mix", batch))

    def open_pot(self) -> None:
        batch = self._asked("pressure")
        state = self.bench.service.done(self.bench.shop.batches.get(batch))["pressure"]
        assert state.end is None
        self.bench.shop.batches.load(batch, "")
        self.pressed.append(("In Pot", batch))


def test_two_batches_overlap_in_one_week_and_a_half(bench: PlanBench) -> None:
    week, began = Week(bench), bench.shop.now
    first = week.begin("Knobs")
    forecast = bench.service.outlook(first, bench.shop.clock.offset_at).figures["done"]
    second = ""
    ends: dict[str, float] = {}
    for _ in range(2 * 9 * 45):
        week.step()
        if not second and bench.shop.now - began > 30 * H:
            second = week.begin("Rods")
        for batch in filter(None, (first, second)):
            if batch not in ends and week.done(batch):
                ends[batch] = bench.shop.now
        if len(ends) == 2:
            break
    assert len(ends) == 2, week.pressed[-5:]
    names = [words for words, _ in week.pressed]
    assert names.count("In Mix") == names.count("In Pot") == 2
    assert sum(words.startswith("Start") for words in names) == 2 * 22
    took = (ends[first] - began) / H
    assert forecast.low is not None and forecast.high is not None
    assert (forecast.low - began) / H - 24 < took < (forecast.high - began) / H + 24
    assert ends[second] - ends[first] < ends[first] - began, "threaded into the waits of the first"
    assert week.most_due <= 4
    rows = bench.shop.journal.read(f"batch/{first}")
    assert sum(row.kind == "stage_started" for row in rows) == 22


def test_an_outcome_said_anew_weeks_later_lets_nothing_run_so_long(bench: PlanBench) -> None:
    """Good on the day, cracked a week later: the oven did not run for that week."""
    batch = bench.open()
    bench.service.start(batch, "dry")
    bench.wait(5)
    bench.shop.batches.close(batch, "good")
    ended = bench.shop.now
    bench.wait(30)
    bench.shop.batches.close(batch, "spoiled")
    made = bench.shop.batches.get(batch)
    assert bench.service.done(made)["dry"].end == pytest.approx(ended)
    assert (made.outcome, made.closed, made.finished) == ("spoiled", ended, bench.shop.now)
