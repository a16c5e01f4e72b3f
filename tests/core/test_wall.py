from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core.bore import (
    cut_length,
    drift_likely,
    drift_worst,
    greatest_drill,
    thickening,
    wall_left,
)
from shopassist.core.errors import OutOfRangeError
from shopassist.core.profile import straight, tapered
from shopassist.core.quantities import Kilogram, KilogramPerCubicMetre, Metre, Ratio
from shopassist.core.span import exact
from shopassist.core.wall import (
    PAST_INSERT,
    WALL_OTHER,
    WALL_STABILISED,
    Bore,
    DrillErrors,
    check_wall,
    drift_at,
    floor_diameter_at,
    travel,
    wall_asked,
)
from shopassist.core.workpiece import Groove, turned_core, weighed_core

M = Metre
TRUE = DrillErrors(M(0.0), M(0.0), M(0.0), Ratio(0.0))
FLOOR = Groove("square", M(0.006), M(0.008), M(0.146))
CORE = turned_core(straight(M(0.05), M(0.15)), [FLOOR])


def test_the_worked_stack_comes_out_for_one_end() -> None:
    found = check_wall(CORE, Bore(M(0.025)), DrillErrors())
    assert found.at == pytest.approx(0.15)
    assert found.nominal == pytest.approx(0.0065)
    assert found.worst == pytest.approx(0.00360, abs=1e-5)
    assert found.likely == pytest.approx(0.00467, abs=1e-5)
    assert found.greatest_drill == pytest.approx(0.0262, abs=1e-5)
    assert found.verdict == "enough"
    assert found.beyond is None


def test_from_both_ends_the_drill_wanders_half_as_far() -> None:
    middle = turned_core(straight(M(0.05), M(0.15)), [replace(FLOOR, at=M(0.075))])
    found = check_wall(middle, Bore(M(0.025), both_ends=True), DrillErrors())
    assert found.at == pytest.approx(0.075)
    assert found.worst == pytest.approx(0.00435, abs=1e-5)
    assert found.likely == pytest.approx(0.00521, abs=1e-5)


def test_a_drill_that_wanders_far_breaks_out_from_one_end_and_not_from_two() -> None:
    wild = DrillErrors(wander=Ratio(0.0536))
    one = check_wall(CORE, Bore(M(0.025)), wild)
    assert one.worst == pytest.approx(-0.00294, abs=1e-5)
    assert one.verdict == "breaks out"
    middle = turned_core(straight(M(0.05), M(0.15)), [replace(FLOOR, at=M(0.075))])
    two = check_wall(middle, Bore(M(0.025), both_ends=True), wild)
    assert two.worst == pytest.approx(0.00108, abs=1e-5)
    assert two.verdict == "too thin"


def test_a_wall_that_only_the_worst_case_thins_is_doubtful() -> None:
    found = check_wall(CORE, Bore(M(0.025)), DrillErrors(), M(0.004))
    assert found.verdict == "may be thin"
    assert found.thicker == pytest.approx(0.0008, abs=1e-6)


def test_the_greatest_drill_leaves_just_the_asked_wall() -> None:
    found = check_wall(CORE, Bore(M(0.025)), DrillErrors(), M(0.004))
    assert found.greatest_drill is not None
    again = check_wall(CORE, Bore(found.greatest_drill), DrillErrors(), M(0.004))
    assert again.worst == pytest.approx(0.004)
    assert again.thicker == pytest.approx(0.0, abs=1e-12)


def test_where_no_drill_leaves_the_wall_none_is_named() -> None:
    stem = turned_core(straight(M(0.012), M(0.1)))
    found = check_wall(stem, Bore(M(0.006)), DrillErrors(wander=Ratio(0.04)))
    assert found.greatest_drill is None
    assert found.thicker > 0


def test_a_waist_in_the_stem_is_found() -> None:
    outline = straight(M(0.05), M(0.1))
    waist = turned_core(outline, [Groove("vee", M(0.008), M(0.01), M(0.03))])
    assert check_wall(waist, Bore(M(0.01)), TRUE).at == pytest.approx(0.025)
    assert check_wall(waist, Bore(M(0.01)), TRUE).floor_diameter == pytest.approx(0.034)


def test_a_blind_bore_is_judged_only_as_far_as_it_goes() -> None:
    cone = turned_core(tapered(M(0.05), M(0.02), M(0.1)))
    blind = check_wall(cone, Bore(M(0.008), M(0.04)), TRUE)
    assert blind.at == pytest.approx(0.04)
    assert blind.beyond == pytest.approx(0.06)
    assert check_wall(cone, Bore(M(0.008)), TRUE).at == pytest.approx(0.1)


