from pathlib import Path

import pytest

from shopassist.core.atmosphere import air_pressure
from shopassist.core.chamber import Chamber, chamber_from_mapping
from shopassist.core.quantities import Metre, PascalAbsolute
from shopassist.core.wood_shelf import (
    BathRecord,
    VacuumPump,
    bath_from_mapping,
    pump_from_mapping,
)
from shopassist.panes.stabilise.asks import (
    AGO,
    ALL,
    DIAL,
    FLOOR,
    MASS,
    METER,
    OVEN_READS,
    PROBE,
)
from shopassist.panes.stabilise.presenter import StabilisePresenter
from shopassist.services.stabilise import StabiliseService
from shopassist.services.stabilise_shelf import WoodShelf
from shopassist.services.versions import Library
from tests.shops import Shop

SPECS = {each.name: each.spec for each in ALL}


class WoodBench:
    """A shop with its Stabilise pane; acts as the person at the pane does."""

    def __init__(self, folder: Path, elevation: float | None = 0.0) -> None:
        self.shop = Shop(folder)
        self.elevation = elevation
        self._join()

    def _join(self) -> None:
        shop = self.shop
        self.chambers: Library[Chamber] = Library(
            shop.journal, "chamber", lambda each: chamber_from_mapping(each, shop.words.read_si)
        )
        self.pumps: Library[VacuumPump] = Library(
            shop.journal, "pump", lambda each: pump_from_mapping(each, shop.words.read_si)
        )
        self.baths: Library[BathRecord] = Library(
            shop.journal, "bath", lambda each: bath_from_mapping(each, shop.words.read_si)
        )
        self.service = StabiliseService(
            shop.journal, shop.batches, shop.clock, self._ambient, shop.session,
            WoodShelf(lambda: self.chambers, lambda: self.pumps, lambda: self.baths),
        )  # fmt: skip
        self.pane = StabilisePresenter(
            shop.batches, self.service, shop.hand, shop.clock, shop.words
        )

    def _ambient(self) -> PascalAbsolute | None:
        return None if self.elevation is None else air_pressure(Metre(self.elevation))

    def killed(self) -> None:
        """The program is gone and started again."""
        state = self.shop.state
        self.shop = self.shop.killed()
        self.shop.state.kept.update(state.kept)
        self.shop.hand._batch = state.get("batch")
        self._join()

    def type(self, name: str, text: str) -> None:
        spec = SPECS[name]
        assert spec is not None
        self.pane.on_committed(name, self.shop.words.read(text, spec))

    def weigh(self, text: str) -> None:
        self.pane.on_mass(self.shop.words.read(text, MASS))

    def dial(self, text: str) -> None:
        self.pane.on_dial(self.shop.words.read(text, DIAL))

    def oven(self, text: str) -> None:
        self.pane.on_oven_reads(self.shop.words.read(text, OVEN_READS))

    def probe(self, text: str) -> None:
        self.pane.on_probe(self.shop.words.read(text, PROBE))

    def ago(self, text: str) -> None:
        self.pane.on_ago(self.shop.words.read(text, AGO))

    def meter(self, shown: str, floor: str = "") -> None:
        if floor:
            self.pane.on_floor(self.shop.words.read(floor, FLOOR))
        self.pane.on_meter(self.shop.words.read(shown, METER))

    def act(self, words: str) -> None:
        """Press the button with these words."""
        for each in self.pane.screen.acts:
            if each.words == words:
                self.pane.on_act(each.event)
                return
        raise AssertionError([each.words for each in self.pane.screen.acts])

    def wait(self, hours: float) -> None:
        self.shop.clock.advance(hours * 3600)

    def figures(self) -> dict[str, str]:
        return {
            each.label: f"{each.value} {each.unit}".strip() for each in self.pane.screen.figures
        }

    def set_up(self) -> "WoodBench":
        """Six bowls' cores of maple and a vessel."""
        for name, text in (
            ("pieces", "6"), ("diameter", "52 mm"), ("length", "130 mm"), ("scale_step", "0.1 g"),
            ("vessel_diameter", "200 mm"), ("vessel_height", "300 mm"), ("oven", "95 °C"),
            ("core_goal", "88 °C"), ("hold", "120 min"),
        ):  # fmt: skip
            self.type(name, text)
        self.pane.on_chosen("species", "Maple, sugar")
        return self

    def dried(self) -> "WoodBench":
        self.set_up()
        self.weigh("1220.4 g")
        self.act("Oven is at temperature, wood is in")
        self.wait(20)
        self.weigh("1080.3 g")
        self.wait(4)
        self.weigh("1080.0 g")
        self.act("Out of the oven, sealed")
        return self

    def covered(self) -> "WoodBench":
        self.dried()
        self.wait(2)
        self.act("It is cool")
        self.weigh("1080.5 g")
        self.act("Covered, ballast on")
        return self

    def soaking(self) -> "WoodBench":
        self.covered()
        self.act("Pump is on")
        self.wait(0.2)
        self.act("Foam has collapsed")
        self.wait(2.3)
        self.act("No bubbles any more")
        self.wait(0.2)
        self.act("Valve shut, air is in")
        return self

    def wrapped(self) -> "WoodBench":
        self.soaking()
        self.wait(6)
        self.act("Out of the bath")
        self.weigh("1900 g")
        self.act("Wrapped")
        return self


@pytest.fixture
def bench(tmp_path: Path) -> WoodBench:
    return WoodBench(tmp_path)
