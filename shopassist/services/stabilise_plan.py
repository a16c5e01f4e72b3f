"""What the entries of a set of cores work out to: dryness, bath, vacuum, bake, uptake."""

from dataclasses import field

from shopassist.core.bath import COVER_AT_END, HOLD_DOWN, Bath, BathPlan, plan_bath
from shopassist.core.drying import Rule, best_rule, rule
from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure, Origin
from shopassist.core.frozen import frozen
from shopassist.core.heatup import Piece, time_to_core
from shopassist.core.messages import Text, say
from shopassist.core.moisture import moisture
from shopassist.core.quantities import (
    CubicMetre,
    Kelvin,
    Kilogram,
    KilogramPerCubicMetre,
    Metre,
    PascalGauge,
    Ratio,
    Second,
    SquareMetre,
)
from shopassist.core.solids import cylinder_volume
from shopassist.core.species import species
from shopassist.core.stabilising import Terms, dry_mass
from shopassist.core.vessel import lid_force
from shopassist.core.wood import CELL_WALL, most_uptake, retention, sink_fill, uptake, void_fill
from shopassist.core.wood_heat import FILMS, soaked_conductivity, soaked_diffusivity
from shopassist.core.wood_set import WoodSet
from shopassist.services.said import Said

RESIN = KilogramPerCubicMetre(1030.0)
"""Liquid stabilising resin where no density is typed; ours."""
FILL = Ratio(0.7)
"""Share of the voids expected to fill; ours."""
STEP = Kilogram(0.001)
"""A kitchen scale, where none is typed; ours."""
COLD = Kelvin(293.15)
"""The packets go into the oven at 20 °C; ours."""
MIDDLE = 0.5
AIR = 101325.0
"""Standard atmosphere, [Pa]: the most that a vacuum can hold on a lid at the sea."""


@frozen
class WoodFigures:
    """Everything that the pane shows of a set, and what is wrong with which entry."""

    terms: Terms
    figures: dict[str, Figure] = field(default_factory=dict)
    bath: BathPlan | None = None
    problems: dict[str, Text] = field(default_factory=dict)


def volume_of(said: Said) -> CubicMetre | None:
    """Bulk volume of the whole set: typed, or from pieces, diameter and length."""
    typed = said.get("volume")
    if typed is not None:
        return CubicMetre(typed)
    pieces, across, length = said.get("pieces"), said.get("diameter"), said.get("length")
    if across is None or length is None:
        return None
    return CubicMetre((pieces or 1.0) * cylinder_volume(Metre(across), Metre(length)))


def rule_of(said: Said, mass: Kilogram | None) -> Rule:
    """The chosen constant-weight rule, else the strictest that this scale resolves."""
    chosen = said.word("rule")
    if chosen:
        return rule(chosen)
    step = Kilogram(said.get("scale_step") or STEP)
    return best_rule(mass, step) if mass else rule("shop")


def work_out(said: Said, state: WoodSet) -> WoodFigures:
    """Every number of a set that can be told from what is known."""
    wet = state.last("wet")
    problems: dict[str, Text] = {}
    step = Kilogram(said.get("scale_step") or STEP)
    found: dict[str, Figure] = {}
    density = _density(said, state)
    if density is not None and density[0] >= CELL_WALL:
        problems["volume"] = say("So much wood does not weigh more: look at size and mass.")
        density = None
    _moistures(state, found)
    heat_up = _heat_up(said, density, found, problems)
    bath = _bath(said, state, density, found, problems)
    _uptakes(said, state, density, found)
    terms = Terms(
        rule_of(said, wet.mass if wet else None), step, _seconds(said, "cut_off"),
        _seconds(said, "soak"), heat_up, _seconds(said, "hold"),
    )  # fmt: skip
    return WoodFigures(terms, found, bath, problems)


def _seconds(said: Said, name: str) -> Second | None:
    value = said.get(name)
    return None if value is None else Second(value)


