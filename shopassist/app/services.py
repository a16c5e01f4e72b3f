"""Builds the services over one foundation; the same for the window, the demo and the tests."""

from collections.abc import Mapping
from functools import cached_property
from typing import TYPE_CHECKING

from shopassist.app.foundation import Foundation
from shopassist.clock import Clock
from shopassist.core.atmosphere import air_pressure
from shopassist.core.entry import EntrySpec
from shopassist.core.pot.plate import Plate, plate_from_mapping
from shopassist.core.quantities import Kelvin, PascalAbsolute
from shopassist.core.records import Field, Problem
from shopassist.core.sheets import ResinSheet, sheet_from_mapping
from shopassist.core.style import CHOICES, NumberStyle, UnitChoice
from shopassist.core.timeline import Finding
from shopassist.core.units import UnitTable, build_table
from shopassist.core.wording import Wording
from shopassist.services.batches import BatchService
from shopassist.services.cure import CureService
from shopassist.services.in_hand import InHand
from shopassist.services.loads import PotLoads
from shopassist.services.people import People
from shopassist.services.pot import PotService
from shopassist.services.settings import SEA_LEVEL, Settings
from shopassist.services.versions import Library
from shopassist.services.waits import WaitService
from shopassist.store.resources import resource

if TYPE_CHECKING:
    from collections.abc import Iterable

    from shopassist.core.cabinet import Cabinet
    from shopassist.core.cabinet_watch import Setting
    from shopassist.core.chamber import Chamber
    from shopassist.core.colour import Colourant
    from shopassist.core.shelf import LotRecord, ScaleRecord
    from shopassist.core.thermometers.record import Thermometer
    from shopassist.core.wood_shelf import BathRecord, VacuumPump
    from shopassist.services.hindsight import Hindsight
    from shopassist.services.log_index import LogIndex
    from shopassist.services.next import Due
    from shopassist.services.plan import PlanService
    from shopassist.services.stabilise import StabiliseService
    from shopassist.services.stock import StockService
    from shopassist.services.turn_desk import TurnService

ORDERS = {"day": "dmy", "month": "mdy", "year": "ymd"}
UNIT_NAMES = {"metric": "metric", "us": "US", "mixed": "mixed"}


