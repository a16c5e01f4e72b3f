"""Resin goes from the bottle to wood, drips and bottle: nothing is made, nothing is lost."""

from itertools import pairwise
from math import pi

from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core.bath import Bath, level_drop, loss_unaccounted, plan_bath
from shopassist.core.quantities import (
    CubicMetre,
    Kilogram,
    KilogramPerCubicMetre,
    Metre,
    Ratio,
    SquareMetre,
)
from shopassist.core.resin_load import BALLAST
from shopassist.core.wood import most_uptake, uptake, void_fill, voids

RESIN = KilogramPerCubicMetre(1030.0)


@st.composite
def baths(draw: st.DrawFn) -> Bath:
    across, length = draw(st.floats(0.01, 0.09)), draw(st.floats(0.02, 0.25))
    count = draw(st.integers(1, 4))
    wood = CubicMetre(count * pi * across**2 / 4 * length)
    density = draw(st.floats(250.0, 1000.0))
    weight = draw(st.sampled_from([*BALLAST, ""]))
    return Bath(
        SquareMetre(pi * 0.2**2), Metre(2.0), wood, Kilogram(wood * density), Metre(length),
        Ratio(draw(st.floats(0.0, 1.0))), RESIN, Metre(draw(st.floats(0.0, 0.06))), weight,
    )  # fmt: skip


@settings(deadline=None)
@given(baths(), st.floats(0.0, 0.3), st.floats(0.0, 0.2))
def test_mass_is_kept_through_bath_bake_and_leftover(
    bath: Bath, dripped: float, bled: float
) -> None:
    """Poured = in the wood + back in the bottle + lost, by mass, whatever drips and bleeds out."""
    plan = plan_bath(bath)
    poured = plan.start * RESIN
    soaked = bath.wood_mass + plan.absorbed * RESIN
    drips = plan.end * dripped
    back = CubicMetre(plan.end - drips)
    baked = Kilogram(soaked - plan.absorbed * RESIN * bled)
    in_wood = CubicMetre((baked - bath.wood_mass) / RESIN)
    lost = loss_unaccounted(plan.start, back, in_wood)
    told = (baked - bath.wood_mass) + back * RESIN + lost * RESIN
    assert abs(told - poured) <= 1e-9 * poured
    assert abs(lost - drips - plan.absorbed * bled) <= 1e-9 * plan.start
    gain = uptake(bath.wood_mass, baked)
    dry = KilogramPerCubicMetre(bath.wood_mass / bath.wood)
    assert -1e-9 <= gain <= most_uptake(dry, RESIN) * (1 + 1e-9)
    assert abs(void_fill(gain, dry, RESIN) - bath.fill * (1 - bled)) < 1e-9


@settings(deadline=None)
@given(baths())
def test_the_level_only_falls_while_the_wood_drinks(bath: Bath) -> None:
    plan = plan_bath(bath)
    levels = [
        plan.start_level - level_drop(CubicMetre(plan.absorbed * share / 10), bath.area)
        for share in range(11)
    ]
    assert all(later <= earlier for earlier, later in pairwise(levels))
    assert abs(levels[-1] - plan.end_level) < 1e-12
    assert min(levels) >= bath.stack + bath.cover - 1e-12


@settings(deadline=None)
@given(baths(), st.floats(0.0, 1.0))
def test_the_ballast_holds_the_wood_down_at_every_share_of_its_fill(
    bath: Bath, filled: float
) -> None:
    """Wood only grows heavier as it drinks: what holds it dry holds it always."""
    plan = plan_bath(bath)
    dry = KilogramPerCubicMetre(bath.wood_mass / bath.wood)
    mass = bath.wood_mass + bath.wood * voids(dry) * filled * bath.fill * RESIN
    up = bath.wood * RESIN - mass
    down = plan.ballast - plan.ballast_volume * RESIN
    assert down >= up * (1 - 1e-12)
    assert down >= (bath.wood * RESIN - bath.wood_mass) * 1.249


@settings(deadline=None)
@given(baths(), st.floats(1.0, 2.0))
def test_a_wider_vessel_wants_more_resin_and_falls_less(bath: Bath, times: float) -> None:
    from dataclasses import replace

    wide = replace(bath, area=SquareMetre(bath.area * times))
    one, two = plan_bath(bath), plan_bath(wide)
    assert two.start >= one.start * (1 - 1e-12)
    assert two.drop <= one.drop * (1 + 1e-12)