def test_the_outline_may_start_anywhere() -> None:
    shifted = turned_core(tapered(M(0.05), M(0.02), M(0.1)).moved(M(0.7)))
    here = turned_core(tapered(M(0.05), M(0.02), M(0.1)))
    bore = Bore(M(0.008), M(0.04))
    assert check_wall(shifted, bore, DrillErrors()).worst == pytest.approx(
        check_wall(here, bore, DrillErrors()).worst
    )


def test_case_t02_walls_in_square_stock_and_length() -> None:
    inch = 0.0254
    assert wall_left(M(0.75 * inch), M(0.375 * inch), M(0.0)) == pytest.approx(0.00476, abs=1e-5)
    assert wall_left(M(0.625 * inch), M(0.008), M(0.0)) < WALL_OTHER
    assert cut_length(M(2.25 * inch), M(0.375 * inch), M(0.0)) == pytest.approx(2.625 * inch)
    assert pytest.approx(inch / 16) == PAST_INSERT


def test_wood_that_is_not_stabilised_asks_for_more_wall() -> None:
    assert wall_asked(stabilised=True) == WALL_STABILISED < wall_asked(stabilised=False)


@settings(deadline=None)
@given(st.floats(0.004, 0.03), st.floats(0.0, 0.003), st.floats(0.0, 0.06), st.booleans())
def test_no_place_is_thinner_than_the_one_that_is_named(
    drill: float, off: float, wander: float, both: bool
) -> None:
    outline = tapered(M(0.05), M(0.04), M(0.12))
    grooves = [
        Groove("square", M(0.004), M(0.01), M(0.03)),
        Groove("round", M(0.003), M(0.0), M(0.09)),
    ]
    core, bore = turned_core(outline, grooves), Bore(M(drill), both_ends=both)
    errors = DrillErrors(M(off), M(0.0), M(0.0), Ratio(wander))
    found = check_wall(core, bore, errors)
    for step in range(121):
        at = M(step / 1000)
        floor = floor_diameter_at(core, outline, at)
        drift = drift_at(errors, travel(bore, M(0.12), at))[1]
        assert found.worst <= wall_left(floor, M(drill), drift) + 1e-12


@given(
    st.floats(0.0, 0.01),
    st.floats(0.0, 0.01),
    st.floats(0.0, 0.01),
    st.floats(0, 0.1),
    st.floats(0, 1),
)
def test_the_worst_drift_is_never_less_than_the_likely_one(
    a: float, b: float, c: float, wander: float, depth: float
) -> None:
    stack = (M(a), M(b), M(c), Ratio(wander), M(depth))
    assert drift_worst(*stack) * (1 + 1e-12) >= drift_likely(*stack)


def test_an_even_stack_adds_like_the_sides_of_a_box() -> None:
    stack = (M(0.003), M(0.004), M(0.0), Ratio(0.1), M(0.12))
    assert drift_likely(*stack) == pytest.approx(0.013)
    assert drift_worst(*stack) == pytest.approx(0.019)


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: drift_worst(M(-0.1), M(0.0), M(0.0), Ratio(0.0), M(0.0)), "eccentricity"),
        (lambda: drift_likely(M(0.0), M(0.0), M(0.0), Ratio(-0.1), M(0.0)), "wander"),
        (lambda: wall_left(M(0.0), M(0.01), M(0.0)), "floor_diameter"),
        (lambda: greatest_drill(M(0.01), M(0.005), M(0.001)), "wall"),
        (lambda: thickening(M(0.01), M(0.0), M(0.001), M(0.0)), "drill"),
        (lambda: cut_length(M(-0.1), M(0.0), M(0.0)), "insert"),
        (lambda: check_wall(CORE, Bore(M(0.0)), TRUE), "drill"),
        (lambda: check_wall(CORE, Bore(M(0.01)), TRUE, M(-0.001)), "wall"),
        (lambda: check_wall(CORE, Bore(M(0.01), M(0.0)), TRUE), "depth"),
        (lambda: check_wall(CORE, Bore(M(0.01), M(0.2)), TRUE), "depth"),
        (
            lambda: check_wall(
                weighed_core(Kilogram(0.1), exact(KilogramPerCubicMetre(600.0))),
                Bore(M(0.01)),
                TRUE,
            ),
            "core",
        ),
    ],
)
def test_an_impossible_bore_is_refused_beside_its_field(
    call: Callable[[], object], field: str
) -> None:
    with pytest.raises(OutOfRangeError) as caught:
        call()
    assert caught.value.field == field
