"""The handbook's table of equilibrium moisture, cell by cell, as it lies in the resources."""

import tomllib
from itertools import pairwise

import pytest

from shopassist.core.errors import ShopError
from shopassist.core.moisture import equilibrium_moisture
from shopassist.core.quantities import Kelvin, Ratio
from shopassist.core.sources import SOURCES
from shopassist.store.resources import resource

TABLE = tomllib.loads(resource("tables", "equilibrium_moisture.toml").read_text("utf-8"))
TOLERANCE = float(TABLE["tolerance_percent"])
CELLS = [
    (int(row["fahrenheit"]), humidity, float(cell))
    for row in TABLE["row"]
    for humidity, cell in zip(TABLE["humidity_percent"], row["moisture_percent"], strict=True)
]


def test_the_table_is_whole() -> None:
    assert len(CELLS) == 18 * 19
    assert len(set(CELLS)) == len(CELLS)
    assert TABLE["source"] in SOURCES


@pytest.mark.parametrize(
    ("fahrenheit", "printed"),
    [
        (40, (6.3, 9.5, 12.3, 16.5, 24.3)), (70, (6.2, 9.2, 12.0, 16.0, 23.9)),
        (100, (5.8, 8.7, 11.2, 15.1, 22.9)), (140, (5.0, 7.7, 10.0, 13.6, 21.0)),
        (200, (3.5, 5.8, 7.8, 10.9, 17.5)),
    ],
)  # fmt: skip
def test_rows_called_compared_are_as_printed(fahrenheit: int, printed: tuple[float, ...]) -> None:
    cells = {at: cell for row, at, cell in CELLS if row == fahrenheit}
    assert tuple(cells[at] for at in (30, 50, 65, 80, 95)) == printed
    (row,) = (each for each in TABLE["row"] if each["fahrenheit"] == fahrenheit)
    assert row["compared"]


def test_every_cell_of_the_table_is_met_to_its_last_digit() -> None:
    off = [
        (fahrenheit, humidity, cell)
        for fahrenheit, humidity, cell in CELLS
        if abs(found(fahrenheit, humidity) - cell) > TOLERANCE
    ]
    assert not off


def test_a_row_moved_by_one_place_is_found_out() -> None:
    """The comparison can fail: each cell against its neighbour's value misses by far."""
    moved = pairwise(CELLS)
    wrong = [one for one, two in moved if abs(found(one[0], one[1]) - two[2]) > TOLERANCE]
    assert len(wrong) == len(CELLS) - 1


def found(fahrenheit: float, humidity: float) -> float:
    temp = Kelvin((fahrenheit - 32) / 1.8 + 273.15)
    return equilibrium_moisture(temp, Ratio(humidity / 100)) * 100


@pytest.mark.parametrize(("celsius", "humidity"), [(-5.0, 0.5), (140.0, 0.5), (20, 0), (20, 1.01)])
def test_outside_the_table_nothing_is_said(celsius: float, humidity: float) -> None:
    with pytest.raises(ShopError):
        equilibrium_moisture(Kelvin(celsius + 273.15), Ratio(humidity))
