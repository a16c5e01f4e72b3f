"""The one door to pint: units by name, their factors to SI, and lookups that keep quantities apart.

The table is plain frozen numbers. pint is imported inside ``build_table``, after the first paint,
to work out the factors of the definition file; nothing else in the program asks it.
"""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import field
from functools import lru_cache

from shopassist.core.early_units import EARLY_UNITS, Unit
from shopassist.core.errors import EntryError
from shopassist.core.frozen import frozen
from shopassist.core.messages import say

__all__ = ["BASE_OF", "EARLY", "Unit", "UnitTable", "build_table", "from_si", "to_si", "unit_key"]

ROW = "#:"
Convert = Callable[[float, str, str], float]
BASE_OF: dict[str, str] = {
    "Kilogram": "kilogram", "Metre": "meter", "SquareMetre": "meter**2", "CubicMetre": "meter**3",
    "Second": "second", "Kelvin": "kelvin", "KelvinDelta": "kelvin",
    "PascalAbsolute": "pascal", "PascalGauge": "pascal", "PascalDelta": "pascal",
    "PascalVacuum": "pascal", "KilogramPerCubicMetre": "kilogram/meter**3", "Newton": "newton",
    "Joule": "joule", "JoulePerKilogram": "joule/kilogram",
    "JoulePerKilogramKelvin": "joule/kilogram/kelvin", "JoulePerMole": "joule/mole",
    "Watt": "watt", "WattPerMetreKelvin": "watt/meter/kelvin",
    "WattPerSquareMetreKelvin": "watt/meter**2/kelvin", "WattPerKelvin": "watt/kelvin",
    "JoulePerKelvin": "joule/kelvin", "SquareMetrePerSecond": "meter**2/second",
    "CubicMetrePerSecond": "meter**3/second", "KilogramPerSecond": "kilogram/second",
    "MetrePerSecond": "meter/second", "PerSecond": "1/second", "NewtonPerMetre": "newton/meter",
    "Radian": "radian", "SquareMetrePerCubicMetre": "meter**2/meter**3", "Ratio": "dimensionless",
}  # fmt: skip
"""The SI unit of each quantity in pint's words; ``UtcSecond`` is an instant and has none."""

_DROPPED = str.maketrans("", "", "._^·*")
_RAISED = str.maketrans("²³", "23")


@lru_cache(maxsize=1024)
def unit_key(text: str) -> str:
    """Reduce a spelling to what matters; a blank before a digit stays, so "5 in 3" is no volume."""
    return re.sub(r"\s+(?!\d)", "", text.translate(_DROPPED).translate(_RAISED).strip())


@frozen
class UnitTable:
    """Units by quantity and spelling."""

    units: tuple[Unit, ...]
    _exact: Mapping[tuple[str, str], Unit] = field(init=False, repr=False, compare=False)
    _folded: Mapping[tuple[str, str], Unit] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        exact: dict[tuple[str, str], Unit] = {}
        folded: dict[tuple[str, str], Unit] = {}
        for unit in self.units:
            for quantity in unit.quantities:
                for spelling in (unit.symbol, unit.full_name, *unit.spellings):
                    exact.setdefault((quantity, unit_key(spelling)), unit)
                    folded.setdefault((quantity, unit_key(spelling).casefold()), unit)
        object.__setattr__(self, "_exact", exact)
        object.__setattr__(self, "_folded", folded)

    def find(self, spelling: str, quantity: str) -> Unit | None:
        """Find the unit that a spelling means for this quantity; capitals only settle a tie."""
        key = unit_key(spelling)
        return self._exact.get((quantity, key)) or self._folded.get((quantity, key.casefold()))

    def quantities_of(self, spelling: str) -> tuple[str, ...]:
        """Every quantity that has a unit of this spelling."""
        return tuple(q for q in BASE_OF if self.find(spelling, q) is not None)

    def of(self, quantity: str) -> tuple[Unit, ...]:
        """All units of a quantity, the everyday ones first."""
        return tuple(unit for unit in self.units if quantity in unit.quantities)

    def get(self, spelling: str, quantity: str) -> Unit:
        """Find a unit or refuse."""
        unit = self.find(spelling, quantity)
        if unit is None:
            raise EntryError(
                say("{unit} is not a unit used here.", unit=spelling or "A plain number"),
                say("Use {accepted}.", accepted=", ".join(u.symbol for u in self.of(quantity)[:6])),
            )
        return unit


