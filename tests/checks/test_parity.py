"""A second way: our own computations against independent libraries, where they are installed."""

from itertools import pairwise
from math import exp, log, pi, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core.atmosphere import SEA_LEVEL, air_pressure
from shopassist.core.blowdown import hole_flow, vent_factor_quick, vent_factor_slow
from shopassist.core.cure import Course, Progress, Warmth, trail
from shopassist.core.cure_law import EnergyLaw, fit
from shopassist.core.filling import fast_fill_temperature
from shopassist.core.leak import isolated_gauge
from shopassist.core.milestones import Ahead, Milestone, forecast
from shopassist.core.mixing import part_masses
from shopassist.core.quantities import (
    GAS_CONSTANT,
    CubicMetre,
    JoulePerMole,
    Kelvin,
    Kilogram,
    Metre,
    PascalDelta,
    PascalGauge,
    Ratio,
    Second,
    SquareMetre,
)
from shopassist.core.scale import least_batch, ratio_band, spread_of_rounding
from shopassist.core.venting import chilled_temperature, vent_time_quick, vent_time_slow
from shopassist.core.vessel import stored_energy

PSI = 6894.757293168
ROOM = Kelvin(293.15)
HOUR = 3600.0
LAW = EnergyLaw(JoulePerMole(55e3), JoulePerMole(8e3))


def psi(value: float) -> PascalGauge:
    return PascalGauge(value * PSI)


def celsius(degrees: float) -> Kelvin:
    return Kelvin(degrees + 273.15)


# -- air ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("height", [0.0, 260.0, 1000.0, 2345.0, 4800.0])
def test_air_pressure_is_that_of_a_library_of_the_standard_atmosphere(height: float) -> None:
    atmosphere = pytest.importorskip("fluids.atmosphere")
    expected = atmosphere.ATMOSPHERE_1976(height).P
    assert air_pressure(Metre(height)) == pytest.approx(expected, rel=1e-6)


def test_air_pressure_is_near_that_of_a_library_for_building_air() -> None:
    psychrolib = pytest.importorskip("psychrolib")
    psychrolib.SetUnitSystem(psychrolib.SI)
    for height in (0.0, 500.0, 2000.0):
        expected = psychrolib.GetStandardAtmPressure(height)
        assert air_pressure(Metre(height)) == pytest.approx(expected, rel=2e-4)


def test_energy_and_chill_of_ideal_air_are_near_those_of_real_air() -> None:
    properties = pytest.importorskip("CoolProp.CoolProp").PropsSI
    full = 60 * PSI + SEA_LEVEL
    entropy = properties("S", "P", full, "T", ROOM, "Air")
    cold = properties("T", "P", SEA_LEVEL, "S", entropy, "Air")
    assert chilled_temperature(ROOM, psi(60), SEA_LEVEL) == pytest.approx(cold, rel=5e-3)
    inner = [properties("U", "P", p, "T", t, "Air") for p, t in ((full, ROOM), (SEA_LEVEL, cold))]
    density = properties("D", "P", full, "T", ROOM, "Air")
    real = density * (inner[0] - inner[1])
    assert stored_energy(psi(60), CubicMetre(1.0), SEA_LEVEL) == pytest.approx(real, rel=1e-2)


def test_flow_at_the_speed_of_sound_is_near_that_of_real_air() -> None:
    properties = pytest.importorskip("CoolProp.CoolProp").PropsSI
    optimize = pytest.importorskip("scipy.optimize")
    full = 60 * PSI + SEA_LEVEL
    entropy = properties("S", "P", full, "T", ROOM, "Air")
    enthalpy = properties("H", "P", full, "T", ROOM, "Air")

    def flux(throat: float) -> float:
        speed = sqrt(2 * (enthalpy - properties("H", "P", throat, "S", entropy, "Air")))
        return -float(speed * properties("D", "P", throat, "S", entropy, "Air"))

    found = optimize.minimize_scalar(flux, bounds=(0.4 * full, 0.7 * full), method="bounded")
    ours = hole_flow(SquareMetre(1.0), psi(60), ROOM, SEA_LEVEL)
    assert ours == pytest.approx(-found.fun, rel=5e-3)


# -- vents -------------------------------------------------------------------------------------


