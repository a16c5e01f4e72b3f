from collections.abc import Callable
from math import acosh, exp, pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopassist.core.cup import (
    HEATS,
    USUAL_EPOXY,
    check_cup,
    day_limits,
    regime,
    working_time_note,
)
from shopassist.core.day_limits import depth_limit, mass_limit, mixed_temperature
from shopassist.core.errors import OutOfRangeError
from shopassist.core.exotherm import (
    adiabatic_rise,
    cooling_time,
    cup_area,
    peak_rate,
    semenov_number,
)
from shopassist.core.quantities import (
    JoulePerKilogram,
    JoulePerKilogramKelvin,
    JoulePerMole,
    Kelvin,
    KelvinDelta,
    Kilogram,
    KilogramPerCubicMetre,
    Metre,
    PerSecond,
    Ratio,
    Second,
    SquareMetre,
    SquareMetrePerSecond,
    WattPerMetreKelvin,
)
from shopassist.core.thickness import (
    CRITICAL_CYLINDER,
    CRITICAL_SLAB,
    CRITICAL_SPHERE,
    conduction_time,
    critical_length,
    diffusivity,
    layer_number,
)

M = Metre
ROOM, ENERGY = Kelvin(298.15), JoulePerMole(57e3)
SLOW_GEL = Second(729.4 * 60)
SHEET = Kelvin(296.15)
WARM = Kelvin(303.15)
FASTER = Ratio(exp(55_000 / 8.314462618 * (1 / 296.15 - 1 / 303.15)))


def heat(grams: float, depth: float | None = None, gel: Second = SLOW_GEL) -> str:
    return regime(
        Kilogram(grams / 1e3), None if depth is None else M(depth), gel, ENERGY, ROOM
    ).heat


def test_a_slow_resin_turns_from_low_to_run_away_as_the_cup_grows() -> None:
    assert [heat(grams) for grams in (40, 100, 250)] == ["low", "watch", "run-away"]


def test_a_fast_resin_runs_away_in_a_small_cup() -> None:
    assert heat(50, gel=Second(36.5 * 60)) == "run-away"


def test_the_worse_of_cup_and_layer_is_told() -> None:
    assert heat(40, 0.01) == "low"
    assert heat(40, 0.019) == "watch"
    assert heat(40, 0.05) == "run-away"
    assert heat(250, 0.001) == "run-away"


def test_a_layer_index_is_told_only_with_a_depth() -> None:
    assert regime(Kilogram(0.1), None, SLOW_GEL, ENERGY, ROOM).layer is None
    found = regime(Kilogram(0.1), M(0.01737), SLOW_GEL, ENERGY, ROOM)
    assert found.layer == pytest.approx(1.0, abs=2e-3)
    assert found.semenov == pytest.approx(0.4727, abs=1e-3)


@given(st.floats(0.005, 5.0), st.floats(1.1, 3.0), st.floats(600.0, 1e5))
def test_more_mass_or_a_faster_resin_is_never_cooler(mass: float, times: float, gel: float) -> None:
    def rank(grams: float, time: float) -> int:
        return HEATS.index(regime(Kilogram(grams), None, Second(time), ENERGY, ROOM).heat)

    assert rank(mass * times, gel) >= rank(mass, gel)
    assert rank(mass, gel / times) >= rank(mass, gel)


@given(st.floats(0.01, 100.0))
def test_both_indices_go_straight_with_the_rate(times: float) -> None:
    rise, rate, area = KelvinDelta(222.0), 1e-5, SquareMetrePerSecond(1e-7)
    psi = semenov_number(rise, PerSecond(rate), Second(1000.0), ENERGY, ROOM)
    delta = layer_number(rise, PerSecond(rate), M(0.02), area, ENERGY, ROOM)
    fast = PerSecond(rate * times)
    assert semenov_number(rise, fast, Second(1000.0), ENERGY, ROOM) == pytest.approx(times * psi)
    assert layer_number(rise, fast, M(0.02), area, ENERGY, ROOM) == pytest.approx(times * delta)


@pytest.mark.parametrize("critical", [CRITICAL_SLAB, CRITICAL_CYLINDER, CRITICAL_SPHERE])
def test_the_critical_length_has_the_critical_index(critical: Ratio) -> None:
    rise, rate, spread = KelvinDelta(222.22), PerSecond(1.715e-5), SquareMetrePerSecond(1.01e-7)
    length = critical_length(critical, PerSecond(rise * rate / ROOM), spread, ENERGY, ROOM)
    assert layer_number(rise, rate, length, spread, ENERGY, ROOM) == pytest.approx(critical)


