"""The units that may be read or shown before the window is there, as numbers.

Every factor here is also worked out by pint from ``resources/units/workshop.txt``; a test holds
the two equal. What is rarer stands in that file alone.
"""

from shopassist.core.frozen import frozen


@frozen
class Unit:
    """A unit of one or more quantities: SI value = number x factor + offset."""

    symbol: str
    """As it is shown: one way to write it, that can also be typed."""
    quantities: tuple[str, ...]
    """Names of the types in ``core.quantities`` that it measures."""
    factor: float
    expression: str
    """The same unit in pint's words."""
    decimals: int = 1
    """Places that a shop wants to see."""
    spellings: tuple[str, ...] = ()
    """Other ways to type it."""
    offset: float = 0.0
    coarse_from: float = 1000.0
    """From this many units on no places are shown."""
    full: str = ""
    """A longer name, where the symbol alone could be taken for another unit."""

    @property
    def full_name(self) -> str:
        """The name that cannot be mistaken."""
        return self.full or self.symbol


PRESSURES = ("PascalGauge", "PascalAbsolute", "PascalDelta", "PascalVacuum")
_MASS, _LENGTH, _VOLUME, _TIME = ("Kilogram",), ("Metre",), ("CubicMetre",), ("Second",)
_AREA, _FORCE, _ENERGY = ("SquareMetre",), ("Newton",), ("Joule",)
_WARM, _WARMER = ("Kelvin",), ("KelvinDelta",)
_HEAT = ("JoulePerKilogramKelvin",)
_DENSITY = ("KilogramPerCubicMetre",)
_CELSIUS = ("C", "degC", "deg C", "degrees C", "Celsius")
_FAHRENHEIT = ("F", "degF", "deg F", "degrees F", "Fahrenheit")

