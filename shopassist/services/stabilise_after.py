"""Numbers of what went in: uptake, share of the ceiling, and one set beside another."""

from collections.abc import Sequence

from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure, Origin
from shopassist.core.filled_wood import filled_density
from shopassist.core.frozen import frozen
from shopassist.core.messages import Text, say
from shopassist.core.quantities import CubicMetre, Kilogram, KilogramPerCubicMetre, Ratio
from shopassist.core.stabilising import dry_mass
from shopassist.core.wood import (
    most_uptake,
    retention,
    sink_fill,
    uptake,
    void_fill,
)
from shopassist.services.stabilise_facts import (
    Density,
    Findings,
    WoodFacts,
    pieces_of,
    resin_of,
    typed,
    volume_of,
)

LAGS = 0.75
"""A piece that took less than this share of the others' mean is named; ours."""


@frozen
class Uptake:
    """One finished set, to stand beside others."""

    batch_id: str
    name: str
    wood: str
    gain: Ratio
    fill: Ratio | None
    not_comparable: Text | None


def after_figures(facts: WoodFacts, density: Density | None, found: Findings) -> None:
    """Ceiling and sinking share, and the uptake once it has been weighed."""
    resin = resin_of(facts.said)
    if density is not None:
        base: dict[str, Figure | Origin] = {
            "oven-dry density": density[1], "resin": typed(resin, "KilogramPerCubicMetre")
        }  # fmt: skip
        found.put("density", "Oven-dry density", density[0], "KilogramPerCubicMetre",
                  "", {"oven-dry density": density[1]})  # fmt: skip
        found.put("ceiling", "Ceiling of the uptake", most_uptake(density[0], resin), "Ratio",
                  "wood.most_uptake", base)  # fmt: skip
        found.put("sink", "Sinks from this fill on", sink_fill(density[0], resin), "Ratio",
                  "wood.sink_fill", base)  # fmt: skip
    _uptake(facts, density, found)
    _floats(facts, density, found)
    _control(facts, found)
    _pieces(facts, found)


def _uptake(facts: WoodFacts, density: Density | None, found: Findings) -> None:
    dry, baked = dry_mass(facts.state), facts.state.last("baked")
    if dry is None or baked is None or baked.mass < dry:
        return
    gain = uptake(dry, baked.mass)
    masses: dict[str, Figure | Origin] = {
        "before": Origin(dry, "Kilogram", "measured"),
        "after": Origin(baked.mass, "Kilogram", "measured", when=baked.at),
    }  # fmt: skip
    found.put("uptake", "Uptake on the dry mass", gain, "Ratio", "wood.uptake", masses)
    volume = volume_of(facts.said)
    if volume:
        found.put("retention", "Resin in the wood", retention(dry, baked.mass, volume),
                  "KilogramPerCubicMetre", "wood.retention", masses)  # fmt: skip
        found.put("new_density", "Density now", filled_density(baked.mass, volume),
                  "KilogramPerCubicMetre", "filled_wood.filled_density", masses,
                  "Size after baking; measure it once more.")  # fmt: skip
    if density is not None:
        fill = void_fill(gain, density[0], resin_of(facts.said))
        found.put("void_fill", "Share of the ceiling", fill, "Ratio", "wood.void_fill",
                  {**masses, "oven-dry density": density[1]})  # fmt: skip
        if fill > FULL:
            found.note("after", MORE_THAN_ROOM)
            found.note("done", MORE_THAN_ROOM)


FULL = 1.05
"""Uptake over what the voids hold, from which something else is weighed with it; ours."""
MORE_THAN_ROOM = say(
    "More than its voids hold: resin on the outside, water in it, or another size or wood."
)


def _floats(facts: WoodFacts, density: Density | None, found: Findings) -> None:
    """The sink test, a check that costs nothing, against the scale."""
    state = facts.state
    sank, floated = state.at("sank"), state.at("floated")
    fill = found.figures.get("void_fill")
    if density is None or (sank is None and floated is None):
        return
    least = sink_fill(density[0], resin_of(facts.said))
    if floated is not None:
        found.note("done", say("It floated: less than the sinking share of its voids is full."))
    if sank is not None and fill is not None and fill.value is not None and fill.value < least:
        found.note("done", say("It sank, and the scale found less than sinking takes: it bled out"
                               " in the oven, or a weight is wrong."))  # fmt: skip


def _control(facts: WoodFacts, found: Findings) -> None:
    """Without a mass before: against an untreated piece of the same wood; low confidence."""
    said = facts.said
    numbers = [said.get(name) for name in
               ("control_mass", "control_volume", "treated_mass", "treated_volume")]  # fmt: skip
    if any(each is None for each in numbers):
        return
    plain, room, mass, volume = (float(each or 0.0) for each in numbers)
    control = KilogramPerCubicMetre(plain / room)
    if mass < control * volume:
        found.problems["treated_mass"] = say("Lighter than the untreated wood: look at its size.")
        return
    try:
        gain = uptake(Kilogram(control * volume), Kilogram(mass))
        ceiling = most_uptake(control, resin_of(said))
        fill = void_fill(gain, control, resin_of(said))
    except ShopError as error:
        found.problems["treated_mass"] = error.title
        return
    inputs: dict[str, Figure | Origin] = {
        "before": typed(control * volume, "Kilogram"), "after": typed(mass, "Kilogram"),
        "control": typed(control, "KilogramPerCubicMetre"),
    }  # fmt: skip
    skin = "One control, resin left on the outside: low confidence."
    found.put("control_gain", "Gain over the untreated piece", gain, "Ratio", "wood.uptake",
              inputs, skin)  # fmt: skip
    found.put("control_ceiling", "Ceiling of that wood", ceiling, "Ratio", "wood.most_uptake",
              inputs, skin)  # fmt: skip
    found.put("control_fill", "Share of its ceiling", fill, "Ratio", "wood.void_fill", inputs, skin)
    if fill > FULL:
        found.problems["treated_mass"] = MORE_THAN_ROOM


def _pieces(facts: WoodFacts, found: Findings) -> None:
    """Pieces that took much less than the others: the ones to look at for soft cores."""
    dry, baked = facts.state.last("oven"), facts.state.last("baked")
    if dry is None or baked is None or len(dry.each) != len(baked.each) or len(dry.each) < 2:  # noqa: PLR2004
        return
    gains = [after / before - 1 for before, after in zip(dry.each, baked.each, strict=True)]
    mean = sum(gains) / len(gains)
    low = [str(n) for n, gain in enumerate(gains, 1) if gain < LAGS * mean]
    if low:
        found.note("done", say("Took much less than the others: piece {n}.", n=", ".join(low)))


def forecast(facts: WoodFacts, others: Sequence[Uptake]) -> tuple[CubicMetre, int] | None:
    """Resin that this set will take by what the same wood took before, and from how many sets."""
    wood = facts.said.word("species")
    like = [each for each in others if each.wood == wood and each.not_comparable is None]
    dry = dry_mass(facts.state)
    if not like or dry is None or facts.state.last("baked") is not None:
        return None
    mean = sum(each.gain for each in like) / len(like)
    return CubicMetre(dry * mean / resin_of(facts.said)), len(like)


def each_mass(facts: WoodFacts) -> Kilogram | None:
    """What one piece weighs after the bake."""
    baked = facts.state.last("baked")
    return None if baked is None else Kilogram(baked.mass / pieces_of(facts.said))