def test_the_slabs_critical_value_is_where_its_steady_heat_balance_ends() -> None:
    search = pytest.importorskip("scipy.optimize").minimize_scalar

    # A steady slab whose middle is s warmer (in units of RT2/E) has this index; no slab has more.
    def index(s: float) -> float:
        return float(2 * acosh(exp(s / 2)) ** 2 * exp(-s))

    found = search(lambda s: -index(s), bounds=(0.01, 5), method="bounded")
    assert -found.fun == pytest.approx(CRITICAL_SLAB, abs=1e-3)


def test_a_lumped_run_of_the_reference_shape_peaks_with_the_regime() -> None:
    solve = pytest.importorskip("scipy.integrate").solve_ivp

    def peak(grams: float) -> float:
        mass, k25 = grams / 1e3, 4.376436 / SLOW_GEL
        area = cup_area(Kilogram(mass), USUAL_EPOXY.density)
        loss = USUAL_EPOXY.surface * area / (mass * USUAL_EPOXY.capacity)

        def slope(_: float, state: list[float]) -> list[float]:
            done, temp = state
            k = k25 * exp(ENERGY / 8.314462618 * (1 / ROOM - 1 / temp))
            rate = k * (0.05 + done) * (1 - done) ** 2
            return [rate, rate * USUAL_EPOXY.heat / USUAL_EPOXY.capacity - loss * (temp - ROOM)]

        run = solve(
            slope, (0, 2e5), [0.0, ROOM], method="LSODA", rtol=1e-8, atol=1e-8, max_step=300
        )
        return float(max(run.y[1])) - 273.15

    assert peak(50) == pytest.approx(34.43, abs=0.1)
    assert peak(500) == pytest.approx(186.0, abs=1.0)
    for grams in (20, 50, 100, 140, 250, 500):
        if heat(grams) == "low":
            assert peak(grams) < 40
        if heat(grams) == "run-away":
            assert peak(grams) > 60


def test_case_c09_a_cold_shop_earns_no_deeper_pour() -> None:
    for celsius in (-5, 0, 10, 23):
        temp = Kelvin(273.15 + celsius)
        assert depth_limit(M(0.05), SHEET, temp, Ratio(0.2)) == 0.05
        assert mass_limit(Kilogram(0.15), SHEET, temp, Ratio(0.2)) == 0.15


def test_warmth_takes_depth_by_the_root_and_mass_by_the_cube_of_that() -> None:
    depth = depth_limit(M(0.05), SHEET, WARM, FASTER)
    assert depth == pytest.approx(0.03955, abs=1e-5)
    assert mass_limit(Kilogram(0.15), SHEET, WARM, FASTER) == pytest.approx(
        0.15 * (depth / 0.05) ** 3
    )


@given(st.floats(233.0, 350.0), st.floats(0.01, 30.0))
def test_no_warmth_ever_raises_a_limit(temp: float, rate: float) -> None:
    assert depth_limit(M(0.05), SHEET, Kelvin(temp), Ratio(rate)) <= 0.05
    assert mass_limit(Kilogram(0.15), SHEET, Kelvin(temp), Ratio(rate)) <= 0.15


@given(st.floats(0.01, 1.0), st.floats(0.01, 1.0), st.floats(280.0, 330.0), st.floats(280.0, 330.0))
def test_two_parts_meet_between_their_temperatures(
    a: float, b: float, warm: float, cold: float
) -> None:
    found = mixed_temperature(Kilogram(a), Kelvin(warm), Kilogram(b), Kelvin(cold))
    assert min(warm, cold) - 1e-9 <= found <= max(warm, cold) + 1e-9


def test_limits_of_the_day_say_what_keeps_them_from_being_scaled() -> None:
    mass, depth = Kilogram(0.15), M(0.05)
    nothing = day_limits(None, None, SHEET, WARM, FASTER)
    assert nothing.mass is None and nothing.missing is not None and not nothing.scaled
    no_temperature = day_limits(mass, depth, None, WARM, FASTER)
    assert no_temperature.mass == mass and no_temperature.missing is not None
    for temp, rate in ((None, FASTER), (WARM, None)):
        not_typed = day_limits(mass, depth, SHEET, temp, rate)
        assert not_typed.depth == depth and not_typed.missing is not None
    full = day_limits(mass, depth, SHEET, WARM, FASTER)
    assert full.missing is None and full.scaled
    assert day_limits(mass, None, SHEET, WARM, FASTER).depth is None
    assert day_limits(None, depth, SHEET, WARM, FASTER).mass is None
    assert not day_limits(mass, depth, SHEET, SHEET, Ratio(1.0)).scaled