def _typed(value: float, quantity: str) -> Origin:
    return Origin(value, quantity, "typed")


def _density(said: Said, state: WoodSet) -> tuple[KilogramPerCubicMetre, Origin] | None:
    """Oven-dry density: own mass and volume before a species' mean."""
    dry, volume = dry_mass(state), volume_of(said)
    if dry is not None and volume:
        value = KilogramPerCubicMetre(dry / volume)
        return value, Origin(value, "KilogramPerCubicMetre", "measured", say("Own mass and size."))
    name = said.word("species")
    if not name:
        return None
    wood = species(name)
    note = say("Mean of {name}; pieces differ by a tenth.", name=name)
    return wood.dry_density, Origin(
        wood.dry_density, "KilogramPerCubicMetre", "standard", note, source=wood.source
    )


def _moistures(state: WoodSet, found: dict[str, Figure]) -> None:
    wet, oven = state.last("wet"), state.last("oven")
    if wet is None or oven is None or wet.mass < oven.mass:
        return
    inputs = {"mass": Origin(wet.mass, "Kilogram", "measured", when=wet.at),
              "dry": Origin(oven.mass, "Kilogram", "measured", when=oven.at)}  # fmt: skip
    found["moisture"] = Figure(
        "stabilise.moisture", moisture(wet.mass, oven.mass), "Ratio", "moisture.moisture", inputs,
        label=say("Moisture at the start"), omits=(say("What was not driven out yet."),),
    )  # fmt: skip


def _heat_up(
    said: Said, density: tuple[KilogramPerCubicMetre, Origin] | None,
    found: dict[str, Figure], problems: dict[str, Text],
) -> Second | None:  # fmt: skip
    across, oven, goal = said.get("diameter"), said.get("oven"), said.get("core_goal")
    if density is None or across is None or oven is None or goal is None:
        return None
    resin = KilogramPerCubicMetre(said.get("resin_density") or RESIN)
    fill = Ratio(said.get("fill") or FILL)
    film = said.word("film") or "still air, foil"
    middle = Kelvin(COLD + MIDDLE * (oven - COLD))
    length = said.get("length")
    try:
        piece = Piece(
            soaked_conductivity(density[0], fill, middle),
            soaked_diffusivity(density[0], fill, resin, middle),
            Metre(across), (Metre(length),) if length else (), FILMS[film],
        )  # fmt: skip
        time = time_to_core(piece, COLD, Kelvin(oven), Kelvin(goal))
    except ShopError as error:
        problems["core_goal"] = error.title
        return None
    found["heat_up"] = Figure(
        "stabilise.heat_up", time, "Second", "heatup.time_to_core",
        {"diameter": _typed(across, "Metre"), "oven": _typed(oven, "Kelvin"),
         "goal": _typed(goal, "Kelvin"), "oven-dry density": density[1],
         "filled share": Origin(fill, "Ratio", "default", say("Ours.")),
         "surface": Origin(film, "", "typed")},
        label=say("Until the core is hot"),
        omits=(say("Heat of setting, packets that touch, an oven that recovers slowly."),),
    )  # fmt: skip
    return time