def _emptying(start: float, end: float, gamma_walls: float) -> float:
    """Seconds that 10 l take through 3 mm, by an equation of state stepped in time."""
    integrate = pytest.importorskip("scipy.integrate")
    gamma, constant, volume, area = 1.4, 287.05, 0.010, 0.8 * pi * 0.0015**2
    first = start * PSI + SEA_LEVEL
    target = end * PSI + SEA_LEVEL

    def state(mass_share: float) -> tuple[float, float]:
        return first * mass_share**gamma_walls, 293.15 * mass_share ** (gamma_walls - 1)

    def slope(_time: float, share: list[float]) -> list[float]:
        pressure, temp = state(share[0])
        ratio = max(SEA_LEVEL / pressure, (2 / (gamma + 1)) ** (gamma / (gamma - 1)))
        speed = sqrt(
            2 * gamma / (gamma - 1) * max(ratio ** (2 / gamma) - ratio ** (1 + 1 / gamma), 0)
        )
        flow = area * pressure * speed / sqrt(constant * temp)
        return [-flow / (first * volume / (constant * 293.15))]

    def arrived(_time: float, share: list[float]) -> float:
        return state(share[0])[0] - target

    arrived.terminal = True  # type: ignore[attr-defined]
    run = integrate.solve_ivp(slope, (0, 200), [1.0], events=arrived, rtol=1e-9, atol=1e-12)
    return float(run.t_events[0][0])


@pytest.mark.parametrize("end", [15.0, 5.0, 1.0, 0.1])
def test_vent_times_are_those_of_a_balance_stepped_in_time(end: float) -> None:
    hole, pot = SquareMetre(0.8 * pi * 0.0015**2), CubicMetre(0.010)
    slow = vent_time_slow(pot, psi(60), psi(end), hole, ROOM, SEA_LEVEL)
    quick = vent_time_quick(pot, psi(60), psi(end), hole, ROOM, SEA_LEVEL)
    assert slow == pytest.approx(_emptying(60, end, 1.0), rel=1e-4)
    assert quick == pytest.approx(_emptying(60, end, 1.4), rel=1e-4)


TABLE_OF_FACTORS = [
    (20, 0.579, 0.893, 1.066, 1.146, 0.678, 0.817, 0.882),
    (30, 0.832, 1.146, 1.319, 1.399, 0.888, 1.032, 1.099),
    (40, 1.034, 1.348, 1.521, 1.601, 1.060, 1.208, 1.277),
    (50, 1.202, 1.516, 1.689, 1.769, 1.207, 1.359, 1.430),
    (60, 1.345, 1.660, 1.833, 1.912, 1.336, 1.491, 1.563),
    (80, 1.583, 1.897, 2.070, 2.150, 1.554, 1.715, 1.789),
]


@pytest.mark.parametrize("row", TABLE_OF_FACTORS, ids=lambda row: f"{row[0]} psi")
def test_factors_of_whole_vents(row: tuple[float, ...]) -> None:
    start, *expected = row
    slow = [vent_factor_slow(psi(start), psi(end), SEA_LEVEL) for end in (5, 1, 0.1, 0)]
    quick = [vent_factor_quick(psi(start), psi(end), SEA_LEVEL) for end in (1, 0.1, 0)]
    assert [*slow, *quick] == pytest.approx(expected, abs=6e-4)


def test_a_choked_leak_is_the_decay_of_an_equation() -> None:
    integrate = pytest.importorskip("scipy.integrate")
    first = 60 * PSI + SEA_LEVEL
    per_second = PSI / 600 / first
    run = integrate.solve_ivp(lambda _t, p: -per_second * p, (0, 8 * HOUR), [first], rtol=1e-10)
    ours = isolated_gauge(psi(60), PascalDelta(PSI / 600), Second(8 * HOUR), SEA_LEVEL)
    assert ours == pytest.approx(run.y[0][-1] - SEA_LEVEL, rel=1e-6)


def test_a_fast_fill_is_hot_by_its_energy_balance() -> None:
    """Filled in ten thousand parcels, each bringing its enthalpy along."""
    temp, pressure, step = 293.15, float(SEA_LEVEL), 60 * PSI / 10_000
    mass = pressure / temp
    for _ in range(10_000):
        pressure += step
        mass += step / (1.4 * 293.15)
        temp = pressure / mass
    assert fast_fill_temperature(ROOM, psi(60), SEA_LEVEL) == pytest.approx(temp, rel=1e-6)


# -- cure --------------------------------------------------------------------------------------


