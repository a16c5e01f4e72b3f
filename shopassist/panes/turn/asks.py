"""What each card asks."""

from shopassist.core.entry import EntrySpec, count
from shopassist.core.entry.asked import Ask
from shopassist.core.putty import KNEAD_DEFAULT, PROUD_DEFAULT
from shopassist.services.turn_finish import COATS, DRY_FILM, REFERENCE
from shopassist.services.turn_wood import DENSITY

PANE = "turn"
PAGES: tuple[tuple[str, str], ...] = (
    ("lathe", "Lathe"), ("drill", "Drill"), ("putty", "Putty"), ("sand", "Sand"),
    ("coats", "Coats"), ("air", "Air"),
)  # fmt: skip


def _spec(
    name: str, quantity: str, unit: str = "", low: float = 0.0, high: float = 1e4
) -> EntrySpec:
    return EntrySpec(quantity, unit, f"{PANE}.{name}", lowest=low, highest=high)


def _length(name: str, label: str, note: str = "") -> Ask:
    return Ask(name, label, _spec(name, "Metre", low=1e-4, high=3.0), note=note)


def _warmth(name: str, label: str, note: str = "") -> Ask:
    return Ask(name, label, _spec(name, "Kelvin", "", 233.15, 523.15), note=note)


LATHE: tuple[Ask, ...] = (
    _length("diameter", "Greatest diameter", "Corners of square stock count."),
    _length("length", "Length", "For the energy alone."),
    Ask("piece_density", "Density",
        _spec("piece_density", "KilogramPerCubicMetre", "", 100.0, 3000.0),
        default=DENSITY, places=2),
    Ask("knob", "Speed on the knob", _spec("knob", "PerSecond", "/min", 0.1, 400.0)),
)  # fmt: skip
DRILL: tuple[Ask, ...] = (
    _length("drill", "Drill"),
    _length("depth", "Finished length", "Of the piece that is bored."),
    _length("stock", "Stock across", "At its thinnest."),
    Ask("material", "Material", choices=(
        ("", "stabilised or resin"), ("hardwood", "hardwood"), ("softwood", "softwood"))),
    Ask("both_ends", "Drilled", choices=(("", "from one end"), ("yes", "half from each end"))),
    Ask("drilled", "Afterwards: it was drilled", choices=(
        ("", "not told"), ("pecks", "in short pecks, cooled"), ("long", "in long steps"))),
)  # fmt: skip
PUTTY: tuple[Ask, ...] = (
    Ask("grooves", "Grooves of one piece", _spec("grooves", "CubicMetre", "", 1e-9, 1e-2)),
    Ask("pieces", "Pieces", count(f"{PANE}.pieces", 1.0, 999.0), default=1.0, places=0),
    Ask("proud", "Filled proud by", _spec("proud", "Ratio", "%", 0.0, 2.0),
        default=PROUD_DEFAULT, places=0),
    Ask("putty_a", "Density of A",
        _spec("putty_a", "KilogramPerCubicMetre", "", 300.0, 5000.0)),
    Ask("putty_b", "Density of B",
        _spec("putty_b", "KilogramPerCubicMetre", "", 300.0, 5000.0)),
    Ask("knead", "Knead for", _spec("knead", "Second", "min", 10.0, 3600.0),
        default=KNEAD_DEFAULT, places=0),
    Ask("set", "Sets in", _spec("set", "Second", "h", 60.0, 14 * 86400.0)),
)  # fmt: skip
SAND: tuple[Ask, ...] = (
    Ask("papers", "Papers, coarse to fine", note="Such as 240 320 400 600, or P320 P400 600 CAMI."),
    Ask("grit_scale", "Unmarked numbers are", choices=(("", "FEPA P"), ("CAMI", "CAMI"))),
    _warmth("soft", "Resin softens at", "Blank: by the sheet."),
)  # fmt: skip
COATS_ASKS: tuple[Ask, ...] = (
    _length("coat_diameter", "Diameter"),
    _length("coat_length", "Length"),
    _length("bore", "Bore, left bare"),
    Ask("coats", "Coats", count(f"{PANE}.coats", 1.0, 50.0), default=COATS, places=0),
    Ask("solids", "Solids by volume",
        EntrySpec("Ratio", "%", f"{PANE}.solids", lowest=0.001, highest=1.0, unlikely_below=0.05)),
    Ask("thinner", "Thinner to one part", _spec("thinner", "Ratio", "", 0.0, 20.0), default=0.0,
        places=1),
    Ask("dry_film", "Dry film, each coat", _spec("dry_film", "Metre", "", 1e-6, 2e-3),
        default=DRY_FILM, places=2),
    Ask("recoat", "Recoat after, by the sheet", _spec("recoat", "Second", "h", 60.0, 3e6)),
    Ask("recoat_within", "And stays open for", _spec("recoat_within", "Second", "h", 60.0, 3e6)),
    Ask("recoat_at", "At", _spec("recoat_at", "Kelvin", "", 263.15, 323.15), default=REFERENCE,
        places=0),
)  # fmt: skip
AIR: tuple[Ask, ...] = (
    _warmth("air", "Air"),
    Ask("humidity", "Relative humidity", _spec("humidity", "Ratio", "%", 0.01, 1.0)),
    _warmth("surface", "Surface of the piece", "Blank: as warm as the air."),
    _warmth("later", "It will become", "The warmest before the film or the resin is hard."),
)  # fmt: skip
CARDS: dict[str, tuple[Ask, ...]] = {
    "lathe": LATHE, "drill": DRILL, "putty": PUTTY, "sand": SAND, "coats": COATS_ASKS, "air": AIR,
}  # fmt: skip
FAULTS = Ask("faults", "What may part")
"""Pressed on buttons, kept as words."""
ALL: tuple[Ask, ...] = (*(ask for asks in CARDS.values() for ask in asks), FAULTS)
