"""Warm cabinets: the record, and its lumps of heat with what stands in it."""

from collections.abc import Mapping
from typing import cast

from shopassist.core.enclosure import Layer, box_loss, mean_area, surface_film, wall_transmittance
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.messages import Text, say
from shopassist.core.quantities import (
    JoulePerKelvin,
    Kelvin,
    KelvinDelta,
    Kilogram,
    Metre,
    Ratio,
    SquareMetre,
    Watt,
    WattPerKelvin,
    WattPerMetreKelvin,
    WattPerSquareMetreKelvin,
)
from shopassist.core.records import Field, Problem, ReadQuantity, Value, read_record
from shopassist.core.warming import BAND, Heater, Warmed

STILL = WattPerSquareMetreKelvin(1 / 0.13)
"""Film on an upright surface in a room, 0.13 m2K/W; ISO 6946."""
FOIL, UPRIGHT = Ratio(0.05), WattPerSquareMetreKelvin(2.5)
"""Emissivity of bright foil and the moving air's part of its film; ISO 6946, Annex."""
EXTRA = Ratio(0.15)
"""Loss on top for door gaps, corners and battens where nobody measured it; ours."""
EXTRA_BAND = Ratio(0.20)
"""The worked-out loss may be so much off, either way; ours."""
FITTINGS = JoulePerKelvin(1500.0)
"""Heat capacity of heater, liner and shelf that goes with the air; ours."""
AIR = 1.12 * 1006.0
"""Heat capacity of a cubic metre of air at 40 °C, [J/(m3 K)]."""
STEEL, MOULD, RESIN, WOOD = 490.0, 1300.0, 1800.0, 1600.0
"""Heat capacities, [J/(kg K)]: steel and wood by the tables; rubber and liquid resin as commonly
given, from memory."""
POT_FILM = WattPerSquareMetreKelvin(8.0)
"""Still warm air to a painted pot; ours, from free convection and radiation."""
OUTSIDE_FILM = WattPerSquareMetreKelvin(9.5)
"""Warm painted pot to a cold shop; worked out by Churchill and Chu, with radiation."""
MOULD_FILM = WattPerSquareMetreKelvin(6.0)
"""Pot to what stands in it, through the air inside; ours. Under pressure it is quicker."""
FILM_BAND = Ratio(0.25)
"""Those films may be so much off, either way; ours."""
POT_AREA, POT_MASS = SquareMetre(0.4046), Kilogram(12.0)
"""Surface of a steel pot of this mass, 0.28 m by 0.32 m; other masses by the power two thirds."""
MOULD_AREA, MOULD_MASS = SquareMetre(0.10), Kilogram(2.3)
"""Surface of moulds of this mass; other masses by the power two thirds. Ours."""


@frozen
class Material:
    """What a wall is made of: conductivity, density, heat capacity."""

    conductivity: WattPerMetreKelvin
    density: float
    capacity: float
    source: str
    from_memory: bool = False


MATERIALS: dict[str, Material] = {
    "expanded polystyrene": Material(WattPerMetreKelvin(0.036), 20.0, 1450.0, "EN13163"),
    "extruded polystyrene": Material(
        WattPerMetreKelvin(0.034), 33.0, 1450.0, "ISO10456", from_memory=True
    ),
    "mineral wool": Material(WattPerMetreKelvin(0.040), 50.0, 1030.0, "ISO10456", from_memory=True),
    "cork board": Material(WattPerMetreKelvin(0.050), 120.0, 1560.0, "ISO10456", from_memory=True),
    "plywood": Material(WattPerMetreKelvin(0.13), 500.0, 1600.0, "ISO10456", from_memory=True),
    "softwood": Material(WattPerMetreKelvin(0.13), 500.0, 1600.0, "ISO10456"),
}
"""Design values; what a sheet says goes before them."""
WARMS = ("the air", "the vessel itself")
PLACES = ("inner", "middle", "outer")
"""Layers of a wall, from inside."""


def _layer_fields(place: str) -> tuple[Field, ...]:
    first = place == PLACES[0]
    return (
        Field(
            f"{place}.material", f"{place.capitalize()} layer", "choice",
            choices=tuple(MATERIALS), required=first, note="Of the wall, from inside.",
        ),
        Field(
            f"{place}.thickness", "Its thickness", "quantity", "Metre", low=1e-4, high=0.5,
            required=first,
        ),
        Field(
            f"{place}.conductivity", "Its conductivity", "quantity", "WattPerMetreKelvin",
            low=0.01, high=5.0, note="Blank: by a table of design values.",
        ),
    )  # fmt: skip


