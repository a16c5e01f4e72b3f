"""Numbers of the bake: how long until the core is hot, in this oven, so wrapped and stacked."""

from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure, Origin
from shopassist.core.heatup import Piece, time_to_core
from shopassist.core.messages import Amount, say
from shopassist.core.quantities import Kelvin, Metre, Ratio, Second
from shopassist.core.wood_heat import FILMS, soaked_conductivity, soaked_diffusivity
from shopassist.services.stabilise_facts import (
    FILL,
    Density,
    Findings,
    WoodFacts,
    dial_of,
    ours,
    over_dial,
    resin_of,
    sides_of,
    typed,
)

COLD = Kelvin(293.15)
"""The packets go into the oven at 20 °C; ours."""
MIDDLE = 0.5
FIRST_FILM = "still air, foil"


def oven_of(facts: WoodFacts) -> tuple[Kelvin, Origin] | None:
    """The oven as a thermometer reads it; else its dial and what it was off by last time."""
    read = facts.said.get("oven")
    if read is not None:
        return Kelvin(read), typed(read, "Kelvin")
    dial = facts.said.get("oven_dial")
    if dial is None or facts.offset is None:
        return None
    value = Kelvin(dial + facts.offset)
    return value, Origin(value, "Kelvin", "record", say("Its dial, and what it was off last time."))


def shape_of(facts: WoodFacts) -> tuple[Metre | None, tuple[Metre, ...]] | None:
    """Diameter and flat thicknesses of what gets hot as one: packets that touch count together."""
    said = facts.said
    across, length = said.get("diameter"), said.get("length")
    if across is None:
        return None
    ends = (Metre(length),) if length else ()
    layers, sides = said.get("layers") or 1.0, sides_of(facts.said)
    if layers > 1:
        least = min(sides) if sides else across
        return None, (Metre(least * layers), *ends)
    return (None, (*sides, *ends)) if sides else (Metre(across), ends)


def bake_figures(facts: WoodFacts, density: Density | None, found: Findings) -> Second | None:
    """Minutes until the core is hot; None where something is missing or it never comes."""
    _offset(facts, found)
    oven, goal, shape = oven_of(facts), facts.said.get("core_goal"), shape_of(facts)
    if density is None or shape is None or oven is None or goal is None:
        return None
    fill = Ratio(facts.said.get("fill") or FILL)
    film = facts.said.word("film") or FIRST_FILM
    middle = Kelvin(COLD + MIDDLE * (oven[0] - COLD))
    try:
        piece = Piece(
            soaked_conductivity(density[0], fill, middle),
            soaked_diffusivity(density[0], fill, resin_of(facts.said), middle),
            *shape, FILMS[film],
        )  # fmt: skip
        time = time_to_core(piece, COLD, oven[0], Kelvin(goal))
    except ShopError as error:
        found.problems["core_goal"] = error.title
        return None
    inputs: dict[str, Figure | Origin] = {
        "diameter": typed(facts.said.get("diameter") or 0.0, "Metre"), "oven": oven[1],
        "goal": typed(goal, "Kelvin"), "oven-dry density": density[1],
        "filled share": ours(fill, "Ratio"), "surface": typed(film),
    }  # fmt: skip
    if (facts.said.get("layers") or 1.0) > 1:
        inputs["layers that touch"] = typed(facts.said.get("layers") or 1.0, "Ratio")
    found.put("heat_up", "Until the core is hot", time, "Second", "heatup.time_to_core", inputs,
              "Heat of setting, an oven that recovers slowly, the faster way along the grain."
              )  # fmt: skip
    return time


def _offset(facts: WoodFacts, found: Findings) -> None:
    said, state = facts.said, facts.state
    off, dial, temps = over_dial(said, state), dial_of(said, state), state.oven_temps
    if off is not None and dial is not None:
        found.put("offset", "Oven above its dial by", off, "KelvinDelta", "",
                  {"thermometer": Origin(temps[-1][1], "Kelvin", "measured", when=temps[-1][0]),
                   "dial": typed(dial, "Kelvin")})  # fmt: skip
    elif dial is not None and facts.offset is not None and facts.said.get("oven") is None:
        shown = Amount(facts.offset, "KelvinDelta")
        for step in ("dry", "heat_up"):
            found.note(step, say("This oven was off its dial by {d} last time.", d=shown))
