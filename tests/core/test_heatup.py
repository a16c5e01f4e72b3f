from dataclasses import replace
from math import log, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core import bessel
from shopassist.core.errors import OutOfRangeError
from shopassist.core.heat_series import FIXED, cylinder_share, slab_share
from shopassist.core.heatup import (
    Piece,
    core_temperature,
    lumped_temperature,
    lumped_time,
    time_to_core,
)
from shopassist.core.quantities import (
    Kelvin,
    Metre,
    Ratio,
    Second,
    SquareMetrePerSecond,
    WattPerMetreKelvin,
    WattPerSquareMetreKelvin,
)

SOAKED = Piece(
    WattPerMetreKelvin(0.219), SquareMetrePerSecond(0.219 / 1.614e6), Metre(0.06),
    (Metre(0.15),), WattPerSquareMetreKelvin(6.0),
)  # fmt: skip
COLD, OVEN, HOT = Kelvin(293.15), Kelvin(373.15), Kelvin(363.15)


def test_bessel_functions_and_zeros_are_those_of_a_library() -> None:
    special = pytest.importorskip("scipy.special")
    for n in range(200):
        x = 0.5 * n
        assert bessel.j0(x) == pytest.approx(special.j0(x), abs=2e-13)
        assert bessel.j1(x) == pytest.approx(special.j1(x), abs=2e-13)
    zeros = special.jn_zeros(0, 20), special.jn_zeros(1, 20)
    for n in range(20):
        assert bessel.zero_of_j0(n + 1) == pytest.approx(zeros[0][n], rel=1e-13)
        assert bessel.zero_of_j1(n + 1) == pytest.approx(zeros[1][n], rel=1e-13)
    assert bessel.zero_of_j1(0) == 0.0


@pytest.mark.parametrize("biot", [0.1, 1.0, 10.0, float(FIXED)])
def test_the_cylinder_is_that_of_a_solver_on_a_fine_grid(biot: float) -> None:
    """Finite volumes in rings, stepped by a general solver: no series in it."""
    numpy = pytest.importorskip("numpy")
    integrate = pytest.importorskip("scipy.integrate")
    rings = 150
    edges = numpy.linspace(0.0, 1.0, rings + 1)
    width, volumes = 1.0 / rings, numpy.diff(edges**2) / 2

    def flow(_: float, temps: object) -> object:
        inner = edges[1:-1] * numpy.diff(temps) / width
        film = 2 / width if biot == FIXED else 1 / (1 / biot + width / 2)
        gains = numpy.append(inner, -film * temps[-1])  # type: ignore[index]
        return numpy.diff(numpy.insert(gains, 0, 0.0)) / volumes

    # Not its BDF: that subtracts from memory which nobody wrote, and warns of what it finds there.
    solved = integrate.solve_ivp(
        flow, (0, 0.4), numpy.ones(rings), method="LSODA", rtol=1e-8, atol=1e-10, lband=1, uband=1
    )
    ours = cylinder_share(Ratio(0.4), Ratio(biot))
    assert ours == pytest.approx(float(solved.y[0, -1]), abs=3e-4)


def test_one_term_coefficients_are_those_of_the_tables() -> None:
    """With one term left, the share is C exp(-root squared Fo): the textbook's table."""
    for biot, root, size in ((0.1, 0.4417, 1.0246), (1.0, 1.2558, 1.2071), (10.0, 2.1795, 1.5677)):
        later, latest = (cylinder_share(Ratio(fo), Ratio(biot)) for fo in (2.0, 2.5))
        fade = (later / latest) ** 2  # over Fo = 1
        assert sqrt(log(fade)) == pytest.approx(root, abs=1e-4)
        assert later * fade**2 == pytest.approx(size, abs=2e-4)


def test_the_surface_leads_and_the_middle_lags() -> None:
    for share in (cylinder_share, slab_share):
        middle, surface = (share(Ratio(0.3), Ratio(2.0), Ratio(at)) for at in (0.0, 1.0))
        assert 0 < surface < middle < 1


def test_at_first_the_middle_has_not_noticed() -> None:
    assert cylinder_share(Ratio(0.0), Ratio(1.0)) == 1.0
    assert slab_share(Ratio(0.011), FIXED) == pytest.approx(1.0, abs=1e-9)
    assert cylinder_share(Ratio(0.011), FIXED) == pytest.approx(1.0, abs=1e-8)


@pytest.mark.parametrize(
    "numbers",
    [(-1.0, 1.0, 0.0), (1.0, 0.0, 0.0), (1.0, -1.0, 0.0), (1.0, 1.0, 1.1), (0.001, 1.0, 0.5)],
)
def test_what_no_series_can_take_is_refused(numbers: tuple[float, float, float]) -> None:
    with pytest.raises(OutOfRangeError):
        cylinder_share(*(Ratio(each) for each in numbers))


@pytest.mark.parametrize(
    ("diameter", "minutes"),
    [(40, (110, 75, 57, 48, 22)), (60, (172, 123, 98, 86, 49)), (100, (303, 231, 195, 178, 124))],
)
def test_minutes_until_the_core_is_at_90(diameter: int, minutes: tuple[int, ...]) -> None:
    """A table worked out elsewhere for 150 mm, oven 100 °C: foil, two films, fan, fixed surface."""
    for film, expected in zip((6.0, 10.0, 15.0, 20.0, None), minutes, strict=True):
        piece = replace(
            SOAKED, diameter=Metre(diameter / 1000),
            film=None if film is None else WattPerSquareMetreKelvin(film),
        )  # fmt: skip
        assert time_to_core(piece, COLD, OVEN, HOT) / 60 == pytest.approx(
            expected, abs=0.5 + 0.002 * expected
        )


@settings(max_examples=25, deadline=None)
@given(st.floats(294.0, 372.0), st.floats(5.0, 30.0))
def test_the_time_and_the_temperature_undo_each_other(goal: float, film: float) -> None:
    piece = replace(SOAKED, film=WattPerSquareMetreKelvin(film))
    time = time_to_core(piece, COLD, OVEN, Kelvin(goal))
    assert core_temperature(piece, COLD, OVEN, time) == pytest.approx(goal, abs=1e-6)


def test_a_goal_off_the_way_is_refused_and_one_at_the_start_takes_no_time() -> None:
    assert time_to_core(SOAKED, COLD, OVEN, COLD) == 0.0
    assert lumped_time(COLD, OVEN, Second(60.0), COLD) == 0.0
    for goal in (Kelvin(290.0), OVEN, Kelvin(400.0)):
        with pytest.raises(OutOfRangeError):
            time_to_core(SOAKED, COLD, OVEN, goal)
        with pytest.raises(OutOfRangeError):
            lumped_time(COLD, OVEN, Second(60.0), goal)


def test_a_piece_without_any_size_is_refused() -> None:
    shapeless = replace(SOAKED, diameter=None, sides=())
    with pytest.raises(OutOfRangeError):
        core_temperature(shapeless, COLD, OVEN, Second(60.0))


def test_a_lump_undoes_itself() -> None:
    time = lumped_time(OVEN, COLD, Second(600.0), Kelvin(300.0))
    assert lumped_temperature(OVEN, COLD, Second(600.0), time) == pytest.approx(300.0)