def _bath(
    said: Said, state: WoodSet, density: tuple[KilogramPerCubicMetre, Origin] | None,
    found: dict[str, Figure], problems: dict[str, Text],
) -> BathPlan | None:  # fmt: skip
    volume, across = volume_of(said), said.get("vessel_diameter")
    if volume is None or across is None or density is None:
        return None
    stack, height = said.get("stack") or said.get("length"), said.get("vessel_height")
    if stack is None:
        return None
    resin = KilogramPerCubicMetre(said.get("resin_density") or RESIN)
    area = SquareMetre(cylinder_volume(Metre(across), Metre(1.0)))
    dry = dry_mass(state) or Kilogram(density[0] * volume)
    bath = Bath(
        area, Metre(height if height is not None else 10.0), volume, dry, Metre(stack),
        Ratio(said.get("fill") or FILL), resin, Metre(said.get("cover") or COVER_AT_END),
        said.word("weight") or "steel", HOLD_DOWN,
    )  # fmt: skip
    try:
        plan = plan_bath(bath)
    except ShopError as error:
        problems[FIELDS_OF_BATH.get(error.field, "vessel_diameter")] = error.title
        return None
    inputs = {"wood": _typed(volume, "CubicMetre"), "oven-dry density": density[1],
              "filled share": Origin(bath.fill, "Ratio", "default", say("Ours.")),
              "area": _typed(area, "SquareMetre")}  # fmt: skip
    omits = (say("Drips and skin."),)

    def figure(name: str, value: float, quantity: str, formula: str, label: str) -> None:
        found[name] = Figure(f"stabilise.{name}", value, quantity, formula, inputs,
                             label=say(label), omits=omits)  # fmt: skip

    found["lid"] = Figure(
        "stabilise.lid", lid_force(PascalGauge(AIR), Metre(across)), "Newton", "vessel.lid_force",
        {"air": Origin(AIR, "PascalAbsolute", "standard"), "diameter": _typed(across, "Metre")},
        label=say("Air presses on the lid with"), omits=(say("A lid wider than the vessel."),),
    )  # fmt: skip
    figure("pour", plan.start, "CubicMetre", "bath.plan_bath", "Resin to pour")
    figure("drop", plan.drop, "Metre", "bath.level_drop", "Level falls by")
    figure("start_cover", plan.start_cover, "Metre", "bath.plan_bath", "Cover at the start")
    figure("ballast", plan.ballast, "Kilogram", "resin_load.ballast", "Ballast")
    if height is not None:
        figure("headspace", plan.headspace, "Metre", "bath.plan_bath", "Room for foam")
    return plan


FIELDS_OF_BATH = {
    "wood": "vessel_diameter", "height": "vessel_height", "fill": "fill", "weight": "weight",
    "cover": "cover", "area": "vessel_diameter",
}  # fmt: skip
"""Which entry a refusal of the bath belongs to."""


def _uptakes(
    said: Said, state: WoodSet, density: tuple[KilogramPerCubicMetre, Origin] | None,
    found: dict[str, Figure],
) -> None:  # fmt: skip
    resin = KilogramPerCubicMetre(said.get("resin_density") or RESIN)
    if density is not None:
        base = {"oven-dry density": density[1], "resin": _typed(resin, "KilogramPerCubicMetre")}
        found["ceiling"] = Figure(
            "stabilise.ceiling", most_uptake(density[0], resin), "Ratio", "wood.most_uptake", base,
            label=say("Ceiling of the uptake"),
        )  # fmt: skip
        found["sink"] = Figure(
            "stabilise.sink", sink_fill(density[0], resin), "Ratio", "wood.sink_fill", base,
            label=say("Sinks from this fill on"),
        )  # fmt: skip
    dry, baked = dry_mass(state), state.last("baked")
    if dry is None or baked is None:
        return
    gain = uptake(dry, baked.mass)
    masses = {"before": Origin(dry, "Kilogram", "measured"),
              "after": Origin(baked.mass, "Kilogram", "measured", when=baked.at)}  # fmt: skip
    found["uptake"] = Figure("stabilise.uptake", gain, "Ratio", "wood.uptake", masses,
                             label=say("Uptake on the dry mass"))  # fmt: skip
    volume = volume_of(said)
    if volume:
        found["retention"] = Figure(
            "stabilise.retention", retention(dry, baked.mass, volume), "KilogramPerCubicMetre",
            "wood.retention", masses, label=say("Resin in the wood"),
        )  # fmt: skip
    if density is not None:
        found["void_fill"] = Figure(
            "stabilise.void_fill", void_fill(gain, density[0], resin), "Ratio", "wood.void_fill",
            {**masses, "oven-dry density": density[1]}, label=say("Share of the ceiling"),
        )  # fmt: skip
