from itertools import pairwise
from math import exp, inf, log

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core.decays import Decays
from shopassist.core.eigen import eigen
from shopassist.core.errors import OutOfRangeError
from shopassist.core.heatflow import (
    Link,
    Lump,
    Network,
    Thermostat,
    course,
    joined,
    modes_of,
    rest,
)
from shopassist.core.quantities import (
    JoulePerKelvin,
    Kelvin,
    KelvinDelta,
    Second,
    Watt,
    WattPerKelvin,
)

HOUR = 3600.0
ROOM = {"shop": Kelvin(293.15)}


def net(*lumps: tuple[str, float], links: tuple[tuple[str, str, float], ...]) -> Network:
    return Network(
        tuple(Lump(name, JoulePerKelvin(heat)) for name, heat in lumps),
        tuple(Link(one, other, WattPerKelvin(path)) for one, other, path in links),
    )


ONE = net(("box", 1000.0), links=(("box", "shop", 2.0),))
TWO = net(
    ("air", 1500.0), ("pot", 6000.0), links=(("air", "pot", 3.0), ("air", "shop", 1.6))
)  # fmt: skip
HEATER = Thermostat("air", Watt(100.0), "air", Kelvin(313.15), KelvinDelta(1.0))


def flat(network: Network, temp: float = 293.15) -> dict[str, Kelvin]:
    return dict.fromkeys(network.names, Kelvin(temp))


# -- eigenvalues -----------------------------------------------------------------------------


def test_a_matrix_with_known_eigenvalues() -> None:
    values, vectors = eigen([[2.0, 1.0], [1.0, 2.0]])
    assert values == pytest.approx((1.0, 3.0), abs=1e-14)
    assert abs(vectors[0][0] + vectors[0][1]) < 1e-14


@settings(max_examples=30, deadline=None)
@given(st.lists(st.floats(-5, 5), min_size=36, max_size=36), st.integers(1, 6))
def test_eigenvectors_are_turned_by_the_matrix_into_themselves(
    numbers: list[float], size: int
) -> None:
    matrix = [[numbers[max(i, j) * 6 + min(i, j)] for j in range(size)] for i in range(size)]
    values, vectors = eigen(matrix)
    assert list(values) == sorted(values)
    for value, vector in zip(values, vectors, strict=True):
        assert sum(x * x for x in vector) == pytest.approx(1.0, abs=1e-9)
        for row, x in zip(matrix, vector, strict=True):
            product = sum(a * b for a, b in zip(row, vector, strict=True))
            assert product == pytest.approx(value * x, abs=1e-8)


# -- sums of exponentials ----------------------------------------------------------------------


def test_all_zeros_are_found_where_there_are_several() -> None:
    # (x - 0.2)(x - 0.5)(x - 0.7) with x = e^-t
    sums = Decays((0.0, 1.0, 2.0, 3.0), (-0.07, 0.59, -1.4, 1.0))
    assert sums.zeros(10.0) == pytest.approx([-log(x) for x in (0.7, 0.5, 0.2)], rel=1e-9)
    assert sums.zeros(1.0) == pytest.approx([-log(x) for x in (0.7, 0.5)], rel=1e-9)


def test_a_sum_that_never_passes_zero_has_no_zeros() -> None:
    assert Decays((0.0, 1.0), (1.0, 1.0)).zeros(inf) == ()
    # (x - 0.5)^2 + 0.01: two changes of sign, no zero
    assert Decays((0.0, 1.0, 2.0), (0.26, -1.0, 1.0)).zeros(50.0) == ()


def test_a_zero_at_the_start_does_not_count_and_one_at_the_end_does() -> None:
    sums = Decays((0.0, 1.0), (-1.0, 1.0))
    assert sums.zeros(5.0) == ()
    end = log(2)
    rising = Decays((0.0, 1.0), (1.0, -2.0))
    assert rising.zeros(end * (1 + 1e-12)) == pytest.approx((end,), rel=1e-9)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.floats(0.05, 0.95), min_size=1, max_size=4, unique=True))
