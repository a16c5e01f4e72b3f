from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopassist.core.cavity import box_cavity, measured_cavity, round_cavity
from shopassist.core.errors import OutOfRangeError
from shopassist.core.pour import (
    layers,
    level_loss,
    recoat_window,
    shrink_overfill,
    sink_depth,
    soak_in_limit,
    void_share,
)
from shopassist.core.pour_plan import floating, plan_layers, wall_push
from shopassist.core.quantities import (
    CubicMetre,
    Kilogram,
    KilogramPerCubicMetre,
    Metre,
    Ratio,
    Second,
    SquareMetre,
)
from shopassist.core.resin_load import (
    BALLAST,
    ballast,
    base_pressure,
    bow_volume,
    hold_down,
    lift,
    lift_force,
    side_force,
)
from shopassist.core.span import Span, exact
from shopassist.core.workpiece import displaced_core

M = Metre
RESIN = KilogramPerCubicMetre(1100.0)
HOUR = 3600.0


def test_case_v02_a_floating_insert_asks_for_twice_its_lift() -> None:
    core = displaced_core(exact(CubicMetre(600e-6)), Kilogram(0.4))
    found = floating(core, RESIN, CubicMetre(5e-3))
    assert found is not None
    assert found.lift == pytest.approx(0.260)
    assert found.held == pytest.approx(0.520)
    assert found.ballast["steel"] == pytest.approx(0.605, abs=5e-4)
    assert found.spare == pytest.approx(1e-3)
    assert found.force == pytest.approx(2.55, abs=0.01)
    assert found.ballast.keys() == BALLAST.keys()


def test_lift_is_taken_at_the_largest_volume() -> None:
    core = displaced_core(Span(CubicMetre(5e-4), CubicMetre(6e-4), CubicMetre(7e-4)), Kilogram(0.4))
    found = floating(core, RESIN, CubicMetre(1e-3))
    assert found is not None and found.lift == pytest.approx(0.37)


def test_a_core_that_sinks_or_was_not_weighed_needs_nothing() -> None:
    assert (
        floating(displaced_core(exact(CubicMetre(1e-4)), Kilogram(0.2)), RESIN, CubicMetre(1e-3))
        is None
    )
    assert floating(displaced_core(exact(CubicMetre(1e-4))), RESIN, CubicMetre(1e-3)) is None


def test_ballast_that_would_float_is_not_offered() -> None:
    core = displaced_core(exact(CubicMetre(1e-4)), Kilogram(0.2))
    found = floating(core, KilogramPerCubicMetre(2600.0), CubicMetre(1e-3))
    assert found is not None and "stone or glass" not in found.ballast


@given(st.floats(0.01, 10.0), st.floats(800.0, 1500.0), st.floats(1600.0, 12000.0))
def test_ballast_in_the_resin_holds_exactly_what_is_asked(
    held: float, liquid: float, material: float
) -> None:
    mass = ballast(Kilogram(held), KilogramPerCubicMetre(liquid), KilogramPerCubicMetre(material))
    volume = CubicMetre(mass / material)
    assert -lift(volume, mass, KilogramPerCubicMetre(liquid)) == pytest.approx(held)


def test_a_core_that_sinks_needs_no_hold_down() -> None:
    assert hold_down(Kilogram(-0.1), Ratio(2.0)) == 0.0
    assert lift_force(Kilogram(-0.1)) < 0


def test_case_v06_side_load_and_bow() -> None:
    assert side_force(RESIN, M(0.075), M(0.6)) == pytest.approx(18.2, abs=0.05)
    assert base_pressure(RESIN, M(0.075)) == pytest.approx(810, abs=2)
    assert 2 * bow_volume(M(0.003), M(0.6), M(0.075)) == pytest.approx(180e-6)


def test_the_push_is_told_for_the_long_wall_or_the_split() -> None:
    box = wall_push(box_cavity(M(0.1), M(0.6), M(0.08)), RESIN, M(0.075))
    assert box is not None and box.wall == 0.6 and box.force == pytest.approx(18.2, abs=0.05)
    split = wall_push(round_cavity(M(0.1), M(0.08)), RESIN, M(0.075))
    assert split is not None and split.force == pytest.approx(box.force / 6)
    assert split.at_foot == box.at_foot
    assert wall_push(measured_cavity(exact(CubicMetre(1e-4))), RESIN, M(0.075)) is None


