"""What the pane asks about mould, core, grooves and bore."""

from shopassist.core.entry import EntrySpec, count
from shopassist.core.entry.asked import Ask
from shopassist.core.pour import FACING_DEFAULT, WASTE_DEFAULT

PANE = "blank"


def _spec(
    name: str, quantity: str, unit: str = "", low: float = 0.0, high: float = 1e3
) -> EntrySpec:
    return EntrySpec(quantity, unit, f"{PANE}.{name}", lowest=low, highest=high)


def _density(name: str) -> EntrySpec:
    """Of wood, or of a metal part; more than any wood has is asked about."""
    return EntrySpec(
        "KilogramPerCubicMetre", "", f"{PANE}.{name}", lowest=50.0, highest=12e3,
        unlikely_above=2000.0,
    )  # fmt: skip


def _length(name: str, label: str, note: str = "") -> Ask:
    return Ask(name, label, _spec(name, "Metre", high=3.0), note=note)


MOULD: tuple[Ask, ...] = (
    Ask("mould", "Mould", choices=(
        ("", "round"), ("tapered", "tapered"), ("stepped", "stepped"),
        ("turned", "any outline"), ("box", "box"), ("water, weighed", "by the weight of water"),
        ("water, measured", "by a measured volume"))),
    _length("mould_diameter", "Inside diameter"),
    _length("mould_rim", "Diameter at the rim"),
    _length("mould_length", "Inside length"),
    _length("mould_width", "Inside width"),
    _length("mould_depth", "Depth"),
    Ask("mould_steps", "Steps, or places and diameters",
        note="Steps: 60 x 20; 40 x 30 is diameter x height. Outline: 0: 60; 30: 50."),
    Ask("water_mass", "Water that fills it weighs", _spec("water_mass", "Kilogram", high=100.0)),
    Ask("water_temp", "Temperature of the water", _spec("water_temp", "Kelvin", "", 273.15, 313.15),
        note="Blank: 20 °C."),
    Ask("mould_volume", "It holds", _spec("mould_volume", "CubicMetre", high=1.0)),
)  # fmt: skip
CORE: tuple[Ask, ...] = (
    Ask("core", "Core", choices=(
        ("", "turned outline"), ("weighed", "by weight and density"),
        ("displaced", "by displaced volume"), ("none", "none"))),
    Ask("stations", "Places: diameters",
        note="Along the axis, from the mould's floor: 0: 28; 12: 20; 40: 34"),
    Ask("grooves", "Grooves",
        note="Width x depth and the place of the middle: square 8 x 6 at 20; round 5 at 60;"
             " vee 4 x 3 at 40 along 30 times 4"),
    Ask("core_mass", "Core weighs", _spec("core_mass", "Kilogram", high=50.0)),
    Ask("density_low", "Density, or lowest",
        _density("density_low")),
    Ask("density_high", "Highest density",
        _density("density_high")),
    Ask("core_volume", "It displaces", _spec("core_volume", "CubicMetre", high=1.0),
        note="Seal wood before it goes into water, or use dry rice or sand."),
    Ask("stabilised", "Wood", choices=(("", "stabilised or sealed"), ("no", "drinks resin"))),
)  # fmt: skip
MORE: tuple[Ask, ...] = (
    Ask("pieces", "Pieces", count(f"{PANE}.pieces", 1.0, 999.0), default=1.0, places=0),
    Ask("spares", "Spares", count(f"{PANE}.spares", 0.0, 99.0), default=0.0, places=0),
    Ask("waste", "Waste", _spec("waste", "Ratio", "%", 0.0, 0.9), default=WASTE_DEFAULT, places=0),
    Ask("facing", "Facing off", _spec("facing", "Metre", "", 0.0, 0.5), default=FACING_DEFAULT,
        places=0),
    Ask("shrink", "Shrinks by", _spec("shrink", "Ratio", "%", 0.0, 0.3),
        note="Blank: the sheet's figure, else 5 % are added; ours."),
    _length("level", "Height wanted", "Blank: filled to the rim."),
    _length("base", "Core stands above the floor"),
    Ask("lies", "Core", choices=(("", "stands"), ("yes", "lies in a box"))),
    _length("bow", "Long wall bows by"),
    _length("level_drop", "Level fell by", "Looked at 15, 30 and 60 min after the pour."),
)  # fmt: skip
BORE: tuple[Ask, ...] = (
    _length("drill", "Bore"),
    _length("bore_depth", "Deep", "Blank: right through."),
    Ask("both_ends", "Drilled", choices=(("", "from one end"), ("yes", "half from each end"))),
    _length("wall", "Wall asked for", "Blank: 3 mm stabilised, 4 mm otherwise; ours."),
)  # fmt: skip
ALL = (*MOULD, *CORE, *MORE, *BORE)
PAGE_WORDS = (("Mould", MOULD), ("Core", CORE), ("Bore", BORE), ("More", MORE))


def page_of(name: str) -> str:
    """The page that an entry stands on, as its tab calls it."""
    found = (words for words, asks in PAGE_WORDS if any(ask.name == name for ask in asks))
    return next(found, "Blank")


NEEDED: dict[str, frozenset[str]] = {
    "": frozenset({"mould_diameter", "mould_depth"}),
    "tapered": frozenset({"mould_diameter", "mould_rim", "mould_depth"}),
    "stepped": frozenset({"mould_steps"}),
    "turned": frozenset({"mould_steps"}),
    "box": frozenset({"mould_length", "mould_width", "mould_depth"}),
    "water, weighed": frozenset({"water_mass", "water_temp", "mould_depth"}),
    "water, measured": frozenset({"mould_volume", "mould_depth"}),
}
"""Entries of each kind of mould."""
NEEDED_CORE: dict[str, frozenset[str]] = {
    "": frozenset({"stations", "grooves", "core_mass", "stabilised"}),
    "weighed": frozenset({"core_mass", "density_low", "density_high", "stabilised"}),
    "displaced": frozenset({"core_volume", "core_mass", "stabilised"}),
    "none": frozenset(),
}