CABINET_FIELDS: tuple[Field, ...] = (
    Field("name", "Name", "text", required=True),
    Field("inside.width", "Width inside", "quantity", "Metre", required=True, low=0.05, high=5.0),
    Field("inside.depth", "Depth inside", "quantity", "Metre", required=True, low=0.05, high=5.0),
    Field("inside.height", "Height inside", "quantity", "Metre", required=True, low=0.05,
          high=5.0),
    *(field for place in PLACES for field in _layer_fields(place)),
    Field("wall.foil", "Bright foil inside, facing the air", "flag",
          note="Glued between two layers it does nothing."),
    Field("wall.extra", "Loss on top for gaps and corners", "quantity", "Ratio", low=0.0, high=3.0,
          note="Blank: 15 %, our choice."),
    Field("heater.power", "Heater", "quantity", "Watt", required=True, low=1.0, high=5000.0,
          note="Fan and lamp counted in."),
    Field("heater.warms", "Heater warms", "choice", choices=WARMS,
          note="The air only: never a pressure vessel itself."),
    Field("thermostat.set", "Thermostat set to", "quantity", "Kelvin", required=True, low=283.15,
          high=353.15),
    Field("thermostat.band", "Degrees between off and on", "quantity", "KelvinDelta", low=0.05,
          high=20.0, note="Blank: one kelvin, our choice."),
    Field("watch.thermometer", "Thermometer of its own inside", "flag",
          note="Not the thermostat's: a stuck one shows only on the other."),
    Field("watch.cut_out", "Cut-out of its own opens at", "quantity", "Kelvin", low=293.15,
          high=393.15),
    Field("measured.loss", "Loss, as measured", "quantity", "WattPerKelvin", low=0.05, high=200.0,
          note="From a logged warm-up; blank: worked out from the walls."),
    Field("measured.band", "Measured to within", "quantity", "Ratio", low=0.0, high=1.0),
    Field("measured.heat", "Heat of air and wall, measured over worked out", "number", low=0.1,
          high=10.0),
    Field("measured.on", "Measured on", "date"),
)  # fmt: skip
"""Every entry of a cabinet, in the order of the form."""


@frozen
class Cabinet:
    """A warm cabinet as its owner describes it."""

    name: str
    width: Metre
    depth: Metre
    height: Metre
    layers: tuple[tuple[str, Layer], ...]
    """From inside: material and layer."""
    power: Watt
    set_at: Kelvin
    band: KelvinDelta = BAND
    foil: bool = False
    extra: Ratio = EXTRA
    thermometer: bool = False
    cut_out: Kelvin | None = None
    measured: WattPerKelvin | None = None
    measured_band: Ratio | None = None
    measured_heat: Ratio = Ratio(1.0)

    @property
    def heater(self) -> Heater:
        """The heater and its thermostat."""
        return Heater(self.power, self.set_at, self.band)

    @property
    def inner_film(self) -> WattPerSquareMetreKelvin:
        """Film inside, less with bright foil."""
        return surface_film(FOIL, UPRIGHT, self.set_at) if self.foil else STILL

    @property
    def transmittance(self) -> WattPerSquareMetreKelvin:
        """U of the wall; both faces stand in a room."""
        return wall_transmittance(tuple(each for _, each in self.layers), self.inner_film, STILL)

    @property
    def area(self) -> SquareMetre:
        """Area that it loses heat through."""
        wall = sum(each.thickness for _, each in self.layers)
        return mean_area(self.width, self.depth, self.height, Metre(wall))

    @property
    def loss(self) -> WattPerKelvin:
        """Loss, measured or worked out."""
        if self.measured is not None:
            return self.measured
        return box_loss(self.transmittance, self.area, self.extra)

    @property
    def loss_band(self) -> Ratio:
        """How far the loss may be off, either way."""
        if self.measured is not None and self.measured_band is not None:
            return self.measured_band
        return EXTRA_BAND


@frozen
class Load:
    """What stands in the cabinet."""

    pot: Kilogram = Kilogram(0.0)
    """Steel pot; nothing where moulds stand in the cabinet without one."""
    moulds: Kilogram = Kilogram(0.0)
    resin: Kilogram = Kilogram(0.0)
    wood: Kilogram = Kilogram(0.0)


def warmed(cabinet: Cabinet, load: Load, films: float = 1.0) -> Warmed:
    """Lumps and paths of a cabinet with its load; ``films`` times the films round the load."""
    if load.moulds + load.resin + load.wood <= 0:
        raise out_of_range("moulds", "Give the mass of moulds, resin or wood that is to be warm.")
    inner, outer, wall = _wall(cabinet)
    share = cabinet.loss / (1 / (1 / inner + 1 / outer))
    volume = cabinet.width * cabinet.depth * cabinet.height
    return Warmed(
        air=JoulePerKelvin((AIR * volume + FITTINGS) * cabinet.measured_heat),
        pot=JoulePerKelvin(STEEL * load.pot),
        contents=JoulePerKelvin(MOULD * load.moulds + RESIN * load.resin + WOOD * load.wood),
        wall=JoulePerKelvin(wall * cabinet.measured_heat),
        air_pot=WattPerKelvin(films * POT_FILM * pot_area(load.pot)),
        pot_contents=WattPerKelvin(films * MOULD_FILM * mould_area(load)),
        air_wall=WattPerKelvin(inner * share),
        wall_shop=WattPerKelvin(outer * share),
    )