EARLY = UnitTable(EARLY_UNITS)
"""What is known before the first paint."""


def build_table(lines: Iterable[str]) -> UnitTable:
    """Work out every unit of the definition lines with pint and add them to the early ones."""
    texts = list(lines)
    convert = _converter(texts)
    rows = (row for row in texts if row.startswith(ROW))
    return UnitTable((*EARLY_UNITS, *(_unit(convert, row) for row in rows)))


def factors(lines: Iterable[str], units: Iterable[Unit]) -> list[tuple[float, float]]:
    """Factor and offset of units as pint has them; the proof of the early numbers."""
    convert = _converter(lines)
    return [_factor(convert, unit.expression, unit.quantities[0]) for unit in units]


def _converter(lines: Iterable[str]) -> Convert:
    import pint

    registry: pint.UnitRegistry[float] = pint.UnitRegistry(list(lines))
    return registry.convert


def _unit(convert: Convert, row: str) -> Unit:
    symbol, expression, quantities, decimals, spellings = (
        part.strip() for part in row.removeprefix(ROW).split("|")
    )
    names = tuple(name.strip() for name in quantities.split(","))
    factor, offset = _factor(convert, expression, names[0])
    others = tuple(word.strip() for word in spellings.split(",") if word.strip())
    return Unit(symbol, names, factor, expression, int(decimals), others, offset)


def _factor(convert: Convert, expression: str, quantity: str) -> tuple[float, float]:
    offset = float(convert(0.0, expression, BASE_OF[quantity]))
    return float(convert(1.0, expression, BASE_OF[quantity])) - offset, offset


def to_si(value: float, unit: str, quantity: str, table: UnitTable = EARLY) -> float:
    r"""Turn a number of units into the SI value of a quantity.

    .. math:: x_\mathrm{SI} = f\,x + x_0

    Parameters
    ----------
    value : float
        Number of units [1].
    unit : str
        A spelling of the unit.
    quantity : str
        Name of the type in ``core.quantities``; it tells a temperature from a difference.
    table : UnitTable
        The units known.

    Returns
    -------
    float
        Value in the SI unit of the quantity.

    Raises
    ------
    EntryError
        The quantity has no such unit.

    Notes
    -----
    Exact for every unit that is defined exactly. Gauge and absolute pressure have the same
    factors here; ambient pressure is the business of ``core.gas``.

    Sources
    -------
    SI-BROCHURE, NIST-SP811, YARD-POUND-1959

    Examples
    --------
    >>> round(to_si(8, "oz", "Kilogram"), 6)
    0.226796
    """
    found = table.get(unit, quantity)
    return value * found.factor + found.offset


def from_si(value: float, unit: str, quantity: str, table: UnitTable = EARLY) -> float:
    r"""Turn the SI value of a quantity into a number of units.

    .. math:: x = (x_\mathrm{SI} - x_0) / f

    Parameters
    ----------
    value : float
        Value in the SI unit of the quantity.
    unit : str
        A spelling of the unit.
    quantity : str
        Name of the type in ``core.quantities``; it tells a temperature from a difference.
    table : UnitTable
        The units known.

    Returns
    -------
    float
        Number of units [1].

    Raises
    ------
    EntryError
        The quantity has no such unit.

    Notes
    -----
    The reverse of ``to_si``; nothing is rounded.

    Sources
    -------
    SI-BROCHURE, NIST-SP811, YARD-POUND-1959

    Examples
    --------
    >>> round(from_si(298.15, "°F", "Kelvin"), 9)
    77.0
    """
    found = table.get(unit, quantity)
    return (value - found.offset) / found.factor
