"""The core's heat-up against the exact series, its roots and functions from a library of its own.

Nothing of ours is in the reference: roots by a library's bracketing, Bessel functions by the
library, a hundred terms summed. A finite cylinder and a bar are the products of the simple ones.
"""

from math import exp, pi, sin, tan
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core.heatup import Piece, core_temperature, time_to_core
from shopassist.core.monomer import monomer_pressure
from shopassist.core.quantities import (
    Kelvin,
    Metre,
    Second,
    SquareMetrePerSecond,
    WattPerMetreKelvin,
    WattPerSquareMetreKelvin,
)

special: Any = pytest.importorskip("scipy.special")
optimize: Any = pytest.importorskip("scipy.optimize")
TERMS = 100
K, A = 0.219, 1.355e-7
EPS = 1e-9


def round_share(fourier: float, biot: float) -> float:
    """Middle of a long cylinder."""
    stops = [EPS, *special.jn_zeros(0, TERMS)]
    # One root of z J1(z) = Bi J0(z) lies between neighbouring zeros of J0 and J1.
    zeros = [0.0, *special.jn_zeros(1, TERMS)]
    total = 0.0
    for low, high in zip(zeros, stops[1:], strict=False):
        root = optimize.brentq(
            lambda z: z * special.j1(z) - biot * special.j0(z), low + EPS, high - EPS, xtol=1e-14
        )
        j0, j1 = special.j0(root), special.j1(root)
        total += 2 / root * j1 / (j0**2 + j1**2) * exp(-(root**2) * fourier)
    return float(total)


def flat_share(fourier: float, biot: float) -> float:
    """Middle of a board."""
    total = 0.0
    for n in range(TERMS):
        root = optimize.brentq(
            lambda z: z * tan(z) - biot, n * pi + EPS, (n + 0.5) * pi - EPS, xtol=1e-14
        )
        size = 4 * sin(root) / (2 * root + sin(2 * root))
        total += size * exp(-(root**2) * fourier)
    return total


def reference(across: float | None, sides: tuple[float, ...], film: float, time: float) -> float:
    left = 1.0
    if across is not None:
        left *= round_share(A * time / (across / 2) ** 2, film * across / 2 / K)
    for side in sides:
        left *= flat_share(A * time / (side / 2) ** 2, film * side / 2 / K)
    return left


def piece(across: float | None, sides: tuple[float, ...], film: float) -> Piece:
    return Piece(
        WattPerMetreKelvin(K), SquareMetrePerSecond(A), None if across is None else Metre(across),
        tuple(Metre(each) for each in sides), WattPerSquareMetreKelvin(film),
    )  # fmt: skip


SHAPES = [
    (0.04, (0.15,)), (0.06, (0.15,)), (0.10, (0.15,)), (0.052, (0.13,)), (0.06, ()),
    (None, (0.02, 0.02, 0.13)), (None, (0.05, 0.05)), (None, (0.04, 0.09, 0.2)), (None, (0.03,)),
]  # fmt: skip


@pytest.mark.parametrize(("across", "sides"), SHAPES)
@pytest.mark.parametrize("film", [6.0, 14.0, 20.0])
def test_every_shape_follows_the_exact_series(
    across: float | None, sides: tuple[float, ...], film: float
) -> None:
    made = piece(across, sides, film)
    start, oven = Kelvin(293.15), Kelvin(368.15)
    for minutes in (15, 40, 90, 180, 360):
        ours = core_temperature(made, start, oven, Second(minutes * 60.0))
        exact = oven + (start - oven) * reference(across, sides, film, minutes * 60.0)
        assert ours == pytest.approx(exact, abs=1e-6)


@settings(max_examples=20, deadline=None)
@given(st.floats(0.02, 0.12), st.floats(0.05, 0.4), st.floats(4.0, 40.0), st.floats(30.0, 70.0))
def test_the_time_to_a_temperature_is_the_exact_one(
    across: float, length: float, film: float, over: float
) -> None:
    start, oven = Kelvin(293.15), Kelvin(368.15)
    goal = Kelvin(start + over)
    time = time_to_core(piece(across, (length,), film), start, oven, goal)
    exact = oven + (start - oven) * reference(across, (length,), film, time)
    assert exact == pytest.approx(goal, abs=1e-4)


def test_the_reference_itself_meets_a_textbook() -> None:
    """A check of the check: middle of a wide board at Bi 1, one term, 1.1191 exp(-0.8603² Fo)."""
    assert flat_share(2.0, 1.0) == pytest.approx(1.1191 * exp(-(0.8603**2) * 2.0), rel=2e-4)


def test_the_monomers_boiling_is_told_within_its_range_only() -> None:
    from shopassist.core.errors import ShopError

    for celsius in (-1.0, 101.0):
        with pytest.raises(ShopError):
            monomer_pressure(Kelvin(celsius + 273.15))
    assert monomer_pressure(Kelvin(373.15)) == pytest.approx(101_325, rel=0.02)
