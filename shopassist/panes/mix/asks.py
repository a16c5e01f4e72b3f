"""What the pages beside the ratio ask: how it is measured, cup, colour, steps."""

import re

from shopassist.core.budget import FAST_STEPS
from shopassist.core.entry import EntrySpec, count
from shopassist.core.entry.asked import Ask

PANE = "mix"


def _spec(
    name: str, quantity: str, unit: str = "", low: float = 0.0, high: float = 200.0,
    also: tuple[str, ...] = (),
) -> EntrySpec:  # fmt: skip
    return EntrySpec(quantity, unit, f"{PANE}.{name}", also, lowest=low, highest=high)


def _mass(name: str, label: str, note: str = "", high: float = 200.0) -> Ask:
    return Ask(name, label, _spec(name, "Kilogram", high=high), note=note)


def _stroke(name: str, label: str) -> Ask:
    return Ask(name, label, _spec(name, "CubicMetre", "ml", 1e-8, 1e-3),
               note="Blank: the sheet's figure.")  # fmt: skip


def _count(name: str, label: str, low: float = 0.0) -> Ask:
    return Ask(name, label, _spec(name, "Ratio", low=low, high=999.0), places=0)


MEASURE: tuple[Ask, ...] = (
    Ask("how", "Measured", choices=(("", "on a scale"), ("cups", "in marked cups"),
                                    ("pumps", "with pumps"))),
    Ask("scale", "Scale", choices=(("", "by its step"),)),
    Ask("reads", "It stands on", choices=(("", "grams or oz"), ("ml", "millilitres"))),
    Ask("order", "Into the cup", choices=(("", "resin first"), ("b", "hardener first"))),
    _mass("bottle", "Bottle of A now", "For a thick part: pour until it lost enough."),
    _mass("empty_cup", "Empty cup", "Kept for a scale that loses its zero.", 20.0),
    _mass("cup_now", "Cup, zero lost", "Weigh the cup on the empty scale.", 200.0),
    _mass("line_first", "Water to 1st line", high=20.0),
    _mass("line_both", "Water to 2nd line", high=20.0),
    Ask("water_temp", "Water is at", _spec("water_temp", "Kelvin", "", 273.15, 313.15),
        note="Blank: 20 °C."),
    _stroke("stroke_a", "Stroke of pump A"),
    _stroke("stroke_b", "Stroke of pump B"),
    _count("strokes_a", "Strokes of A given"),
    _count("strokes_b", "Strokes of B given"),
)  # fmt: skip
MEASURE_SHOWN: dict[str, frozenset[str]] = {
    "": frozenset({"scale", "reads", "order", "bottle", "empty_cup", "cup_now"}),
    "cups": frozenset({"line_first", "line_both", "water_temp"}),
    "pumps": frozenset({"stroke_a", "stroke_b", "strokes_a", "strokes_b"}),
}
"""Entries of each way of measuring."""
CUP: tuple[Ask, ...] = (
    Ask("resin_temp", "Resin is at",
        EntrySpec("Kelvin", "", f"{PANE}.resin_temp", lowest=253.15, highest=373.15,
                  unlikely_below=273.15, unlikely_above=333.15),
        note="Blank: the newest temperature, at its warm end."),
    Ask("pour_depth", "Poured as deep as", _spec("pour_depth", "Metre", high=3.0)),
    Ask("humidity", "Air's humidity", _spec("humidity", "Ratio", "%", 0.01, 1.0)),
    Ask("cups", "Mixed in cups", count(f"{PANE}.cups", 1.0, 200.0), default=1.0, places=0),
    _mass("leftover", "Left over in the cup", "Over 20 g it is watched until cold and hard."),
    Ask("leftover_place", "It stands", note="Where: on something that does not burn."),
    Ask("scraped", "The cup was", choices=(
        ("", "not told"), ("poured", "poured, not scraped"), ("scraped", "scraped out"))),
    Ask("leftover_cold", "The rest is", choices=(("", "not looked at"), ("cold", "cold and hard"))),
)  # fmt: skip
BEFORE, AFTER = (
    frozenset({"resin_temp", "pour_depth", "humidity", "cups"}),
    frozenset({"scraped", "leftover", "leftover_place", "leftover_cold"}),
)
"""Entries of the cup before its hardener is in, and after it was poured."""
COLOUR: tuple[Ask, ...] = tuple(
    ask
    for n in (1, 2, 3)
    for ask in (
        Ask(f"colour_{n}", f"Colour {n}", choices=(("", "not on record"),)),
        Ask(
            f"colour_mass_{n}",
            "In all cups",
            _spec(f"colour_mass_{n}", "Kilogram", high=20.0, also=("Ratio",)),
            note="Grams, or a share: 2 % are worked out from A and B together.",
        ),
    )
)
STEPS: tuple[Ask, ...] = tuple(
    Ask(f"step_{n}", name, _spec(f"step_{n}", "Second", high=36e3), default=float(usual))
    for n, (name, usual) in enumerate(FAST_STEPS, 1)
)
ALL = (*MEASURE, *CUP, *COLOUR, *STEPS)
PAGES: tuple[tuple[str, str, tuple[Ask, ...]], ...] = (
    ("ratio", "Ratio", ()),
    ("measure", "Scale", MEASURE),
    ("cup", "Cup", CUP),
    ("colour", "Colour", COLOUR),
    ("stock", "Stock", ()),
    ("steps", "Steps", STEPS),
)
"""Pages with their entries; the first is the ratio itself."""
NAMES = tuple(dict.fromkeys(f"{PANE}.{re.sub('[0-9]$', '<n>', ask.name)}" for ask in ALL))
"""Object names of the entries; numbered ones share one."""