def pot_area(mass: Kilogram) -> SquareMetre:
    """Outside of a steel pot, by its mass."""
    return SquareMetre(POT_AREA * (mass / POT_MASS) ** (2 / 3))


def mould_area(load: Load) -> SquareMetre:
    """Surface of the moulds, by their mass with what is in them."""
    mass = load.moulds + load.resin + load.wood
    return SquareMetre(MOULD_AREA * (mass / MOULD_MASS) ** (2 / 3))


def outside_path(load: Load, films: float = 1.0) -> WattPerKelvin:
    """Path for heat from a warm pot, or from bare moulds, into the shop around it."""
    area = pot_area(load.pot) if load.pot else mould_area(load)
    return WattPerKelvin(films * OUTSIDE_FILM * area)


def _wall(cabinet: Cabinet) -> tuple[float, float, float]:
    """Paths inside and outside of the place where the wall's heat sits, and that heat."""
    area, passed, heat, moment = cabinet.area, 1 / cabinet.inner_film, 0.0, 0.0
    for name, layer in cabinet.layers:
        material, resistance = MATERIALS[name], layer.thickness / layer.conductivity
        own = material.density * material.capacity * layer.thickness * area
        moment += own * (passed + resistance / 2)
        heat += own
        passed += resistance
    middle = moment / heat
    return area / middle, area / (passed + 1 / STILL - middle), heat


def cabinet_from_mapping(
    mapping: Mapping[str, object], read: ReadQuantity
) -> tuple[Cabinet | None, tuple[Problem, ...]]:
    """Read a cabinet from nested tables; None where something in it is wrong."""
    record = read_record(mapping, CABINET_FIELDS, read)
    values = record.values
    problems = list(record.problems)
    if values.get("heater.warms") == WARMS[1]:
        problems.append(
            Problem("heater.warms", say("No heat on a pressure vessel itself: warm the air."))
        )
    for place in PLACES[1:]:
        material, thickness = (values.get(f"{place}.{p}") for p in ("material", "thickness"))
        if (material is None) != (thickness is None):
            problems.append(
                Problem(f"{place}.thickness", say("A layer needs what it is and how thick."))
            )
    set_at, cut_out = values.get("thermostat.set"), values.get("watch.cut_out")
    if isinstance(set_at, float) and isinstance(cut_out, float) and cut_out <= set_at:
        problems.append(
            Problem("watch.cut_out", say("It must open above what the thermostat is set to."))
        )
    return (None if problems else _cabinet(values)), tuple(problems)


def _cabinet(values: Mapping[str, Value]) -> Cabinet:
    def number(place: str, default: float | None = None) -> float | None:
        value = values.get(place, default)
        return float(value) if isinstance(value, int | float) else None

    return Cabinet(
        name=str(values["name"]),
        width=cast("Metre", values["inside.width"]),
        depth=cast("Metre", values["inside.depth"]),
        height=cast("Metre", values["inside.height"]),
        layers=tuple(_layers(values)),
        power=cast("Watt", values["heater.power"]),
        set_at=cast("Kelvin", values["thermostat.set"]),
        band=cast("KelvinDelta", number("thermostat.band", BAND)),
        foil=values.get("wall.foil") is True,
        extra=cast("Ratio", number("wall.extra", EXTRA)),
        thermometer=values.get("watch.thermometer") is True,
        cut_out=cast("Kelvin | None", number("watch.cut_out")),
        measured=cast("WattPerKelvin | None", number("measured.loss")),
        measured_band=cast("Ratio | None", number("measured.band")),
        measured_heat=cast("Ratio", number("measured.heat", 1.0)),
    )


def _layers(values: Mapping[str, Value]) -> list[tuple[str, Layer]]:
    found = []
    for place in PLACES:
        material, thickness = (values.get(f"{place}.{p}") for p in ("material", "thickness"))
        if material is not None:
            own = values.get(f"{place}.conductivity")
            conductivity = own if own is not None else MATERIALS[str(material)].conductivity
            layer = Layer(cast("Metre", thickness), cast("WattPerMetreKelvin", conductivity))
            found.append((str(material), layer))
    return found


def wants(cabinet: Cabinet) -> tuple[Text, ...]:
    """What a cabinet lacks that a fault in its thermostat is not to go unnoticed."""
    asked = {
        "Put in a thermometer of its own: a stuck thermostat shows on no other.": (
            not cabinet.thermometer
        ),
        "Fit a cut-out of its own, above the set temperature.": cabinet.cut_out is None,
    }
    return tuple(say(text) for text, missing in asked.items() if missing)
