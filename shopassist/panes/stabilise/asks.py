"""What the pane asks about a set, its bath and its bake."""

from shopassist.core.bath import COVER_AT_END
from shopassist.core.drying import RULES
from shopassist.core.entry import EntrySpec
from shopassist.core.entry.asked import Ask
from shopassist.core.resin_load import BALLAST
from shopassist.core.species import SPECIES
from shopassist.core.wood_heat import FILMS
from shopassist.services.stabilise_plan import FILL, RESIN, STEP

PANE = "stabilise"
NOT_SAID = ("", "not said")


def _spec(
    name: str, quantity: str, unit: str = "", low: float = 0.0, high: float | None = None
) -> EntrySpec:
    return EntrySpec(quantity, unit, f"{PANE}.{name}", lowest=low, highest=high)


OVEN = EntrySpec(
    "Kelvin", "", f"{PANE}.oven", lowest=300.0, highest=500.0, unlikely_below=273.15 + 80,
    unlikely_above=273.15 + 110,
)  # fmt: skip
"""Outside 80 to 110 °C it is asked once more, with both scales: a mis-set unit burns wood."""
SET: tuple[Ask, ...] = (
    Ask("pieces", "Pieces", _spec("pieces", "Ratio", "", 1.0, 500.0), default=1.0, places=0),
    Ask("species", "Wood", choices=(NOT_SAID, *((each.name, each.name) for each in SPECIES)),
        note="A fallback: own mass and size are better."),
    Ask("diameter", "Diameter of one", _spec("diameter", "Metre", "", 0.002, 1.0)),
    Ask("length", "Length of one", _spec("length", "Metre", "", 0.005, 2.0)),
    Ask("volume", "Or volume of the set", _spec("volume", "CubicMetre", "", 1e-6, 1.0),
        note="For shapes that are not round: by displaced water or by hand."),
    Ask("scale_step", "Scale shows steps of", _spec("scale_step", "Kilogram", "", 1e-6, 0.1),
        default=STEP, places=0),
    Ask("rule", "Dry when", choices=(("", "strictest the scale can show"),
                                     *((each.key, each.name) for each in RULES))),
    Ask("cut_off", "Oven switches itself off after", _spec("cut_off", "Second", "h", 600.0),
        note="Blank: it runs until it is switched off."),
)  # fmt: skip
BATH: tuple[Ask, ...] = (
    Ask("vessel_diameter", "Vessel, inside diameter", _spec("vessel_diameter", "Metre", "", 0.02)),
    Ask("vessel_height", "Vessel, inside height", _spec("vessel_height", "Metre", "", 0.02)),
    Ask("stack", "Wood held down stands", _spec("stack", "Metre", "", 0.005),
        note="Height of the wood in the vessel. Blank: upright, its length."),
    Ask("weight", "Ballast", choices=(("", "steel"), *((name, name) for name in BALLAST
                                                        if name != "steel"))),
    Ask("resin_density", "Density of the resin",
        _spec("resin_density", "KilogramPerCubicMetre", "", 600.0, 2000.0),
        default=RESIN, places=2),
    Ask("fill", "Voids that fill", _spec("fill", "Ratio", "%", 0.0, 1.0), default=FILL, places=0),
    Ask("cover", "Cover at the end", _spec("cover", "Metre", "", 0.0, 0.2), default=COVER_AT_END,
        places=0),
    Ask("soak", "Soak at least, by the sheet", _spec("soak", "Second", "h", 0.0)),
    Ask("pump_best", "Pump reaches, absolute",
        _spec("pump_best", "PascalAbsolute", "", 1.0, 1e5)),
    Ask("chamber", "Chamber, free volume", _spec("chamber", "CubicMetre", "l", 1e-4, 1.0)),
    Ask("pump_speed", "Pump takes away", _spec("pump_speed", "CubicMetrePerSecond", "l/min", 1e-6)),
    Ask("bath", "Bath and its lot", note="Which bottle, when mixed with its catalyst."),
)  # fmt: skip
BAKE: tuple[Ask, ...] = (
    Ask("oven", "Oven, by a thermometer", OVEN),
    Ask("core_goal", "Core must reach", _spec("core_goal", "Kelvin", "", 300.0, 480.0),
        note="From the sheet; without it no time is worked out."),
    Ask("hold", "Then hold for", _spec("hold", "Second", "min", 60.0)),
    Ask("film", "Oven and wrap", choices=(("", "still air, foil"),
                                          *((name, name) for name in FILMS
                                            if name != "still air, foil"))),
)  # fmt: skip
ALL = (*SET, *BATH, *BAKE)
MASS = EntrySpec("Kilogram", "", f"{PANE}.mass", lowest=1e-5, highest=200.0)
DIAL = EntrySpec("PascalVacuum", "", f"{PANE}.dial", lowest=0.0, highest=1.2e5)
METER = EntrySpec("Ratio", "%", f"{PANE}.meter", lowest=0.0, highest=1.0)
FLOOR = EntrySpec("Ratio", "%", f"{PANE}.meter_floor", lowest=0.0, highest=0.3)
