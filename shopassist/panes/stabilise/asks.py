"""What the pane asks about a set, its oven, its bath and its bake."""

from shopassist.core.bath import COVER_AT_END
from shopassist.core.drying import RULES
from shopassist.core.entry import EntrySpec, count
from shopassist.core.entry.asked import Ask
from shopassist.core.resin_load import BALLAST
from shopassist.core.species import SPECIES
from shopassist.core.wood_heat import FILMS
from shopassist.services.stabilise_facts import BATH_AT, FILL, RESIN, STEP

PANE = "stabilise"
NOT_SAID = ("", "not said")


def _spec(
    name: str, quantity: str, unit: str = "", low: float = 0.0, high: float | None = None
) -> EntrySpec:
    return EntrySpec(quantity, unit, f"{PANE}.{name}", lowest=low, highest=high)


def _hot(name: str) -> EntrySpec:
    """Outside 70 to 110 °C it is asked once more, with both scales: a mis-set unit burns wood."""
    return EntrySpec(
        "Kelvin", "", f"{PANE}.{name}", lowest=273.15, highest=500.0, unlikely_below=273.15 + 70,
        unlikely_above=273.15 + 110,
    )  # fmt: skip


OVEN = EntrySpec(
    "Kelvin", "", f"{PANE}.oven", lowest=300.0, highest=500.0, unlikely_below=273.15 + 80,
    unlikely_above=273.15 + 110,
)  # fmt: skip
SET: tuple[Ask, ...] = (
    Ask("pieces", "Pieces", count(f"{PANE}.pieces", 1.0, 500.0), default=1.0, places=0),
    Ask("species", "Wood", choices=(NOT_SAID, *((each.name, each.name) for each in SPECIES)),
        note="A fallback: own mass and size are better."),
    Ask("shape", "Shape", choices=(("", "round"), ("square", "square or flat"))),
    Ask("diameter", "Diameter, or thickness", _spec("diameter", "Metre", "", 0.002, 1.0)),
    Ask("width", "Width", _spec("width", "Metre", "", 0.002, 1.0),
        note="Of square or flat pieces. Blank: as thick as wide."),
    Ask("length", "Length of one", _spec("length", "Metre", "", 0.005, 2.0)),
    Ask("volume", "Or volume of the set", _spec("volume", "CubicMetre", "", 1e-6, 1.0),
        note="For shapes that are not round or square: by displaced water or by hand."),
    Ask("each", "Weighed", choices=(("", "all together"), ("each", "piece by piece"))),
)  # fmt: skip
DRY: tuple[Ask, ...] = (
    Ask("scale_step", "Scale shows steps of", _spec("scale_step", "Kilogram", "", 1e-6, 0.1),
        default=STEP, places=0),
    Ask("rule", "Dry when", choices=(("", "strictest the scale can show"),
                                     *((each.key, each.name) for each in RULES)),
        note="Constant-weight rules, each by the name of its standard."),
    Ask("dry_for", "In the oven for", _spec("dry_for", "Second", "h", 600.0, 1e6),
        note="How long you mean to leave it hot before it is worth a weighing."),
    Ask("cut_off", "Oven switches itself off after", _spec("cut_off", "Second", "h", 600.0),
        note="Blank: it runs until it is switched off."),
    Ask("oven_name", "Which oven", note="What its dial was off by is kept under this name."),
    Ask("oven_dial", "Oven's dial is set to", _hot("oven_dial")),
    Ask("oven_limit", "Oven must not pass", _hot("oven_limit"), note="Blank: 107 °C; ours."),
    Ask("air_temp", "Air of the shop", _spec("air_temp", "Kelvin", "", 233.15, 323.15)),
    Ask("air_humidity", "Humidity of the shop", _spec("air_humidity", "Ratio", "%", 0.01, 1.0)),
)  # fmt: skip
BATH: tuple[Ask, ...] = (
    Ask("vessel_diameter", "Vessel, inside diameter",
        _spec("vessel_diameter", "Metre", "", 0.02, 2.0)),
    Ask("vessel_height", "Vessel, inside height", _spec("vessel_height", "Metre", "", 0.02, 3.0)),
    Ask("stack", "Wood held down stands", _spec("stack", "Metre", "", 0.005, 2.0),
        note="Height of the wood in the vessel. Blank: upright, its length."),
    Ask("weight", "Ballast", choices=(("", "steel"), *((name, name) for name in BALLAST
                                                        if name != "steel"))),
    Ask("resin_density", "Density of the resin",
        _spec("resin_density", "KilogramPerCubicMetre", "", 600.0, 2000.0),
        default=RESIN, places=2),
    Ask("fill", "Voids that fill",
        EntrySpec("Ratio", "%", f"{PANE}.fill", lowest=0.0, highest=1.0, unlikely_below=0.1),
        default=FILL, places=0),
    Ask("cover", "Cover at the end", _spec("cover", "Metre", "", 0.0, 0.2), default=COVER_AT_END,
        places=0),
    Ask("bath", "Bath, by its name",
        note="As in Records – Stabilising baths: its lot, catalyst, date, colour."),
    Ask("poured", "Poured in", _spec("poured", "CubicMetre", "", 1e-6, 1.0)),
    Ask("poured_back", "Poured back", _spec("poured_back", "CubicMetre", "", 0.0, 1.0),
        note="Through a filter, into its own bottle; not mixed with warm or wet stock."),
)  # fmt: skip
VACUUM: tuple[Ask, ...] = (
    Ask("chamber_record", "Chamber", choices=(NOT_SAID,),
        note="From Records – Vacuum chambers."),
    Ask("pump_record", "Pump", choices=(NOT_SAID,), note="From Records – Vacuum pumps."),
    Ask("barometer", "Barometer here",
        _spec("barometer", "PascalAbsolute", "", 4e4, 1.1e5),
        note="As it reads here, not as brought to sea level. Blank: by the shop's elevation."),
    Ask("pump_best", "Pump reaches, absolute",
        _spec("pump_best", "PascalAbsolute", "", 1.0, 1e5),
        note="Not the dial's reading: 27 inHg on a dial are 2.92 inHg absolute."),
    Ask("chamber", "Chamber, free volume", _spec("chamber", "CubicMetre", "l", 1e-4, 1.0),
        note="Blank: its record less resin and wood."),
    Ask("pump_speed", "Pump takes away",
        _spec("pump_speed", "CubicMetrePerSecond", "l/min", 1e-6, 1.0)),
    Ask("bath_temp", "Bath is at", _spec("bath_temp", "Kelvin", "", 263.15, 373.15),
        default=BATH_AT, places=0),
    Ask("monomer", "The resin", choices=(
        NOT_SAID, ("mma", "is methyl methacrylate"), ("low", "hardly evaporates"))),
    Ask("soak", "Soak at least, by the sheet", _spec("soak", "Second", "h", 0.0, 1e7)),
)  # fmt: skip
BAKE: tuple[Ask, ...] = (
    Ask("oven", "Oven, by a thermometer", OVEN),
    Ask("core_goal", "Core must reach", _spec("core_goal", "Kelvin", "", 300.0, 480.0),
        note="From the sheet; without it no time is worked out."),
    Ask("hold", "Then hold for", _spec("hold", "Second", "min", 60.0, 1e6)),
    Ask("film", "Oven and wrap", choices=(("", "still air, foil"),
                                          *((name, name) for name in FILMS
                                            if name != "still air, foil"))),
    Ask("layers", "Packets that touch, in layers", count(f"{PANE}.layers", 1.0, 20.0),
        default=1.0, places=0, note="Packets that touch get hot together, as one thick piece."),
)  # fmt: skip
COMPARE: tuple[Ask, ...] = (
    Ask("control_mass", "An untreated piece weighs", _spec("control_mass", "Kilogram", "", 1e-5)),
    Ask("control_volume", "Its volume", _spec("control_volume", "CubicMetre", "", 1e-7, 1.0)),
    Ask("treated_mass", "A treated one weighs", _spec("treated_mass", "Kilogram", "", 1e-5)),
    Ask("treated_volume", "Its volume", _spec("treated_volume", "CubicMetre", "", 1e-7, 1.0)),
)  # fmt: skip
ALL = (*SET, *DRY, *BATH, *VACUUM, *BAKE, *COMPARE)
GRIDS: tuple[tuple[str, tuple[Ask, ...]], ...] = (
    ("set", SET), ("dry", DRY), ("bath", BATH), ("vacuum", VACUUM), ("bake", BAKE),
    ("compare", COMPARE),
)  # fmt: skip
"""Entries of each page."""
MASS = EntrySpec("Kilogram", "", f"{PANE}.mass", lowest=1e-5, highest=200.0)
DIAL = EntrySpec("PascalVacuum", "", f"{PANE}.dial", lowest=0.0, highest=1.2e5)
OVEN_READS = _hot("oven_reads")
PROBE = EntrySpec("Kelvin", "", f"{PANE}.probe", lowest=263.15, highest=500.0)
AGO = EntrySpec("Second", "min", f"{PANE}.ago", lowest=0.0, highest=7 * 86_400.0)
METER = EntrySpec("Ratio", "%", f"{PANE}.meter", lowest=0.0, highest=1.0, unlikely_below=0.02)
"""Under 2 % somebody typed a share of one."""
FLOOR = EntrySpec("Ratio", "%", f"{PANE}.meter_floor", lowest=0.0, highest=0.3)