EARLY_UNITS: tuple[Unit, ...] = (
    Unit("g", _MASS, 1e-3, "gram", 1, ("gram", "grams", "gramme", "grammes")),
    Unit("kg", _MASS, 1.0, "kilogram", 3, ("kilo", "kilos", "kilogram", "kilograms"), 0.0, 1e6),
    Unit(
        "oz", _MASS, 0.028349523125, "ounce", 2,
        ("ounce", "ounces", "oz (weight)", "oz weight", "oz wt", "oz avdp"),
        full="oz (weight)",
    ),
    Unit("lb", _MASS, 0.45359237, "pound", 2, ("lbs", "pound", "pounds")),
    Unit("mm", _LENGTH, 1e-3, "millimeter", 1, ("millimetre", "millimetres")),
    Unit("cm", _LENGTH, 1e-2, "centimeter", 1, ("centimetre", "centimetres")),
    Unit("m", _LENGTH, 1.0, "meter", 2, ("metre", "metres", "meter", "meters")),
    Unit("in", _LENGTH, 0.0254, "inch", 2, ("inch", "inches", '"', "″", "”", "''")),
    Unit("ft", _LENGTH, 0.3048, "foot", 1, ("foot", "feet", "'", "′", "’")),
    Unit("mm²", _AREA, 1e-6, "millimeter**2", 0, ("sq mm",)),
    Unit("cm²", _AREA, 1e-4, "centimeter**2", 1, ("sq cm",)),
    Unit("m²", _AREA, 1.0, "meter**2", 2, ("sq m",)),
    Unit("in²", _AREA, 6.4516e-4, "inch**2", 1, ("sq in",)),
    Unit("ft²", _AREA, 0.09290304, "foot**2", 2, ("sq ft",)),
    Unit(
        "ml", _VOLUME, 1e-6, "milliliter", 1, ("cc", "millilitre", "millilitres"),
        coarse_from=100.0,
    ),
    Unit("l", _VOLUME, 1e-3, "liter", 2, ("litre", "litres", "liter", "liters")),
    Unit("cm³", _VOLUME, 1e-6, "centimeter**3", 1, ("cu cm", "ccm"), coarse_from=100.0),
    Unit("in³", _VOLUME, 1.6387064e-5, "inch**3", 2, ("cu in",)),
    Unit(
        "US fl oz", _VOLUME, 2.95735295625e-5, "us_fluid_ounce", 2,
        ("fl oz US", "US fluid ounce", "US fluid ounces"),
    ),
    Unit(
        "UK fl oz", _VOLUME, 2.84130625e-5, "uk_fluid_ounce", 2,
        ("fl oz UK", "UK fluid ounce", "UK fluid ounces", "imp fl oz", "imperial fl oz"),
    ),
    Unit("US pt", _VOLUME, 4.73176473e-4, "us_pint", 2, ("pt US", "US pint", "US pints")),
    Unit("US qt", _VOLUME, 9.46352946e-4, "us_quart", 2, ("qt US", "US quart", "US quarts")),
    Unit("US gal", _VOLUME, 3.785411784e-3, "us_gallon", 2, ("gal US", "US gallon", "US gallons")),
    Unit(
        "UK pt", _VOLUME, 5.6826125e-4, "uk_pint", 2,
        ("pt UK", "UK pint", "UK pints", "imp pt", "imperial pint", "imperial pints"),
    ),
    Unit(
        "UK qt", _VOLUME, 1.1365225e-3, "uk_quart", 2,
        ("qt UK", "UK quart", "UK quarts", "imp qt", "imperial quart", "imperial quarts"),
    ),
    Unit(
        "UK gal", _VOLUME, 4.54609e-3, "uk_gallon", 2,
        ("gal UK", "UK gallon", "UK gallons", "imp gal", "imperial gallon", "imperial gallons"),
    ),
    Unit("s", _TIME, 1.0, "second", 0, ("sec", "secs", "second", "seconds")),
    Unit("min", _TIME, 60.0, "minute", 1, ("mins", "minute", "minutes")),
    Unit("h", _TIME, 3600.0, "hour", 2, ("hr", "hrs", "hour", "hours")),
    Unit("d", _TIME, 86400.0, "day", 2, ("day", "days")),
    Unit("°C", _WARM, 1.0, "degree_Celsius", 1, _CELSIUS, 273.15),
    Unit("°F", _WARM, 5 / 9, "degree_Fahrenheit", 1, _FAHRENHEIT, 459.67 * 5 / 9),
    Unit("K", _WARM, 1.0, "kelvin", 1, ("kelvin",)),
    Unit("°C", _WARMER, 1.0, "delta_degree_Celsius", 1, _CELSIUS),
    Unit("°F", _WARMER, 5 / 9, "delta_degree_Fahrenheit", 1, _FAHRENHEIT),
    Unit("K", _WARMER, 1.0, "kelvin", 1, ("kelvin",)),
    Unit("bar", PRESSURES, 1e5, "bar", 2, ("bars",)),
    Unit("mbar", PRESSURES, 100.0, "millibar", 0, ("millibar", "millibars", "hPa")),
    Unit("kPa", PRESSURES, 1e3, "kilopascal", 1),
    Unit("psi", PRESSURES, 6894.757293168361, "pound_force/inch**2", 1, ("lb/in2", "lbf/in2")),
    Unit("inHg", PRESSURES, 25.4 * 101325 / 760, "inch_Hg", 1, ("in Hg", '"Hg', "inches Hg")),
    Unit("torr", PRESSURES, 101325 / 760, "torr", 1),
    Unit("g/ml", _DENSITY, 1e3, "gram/milliliter", 3, ("g/cm3", "g/cc", "kg/l")),
    Unit("kg/m³", _DENSITY, 1.0, "kilogram/meter**3", 0),
    Unit("lb/ft³", _DENSITY, 0.45359237 / 0.3048**3, "pound/foot**3", 1, ("pcf",)),
    Unit("N", _FORCE, 1.0, "newton", 0, ("newton", "newtons")),
    Unit("kN", _FORCE, 1e3, "kilonewton", 1),
    Unit("kgf", _FORCE, 9.80665, "kilogram_force", 0, ("kp",)),
    Unit("lbf", _FORCE, 4.4482216152605, "pound_force", 0),
    Unit("J", _ENERGY, 1.0, "joule", 0, ("joule", "joules")),
    Unit("kJ", _ENERGY, 1e3, "kilojoule", 1),
    Unit("kJ/mol", ("JoulePerMole",), 1e3, "kilojoule/mole", 1),
    Unit("J/mol", ("JoulePerMole",), 1.0, "joule/mole", 0),
    Unit("kJ/kg", ("JoulePerKilogram",), 1e3, "kilojoule/kilogram", 0, ("J/g",)),
    Unit("J/kg", ("JoulePerKilogram",), 1.0, "joule/kilogram", 0),
    Unit("kJ/(kg K)", _HEAT, 1e3, "kilojoule/kilogram/kelvin", 2, ("J/(g K)",)),
    Unit("J/(kg K)", _HEAT, 1.0, "joule/kilogram/kelvin", 0),
    Unit("W", ("Watt",), 1.0, "watt", 0, ("watt", "watts")),
    Unit("W/(m K)", ("WattPerMetreKelvin",), 1.0, "watt/meter/kelvin", 2, ("W/mK",)),
    Unit("W/(m² K)", ("WattPerSquareMetreKelvin",), 1.0, "watt/meter**2/kelvin", 1, ("W/m2K",)),
    Unit("W/K", ("WattPerKelvin",), 1.0, "watt/kelvin", 2),
    Unit("kJ/K", ("JoulePerKelvin",), 1e3, "kilojoule/kelvin", 2),
    Unit("J/K", ("JoulePerKelvin",), 1.0, "joule/kelvin", 0),
    Unit("mm²/s", ("SquareMetrePerSecond",), 1e-6, "millimeter**2/second", 2),
    Unit("m²/s", ("SquareMetrePerSecond",), 1.0, "meter**2/second", 2),
    Unit("l/min", ("CubicMetrePerSecond",), 1e-3 / 60, "liter/minute", 1),
    Unit("m³/s", ("CubicMetrePerSecond",), 1.0, "meter**3/second", 3),
    Unit("g/s", ("KilogramPerSecond",), 1e-3, "gram/second", 2),
    Unit("kg/s", ("KilogramPerSecond",), 1.0, "kilogram/second", 3),
    Unit("m/s", ("MetrePerSecond",), 1.0, "meter/second", 1),
    Unit("ft/min", ("MetrePerSecond",), 0.3048 / 60, "foot/minute", 0, ("fpm",)),
    Unit("/min", ("PerSecond",), 1 / 60, "1/minute", 0, ("1/min", "rpm", "rev/min")),
    Unit("/s", ("PerSecond",), 1.0, "1/second", 2, ("1/s", "Hz")),
    Unit("N/m", ("NewtonPerMetre",), 1.0, "newton/meter", 2),
    Unit("°", ("Radian",), 0.017453292519943295, "degree", 1, ("deg", "degree", "degrees")),
    Unit("rad", ("Radian",), 1.0, "radian", 3),
    Unit("m²/l", ("SquareMetrePerCubicMetre",), 1e3, "meter**2/liter", 1, ("m2/l", "sq m/l")),
    Unit(
        "ft²/US gal", ("SquareMetrePerCubicMetre",), 0.09290304 / 3.785411784e-3,
        "foot**2/us_gallon", 0, ("sq ft/US gal", "ft2/gal"),
    ),
    Unit("", ("Ratio",), 1.0, "dimensionless", 3),
    Unit("%", ("Ratio",), 0.01, "percent", 1, ("percent", "per cent", "pct")),
)  # fmt: skip
"""Shown by one of our unit choices, written by our own records, or in everyday use."""
