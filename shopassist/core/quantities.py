"""One type per physical quantity; every value inside the program is an SI float.

Gauge and absolute pressure are different types, and so are a temperature and a
difference of temperatures: mixing them up is an error that mypy reports.
``UNIT_OF`` gives the unit text that docstrings write in square brackets.
"""

from typing import NewType

Kilogram = NewType("Kilogram", float)
Metre = NewType("Metre", float)
SquareMetre = NewType("SquareMetre", float)
CubicMetre = NewType("CubicMetre", float)
Second = NewType("Second", float)
UtcSecond = NewType("UtcSecond", float)
Kelvin = NewType("Kelvin", float)
KelvinDelta = NewType("KelvinDelta", float)
PascalAbsolute = NewType("PascalAbsolute", float)
PascalGauge = NewType("PascalGauge", float)
PascalDelta = NewType("PascalDelta", float)
PascalVacuum = NewType("PascalVacuum", float)
KilogramPerCubicMetre = NewType("KilogramPerCubicMetre", float)
Newton = NewType("Newton", float)
Joule = NewType("Joule", float)
JoulePerKilogram = NewType("JoulePerKilogram", float)
JoulePerKilogramKelvin = NewType("JoulePerKilogramKelvin", float)
JoulePerMole = NewType("JoulePerMole", float)
Watt = NewType("Watt", float)
WattPerMetreKelvin = NewType("WattPerMetreKelvin", float)
WattPerSquareMetreKelvin = NewType("WattPerSquareMetreKelvin", float)
WattPerKelvin = NewType("WattPerKelvin", float)
JoulePerKelvin = NewType("JoulePerKelvin", float)
SquareMetrePerSecond = NewType("SquareMetrePerSecond", float)
CubicMetrePerSecond = NewType("CubicMetrePerSecond", float)
KilogramPerSecond = NewType("KilogramPerSecond", float)
MetrePerSecond = NewType("MetrePerSecond", float)
PerSecond = NewType("PerSecond", float)
NewtonPerMetre = NewType("NewtonPerMetre", float)
Radian = NewType("Radian", float)
SquareMetrePerCubicMetre = NewType("SquareMetrePerCubicMetre", float)
"""Coverage of a finish: area that each volume of it wets."""
Ratio = NewType("Ratio", float)
"""A pure number: a ratio, a share (0.08 for 8 %), a factor."""

UNIT_OF: dict[str, str] = {
    "Kilogram": "kg",
    "Metre": "m",
    "SquareMetre": "m2",
    "CubicMetre": "m3",
    "Second": "s",
    "UtcSecond": "s since 1970 UTC",
    "Kelvin": "K",
    "KelvinDelta": "K difference",
    "PascalAbsolute": "Pa absolute",
    "PascalGauge": "Pa gauge",
    "PascalDelta": "Pa difference",
    "PascalVacuum": "Pa below ambient",
    "KilogramPerCubicMetre": "kg/m3",
    "Newton": "N",
    "Joule": "J",
    "JoulePerKilogram": "J/kg",
    "JoulePerKilogramKelvin": "J/(kg K)",
    "JoulePerMole": "J/mol",
    "Watt": "W",
    "WattPerMetreKelvin": "W/(m K)",
    "WattPerSquareMetreKelvin": "W/(m2 K)",
    "WattPerKelvin": "W/K",
    "JoulePerKelvin": "J/K",
    "SquareMetrePerSecond": "m2/s",
    "CubicMetrePerSecond": "m3/s",
    "KilogramPerSecond": "kg/s",
    "MetrePerSecond": "m/s",
    "PerSecond": "1/s",
    "NewtonPerMetre": "N/m",
    "Radian": "rad",
    "SquareMetrePerCubicMetre": "m2/m3",
    "Ratio": "1",
}
"""Unit text of each quantity, as docstrings write it in square brackets."""

ZERO_CELSIUS = Kelvin(273.15)
"""0 degC on the thermodynamic scale, exact by definition (SI Brochure, 9th ed., 2.3.1)."""

STANDARD_GRAVITY = 9.80665
"""Standard acceleration of free fall, [m/s2]; exact, CGPM 1901."""

GAS_CONSTANT = 8.314462618
"""Molar gas constant, [J/(mol K)]; exact product of SI constants, CODATA 2018."""