class Services:
    """Everything Qt-free that the window stands on.

    What the first paint needs is built at once; the rest, and its modules, when it is asked for.
    """

    def __init__(self, base: Foundation) -> None:
        self._base = base
        self.wording = wording_of(base.settings.now, base.clock)
        self.sheets: Library[ResinSheet] = Library(base.journal, "resin", self._sheet)
        self.plates: Library[Plate] = Library(base.journal, "pot", self._plate)
        self.batches = BatchService(base.journal, base.clock)
        self.hand = InHand(self.batches, base.state)
        self.people = People(base.journal, base.clock)
        self.cure = CureService(self.batches, self.sheets, base.session, base.clock)
        self.waits = WaitService(base.journal, base.clock, base.session)
        self.loads = PotLoads(self.batches, self.cure, self.hand)
        self.pots = PotService(
            base.journal, base.clock, self.plates, self.loads.of, self.ambient, base.session.beat
        )

    def ambient(self) -> PascalAbsolute:
        """Air pressure at the shop's elevation."""
        return air_pressure(self._base.settings.now.elevation)

    def known_ambient(self) -> PascalAbsolute | None:
        """The same, where somebody told where the shop lies; None where nobody did."""
        told = self._base.settings.now.elevation != SEA_LEVEL or self._base.state.get("shop_told")
        return self.ambient() if told else None

    def _sheet(
        self, mapping: Mapping[str, object]
    ) -> tuple[ResinSheet | None, tuple[Problem, ...]]:
        found = sheet_from_mapping(mapping, self.wording.read_si)
        return found.sheet, found.problems

    def _plate(self, mapping: Mapping[str, object]) -> tuple[Plate | None, tuple[Problem, ...]]:
        return plate_from_mapping(mapping, self.wording.read_si)

    def sheet_name(self, used: tuple[str, int]) -> str:
        """Name of the version of a sheet that a batch uses; empty where it is not known."""
        version = self.sheets.version(*used)
        return version.name if version is not None else ""

    def dues(self) -> "Iterable[Due]":
        """Waits of sets of cores, of the plan, and of what is left over in a cup."""
        from shopassist.services.leftovers import leftover_dues

        yield from self.stabilise.dues()
        yield from self.plan.dues()
        yield from leftover_dues(self.batches)

    # -- built when they are asked for --------------------------------------------------------

    @cached_property
    def cabinets(self) -> "Library[Cabinet]":
        """Warm cabinets."""
        from shopassist.core.cabinet import cabinet_from_mapping

        return Library(
            self._base.journal, "cabinet",
            lambda mapping: cabinet_from_mapping(mapping, self.wording.read_si),
        )  # fmt: skip

    @cached_property
    def scales(self) -> "Library[ScaleRecord]":
        """Scales of the shop."""
        from shopassist.core.shelf import scale_from_mapping

        return Library(
            self._base.journal, "scale",
            lambda mapping: scale_from_mapping(mapping, self.wording.read_si),
        )  # fmt: skip

    @cached_property
    def colours(self) -> "Library[Colourant]":
        """Colours on the shelf."""
        from shopassist.core.shelf import colour_from_mapping

        return Library(
            self._base.journal, "colour",
            lambda mapping: colour_from_mapping(mapping, self.wording.read_si),
        )  # fmt: skip

    @cached_property
    def lots(self) -> "Library[LotRecord]":
        """Containers of resin and hardener."""
        from shopassist.core.shelf import lot_from_mapping

        return Library(
            self._base.journal, "lot",
            lambda mapping: lot_from_mapping(mapping, self.wording.read_si),
        )  # fmt: skip

    @cached_property
    def thermometers(self) -> "Library[Thermometer]":
        """Thermometers that write by themselves."""
        from shopassist.core.thermometers.record import thermometer_from_mapping

        return Library(
            self._base.journal, "thermometer",
            lambda mapping: thermometer_from_mapping(mapping, self.wording.read_si),
        )  # fmt: skip

    def cabinet_in_use(self) -> "Setting | None":
        """The cabinet that Warm-up works with, and what it is set to."""
        from shopassist.services.cabinet_probe import cabinet_in_use

        def read(text: str) -> Kelvin:
            return Kelvin(self.wording.read(text, EntrySpec("Kelvin")).value)

        return cabinet_in_use(self.cabinets, self._base.state, read)

    @cached_property
    def stock(self) -> "StockService":
        """What is left of each lot."""
        from shopassist.services.stock import StockService

        return StockService(self.batches, self.sheets, self.lots)

    @cached_property
    def chambers(self) -> "Library[Chamber]":
        """Vacuum chambers."""
        from shopassist.core.chamber import chamber_from_mapping

        return Library(
            self._base.journal, "chamber",
            lambda mapping: chamber_from_mapping(mapping, self.wording.read_si),
        )  # fmt: skip

    @cached_property
    def pumps(self) -> "Library[VacuumPump]":
        """Vacuum pumps."""
        from shopassist.core.wood_shelf import pump_from_mapping

        return Library(
            self._base.journal, "pump",
            lambda mapping: pump_from_mapping(mapping, self.wording.read_si),
        )  # fmt: skip

    @cached_property
    def baths(self) -> "Library[BathRecord]":
        """Stabilising baths."""
        from shopassist.core.wood_shelf import bath_from_mapping

        return Library(
            self._base.journal, "bath",
            lambda mapping: bath_from_mapping(mapping, self.wording.read_si),
        )  # fmt: skip

    @cached_property
    def index(self) -> "LogIndex":
        """One short line for every batch."""
        from shopassist.services.log_index import LogIndex

        past = self.hindsight
        return LogIndex(
            self._base.journal, self.batches, self.sheet_name, past.traits, past.witnesses.ages
        )

    @cached_property
    def hindsight(self) -> "Hindsight":
        """What the records say afterwards."""
        from shopassist.services.hindsight import Beyond, Hindsight

        return Hindsight(
            self.batches, self.sheets, self.cure, self.lot_name,
            Beyond(
                lambda: self.stabilise, lambda: self.colours, self.pots, self.lot_price,
                lambda batch_id: self.plan.own(batch_id).started.get("rest"),
            ),
        )  # fmt: skip

    def lot_name(self, lot_id: str) -> str:
        """The name of a lot, or its id where there is no such record."""
        version = self.lots.newest(lot_id)
        return version.name if version is not None else lot_id

    def lot_price(self, lot_id: str) -> float | None:
        """Price of a kilogram out of a lot."""
        version = self.lots.newest(lot_id)
        record = version.record if version is not None else None
        return record.lot.price if record is not None else None

    @cached_property
    def stabilise(self) -> "StabiliseService":
        """Sets of cores on their way to an uptake."""
        from shopassist.services.stabilise import StabiliseService
        from shopassist.services.stabilise_shelf import WoodShelf

        return StabiliseService(
            self._base.journal, self.batches, self._base.clock, self.known_ambient,
            self._base.session,
            WoodShelf(lambda: self.chambers, lambda: self.pumps, lambda: self.baths),
        )  # fmt: skip

    @cached_property
    def plan(self) -> "PlanService":
        """Stages of the batches in a real week."""
        from shopassist.services.plan import PlanService

        return PlanService(
            self._base.journal, self.batches, self._base.clock, self.stabilise.state,
            self.cure.view,
        )  # fmt: skip

    @cached_property
    def turn(self) -> "TurnService":
        """What the cards at the lathe need of the records."""
        from shopassist.services.turn_desk import TurnService

        return TurnService(
            self.batches, self.sheets, self.cure, self.plan, self.stabilise.state,
            self._base.clock,
        )  # fmt: skip


