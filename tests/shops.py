"""A whole Qt-free shop over a real journal in a folder, with a hand-moved clock."""

import tomllib
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from shopassist.clock.manual import ManualClock
from shopassist.core.batch import Typed
from shopassist.core.pot.plate import Plate, plate_from_mapping
from shopassist.core.quantities import Kelvin, Kilogram, UtcSecond
from shopassist.core.records import Problem
from shopassist.core.sheets import ResinSheet, sheet_from_mapping
from shopassist.core.shelf import (
    colour_from_mapping,
    lot_from_mapping,
    scale_from_mapping,
)
from shopassist.core.stage_log import fold_all_marks
from shopassist.core.wood_set import WoodSet, fold_all_set
from shopassist.core.wording import Wording
from shopassist.services.batches import BatchService
from shopassist.services.cure import CureService
from shopassist.services.hindsight import Beyond, Hindsight
from shopassist.services.in_hand import InHand
from shopassist.services.loads import PotLoads
from shopassist.services.log_index import LogIndex
from shopassist.services.pot import PotService
from shopassist.services.session import Session
from shopassist.services.stabilise import StabiliseService
from shopassist.services.stock import StockService
from shopassist.services.versions import Library
from shopassist.services.waits import WaitService
from shopassist.store.opening import open_journal
from shopassist.store.resources import resource
from tests.fakes import MemoryState

ZERO = 273.15


class Shop:
    """Services as the program joins them."""

    def __init__(self, folder: Path, clock: ManualClock | None = None) -> None:
        self.folder = folder
        self.clock = clock or ManualClock(offset=3600)
        self.journal = open_journal(folder / "journal.db", self.clock, manual=True)
        self.session = Session(self.journal, self.clock)
        self.found = self.session.start()
        self.clock.moved = self.session.beat
        self.words = Wording(offset_at=self.clock.offset_at)
        self.sheets: Library[ResinSheet] = Library(self.journal, "resin", self._sheet)
        self.plates: Library[Plate] = Library(self.journal, "pot", self._plate)
        self.batches = BatchService(self.journal, self.clock)
        self.state = MemoryState()
        self.hand = InHand(self.batches, self.state)
        self.cure = CureService(self.batches, self.sheets, self.session, self.clock)
        self.waits = WaitService(self.journal, self.clock, self.session)
        self.loads = PotLoads(self.batches, self.cure, self.hand)
        self.pots = PotService(
            self.journal, self.clock, self.plates, self.loads.of, beat=self.session.beat
        )
        self.hindsight = Hindsight(
            self.batches, self.sheets, self.cure, self._lot_name,
            Beyond(self.sets, lambda: self.colours, self.pots, self._price, self._demoulded),
        )  # fmt: skip
        self.index = LogIndex(
            self.journal, self.batches, self._sheet_name, self.hindsight.traits,
            self.hindsight.witnesses.ages,
        )  # fmt: skip
        self.scales = self._library("scale", scale_from_mapping)
        self.colours = self._library("colour", colour_from_mapping)
        self.lots = self._library("lot", lot_from_mapping)
        self.stock = StockService(self.batches, self.sheets, self.lots)
        self.pots.start(self.found)
        self.session.findings.connect(self.pots.heed)
        self.loads.watch(self.pots)

    def _library(self, kind: str, read: Callable[..., Any]) -> Library[Any]:
        return Library(self.journal, kind, lambda mapping: read(mapping, self.words.read_si))

    def _sheet(
        self, mapping: Mapping[str, object]
    ) -> tuple[ResinSheet | None, tuple[Problem, ...]]:
        found = sheet_from_mapping(mapping, self.words.read_si)
        return found.sheet, found.problems

    def _plate(self, mapping: Mapping[str, object]) -> tuple[Plate | None, tuple[Problem, ...]]:
        return plate_from_mapping(mapping, self.words.read_si)

    def sets(self) -> StabiliseService:
        """The sets of cores as the journal has them now."""
        return StabiliseService(self.journal, self.batches, self.clock, lambda: None)

    def _price(self, lot: str) -> float | None:
        version = self.lots.newest(lot)
        return version.record.lot.price if version is not None and version.record else None

    def _demoulded(self, batch: str) -> UtcSecond | None:
        return fold_all_marks(self.journal.read(f"batch/{batch}")).started.get("rest")

    def wood(self, batch: str) -> WoodSet:
        """What was reported of the wood of a batch."""
        return fold_all_set(self.journal.read(f"batch/{batch}"))

    def _sheet_name(self, used: tuple[str, int]) -> str:
        version = self.sheets.version(*used)
        return version.name if version is not None else ""

    def _lot_name(self, lot: str) -> str:
        version = self.lots.newest(lot)
        return version.name if version is not None else lot

    @property
    def now(self) -> float:
        return float(self.clock.read().utc)

    def sheet(self, name: str = "slow-clear", **changes: object) -> str:
        """Save one of the demo's sheets, with changes, and return its id."""
        path = resource("demo", "sheets", f"{name}.toml")
        mapping = tomllib.loads(path.read_text("utf-8")) | changes
        version, problems = self.sheets.save(mapping)
        assert version is not None, problems
        return version.id

    def bare(self, **fields: object) -> str:
        """Save a sheet of these entries alone and return its id."""
        mapping = {"name": "Plain", "ratio": {"basis": "weight", "a": "100", "b": "30"}} | fields
        version, problems = self.sheets.save(mapping)
        assert version is not None, problems
        return version.id

    def keep(self, library: Library[Any], record_id: str = "", **fields: object) -> str:
        """Save a scale, a colour or a lot and return its id."""
        version, problems = library.save(fields, record_id)
        assert version is not None, problems
        return version.id

    def plate(self) -> str:
        """Save the demo's pot and return its id."""
        mapping = tomllib.loads(resource("demo", "pots", "big-pot.toml").read_text("utf-8"))
        version, problems = self.plates.save(mapping)
        assert version is not None, problems
        return version.id

    def mixed(self, name: str = "Knobs", celsius: float | None = 23.0, sheet: str = "") -> str:
        """A batch whose hardener has just gone in."""
        batch = self.batches.open(name)
        self.hand.take_batch(batch)
        if sheet != "none":
            self.batches.use_sheet(batch, sheet or self.sheet(), 1)
        self.batches.enter(batch, "amount", Typed("200 g", 0.2, "Kilogram"))
        if celsius is not None:
            self.warm(batch, celsius)
        self.batches.weigh(batch, 1, "a", Kilogram(0.1538))
        self.batches.weigh(batch, 1, "b", Kilogram(0.0461))
        self.batches.hardener_in(batch, 1)
        return batch

    def warm(
        self, batch: str, celsius: float, where: str = "resin", since: float | None = None
    ) -> None:
        temp = Kelvin(celsius + ZERO)
        self.batches.add_temperature(
            batch, temp, temp, where, since=None if since is None else UtcSecond(since)
        )

    def reopened(self) -> "Shop":
        """The same folder in a new sitting."""
        self.session.end()
        self.journal.close()
        return Shop(self.folder, self.clock)

    def killed(self) -> "Shop":
        """The same folder after the process was gone without a word."""
        self.journal.close()
        return Shop(self.folder, self.clock)

    def close(self) -> None:
        self.journal.close()
