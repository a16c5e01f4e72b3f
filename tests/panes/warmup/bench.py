"""A shop with a warm cabinet, and the pane's presenter over it."""

import tomllib
from pathlib import Path
from typing import Any

from shopassist.core.atmosphere import SEA_LEVEL
from shopassist.core.cabinet import Cabinet, cabinet_from_mapping
from shopassist.core.figures import Figure
from shopassist.panes.warmup.beside import WarmupSources
from shopassist.panes.warmup.drafts import SPECS, FieldName
from shopassist.panes.warmup.presenter import WarmupPresenter
from shopassist.panes.warmup.screen import WarmupScreen
from shopassist.services.versions import Library
from shopassist.store.resources import resource
from tests.shops import Shop

LOAD: dict[FieldName, str] = {
    "shop": "15", "pot": "12", "moulds": "0.8", "resin": "0.35", "wood": "0.5", "count": "6",
}  # fmt: skip
LOG = "0 15.0\n10 19.1\n20 21.6\n30 23.4\n40 24.6\n50 25.6\n"


class Bench(Shop):
    """The shop, its cabinets, and the warm-up presenter."""

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        self.cabinets: Library[Cabinet] = Library(
            self.journal,
            "cabinet",
            lambda mapping: cabinet_from_mapping(mapping, self.words.read_si),
        )
        self.pane = self.presenter()

    def presenter(self) -> WarmupPresenter:
        """A presenter as the program makes it at its start."""
        sources = WarmupSources(
            self.cabinets, self.plates, self.batches, self.cure, self.hand, self.state,
            lambda: SEA_LEVEL,
        )  # fmt: skip
        made = WarmupPresenter(sources, self.clock, self.words)
        self.explained: list[Figure] = []
        made.explained.connect(self.explained.append)
        return made

    @property
    def screen(self) -> WarmupScreen:
        return self.pane.screen

    def cabinet(self, **changes: Any) -> str:
        """Save the demo's cabinet with changes, and work with it."""
        path = resource("demo", "cabinets", "warm-box.toml")
        mapping = tomllib.loads(path.read_text("utf-8")) | changes
        version, problems = self.cabinets.save(mapping)
        assert version is not None, problems
        self.pane.on_cabinet(version.id)
        return version.id

    def type(self, name: FieldName, text: str) -> None:
        self.pane.on_committed(name, self.words.read(text, SPECS[name]))

    def load(self, **changes: str) -> None:
        for name, text in LOAD.items():
            self.type(name, changes.get(name, text))

    def ready(self, **changes: Any) -> None:
        """A cabinet with a pot in it: everything that a plan needs."""
        self.cabinet(**changes)
        self.load()
