"""Builds the services over one foundation; the same for the window, the demo and the tests."""

from collections.abc import Mapping
from dataclasses import dataclass

from shopassist.app.foundation import Foundation
from shopassist.clock import Clock
from shopassist.core.atmosphere import air_pressure
from shopassist.core.cabinet import CABINET_FIELDS, Cabinet, cabinet_from_mapping
from shopassist.core.pot.plate import PLATE_FIELDS, Plate, plate_from_mapping
from shopassist.core.records import Problem
from shopassist.core.sheets import SHEET_FIELDS, ResinSheet, sheet_from_mapping
from shopassist.core.style import CHOICES, NumberStyle, UnitChoice
from shopassist.core.timeline import Finding
from shopassist.core.units import UnitTable, build_table
from shopassist.core.wording import Wording
from shopassist.services.batches import BatchService
from shopassist.services.cure import CureService
from shopassist.services.hindsight import Hindsight
from shopassist.services.in_hand import InHand
from shopassist.services.library import Library
from shopassist.services.loads import PotLoads
from shopassist.services.log_index import LogIndex
from shopassist.services.pot import PotService
from shopassist.services.settings import Settings
from shopassist.services.stabilise import StabiliseService
from shopassist.store.resources import resource

ORDERS = {"day": "dmy", "month": "mdy", "year": "ymd"}
UNIT_NAMES = {"metric": "metric", "us": "US", "mixed": "mixed"}


@dataclass(slots=True)
class Services:
    """Everything Qt-free that the window stands on."""

    wording: Wording
    batches: BatchService
    sheets: Library[ResinSheet]
    plates: Library[Plate]
    cabinets: Library[Cabinet]
    hand: InHand
    cure: CureService
    pots: PotService
    loads: PotLoads
    index: LogIndex
    hindsight: Hindsight
    stabilise: StabiliseService


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
    """Build all services; the session must have started."""
    wording = wording_of(base.settings.now, base.clock)

    def sheet(mapping: Mapping[str, object]) -> tuple[ResinSheet | None, tuple[Problem, ...]]:
        found = sheet_from_mapping(mapping, wording.read_si)
        return found.sheet, found.problems

    def plate(mapping: Mapping[str, object]) -> tuple[Plate | None, tuple[Problem, ...]]:
        return plate_from_mapping(mapping, wording.read_si)

    def cabinet(mapping: Mapping[str, object]) -> tuple[Cabinet | None, tuple[Problem, ...]]:
        return cabinet_from_mapping(mapping, wording.read_si)

    sheets: Library[ResinSheet] = Library(base.journal, "resin", sheet)
    plates: Library[Plate] = Library(base.journal, "pot", plate)
    cabinets: Library[Cabinet] = Library(base.journal, "cabinet", cabinet)
    batches = BatchService(base.journal, base.clock)
    hand = InHand(batches, base.state)
    cure = CureService(batches, sheets, base.session, base.clock)
    loads = PotLoads(batches, cure, hand)
    pots = PotService(
        base.journal, base.clock, plates, loads.of,
        lambda: air_pressure(base.settings.now.elevation), base.session.beat,
    )  # fmt: skip

    def sheet_name(used: tuple[str, int]) -> str:
        version = sheets.version(*used)
        return version.name if version is not None else ""

    index = LogIndex(base.journal, batches, sheet_name)
    hindsight = Hindsight(batches, sheets, cure)
    stabilise = StabiliseService(
        base.journal, batches, base.clock, lambda: air_pressure(base.settings.now.elevation)
    )
    return Services(
        wording,
        batches,
        sheets,
        plates,
        cabinets,
        hand,
        cure,
        pots,
        loads,
        index,
        hindsight,
        stabilise,
    )


def start_services(made: Services, base: Foundation, found: tuple[Finding, ...]) -> None:
    """Begin a sitting: pots were out of sight, and later findings are heeded."""
    made.pots.start(found)
    base.session.findings.connect(made.pots.heed)
    made.loads.watch(made.pots)


FORMS = (
    ("resin", "Resin sheets", SHEET_FIELDS),
    ("pot", "Pots", PLATE_FIELDS),
    ("cabinet", "Warm cabinets", CABINET_FIELDS),
)
"""Kinds of records that are edited on screen."""
