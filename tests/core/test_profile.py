from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core.errors import OutOfRangeError
from shopassist.core.profile import Profile, Station, stepped, straight, tapered, turned
from shopassist.core.quantities import Metre
from shopassist.core.solids import circle_area, cylinder_volume, frustum_volume

M = Metre


@st.composite
def profiles(draw: st.DrawFn) -> Profile:
    gaps = draw(st.lists(st.floats(0.001, 0.1), min_size=1, max_size=8))
    diameters = draw(
        st.lists(st.floats(0.005, 0.2), min_size=len(gaps) + 1, max_size=len(gaps) + 1)
    )
    at, stations = 0.0, [Station(M(0.0), M(diameters[0]))]
    for gap, diameter in zip(gaps, diameters[1:], strict=True):
        at += gap
        stations.append(Station(M(at), M(diameter)))
    return turned(stations)


@given(profiles(), st.floats(0.01, 0.99))
def test_a_cut_piece_weighs_what_its_parts_weigh(profile: Profile, share: float) -> None:
    at = M(profile.start + profile.length * share)
    first, second = profile.cut(profile.start, at), profile.cut(at, profile.end)
    assert first is not None and second is not None
    assert first.volume + second.volume == pytest.approx(profile.volume, rel=1e-9)
    assert profile.volume_to(at) == pytest.approx(first.volume)
    assert first.side_area + second.side_area == pytest.approx(profile.side_area, rel=1e-9)


@given(profiles())
def test_a_profile_lies_between_its_greatest_and_least_cylinder(profile: Profile) -> None:
    least = cylinder_volume(profile.least, profile.length)
    most = cylinder_volume(profile.greatest, profile.length)
    assert least * (1 - 1e-9) <= profile.volume <= most * (1 + 1e-9)


@given(profiles(), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_volume_below_never_falls_with_height(profile: Profile, a: float, b: float) -> None:
    low, high = sorted((a * profile.length, b * profile.length))
    assert profile.volume_to(M(low)) <= profile.volume_to(M(high)) * (1 + 1e-12)


@given(profiles(), st.floats(-0.5, 0.5))
def test_moving_a_profile_changes_nothing_else(profile: Profile, by: float) -> None:
    moved = profile.moved(M(by))
    assert moved.volume == pytest.approx(profile.volume)
    assert moved.length == pytest.approx(profile.length)
    assert moved.start == profile.start + by


@settings(max_examples=25, deadline=None)
@given(profiles())
def test_the_integral_along_the_axis_agrees(profile: Profile) -> None:
    quad = pytest.importorskip("scipy.integrate").quad
    edges = [station.at for station in profile.stations]
    total = sum(
        quad(lambda z: circle_area(profile.diameter_at(M(z))), a, b)[0] for a, b in pairwise(edges)
    )
    assert profile.volume == pytest.approx(total, rel=1e-7)


def test_a_shoulder_counts_on_both_sides_and_reads_as_the_thinner() -> None:
    step = stepped(((M(0.04), M(0.01)), (M(0.02), M(0.03))))
    assert step.volume == pytest.approx(
        cylinder_volume(M(0.04), M(0.01)) + cylinder_volume(M(0.02), M(0.03))
    )
    assert step.diameter_at(M(0.01)) == 0.02
    assert step.diameter_at(M(0.005)) == 0.04
    ring = circle_area(M(0.04)) - circle_area(M(0.02))
    sides = 3.141592653589793 * (0.04 * 0.01 + 0.02 * 0.03)
    assert step.side_area == pytest.approx(sides + ring)
    assert step.surface == pytest.approx(
        step.side_area + circle_area(M(0.04)) + circle_area(M(0.02))
    )


def test_a_cut_through_a_shoulder_keeps_it() -> None:
    step = stepped(((M(0.04), M(0.01)), (M(0.02), M(0.03))))
    part = step.cut(M(0.005), M(0.02))
    assert part is not None
    assert part.volume == pytest.approx(
        cylinder_volume(M(0.04), M(0.005)) + cylinder_volume(M(0.02), M(0.01))
    )
    assert (part.start, part.end) == (0.005, 0.02)


def test_a_taper_is_one_frustum() -> None:
    assert tapered(M(0.06), M(0.04), M(0.08)).volume == frustum_volume(M(0.06), M(0.04), M(0.08))


def test_a_cut_beside_the_piece_is_nothing() -> None:
    piece = straight(M(0.05), M(0.1))
    assert piece.cut(M(0.2), M(0.3)) is None
    assert piece.volume_to(M(-0.1)) == 0.0
    assert piece.volume_to(M(9.0)) == piece.volume


@pytest.mark.parametrize(
    ("stations", "field"),
    [
        ([], "stations"),
        ([Station(M(0.0), M(0.05))], "stations"),
        ([Station(M(0.0), M(0.05)), Station(M(0.1), M(-0.05))], "stations.2.diameter"),
        ([Station(M(0.1), M(0.05)), Station(M(0.0), M(0.05))], "stations.2.at"),
        ([Station(M(0.0), M(0.05)), Station(M(float("nan")), M(0.05))], "stations.2.at"),
        ([Station(M(0.0), M(0.05)), Station(M(0.0), M(0.04))], "stations"),
        ([Station(M(0.0), M(0.0)), Station(M(0.1), M(0.0))], "stations"),
    ],
)
def test_a_wrong_station_is_named(stations: list[Station], field: str) -> None:
    with pytest.raises(OutOfRangeError) as caught:
        turned(stations)
    assert caught.value.field == field


def test_a_step_without_height_is_refused() -> None:
    with pytest.raises(OutOfRangeError) as caught:
        stepped(((M(0.04), M(0.01)), (M(0.02), M(0.0))))
    assert caught.value.field == "steps.2.length"


def test_beyond_the_end_there_is_no_diameter() -> None:
    with pytest.raises(OutOfRangeError) as caught:
        straight(M(0.05), M(0.1)).diameter_at(M(0.2))
    assert caught.value.field == "at"
