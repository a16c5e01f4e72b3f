"""How one shop likes its numbers and units; read once by the program and handed in."""

from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from shopassist.core.frozen import frozen

DateOrder = Literal["dmy", "mdy", "ymd"]


@frozen
class NumberStyle:
    """Decimal sign, order of dates, hours of the clock."""

    decimal: Literal[".", ","] = "."
    order: DateOrder = "dmy"
    hours: Literal[24, 12] = 24


_METRIC: dict[str, str] = {
    "Kilogram": "g", "Metre": "mm", "SquareMetre": "cm²", "CubicMetre": "ml", "Second": "min",
    "Kelvin": "°C", "KelvinDelta": "°C", "PascalAbsolute": "mbar", "PascalGauge": "bar",
    "PascalDelta": "bar", "PascalVacuum": "mbar", "KilogramPerCubicMetre": "g/ml",
    "Newton": "kgf", "Joule": "kJ", "JoulePerKilogram": "kJ/kg",
    "JoulePerKilogramKelvin": "kJ/(kg K)", "JoulePerMole": "kJ/mol", "Watt": "W",
    "WattPerMetreKelvin": "W/(m K)", "WattPerSquareMetreKelvin": "W/(m² K)",
    "WattPerKelvin": "W/K", "JoulePerKelvin": "kJ/K", "SquareMetrePerSecond": "mm²/s",
    "CubicMetrePerSecond": "l/min", "KilogramPerSecond": "g/s", "MetrePerSecond": "m/s",
    "PerSecond": "/min", "NewtonPerMetre": "N/m", "Radian": "°", "SquareMetrePerCubicMetre": "m²/l",
    "Ratio": "",
}  # fmt: skip
_INCHES: dict[str, str] = {
    "Metre": "in", "SquareMetre": "in²", "Kelvin": "°F", "KelvinDelta": "°F",
    "PascalAbsolute": "inHg", "PascalGauge": "psi", "PascalDelta": "psi", "PascalVacuum": "inHg",
    "Newton": "lbf",
}  # fmt: skip
_US: dict[str, str] = {
    "Kilogram": "oz",
    "CubicMetre": "US fl oz",
    "MetrePerSecond": "ft/min",
    "SquareMetrePerCubicMetre": "ft²/US gal",
}


@frozen
class UnitChoice:
    """The unit in which each quantity is shown, and that a bare number takes."""

    name: str
    own: Mapping[str, str] = field(default_factory=dict)
    """Symbols that differ from the metric ones, by quantity."""

    def unit(self, quantity: str) -> str:
        """Symbol of the shown unit of a quantity."""
        return self.own.get(quantity) or _METRIC.get(quantity, "")

    def changed(self, **own: str) -> "UnitChoice":
        """The same choice with other units for some quantities."""
        return UnitChoice(self.name, {**self.own, **own})


METRIC = UnitChoice("metric")
US = UnitChoice("US", {**_INCHES, **_US})
MIXED = UnitChoice("mixed", _INCHES)
"""Grams and millilitres on the bench, inches, psi and °F in the rest of the shop."""

CHOICES: dict[str, UnitChoice] = {choice.name: choice for choice in (METRIC, US, MIXED)}