def test_case_c08_a_deep_mould_takes_two_even_layers() -> None:
    plan = plan_layers(M(0.045), M(0.025))
    assert plan.count == 2 and plan.each == pytest.approx(0.0225)
    assert plan.note is not None and "Too deep" in plan.note.template


def test_a_pour_much_thinner_than_the_resin_is_made_for_is_said_to_set_late() -> None:
    thin = plan_layers(M(0.0375), M(0.05))
    assert thin.count == 1 and thin.note is not None and "sets later" in thin.note.template
    assert plan_layers(M(0.045), M(0.05)).note is None


@given(st.floats(0.001, 1.0), st.floats(0.001, 1.0))
def test_no_layer_is_deeper_than_the_limit_and_none_is_wasted(depth: float, deepest: float) -> None:
    count = layers(M(depth), M(deepest))
    assert depth / count <= deepest * (1 + 2e-6)
    assert count == 1 or depth / (count - 1) > deepest * (1 - 2e-6)


def test_case_c13_the_window_opens_and_shuts_with_the_warmth() -> None:
    window = recoat_window(Second(6 * HOUR), Second(18 * HOUR), Ratio(2 ** (7 / 10)))
    assert window.opens / HOUR == pytest.approx(9.7, abs=0.1)
    assert (window.shuts - window.opens) / HOUR == pytest.approx(29, abs=0.3)
    steps = [window.step(Second(hours * HOUR)) for hours in (9, 10, 38, 39.5)]
    assert steps == ["wait", "pour", "pour", "sand, then pour"]


def test_case_v04_a_falling_level_is_a_volume() -> None:
    lost = level_loss(M(0.004), SquareMetre(0.03))
    assert lost == pytest.approx(120e-6)
    assert sink_depth(lost, SquareMetre(0.03)) == pytest.approx(0.004)


@given(st.floats(1e-6, 1e-2), st.floats(0.0, 0.3))
def test_after_shrinking_the_asked_volume_is_left(net: float, shrink: float) -> None:
    poured = net + shrink_overfill(CubicMetre(net), Ratio(shrink))
    assert poured * (1 - shrink) == pytest.approx(net)


def test_case_s10_a_blank_cannot_drink_more_than_its_voids() -> None:
    most = soak_in_limit(CubicMetre(46.1e-6), KilogramPerCubicMetre(350.0))
    assert most == pytest.approx(35.3e-6, abs=0.1e-6)
    assert CubicMetre(3785e-6 / 82) > most


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: shrink_overfill(CubicMetre(-1e-6), Ratio(0.1)), "net"),
        (lambda: shrink_overfill(CubicMetre(1e-6), Ratio(1.0)), "shrink"),
        (lambda: sink_depth(CubicMetre(1e-6), SquareMetre(0.0)), "area"),
        (lambda: level_loss(M(-0.1), SquareMetre(0.1)), "drop"),
        (lambda: void_share(KilogramPerCubicMetre(1600.0)), "density"),
        (lambda: void_share(KilogramPerCubicMetre(0.0)), "density"),
        (lambda: soak_in_limit(CubicMetre(-1.0), KilogramPerCubicMetre(500.0)), "volume"),
        (lambda: layers(M(0.0), M(0.1)), "depth"),
        (lambda: recoat_window(Second(0.0), Second(1.0), Ratio(1.0)), "opens"),
        (lambda: lift(CubicMetre(0.0), Kilogram(1.0), RESIN), "volume"),
        (lambda: hold_down(Kilogram(1.0), Ratio(0.9)), "times"),
        (lambda: hold_down(Kilogram(1.0), Ratio(float("nan"))), "times"),
        (lambda: ballast(Kilogram(1.0), RESIN, KilogramPerCubicMetre(900.0)), "material"),
        (lambda: ballast(Kilogram(-1.0), RESIN, KilogramPerCubicMetre(7850.0)), "held"),
        (lambda: base_pressure(RESIN, M(-0.1)), "depth"),
        (lambda: side_force(RESIN, M(0.1), M(-0.1)), "length"),
        (lambda: bow_volume(M(-0.1), M(0.1), M(0.1)), "bow"),
    ],
)
def test_an_impossible_pour_is_refused_beside_its_field(
    call: Callable[[], object], field: str
) -> None:
    with pytest.raises(OutOfRangeError) as caught:
        call()
    assert caught.value.field == field
