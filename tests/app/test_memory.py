"""A window that is left open holds no more after an hour than before it."""

import gc
from collections.abc import Iterator
from pathlib import Path
from weakref import ReferenceType

import pytest
from PySide6.QtWidgets import QApplication

from shopassist.widgets.chart import Chart
from tests.app.test_alarms import Shop

CLOCKS, CHARTS = 12, ("cure.chart.age", "cure.chart.temperature")
LOOKS = 4
"""Ticks of a minute that are really made; the others are the same again."""
ROUND = 5
"""Minutes from one drawing of the charts to the next: what hangs on the last one goes with it."""
MOST = 80
"""Objects that may be more afterwards: what is kept of words and letters is not full yet."""
SLOW = {stage: {"time": f"{hours} h", "at": "23 °C"} for stage, hours in (
    ("working", 40), ("pressurise", 30), ("gel", 60), ("demould", 200), ("hard", 300),
)}  # fmt: skip
"""Nothing of it is called in the time of the test: an alarm is a row, and is meant to stay."""


@pytest.fixture
def shop(tmp_path: Path, qapp: QApplication) -> Iterator[Shop]:
    """Twelve clocks, and the cure pane with both its charts drawn."""
    made = Shop(tmp_path)
    made.until(lambda: made.program.late.desk is not None, "the alarms are not there")
    mapping = {"name": "Slow", "ratio": {"basis": "weight", "a": "100", "b": "30"}, **SLOW}
    saved, problems = made.program.services.sheets.save(mapping)
    assert saved is not None, problems
    for _ in range(CLOCKS):
        made.mixed(saved.id)
    made.program.window.resize(1900, 1040)
    made.program.window.show_pane("cure")
    made.click("cure.page.2")
    charts = [made.find(Chart, name) for name in CHARTS]
    made.until(lambda: all(chart.plot is not None for chart in charts), "no charts")
    assert all(chart.isVisible() for chart in charts)
    yield made
    made.close()


def minutes(shop: Shop, count: int) -> None:
    """Leave it open so long."""
    for _ in range(count):
        for _ in range(LOOKS):
            shop.clock.advance(60 / LOOKS)
            shop.program.tick()
        shop.program.minute()
        QApplication.processEvents()


def held(shop: Shop) -> int:
    """Objects that the collector knows of, the least within a round of the charts.

    Without weak references: the plot library leaves some twenty behind at each drawing, which
    hold nothing (about 400 bytes a minute while that page is open).
    """
    found = []
    for _ in range(ROUND):
        minutes(shop, 1)
        gc.collect()
        found.append(sum(type(each) is not ReferenceType for each in gc.get_objects()))
    return min(found)


@pytest.mark.proof
def test_twelve_clocks_and_two_charts_leave_memory_flat(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    minutes(shop, 2 * ROUND)
    before = held(shop)
    minutes(shop, ROUND)
    after = held(shop)
    assert after - before <= MOST
    # And a tick that keeps something would be found out.
    kept: list[list[list[int]]] = []
    tick = shop.program.tick

    def keeping() -> None:
        kept.append([[] for _ in range(9)])
        tick()

    monkeypatch.setattr(shop.program, "tick", keeping)
    minutes(shop, ROUND)
    assert held(shop) - after > MOST
