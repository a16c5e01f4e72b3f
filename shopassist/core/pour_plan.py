"""How a pour is staged: layers, and what holds a floating core down."""

from shopassist.core.cavity import Cavity
from shopassist.core.frozen import frozen
from shopassist.core.messages import Text, say
from shopassist.core.pour import layers
from shopassist.core.quantities import (
    CubicMetre,
    Kilogram,
    KilogramPerCubicMetre,
    Metre,
    Newton,
    PascalDelta,
    Ratio,
)
from shopassist.core.resin_load import (
    BALLAST,
    FLOAT_RESERVE,
    HOLD_DOWN_DEFAULT,
    ballast,
    base_pressure,
    hold_down,
    lift,
    lift_force,
    side_force,
)
from shopassist.core.workpiece import Core

THIN_SHARE = Ratio(0.75)
"""Under this share of its deepest layer a resin sets later than its sheet says: suppliers' notes
on a 2 in resin poured 1.5 in or less."""


@frozen
class LayerPlan:
    """Pours for a depth."""

    count: int
    each: Metre
    note: Text | None
    """Too deep for one pour, or so thin that the sheet's times are too short."""


def plan_layers(depth: Metre, deepest: Metre) -> LayerPlan:
    """Divide a depth into even layers under today's limit."""
    count = layers(depth, deepest)
    each = Metre(depth / count)
    if count > 1:
        return LayerPlan(count, each, say("Too deep for one pour: {count} layers.", count=count))
    if depth <= THIN_SHARE * deepest:
        return LayerPlan(count, each, say("Thin for this resin: it sets later than its sheet."))
    return LayerPlan(count, each, None)


@frozen
class Floating:
    """A core that is lighter than the resin it displaces."""

    lift: Kilogram
    force: Newton
    held: Kilogram
    """To hold down from above the resin, reserve counted."""
    ballast: dict[str, Kilogram]
    """By material, for a weight wholly in the resin; materials that float are left out."""
    spare: CubicMetre
    """Resin to have at hand in case it breaks loose."""


def floating(
    core: Core,
    liquid: KilogramPerCubicMetre,
    resin: CubicMetre,
    times: Ratio = HOLD_DOWN_DEFAULT,
) -> Floating | None:
    """Lift of a core taken at its largest, wholly covered; None: it sinks or was not weighed."""
    if core.mass is None:
        return None
    net = lift(core.volume.high, core.mass, liquid)
    if net <= 0:
        return None
    held = hold_down(net, times)
    weights = {
        name: ballast(held, liquid, density)
        for name, density in BALLAST.items()
        if density > liquid
    }
    return Floating(net, lift_force(net), held, weights, CubicMetre(resin * FLOAT_RESERVE))


@frozen
class WallPush:
    """What the resin does to a mould's wall; a pot's air adds nothing to an open mould."""

    at_foot: PascalDelta
    force: Newton
    """On the long wall of a box, or between the halves of a round mould that is split."""
    wall: Metre
    """Length of that wall, or the round mould's greatest diameter."""


def wall_push(cavity: Cavity, liquid: KilogramPerCubicMetre, depth: Metre) -> WallPush | None:
    """Push on the mould's wall; None where the mould's shape is not known."""
    if cavity.plan is not None:
        wall = cavity.plan[0]
    elif cavity.profile is not None:
        wall = cavity.profile.greatest
    else:
        return None
    return WallPush(base_pressure(liquid, depth), side_force(liquid, depth, wall), wall)
