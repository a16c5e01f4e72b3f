"""Records of what stands on the shelf: scales, colours, and containers of resin by lot."""

from collections.abc import Mapping
from typing import cast

from shopassist.core.colour import CAP_DEFAULT, COLOUR_KINDS, Colourant, ColourKind
from shopassist.core.frozen import frozen
from shopassist.core.quantities import Kilogram, Ratio
from shopassist.core.records import Field, Problem, ReadQuantity, Value, read_record
from shopassist.core.scale import Scale
from shopassist.core.sheets import FAMILIES
from shopassist.core.stock import Lot, Part

ANY_FAMILY = "not stated"
MADE_FOR = (ANY_FAMILY, *FAMILIES[:-1], "polyester")
"""Families that a colour may be made for."""
SHOWS = ("grams", "grams, millilitres, fluid ounces")
SCALE_FIELDS: tuple[Field, ...] = (
    Field("name", "Name", "text", required=True),
    Field("step", "Step of the display", "quantity", "Kilogram", required=True, low=1e-6, high=0.1),
    Field("error", "Stated error", "quantity", "Kilogram", low=0.0, high=0.5,
          note="Blank: two steps, our choice. A fine step is no proof of a small error."),
    Field("shows", "It can show", "choice", choices=SHOWS,
          note="Millilitres on a scale are grams of water."),
    Field("most", "Weighs up to", "quantity", "Kilogram", low=0.01, high=500.0),
)  # fmt: skip
COLOUR_FIELDS: tuple[Field, ...] = (
    Field("name", "Name", "text", required=True),
    Field("kind", "Kind", "choice", choices=COLOUR_KINDS),
    Field("made_for", "Made for", "choice", choices=MADE_FOR,
          note="Not stated: mix a test cup first."),
    Field("water", "Water-based", "flag"),
    Field("cap", "Most of it, share of the mix", "quantity", "Ratio", low=0.0, high=0.5,
          note="Blank: 5 %, upper end of casting guides."),
)  # fmt: skip
LOT_FIELDS: tuple[Field, ...] = (
    Field("name", "Lot", "text", required=True),
    Field("resin", "Of the resin sheet", "text", required=True, note="The sheet's own name"),
    Field("part", "Part", "choice", required=True, choices=("a", "b")),
    Field("left", "Left in it now", "quantity", "Kilogram", required=True, low=0.0, high=1000.0,
          note="Weigh it now and then: a new figure tells what was really used"),
    Field("opened", "Opened on", "date"),
    Field("expires", "Use by", "date"),
    Field("price", "Price of a kilogram", "number", low=0.0, high=1e5),
)  # fmt: skip


@frozen
class ScaleRecord:
    """A scale with what its owner knows about it."""

    name: str
    scale: Scale
    mixes_units: bool = False
    """It can be switched to millilitres or fluid ounces."""
    most: Kilogram | None = None


@frozen
class LotRecord:
    """A container with the resin that it belongs to."""

    lot: Lot
    resin: str


def scale_from_mapping(
    mapping: Mapping[str, object], read: ReadQuantity
) -> tuple[ScaleRecord | None, tuple[Problem, ...]]:
    """Read a scale; None where something in it is wrong."""
    record = read_record(mapping, SCALE_FIELDS, read)
    if record.problems:
        return None, record.problems
    get = record.values.get
    scale = Scale(_mass(record.values, "step") or Kilogram(0.0), _mass(record.values, "error"))
    made = ScaleRecord(
        str(get("name")), scale, get("shows") == SHOWS[1], _mass(record.values, "most")
    )
    return made, ()


def colour_from_mapping(
    mapping: Mapping[str, object], read: ReadQuantity
) -> tuple[Colourant | None, tuple[Problem, ...]]:
    """Read a colour; None where something in it is wrong."""
    record = read_record(mapping, COLOUR_FIELDS, read)
    if record.problems:
        return None, record.problems
    get = record.values.get
    family = str(get("made_for", ANY_FAMILY))
    return Colourant(
        str(get("name")), cast("ColourKind", get("kind", "powder")),
        frozenset() if family == ANY_FAMILY else frozenset({family}),
        get("water") is True, Ratio(cast("float", get("cap", CAP_DEFAULT))),
    ), ()  # fmt: skip


def lot_from_mapping(
    mapping: Mapping[str, object], read: ReadQuantity
) -> tuple[LotRecord | None, tuple[Problem, ...]]:
    """Read a container; None where something in it is wrong."""
    record = read_record(mapping, LOT_FIELDS, read)
    if record.problems:
        return None, record.problems
    get = record.values.get
    lot = Lot(
        cast("Part", get("part")), str(get("name")), _mass(record.values, "left") or Kilogram(0.0),
        str(get("opened", "")), str(get("expires", "")),
        price=cast("float | None", get("price")),
    )  # fmt: skip
    return LotRecord(lot, str(get("resin"))), ()


def _mass(values: Mapping[str, Value], place: str) -> Kilogram | None:
    return cast("Kilogram | None", values.get(place))