def rare_units() -> UnitTable:
    """The whole table of units, by way of pint: after the first paint, or when one is asked for."""
    return build_table(resource("units", "workshop.txt").read_text("utf-8").splitlines())


def style_of(settings: Settings) -> tuple[NumberStyle, UnitChoice]:
    """Number style and units that the settings ask for."""
    style = NumberStyle(settings.decimal, ORDERS[settings.date_order])  # type: ignore[arg-type]
    return style, CHOICES[UNIT_NAMES[settings.units]]


def wording_of(settings: Settings, clock: Clock) -> Wording:
    """The one wording of the program."""
    style, units = style_of(settings)
    return Wording(style, units, clock.offset_at, rare_units)


def build_services(base: Foundation) -> Services:
    """Build the services; the session must have started."""
    return Services(base)


def start_services(made: Services, base: Foundation, found: tuple[Finding, ...]) -> None:
    """Begin a sitting: pots were out of sight, and later findings are heeded."""
    made.pots.start(found)
    base.session.findings.connect(made.pots.heed)
    made.people.start()
    made.loads.watch(made.pots)


KINDS = (
    ("resin", "Resin sheets"), ("pot", "Pots"), ("cabinet", "Warm cabinets"),
    ("chamber", "Vacuum chambers"), ("pump", "Vacuum pumps"), ("bath", "Stabilising baths"),
    ("scale", "Scales"), ("colour", "Colours"), ("lot", "Lots"),
    ("thermometer", "Thermometers"),
)  # fmt: skip
"""Kinds of records that are edited on screen."""


def form_of(kind: str) -> tuple[Field, ...]:
    """The table of fields of one kind of record."""
    from shopassist.core.cabinet import CABINET_FIELDS
    from shopassist.core.chamber import CHAMBER_FIELDS
    from shopassist.core.pot.plate import PLATE_FIELDS
    from shopassist.core.sheets import SHEET_FIELDS
    from shopassist.core.shelf import COLOUR_FIELDS, LOT_FIELDS, SCALE_FIELDS
    from shopassist.core.thermometers.record import THERMOMETER_FIELDS
    from shopassist.core.wood_shelf import BATH_FIELDS, PUMP_FIELDS

    return {
        "resin": SHEET_FIELDS, "pot": PLATE_FIELDS, "cabinet": CABINET_FIELDS,
        "chamber": CHAMBER_FIELDS, "pump": PUMP_FIELDS, "bath": BATH_FIELDS,
        "scale": SCALE_FIELDS, "colour": COLOUR_FIELDS, "lot": LOT_FIELDS,
        "thermometer": THERMOMETER_FIELDS,
    }[kind]  # fmt: skip
