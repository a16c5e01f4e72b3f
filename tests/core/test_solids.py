from collections.abc import Callable
from math import cos, pi, radians

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core.errors import OutOfRangeError
from shopassist.core.grooves import (
    round_flute_area,
    round_ring_volume,
    square_flute_area,
    square_ring_volume,
    vee_flute_area,
    vee_ring_volume,
)
from shopassist.core.quantities import Metre, Radian
from shopassist.core.solids import (
    bore_volume,
    box_volume,
    circle_area,
    cylinder_volume,
    drill_point_length,
    frustum_side_area,
    frustum_volume,
)
from shopassist.core.span import Span, across, between, exact
from shopassist.core.units import to_si

M = Metre
lengths = st.floats(1e-4, 1.0).map(Metre)
shares = st.floats(0.05, 0.95)


@given(lengths, lengths, lengths, shares)
def test_a_taper_cut_in_two_keeps_its_volume(
    a: Metre, b: Metre, length: Metre, share: float
) -> None:
    middle = Metre(a + (b - a) * share)
    parts = frustum_volume(a, middle, Metre(length * share)) + frustum_volume(
        middle, b, Metre(length * (1 - share))
    )
    assert parts == pytest.approx(frustum_volume(a, b, length), rel=1e-9)


@given(lengths, lengths, lengths)
def test_a_taper_lies_between_its_two_cylinders(a: Metre, b: Metre, length: Metre) -> None:
    thin, thick = sorted((cylinder_volume(a, length), cylinder_volume(b, length)))
    assert thin * (1 - 1e-12) <= frustum_volume(a, b, length) <= thick * (1 + 1e-12)


@given(lengths, lengths, lengths, st.floats(0.01, 100.0))
def test_volume_goes_with_the_cube_and_area_with_the_square_of_size(
    a: Metre, b: Metre, length: Metre, size: float
) -> None:
    big = [Metre(size * x) for x in (a, b, length)]
    assert frustum_volume(*big) == pytest.approx(size**3 * frustum_volume(a, b, length))
    assert frustum_side_area(*big) == pytest.approx(size**2 * frustum_side_area(a, b, length))
    assert box_volume(*big) == pytest.approx(size**3 * box_volume(a, b, length))


@given(lengths, st.floats(0.01, 0.4), st.floats(0.01, 0.3))
def test_a_deeper_groove_is_larger_and_never_more_than_the_body(
    diameter: Metre, depth: float, width: float
) -> None:
    t, w = Metre(diameter * depth), Metre(diameter * width)
    deeper = Metre(t * 1.1)
    for ring in (square_ring_volume, vee_ring_volume):
        assert 0 < ring(diameter, w, t) < ring(diameter, w, deeper)
        assert ring(diameter, w, deeper) < cylinder_volume(diameter, w)
    assert 0 < round_ring_volume(diameter, t) < round_ring_volume(diameter, deeper)
    assert 0 < round_flute_area(diameter, t) < round_flute_area(diameter, deeper)
    assert round_flute_area(diameter, t) < pi * t**2 / 2
    assert vee_flute_area(diameter, w, t) <= vee_flute_area(diameter, w, deeper)


@given(lengths, st.floats(0.05, 0.3), st.floats(0.1, 0.45))
def test_a_square_flute_holds_a_vee_of_the_same_size(
    diameter: Metre, width: float, depth: float
) -> None:
    w, t = Metre(diameter * width), Metre(diameter * depth)
    assert vee_flute_area(diameter, w, t) <= square_flute_area(diameter, w, t)


@given(lengths, lengths, st.floats(0.5, 3.0))
def test_a_point_makes_a_bore_larger(diameter: Metre, depth: Metre, angle: float) -> None:
    flat = bore_volume(diameter, depth, Radian(pi))
    assert flat == pytest.approx(cylinder_volume(diameter, depth))
    assert bore_volume(diameter, depth, Radian(angle)) > flat


@given(st.floats(1.0, 500.0), st.floats(1.0, 500.0), st.floats(1.0, 500.0))
def test_inches_and_millimetres_give_one_volume(a: float, b: float, length: float) -> None:
    metric = [M(to_si(x, "mm", "Metre")) for x in (a, b, length)]
    inches = [M(to_si(x / 25.4, "in", "Metre")) for x in (a, b, length)]
    assert frustum_volume(*inches) == pytest.approx(frustum_volume(*metric), rel=1e-12)
    assert box_volume(*inches) == pytest.approx(box_volume(*metric), rel=1e-12)


def test_the_worked_groove_volumes_stand() -> None:
    assert square_ring_volume(Metre(0.05), Metre(0.008), Metre(0.006)) * 1e9 == pytest.approx(
        6635.0, abs=0.1
    )
    assert vee_ring_volume(Metre(0.05), Metre(0.008), Metre(0.006)) * 1e9 == pytest.approx(
        3468.3, abs=0.1
    )
    assert round_ring_volume(Metre(0.05), Metre(0.005)) * 1e9 == pytest.approx(5644.9, abs=0.1)


