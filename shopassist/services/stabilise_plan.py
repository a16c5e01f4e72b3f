"""What the entries of a set of cores work out to: dryness, bath, vacuum, bake, uptake."""

from shopassist.core.messages import say
from shopassist.core.quantities import Kilogram
from shopassist.core.stabilising import Terms
from shopassist.core.wood import CELL_WALL
from shopassist.services.stabilise_after import after_figures
from shopassist.services.stabilise_bake import bake_figures
from shopassist.services.stabilise_bath import bath_figures
from shopassist.services.stabilise_doubts import doubts
from shopassist.services.stabilise_dry import dry_figures
from shopassist.services.stabilise_facts import (
    STEP,
    Findings,
    WoodFacts,
    WoodFigures,
    density_of,
    rule_of,
    seconds,
    volume_of,
)
from shopassist.services.stabilise_vacuum import vacuum_figures


def work_out(facts: WoodFacts) -> WoodFigures:
    """Every number of a set that can be told from what is known."""
    said, found = facts.said, Findings()
    density = density_of(said, facts.state)
    if density is not None and density[0] >= CELL_WALL:
        found.problems["volume"] = say("So much wood does not weigh more: look at size and mass.")
        density = None
    dry_figures(facts, found)
    bath = bath_figures(facts, density, found)
    filled = 0.0
    if bath is not None:
        filled = bath.start + bath.ballast_volume + (volume_of(said) or 0.0)
    vacuum_figures(facts, filled, found)
    heat_up = bake_figures(facts, density, found)
    after_figures(facts, density, found)
    wet = facts.state.last("wet")
    terms = Terms(
        rule_of(said, wet.mass if wet else None), Kilogram(said.get("scale_step") or STEP),
        seconds(said, "cut_off"), seconds(said, "soak"), heat_up, seconds(said, "hold"),
        dry_for=seconds(said, "dry_for"),
    )  # fmt: skip
    doubts(facts, terms, found)
    return WoodFigures(terms, found.figures, bath, found.problems, found.notes)