def test_zeros_are_those_that_a_polynomial_was_built_from(roots: list[float]) -> None:
    roots = sorted(roots)
    if any(b - a < 0.02 for a, b in pairwise(roots)):
        return
    sizes = [1.0]
    for root in roots:
        sizes = [b - root * a for a, b in zip([*sizes, 0.0], [0.0, *sizes], strict=True)]
    rates = tuple(float(n) for n in range(len(sizes)))
    found = Decays(rates, tuple(sizes)).zeros(5.0)
    assert found == pytest.approx([-log(x) for x in reversed(roots)], rel=1e-4)


def test_a_search_cut_short_still_gives_a_place_in_its_bracket(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("shopassist.core.decays.ROUNDS", 1)
    (found,) = Decays((0.0, 1.0), (1.0, -2.0)).zeros(5.0)
    assert 0 < found < 5
    monkeypatch.setattr("shopassist.core.eigen.SWEEPS", 1)
    assert eigen([[2.0, 1.0], [1.0, 2.0]])[0] == pytest.approx((1.0, 3.0))


# -- one lump --------------------------------------------------------------------------------


def test_one_lump_cools_by_the_exponential() -> None:
    found = course(ONE, {"box": Kelvin(333.15)}, ROOM, Second(HOUR))
    assert found.temperature("box", Second(500.0)) == pytest.approx(293.15 + 40 * exp(-1.0))
    assert found.first("box", Kelvin(313.15), "below") == pytest.approx(500 * log(2))
    assert found.first("box", Kelvin(340.0)) is None
    assert found.first("box", Kelvin(340.0), "below") == 0.0
    assert found.switchings == ()


def test_before_the_start_and_after_the_end_stands_what_was_there() -> None:
    found = course(ONE, {"box": Kelvin(333.15)}, ROOM, Second(500.0))
    assert found.temperature("box", Second(-5.0)) == pytest.approx(333.15)
    assert found.temperature("box", Second(9e9)) == found.temperature("box", Second(500.0))
    assert found.state(Second(0.0)) == {"box": pytest.approx(333.15)}


def test_steady_heat_ends_at_rest() -> None:
    heats = {"air": Watt(33.0)}
    ends = rest(TWO, ROOM, heats)
    assert ends["air"] == pytest.approx(293.15 + 33 / 1.6)
    assert ends["pot"] == pytest.approx(ends["air"])
    found = course(TWO, flat(TWO), ROOM, Second(100 * HOUR), heats=heats)
    assert found.temperature("pot", found.end) == pytest.approx(ends["pot"], abs=1e-6)


# -- the thermostat ------------------------------------------------------------------------------


def test_the_thermostat_switches_at_its_two_temperatures() -> None:
    found = course(TWO, flat(TWO), ROOM, Second(12 * HOUR), thermostat=HEATER)
    assert len(found.switchings) > 20
    for number, at in enumerate(found.switchings):
        level = HEATER.off_at if number % 2 == 0 else HEATER.on_at
        assert found.temperature("air", at) == pytest.approx(level, abs=1e-7)
    for each in found.stretches[1:]:
        middle = Second((each.start + each.end) / 2)
        assert HEATER.on_at <= found.temperature("air", middle) <= HEATER.off_at


def test_heat_in_is_heat_stored_and_heat_lost() -> None:
    found = course(TWO, flat(TWO), ROOM, Second(6 * HOUR), thermostat=HEATER)
    given_heat = 100.0 * found.duty(Second(0.0), found.end) * found.end
    stored = sum(
        lump.capacity * (found.temperature(lump.name, found.end) - 293.15) for lump in TWO.lumps
    )
    lost = 0.0
    for each in found.stretches:
        # The integral of each exponential, exactly.
        sums, length = each.over(0, Kelvin(293.15)), each.end - each.start
        lost += sum(
            size * (length if rate == 0 else (1 - exp(-rate * length)) / rate)
            for rate, size in zip(sums.rates, sums.sizes, strict=True)
        )
    assert given_heat == pytest.approx(stored + 1.6 * lost, rel=1e-9)


def test_a_warm_start_waits_with_its_heater_off() -> None:
    found = course(TWO, flat(TWO, 320.0), ROOM, Second(HOUR), thermostat=HEATER)
    assert not found.stretches[0].heating
    assert found.duty(Second(0.0), Second(60.0)) == 0.0


def test_a_weak_heater_never_switches_off() -> None:
    weak = Thermostat("air", Watt(10.0), "air", Kelvin(313.15), KelvinDelta(1.0))
    found = course(TWO, flat(TWO), ROOM, Second(48 * HOUR), thermostat=weak)
    assert found.switchings == ()
    assert found.duty(Second(0.0), found.end) == pytest.approx(1.0)


def test_it_may_end_once_a_lump_is_warm() -> None:
    goal = ("pot", Kelvin(311.15))
    short = course(TWO, flat(TWO), ROOM, Second(48 * HOUR), thermostat=HEATER, until=goal)
    whole = course(TWO, flat(TWO), ROOM, Second(48 * HOUR), thermostat=HEATER)
    assert short.end < whole.end
    assert short.first(*goal) == whole.first(*goal)


def test_settled_is_after_the_last_dip() -> None:
    level = Kelvin(313.15)
    found = course(TWO, flat(TWO), ROOM, Second(3 * HOUR), thermostat=HEATER)
    settled, first = found.settled("air", Kelvin(312.5)), found.first("air", Kelvin(312.5))
    assert settled == first
    last = found.settled("air", level)
    assert last is None or last > found.end - HOUR / 4
    assert found.settled("air", Kelvin(290.0)) == 0.0
    assert found.settled("air", Kelvin(330.0)) is None


def test_settled_where_a_stretch_begins_below_the_level() -> None:
    warm = course(TWO, flat(TWO, 300.0), ROOM, Second(60.0))
    later = course(TWO, flat(TWO, 320.0), ROOM, Second(60.0))
    assert joined(warm, later).settled("air", Kelvin(305.0)) == pytest.approx(60.0)


def test_courses_follow_each_other() -> None:
    inside = course(ONE, {"box": Kelvin(333.15)}, ROOM, Second(500.0))
    outside = course(ONE, inside.state(inside.end), {"shop": Kelvin(273.15)}, Second(500.0))
    both = joined(inside, outside)
    assert both.end == pytest.approx(1000.0)
    assert both.temperature("box", Second(499.0)) > both.temperature("box", Second(501.0))
    expected = 273.15 + (293.15 + 40 * exp(-1) - 273.15) * exp(-1)
    assert both.temperature("box", both.end) == pytest.approx(expected)


# -- refusals ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "wrong",
    [
        net(links=()),
        net(("a", 1.0), ("a", 2.0), links=(("a", "shop", 1.0),)),
        net(("a", 0.0), links=(("a", "shop", 1.0),)),
        net(("a", 1.0), links=(("x", "shop", 1.0),)),
        net(("a", 1.0), links=(("a", "a", 1.0),)),
        net(("a", 1.0), links=(("a", "shop", -1.0),)),
        net(("a", 1.0), links=(("a", "shop", inf),)),
        net(("a", 1.0), ("b", 1.0), links=(("a", "b", 1.0),)),
    ],
)
def test_a_network_that_cannot_be_is_refused(wrong: Network) -> None:
    with pytest.raises(OutOfRangeError):
        modes_of(wrong)


def test_a_thermostat_without_a_band_is_refused() -> None:
    none = Thermostat("air", Watt(100.0), "air", Kelvin(313.15), KelvinDelta(0.0))
    with pytest.raises(OutOfRangeError):
        course(TWO, flat(TWO), ROOM, Second(HOUR), thermostat=none)


def test_a_thermostat_that_switches_without_end_is_given_up(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("shopassist.core.heatflow.MOST_SWITCHINGS", 10)
    with pytest.raises(OutOfRangeError):
        course(TWO, flat(TWO), ROOM, Second(12 * HOUR), thermostat=HEATER)


def test_no_length_is_refused() -> None:
    with pytest.raises(OutOfRangeError):
        course(ONE, flat(ONE), ROOM, Second(0.0))