def test_a_groove_of_no_depth_takes_nothing() -> None:
    assert square_flute_area(Metre(0.05), Metre(0.008), Metre(0.0)) == 0.0
    assert vee_flute_area(Metre(0.05), Metre(0.0), Metre(0.002)) == 0.0
    assert round_flute_area(Metre(0.05), Metre(0.0)) == 0.0
    assert square_ring_volume(Metre(0.05), Metre(0.008), Metre(0.0)) == 0.0


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: circle_area(Metre(-1.0)), "diameter"),
        (lambda: circle_area(Metre(float("nan"))), "diameter"),
        (lambda: cylinder_volume(Metre(0.1), Metre(-0.1)), "length"),
        (lambda: box_volume(Metre(0.1), Metre(-0.1), Metre(0.1)), "width"),
        (lambda: frustum_volume(Metre(0.1), Metre(float("inf")), Metre(0.1)), "diameter_b"),
        (lambda: frustum_side_area(Metre(-0.1), Metre(0.1), Metre(0.1)), "diameter_a"),
        (lambda: drill_point_length(Metre(0.01), Radian(0.0)), "point_angle"),
        (lambda: drill_point_length(Metre(0.01), Radian(radians(200))), "point_angle"),
        (lambda: bore_volume(Metre(0.01), Metre(-0.1), Radian(2.0)), "depth"),
        (lambda: square_ring_volume(Metre(0.05), Metre(0.01), Metre(0.025)), "depth"),
        (lambda: square_ring_volume(Metre(0.0), Metre(0.01), Metre(0.0)), "diameter"),
        (lambda: vee_ring_volume(Metre(0.05), Metre(-0.01), Metre(0.005)), "width"),
        (lambda: round_ring_volume(Metre(0.05), Metre(0.03)), "depth"),
        (lambda: square_flute_area(Metre(0.05), Metre(0.06), Metre(0.005)), "width"),
        (lambda: square_flute_area(Metre(0.05), Metre(0.04), Metre(0.005)), "depth"),
        (lambda: vee_flute_area(Metre(0.05), Metre(0.06), Metre(0.005)), "width"),
        (lambda: round_flute_area(Metre(0.05), Metre(0.026)), "depth"),
    ],
)
def test_an_impossible_size_is_refused_beside_its_field(
    call: Callable[[], object], field: str
) -> None:
    with pytest.raises(OutOfRangeError) as caught:
        call()
    assert caught.value.field == field
    assert caught.value.title.template.endswith(".")


@settings(max_examples=30, deadline=None)
@given(st.floats(0.01, 0.1), st.floats(0.02, 0.6), st.floats(0.3, 0.9))
def test_the_integral_of_each_section_gives_the_same_volume(
    radius: float, half_width: float, depth: float
) -> None:
    quad = pytest.importorskip("scipy.integrate").quad
    root = lambda x: max(x, 0.0) ** 0.5  # noqa: E731
    d, b, t = Metre(2 * radius), radius * half_width * 0.7, radius * depth
    floor, edge = radius - t, root(radius**2 - b**2)
    ring = quad(lambda z: pi * (radius**2 - (radius - t) ** 2), -b, b)[0]
    assert square_ring_volume(d, Metre(2 * b), Metre(t)) == pytest.approx(ring, rel=1e-7)
    vee = quad(lambda z: 2 * pi * (radius**2 - (radius - t * (1 - z / b)) ** 2), 0, b)[0]
    assert vee_ring_volume(d, Metre(2 * b), Metre(t)) == pytest.approx(vee, rel=1e-7)
    turn = lambda a: 2 * pi * (radius**2 - (radius - t * cos(a)) ** 2) * t * cos(a)  # noqa: E731
    half = quad(turn, 0, pi / 2)[0]
    assert round_ring_volume(d, Metre(t)) == pytest.approx(half, rel=1e-6)
    flat = quad(lambda x: 2 * (root(radius**2 - x**2) - floor), 0, b)[0]
    if edge > floor:
        assert square_flute_area(d, Metre(2 * b), Metre(t)) == pytest.approx(flat, rel=1e-6)
    flanks = quad(lambda x: 2 * (root(radius**2 - x**2) - floor - (edge - floor) * x / b), 0, b)[0]
    assert vee_flute_area(d, Metre(2 * b), Metre(t)) == pytest.approx(flanks, rel=1e-6)
    meet = t * root(1 - (t / (2 * radius)) ** 2)
    lens = quad(lambda x: 2 * (root(radius**2 - x**2) - radius + root(t**2 - x**2)), 0, meet)[0]
    assert round_flute_area(d, Metre(t)) == pytest.approx(lens, rel=1e-6)


def test_a_range_is_carried_to_its_true_ends() -> None:
    found = across(lambda a, b: Metre(a / b), Span(1.0, 2.0, 3.0), Span(1.0, 2.0, 4.0))
    assert (found.low, found.mid, found.high) == (0.25, 1.0, 3.0)
    assert not found.is_exact


def test_an_exact_value_stays_exact() -> None:
    found = across(lambda a: Metre(2 * a), exact(3.0))
    assert found == exact(6.0) and found.is_exact


def test_a_typed_range_has_its_middle_and_its_order() -> None:
    assert between(Metre(1.0), Metre(3.0), "density") == Span(1.0, 2.0, 3.0)
    with pytest.raises(OutOfRangeError) as caught:
        between(Metre(3.0), Metre(1.0), "density")
    assert caught.value.field == "density"