@pytest.mark.parametrize(("lowest", "highest"), [(None, None), (15.0, None), (12.0, 30.0)])
def test_the_fold_is_the_integral_of_the_rates(lowest: float | None, highest: float | None) -> None:
    """Warmth that swings through a day, read every ten minutes, against adaptive quadrature."""
    integrate = pytest.importorskip("scipy.integrate")
    math = pytest.importorskip("numpy")
    times = math.linspace(0, 24 * HOUR, 145)
    warmth = 20 + 12 * math.sin(2 * math.pi * times / (24 * HOUR))
    course = Course(
        LAW, celsius(25),
        None if lowest is None else celsius(lowest), None if highest is None else celsius(highest),
    )  # fmt: skip
    readings = [
        Warmth(Second(float(t)), celsius(float(c)), celsius(float(c)))
        for t, c in zip(times, warmth, strict=True)
    ]
    ours = trail(course, readings, Second(24 * HOUR))[-1].age

    def rate(time: float) -> float:
        degrees = float(math.interp(time, times, warmth))
        if (lowest or -99) <= degrees <= (highest or 99):
            return exp(55e3 / GAS_CONSTANT * (1 / 298.15 - 1 / (degrees + 273.15)))
        return 0.0

    expected = sum(integrate.quad(rate, a, b, limit=200)[0] for a, b in pairwise(times))
    assert ours == pytest.approx(expected, rel=2e-6)


@pytest.mark.parametrize("degrees", [12.0, 18.0, 30.0])
def test_gates_are_the_ends_of_a_drawn_sample(degrees: float) -> None:
    """Sheet, energy and thermometer drawn at random: 1 in 40 lies beyond each gate."""
    random = pytest.importorskip("numpy").random.default_rng(8)
    math = pytest.importorskip("numpy")
    count = 200_000
    needed = 72 * HOUR * math.exp(random.normal(0, 0.15, count))
    energy = random.normal(55e3, 8e3, count)
    temp = celsius(degrees) + random.normal(0, 1.0, count)
    times = needed / math.exp(energy / GAS_CONSTANT * (1 / celsius(23) - 1 / temp))
    first, last = math.quantile(times, [0.025, 0.975])
    course = Course(LAW, celsius(23))
    outlook = Ahead(celsius(degrees), celsius(degrees))
    gates = [
        forecast(Milestone("demould", kind, Second(72 * HOUR), course), (Progress(),), outlook).gate
        for kind in ("hazard", "release")
    ]
    assert gates == pytest.approx([first, last], rel=1.5e-2)


def test_the_fit_is_that_of_a_library() -> None:
    math = pytest.importorskip("numpy")
    points = ((celsius(15), 60.0), (celsius(25), 26.0), (celsius(40), 9.0), (celsius(60), 3.1))
    slope, start = math.polyfit([1 / t for t, _ in points], [log(h) for _, h in points], 1)
    ours = fit(tuple((temp, Second(hours)) for temp, hours in points))
    assert ours.energy == pytest.approx(slope * GAS_CONSTANT, rel=1e-9)
    assert ours.log_time == pytest.approx(start, rel=1e-9)


# -- scale -------------------------------------------------------------------------------------


@settings(max_examples=25, deadline=None)
@given(st.floats(0.1, 3.0), st.floats(0.01, 0.1), st.floats(1e-4, 3e-3))
def test_the_least_batch_is_the_root_of_the_worst_case(
    ratio: float, tolerance: float, doubt: float
) -> None:
    optimize = pytest.importorskip("scipy.optimize")

    def over(total: float) -> float:
        parts = part_masses(Kilogram(total), Ratio(ratio))
        high = ratio_band(parts.a, parts.b, Kilogram(doubt)).high
        return high / ratio - 1 - tolerance

    smallest = doubt * (1 + ratio) * max(1, 1 / ratio) * 1.001
    root = optimize.brentq(over, smallest, 1e4, xtol=1e-12)
    ours = least_batch(Ratio(ratio), Ratio(tolerance), Kilogram(doubt))
    assert ours == pytest.approx(root, rel=1e-6)


def test_the_spread_of_rounding_is_that_of_drawn_masses() -> None:
    math = pytest.importorskip("numpy")
    random = math.random.default_rng(5)
    a = 100 + random.uniform(-0.5, 0.5, 200_000)
    b = 25 + random.uniform(-0.5, 0.5, 200_000)
    ours = spread_of_rounding(Kilogram(0.1), Kilogram(0.025), Kilogram(0.001), 1)
    assert ours == pytest.approx(float(math.std(b / a) / 0.25), rel=1e-2)
