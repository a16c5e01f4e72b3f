"""The record of a thermometer: where its readings come from and what it measures."""

from collections.abc import Mapping
from typing import Literal, cast

from shopassist.core.frozen import frozen
from shopassist.core.quantities import Second
from shopassist.core.records import Field, Problem, ReadQuantity, read_record

Measures = Literal["resin", "mould", "pot wall", "cabinet air", "shop"]
MEASURES: tuple[Measures, ...] = ("resin", "mould", "pot wall", "cabinet air", "shop")
Way = Literal["a file that grows", "a serial line"]
WAYS: tuple[Way, ...] = ("a file that grows", "a serial line")
UNITS = ("°C", "°F", "K")
RATES = (1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200)

THERMOMETER_FIELDS: tuple[Field, ...] = (
    Field("name", "Name", "text", required=True),
    Field("way", "Readings come from", "choice", choices=WAYS, required=True),
    Field("from", "File or port", "text", required=True,
          note="The path of its file; or its port, such as /dev/ttyUSB0 or COM3."),
    Field("measures", "It measures", "choice", choices=MEASURES, required=True,
          note="Air is not resin: its range is widened."),
    Field("unit", "Unit", "choice", choices=UNITS, note="Blank: as its header or its lines say."),
    Field("column", "Column of the temperature", "text",
          note="Its heading or its number. Blank: the one that is headed so."),
    Field("ahead", "Its clock is ahead by", "quantity", "Second", low=-864_000.0, high=864_000.0,
          note="Blank: not at all."),
    Field("baud", "Speed of the line", "choice", choices=tuple(str(rate) for rate in RATES),
          note="Blank: 9600."),
)  # fmt: skip


@frozen
class Thermometer:
    """One thermometer as its record says."""

    name: str
    way: Way
    source: str
    measures: Measures
    unit: str = ""
    column: str = ""
    ahead: Second = Second(0.0)
    baud: int = 9600


def thermometer_from_mapping(
    mapping: Mapping[str, object], read: ReadQuantity
) -> tuple[Thermometer | None, tuple[Problem, ...]]:
    """Read a record; all problems are listed."""
    found = read_record(mapping, THERMOMETER_FIELDS, read)
    if found.problems:
        return None, found.problems
    values = found.values
    return Thermometer(
        str(values["name"]), cast("Way", values["way"]), str(values["from"]),
        cast("Measures", values["measures"]), str(values.get("unit", "")),
        str(values.get("column", "")), Second(float(values.get("ahead", 0.0))),  # type: ignore[arg-type]
        int(str(values.get("baud", 9600))),
    ), ()  # fmt: skip
