from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from shopassist.clock.manual import ManualClock
from shopassist.core.atmosphere import air_pressure
from shopassist.core.errors import StoreError
from shopassist.core.pot.paper import Paper, paper
from shopassist.core.quantities import Metre, UtcSecond
from shopassist.panes.out.presenter import OutPresenter, OutSources
from shopassist.services.batch_file import BatchFiles
from shopassist.services.coming import Event
from shopassist.services.copies import Copy
from shopassist.services.plan import PlanService
from shopassist.services.stabilise import StabiliseService
from shopassist.widgets.batch_sheet_shown import SheetShown
from tests.shops import Shop

MONDAY = 1_790_578_800.0


@dataclass
class MemoryShelf:
    """Files that are only remembered."""

    files: dict[str, object] = field(default_factory=dict)
    full: bool = False

    def _put(self, folder: str, name: str, what: object) -> str:
        if self.full:
            raise StoreError("The disk is full.", "Make room.")
        path = f"{folder}/{name}"
        self.files[path] = what
        return path

    def sheet(self, folder: str, name: str, shown: SheetShown) -> str:
        return self._put(folder, name, shown)

    def calendar(self, folder: str, name: str, events: tuple[Event, ...]) -> str:
        return self._put(folder, name, events)

    def text(self, folder: str, name: str, words: str) -> str:
        return self._put(folder, name, words)

    def read(self, path: str) -> str:
        found = self.files.get(path)
        if not isinstance(found, str):
            raise StoreError("It cannot be read.")
        return found


@dataclass
class MemoryCopies:
    """Backups that are only listed."""

    made: list[Copy] = field(default_factory=list)
    wanted: str = ""
    broken: bool = False

    def listed(self) -> tuple[Copy, ...]:
        if self.broken:
            raise StoreError("The folder cannot be read.")
        return tuple(reversed(self.made))

    def make(self) -> Copy:
        count = len(self.made) + 1
        copy = Copy(f"journal-{count:09d}.backup", UtcSecond(MONDAY), 1500 * count, 2_400_000)
        self.made.append(copy)
        return copy

    def ask(self, name: str) -> None:
        self.wanted = name

    def asked(self) -> str:
        return self.wanted


class OutBench:
    """A shop with its Out pane."""

    def __init__(self, folder: Path) -> None:
        self.shop = shop = Shop(folder, ManualClock(MONDAY, 7200))
        self.wood = StabiliseService(
            shop.journal, shop.batches, shop.clock, lambda: air_pressure(Metre(0.0))
        )
        self.plan = PlanService(
            shop.journal, shop.batches, shop.clock, self.wood.state, shop.cure.view
        )
        self.shelf, self.copies = MemoryShelf(), MemoryCopies()
        files = BatchFiles(shop.journal, shop.batches, shop.sheets, shop.journal.newest)
        self.pane = OutPresenter(
            OutSources(
                shop.batches, shop.hand, shop.index, shop.cure, self.plan, files, self.copies, self.shelf,
                shop.state, "/here", lambda: (("Resin, A", "153.8 g"),), self.paper,
                self.plan.dues, lambda used: used[0], shop.journal.newest, ("No safety device.",),
            ),
            shop.clock, shop.words,
        )  # fmt: skip
        self.has_pot = False

    def paper(self, _: str) -> Paper | None:
        if not self.has_pot:
            return None
        state = self.shop.pots.state("big-pot")
        assert state.plate is not None
        return paper(state.plate, 1, state.ambient)


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[OutBench]:
    made = OutBench(tmp_path)
    yield made
    made.shop.close()
