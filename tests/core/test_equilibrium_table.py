"""The handbook's table of equilibrium moisture, cell by cell.

Wood Handbook, FPL-GTR-190, 2010, Table 4-2 (public domain). The rows of 40, 70, 100, 140 and
200 °F were compared in five cells each with the printed table; the rest is from memory.
"""

import pytest

from shopassist.core.errors import ShopError
from shopassist.core.moisture import equilibrium_moisture
from shopassist.core.quantities import Kelvin, Ratio

TABLE = {
    30: "1.4 2.6 3.7 4.6 5.5 6.3 7.1 7.9 8.7 9.5 10.4 11.3 12.4 13.5 14.9 16.5 18.5 21.0 24.3",
    40: "1.4 2.6 3.7 4.6 5.5 6.3 7.1 7.9 8.7 9.5 10.4 11.3 12.3 13.5 14.9 16.5 18.5 21.0 24.3",
    50: "1.4 2.6 3.6 4.6 5.5 6.3 7.1 7.9 8.7 9.5 10.3 11.2 12.3 13.4 14.8 16.4 18.4 20.9 24.3",
    60: "1.3 2.5 3.6 4.6 5.4 6.2 7.0 7.8 8.6 9.4 10.2 11.1 12.1 13.3 14.6 16.2 18.2 20.7 24.1",
    70: "1.3 2.5 3.5 4.5 5.4 6.2 6.9 7.7 8.5 9.2 10.1 11.0 12.0 13.1 14.4 16.0 17.9 20.5 23.9",
    80: "1.3 2.4 3.5 4.4 5.3 6.1 6.8 7.6 8.3 9.1 9.9 10.8 11.7 12.9 14.2 15.7 17.7 20.2 23.6",
    90: "1.2 2.3 3.4 4.3 5.1 5.9 6.7 7.4 8.1 8.9 9.7 10.5 11.5 12.6 13.9 15.4 17.3 19.8 23.3",
    100: "1.2 2.3 3.3 4.2 5.0 5.8 6.5 7.2 7.9 8.7 9.5 10.3 11.2 12.3 13.6 15.1 17.0 19.5 22.9",
    110: "1.1 2.2 3.2 4.0 4.9 5.6 6.3 7.0 7.7 8.4 9.2 10.0 11.0 12.0 13.2 14.7 16.6 19.1 22.4",
    120: "1.1 2.1 3.0 3.9 4.7 5.4 6.1 6.8 7.5 8.2 8.9 9.7 10.6 11.7 12.9 14.4 16.2 18.6 22.0",
    130: "1.0 2.0 2.9 3.7 4.5 5.2 5.9 6.6 7.2 7.9 8.7 9.4 10.3 11.3 12.5 14.0 15.8 18.2 21.5",
    140: "0.9 1.9 2.8 3.6 4.3 5.0 5.7 6.3 7.0 7.7 8.4 9.1 10.0 11.0 12.1 13.6 15.3 17.7 21.0",
    150: "0.9 1.8 2.6 3.4 4.1 4.8 5.5 6.1 6.7 7.4 8.1 8.8 9.7 10.6 11.8 13.1 14.9 17.2 20.4",
    160: "0.8 1.6 2.4 3.2 3.9 4.6 5.2 5.8 6.4 7.1 7.8 8.5 9.3 10.3 11.4 12.7 14.4 16.7 19.9",
    170: "0.7 1.5 2.3 3.0 3.7 4.3 4.9 5.6 6.2 6.8 7.4 8.2 9.0 9.9 11.0 12.3 14.0 16.2 19.3",
    180: "0.7 1.4 2.1 2.8 3.5 4.1 4.7 5.3 5.9 6.5 7.1 7.8 8.6 9.5 10.5 11.8 13.5 15.7 18.7",
    190: "0.6 1.3 1.9 2.6 3.2 3.8 4.4 5.0 5.5 6.1 6.8 7.5 8.2 9.1 10.1 11.4 13.0 15.1 18.1",
    200: "0.5 1.1 1.7 2.4 3.0 3.5 4.1 4.6 5.2 5.8 6.4 7.1 7.8 8.7 9.7 10.9 12.5 14.6 17.5",
}
CELLS = [
    (fahrenheit, 5 * (place + 1), float(cell))
    for fahrenheit, row in TABLE.items()
    for place, cell in enumerate(row.split())
]


def test_the_table_is_whole() -> None:
    assert len(CELLS) == 18 * 19


def test_every_cell_of_the_table_is_met_to_its_last_digit() -> None:
    off = [
        (fahrenheit, humidity, cell)
        for fahrenheit, humidity, cell in CELLS
        if abs(found(fahrenheit, humidity) - cell) > 0.061
    ]
    assert not off


def found(fahrenheit: float, humidity: float) -> float:
    temp = Kelvin((fahrenheit - 32) / 1.8 + 273.15)
    return equilibrium_moisture(temp, Ratio(humidity / 100)) * 100


@pytest.mark.parametrize(("celsius", "humidity"), [(-5.0, 0.5), (140.0, 0.5), (20, 0), (20, 1.01)])
def test_outside_the_table_nothing_is_said(celsius: float, humidity: float) -> None:
    with pytest.raises(ShopError):
        equilibrium_moisture(Kelvin(celsius + 273.15), Ratio(humidity))