@pytest.mark.parametrize(
    ("grams", "temp", "over", "stacked", "lines"),
    [
        (100, SHEET, False, False, 0),
        (130, SHEET, False, False, 1),
        (160, SHEET, True, False, 1),
        (100, WARM, False, False, 1),
        (130, WARM, False, True, 3),
        (160, WARM, True, True, 3),
        (160, None, True, False, 1),
    ],
)
def test_risks_are_told_one_by_one_and_together(
    grams: float, temp: Kelvin | None, over: bool, stacked: bool, lines: int
) -> None:
    found = check_cup(Kilogram(grams / 1e3), Kilogram(0.15), temp, SHEET)
    assert (found.over, found.stacked, len(found.factors)) == (over, stacked, lines)


def test_without_a_limit_only_warmth_can_be_told() -> None:
    found = check_cup(Kilogram(5.0), None, WARM, SHEET)
    assert found.share is None and not found.over and len(found.factors) == 1
    assert check_cup(Kilogram(5.0), None, WARM, None).factors == ()


def test_case_c06_the_working_time_of_a_larger_cup_is_unknown_and_shorter() -> None:
    note = working_time_note(Kilogram(0.1), Kilogram(0.14))
    assert note is not None and "unknown, shorter" in note.template
    assert working_time_note(Kilogram(0.1), Kilogram(0.1)) is None
    unstated = working_time_note(None, Kilogram(0.1))
    assert unstated is not None and "does not say" in unstated.template


def test_areas_rates_and_times_keep_their_closed_forms() -> None:
    area = cup_area(Kilogram(1.1 * pi / 4), KilogramPerCubicMetre(1100.0))
    assert area == pytest.approx(1.5 * pi * 0.1**2)
    assert peak_rate(Second(7506.0)) == pytest.approx(1e-4, rel=1e-3)
    assert cooling_time(
        Kilogram(1.0), USUAL_EPOXY.capacity, USUAL_EPOXY.surface, SquareMetre(0.1)
    ) == pytest.approx(1800.0)
    spread = diffusivity(WattPerMetreKelvin(0.2), USUAL_EPOXY.density, USUAL_EPOXY.capacity)
    assert sqrt(conduction_time(M(0.025), spread) * spread) == pytest.approx(0.025)
    assert adiabatic_rise(JoulePerKilogram(486e3), JoulePerKilogramKelvin(1800.0)) == pytest.approx(
        270
    )


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: depth_limit(M(0.0), SHEET, WARM, FASTER), "limit"),
        (lambda: depth_limit(M(0.1), SHEET, WARM, Ratio(0.0)), "rate"),
        (lambda: mass_limit(Kilogram(0.0), SHEET, WARM, FASTER), "limit"),
        (lambda: mixed_temperature(Kilogram(0.0), ROOM, Kilogram(1.0), ROOM), "mass_a"),
        (lambda: adiabatic_rise(JoulePerKilogram(0.0), USUAL_EPOXY.capacity), "heat"),
        (lambda: peak_rate(Second(0.0)), "gel_time"),
        (lambda: cup_area(Kilogram(0.0), USUAL_EPOXY.density), "mass"),
        (lambda: cooling_time(Kilogram(1.0), USUAL_EPOXY.capacity, USUAL_EPOXY.surface, SquareMetre(0.0)), "area"),
        (lambda: semenov_number(KelvinDelta(1.0), PerSecond(1.0), Second(1.0), ENERGY, Kelvin(0.0)), "temp"),
        (lambda: diffusivity(WattPerMetreKelvin(0.0), USUAL_EPOXY.density, USUAL_EPOXY.capacity), "conductivity"),
        (lambda: conduction_time(M(0.1), SquareMetrePerSecond(0.0)), "spreading"),
        (lambda: layer_number(KelvinDelta(1.0), PerSecond(1.0), M(0.0), SquareMetrePerSecond(1.0), ENERGY, ROOM), "length"),
        (lambda: critical_length(Ratio(0.0), PerSecond(1.0), SquareMetrePerSecond(1.0), ENERGY, ROOM), "critical"),
        (lambda: check_cup(Kilogram(0.0), None, None, None), "mass"),
    ],
)  # fmt: skip
def test_an_impossible_mix_is_refused_beside_its_field(
    call: Callable[[], object], field: str
) -> None:
    with pytest.raises(OutOfRangeError) as caught:
        call()
    assert caught.value.field == field
