"""Records beside the bath: vacuum pumps with their hours, and baths with their catalyst."""

from collections.abc import Mapping
from typing import cast

from shopassist.core.civil import DAY, written_day
from shopassist.core.frozen import frozen
from shopassist.core.quantities import (
    CubicMetrePerSecond,
    Kilogram,
    PascalAbsolute,
    Ratio,
    Second,
    UtcSecond,
)
from shopassist.core.records import Field, Problem, ReadQuantity, Value, read_record

WHOLE, BY_WEIGHT = "whole bottle", "by weight"
COLOURS = ("clear", "honey", "brown or dyed")
PUMP_FIELDS: tuple[Field, ...] = (
    Field("name", "Name", "text", required=True),
    Field("best", "Reaches, absolute", "quantity", "PascalAbsolute", low=1.0, high=9e4,
          note="What its maker says, or the deepest that you saw in an empty chamber."),
    Field("speed", "Takes away", "quantity", "CubicMetrePerSecond", low=1e-6, high=1.0),
    Field("rest", "Rests after", "quantity", "Second", low=60.0, high=1e6,
          note="Small pumps run hot: how long it may run on end."),
    Field("oil.every", "Oil is changed after", "quantity", "Second", low=3600.0, high=1e8),
    Field("oil.changed", "Oil last changed", "date",
          note="Drain the water from the sump after each day of wet wood."),
)  # fmt: skip
BATH_FIELDS: tuple[Field, ...] = (
    Field("name", "Bath", "text", required=True),
    Field("lot", "Lot of the resin", "text"),
    Field("left", "In it now", "quantity", "Kilogram", low=0.0, high=1000.0,
          note="Weigh it now and then; what sets of cores take is counted from there."),
    Field("catalyst.how", "Catalyst", "choice", choices=(WHOLE, BY_WEIGHT),
          note="The whole bottle that came with it, or a share by weight."),
    Field("catalyst.share", "Its share of the resin, by weight", "quantity", "Ratio",
          low=0.0, high=0.2),
    Field("catalyst.resin", "Resin that was catalysed", "quantity", "Kilogram",
          low=0.0, high=1000.0),
    Field("catalyst.shaken", "Shaken until it was all dissolved", "flag"),
    Field("catalyst.mixed", "Catalyst in on", "date"),
    Field("catalyst.keeps", "Keeps so long, by its sheet", "quantity", "Second",
          low=3600.0, high=1e9),
    Field("colour", "Colour of the bath now", "choice", choices=COLOURS),
    Field("topped", "Topped up with", "text", note="When and how much, in your own words."),
)  # fmt: skip


@frozen
class VacuumPump:
    """A pump as its owner describes it."""

    name: str
    best: PascalAbsolute | None = None
    speed: CubicMetrePerSecond | None = None
    rest: Second | None = None
    oil_every: Second | None = None
    oil_changed: str = ""


@frozen
class BathRecord:
    """A bath of resin with its catalyst."""

    name: str
    lot: str = ""
    left: Kilogram | None = None
    how: str = ""
    share: Ratio | None = None
    resin: Kilogram | None = None
    shaken: bool = False
    mixed: str = ""
    keeps: Second | None = None
    colour: str = ""

    @property
    def by_weight(self) -> bool:
        """True where the catalyst goes in by weight, not as a whole bottle."""
        return self.how == BY_WEIGHT

    @property
    def keeps_until(self) -> UtcSecond | None:
        """The end of what its sheet grants, to a day; None where date or span is not known."""
        if not self.mixed or self.keeps is None:
            return None
        return UtcSecond((written_day(self.mixed) + 1) * DAY + self.keeps)


def pump_from_mapping(
    mapping: Mapping[str, object], read: ReadQuantity
) -> tuple[VacuumPump | None, tuple[Problem, ...]]:
    """Read a pump; None where something in it is wrong."""
    record = read_record(mapping, PUMP_FIELDS, read)
    if record.problems:
        return None, record.problems
    get = record.values.get
    return VacuumPump(
        str(get("name")), cast("PascalAbsolute | None", get("best")),
        cast("CubicMetrePerSecond | None", get("speed")), _seconds(record.values, "rest"),
        _seconds(record.values, "oil.every"), str(get("oil.changed", "")),
    ), ()  # fmt: skip


def bath_from_mapping(
    mapping: Mapping[str, object], read: ReadQuantity
) -> tuple[BathRecord | None, tuple[Problem, ...]]:
    """Read a bath; None where something in it is wrong."""
    record = read_record(mapping, BATH_FIELDS, read)
    if record.problems:
        return None, record.problems
    get = record.values.get
    return BathRecord(
        str(get("name")), str(get("lot", "")), cast("Kilogram | None", get("left")),
        str(get("catalyst.how", "")), cast("Ratio | None", get("catalyst.share")),
        cast("Kilogram | None", get("catalyst.resin")), get("catalyst.shaken") is True,
        str(get("catalyst.mixed", "")), _seconds(record.values, "catalyst.keeps"),
        str(get("colour", "")),
    ), ()  # fmt: skip


def _seconds(values: Mapping[str, Value], place: str) -> Second | None:
    return cast("Second | None", values.get(place))
