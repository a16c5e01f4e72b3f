import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core.atmosphere import (
    SEA_LEVEL,
    absolute_of_vacuum,
    absolute_pressure,
    air_pressure,
    gauge_pressure,
    vacuum_of_absolute,
)
from shopassist.core.blowdown import (
    CRITICAL,
    flow_function,
    hole_flow,
    vent_factor_quick,
    vent_factor_slow,
)
from shopassist.core.errors import OutOfRangeError
from shopassist.core.filling import fast_fill_temperature, shared_gauge
from shopassist.core.gas import (
    bubble_diameter_ratio,
    gauge_for_diameter,
    greatest_cold_fill,
    sealed_gauge,
)
from shopassist.core.leak import (
    explained_fall,
    gauge_later,
    gauge_later_straight,
    isolated_gauge,
    leak_time,
    time_to_fall,
    unexplained_fall,
)
from shopassist.core.quantities import (
    CubicMetre,
    Joule,
    Kelvin,
    Kilogram,
    Metre,
    Newton,
    PascalAbsolute,
    PascalDelta,
    PascalGauge,
    PascalVacuum,
    Ratio,
    Second,
    SquareMetre,
)
from shopassist.core.relief import relief_band, working_limit
from shopassist.core.venting import hole_area, rebound, vent_time_quick, vent_time_slow
from shopassist.core.vessel import (
    clamp_share,
    drop_height,
    lid_force,
    stored_energy,
    stored_energy_bound,
)

PSI = 6894.757293168
gauges = st.floats(1e3, 1e6).map(PascalGauge)
warmths = st.floats(250, 360).map(Kelvin)
ambients = st.floats(6e4, 1.05e5).map(PascalAbsolute)
quick = settings(max_examples=50, deadline=None)


def psi(value: float) -> PascalGauge:
    return PascalGauge(value * PSI)


@quick
@given(gauges, ambients)
def test_absolute_and_gauge_are_each_others_inverse(
    gauge: PascalGauge, ambient: PascalAbsolute
) -> None:
    there = absolute_pressure(gauge, ambient)
    assert gauge_pressure(there, ambient) == pytest.approx(gauge)


@quick
@given(st.floats(1, 6e4).map(PascalAbsolute), ambients)
def test_vacuum_and_absolute_are_each_others_inverse(
    absolute: PascalAbsolute, ambient: PascalAbsolute
) -> None:
    if absolute < ambient:
        shown = vacuum_of_absolute(absolute, ambient)
        assert absolute_of_vacuum(shown, ambient) == pytest.approx(absolute, abs=1e-6)


def test_air_gets_thinner_upward() -> None:
    pressures = [air_pressure(Metre(float(height))) for height in range(-400, 5000, 300)]
    assert pressures == sorted(pressures, reverse=True)
    assert air_pressure(Metre(0.0)) == SEA_LEVEL


@pytest.mark.parametrize("elevation", [-1000.0, 20_000.0, float("nan")])
def test_an_elevation_off_the_land_is_refused(elevation: float) -> None:
    with pytest.raises(OutOfRangeError):
        air_pressure(Metre(elevation))


def test_no_gauge_shows_more_vacuum_than_there_is_air() -> None:
    with pytest.raises(OutOfRangeError):
        absolute_of_vacuum(PascalVacuum(29.5 * 3386.389), PascalAbsolute(84560.0))
    with pytest.raises(OutOfRangeError):
        vacuum_of_absolute(PascalAbsolute(2e5), SEA_LEVEL)


@quick
@given(gauges, warmths, warmths, ambients)
def test_a_sealed_pot_that_goes_back_to_its_warmth_goes_back_to_its_pressure(
    gauge: PascalGauge, cold: Kelvin, warm: Kelvin, ambient: PascalAbsolute
) -> None:
    there = sealed_gauge(gauge, cold, warm, ambient)
    assert sealed_gauge(there, warm, cold, ambient) == pytest.approx(gauge, rel=1e-9, abs=1e-6)
    if abs(warm - cold) > 1e-6:
        assert (there > gauge) == (warm > cold)


@quick
@given(gauges, warmths, warmths, ambients)
def test_the_greatest_fill_never_passes_its_limit(
    limit: PascalGauge, fill: Kelvin, warmest: Kelvin, ambient: PascalAbsolute
) -> None:
    cold = greatest_cold_fill(limit, fill, warmest, ambient)
    assert cold <= limit + 1e-6
    assert sealed_gauge(cold, fill, max(fill, warmest), ambient) <= limit * (1 + 1e-9) + 1e-6


@quick
@given(st.floats(0.3, 0.99).map(Ratio), ambients)
def test_the_pressure_for_a_bubble_makes_that_bubble(share: Ratio, ambient: PascalAbsolute) -> None:
    gauge = gauge_for_diameter(share, ambient)
    assert bubble_diameter_ratio(gauge, ambient) == pytest.approx(share)


# -- leaks ---------------------------------------------------------------------------------


@quick
@given(gauges, warmths, warmths, ambients, st.floats(0, 1e5))
def test_cold_and_leak_together_are_the_whole_fall(
    gauge: PascalGauge, before: Kelvin, after: Kelvin, ambient: PascalAbsolute, leak: float
) -> None:
    cold = explained_fall(gauge, before, after, ambient)
    shown = PascalGauge(gauge - cold - leak)
    found = unexplained_fall(gauge, before, shown, after, ambient)
    assert found == pytest.approx(leak, abs=1e-4)


def test_the_straight_forecast_falls_faster_than_the_easing_one() -> None:
    hour = Second(3600.0)
    easing = gauge_later(psi(47), leak_time(psi(50), psi(47), hour), Second(7 * hour))
    straight = gauge_later_straight(psi(50), psi(47), hour, Second(7 * hour))
    assert straight < easing < psi(47)
    assert gauge_later_straight(psi(50), psi(47), hour, Second(1e6)) == PascalGauge(0)
    assert isolated_gauge(psi(60), PascalDelta(PSI / 600), Second(1e7), SEA_LEVEL) == PascalGauge(0)


def test_p07_the_crossing_lies_between_the_two_forecasts() -> None:
    hour = Second(3600.0)
    found = time_to_fall(psi(50), psi(47), hour, psi(40))
    assert found is not None
    assert found.earliest / hour + 1 == pytest.approx(3.33, abs=0.01)
    assert found.latest / hour + 1 == pytest.approx(3.61, abs=0.01)
    assert time_to_fall(psi(50), psi(50), hour, psi(40)) is None
    under = time_to_fall(psi(50), psi(39), hour, psi(40))
    assert under is not None
    assert under.earliest == under.latest == Second(0)


def test_a_gauge_that_did_not_fall_has_no_time_constant() -> None:
    with pytest.raises(OutOfRangeError):
        leak_time(psi(50), psi(50), Second(60.0))


# -- force, energy, limits ---------------------------------------------------------------------


@quick
@given(gauges, st.floats(0.05, 1.0), st.integers(3, 16))
def test_force_goes_with_pressure_and_the_square_of_the_seal(
    gauge: PascalGauge, seal: float, clamps: int
) -> None:
    force = lid_force(gauge, Metre(seal))
    assert lid_force(gauge, Metre(2 * seal)) == pytest.approx(4 * force)
    assert clamp_share(force, clamps) * clamps == pytest.approx(force)


@quick
@given(gauges, st.floats(1e-3, 1.0).map(CubicMetre), ambients)
def test_stored_energy_stays_under_its_bound(
    gauge: PascalGauge, volume: CubicMetre, ambient: PascalAbsolute
) -> None:
    assert 0 < stored_energy(gauge, volume, ambient) < stored_energy_bound(gauge, volume)


def test_no_pressure_has_no_force_and_no_energy() -> None:
    assert lid_force(psi(0), Metre(0.3)) == Newton(0)
    assert stored_energy(psi(0), CubicMetre(0.01), SEA_LEVEL) == Joule(0)
    assert drop_height(Joule(0.0), Kilogram(1.0)) == Metre(0)


def test_what_governs_the_working_limit_is_told() -> None:
    room, warm = Kelvin(293.15), Kelvin(318.15)
    rating = working_limit(psi(50), psi(60), room, room, SEA_LEVEL)
    relief = working_limit(psi(80), psi(60), room, room, SEA_LEVEL)
    warming = working_limit(psi(80), psi(60), room, warm, SEA_LEVEL)
    assert (rating.governs, relief.governs, warming.governs) == ("rating", "relief", "warming")
    assert rating.pressure == psi(50)
    assert warming.pressure < relief.pressure == pytest.approx(psi(54))


def test_a_high_set_valve_has_a_tolerance_in_percent() -> None:
    band = relief_band(psi(100))
    assert band.low == pytest.approx(psi(97))
    assert band.high == pytest.approx(psi(103))


# -- vents -------------------------------------------------------------------------------------


def test_the_flow_function_meets_itself_at_the_speed_of_sound() -> None:
    below, above = flow_function(Ratio(CRITICAL)), flow_function(Ratio(CRITICAL + 1e-9))
    assert below == pytest.approx(above, rel=1e-6)
    assert flow_function(Ratio(1.0)) == pytest.approx(0, abs=1e-9)
    with pytest.raises(OutOfRangeError):
        flow_function(Ratio(1.1))


@quick
@given(st.floats(0.5, 120), st.floats(0, 1), st.floats(0, 1))
def test_a_vent_in_two_goes_takes_as_long_as_in_one(
    start: float, first: float, second: float
) -> None:
    middle, last = start * max(first, second), start * min(first, second)
    whole = vent_factor_slow(psi(start), psi(last), SEA_LEVEL)
    parts = vent_factor_slow(psi(start), psi(middle), SEA_LEVEL) + vent_factor_slow(
        psi(middle), psi(last), SEA_LEVEL
    )
    assert whole == pytest.approx(parts, rel=1e-5, abs=1e-7)
    assert vent_factor_quick(psi(start), psi(last), SEA_LEVEL) <= whole + 1e-9


@quick
@given(st.floats(2, 120), st.floats(1e-3, 0.1).map(CubicMetre))
def test_the_area_of_a_hole_comes_back_from_its_own_time(start: float, volume: CubicMetre) -> None:
    hole, room = SquareMetre(5e-6), Kelvin(293.15)
    time = vent_time_slow(volume, psi(start), psi(1), hole, room, SEA_LEVEL)
    assert hole_area(volume, psi(start), psi(1), time, room, SEA_LEVEL) == pytest.approx(hole)
    assert vent_time_quick(volume, psi(start), psi(1), hole, room, SEA_LEVEL) < time
    assert hole_flow(hole, psi(start), room, SEA_LEVEL) > 0


def test_a_vent_cannot_end_above_its_start() -> None:
    with pytest.raises(OutOfRangeError):
        vent_factor_slow(psi(1), psi(2), SEA_LEVEL)


def test_warm_air_shut_in_falls_and_cold_air_comes_back() -> None:
    assert rebound(Kelvin(263.15), Kelvin(293.15), SEA_LEVEL) > 0
    assert rebound(Kelvin(303.15), Kelvin(293.15), SEA_LEVEL) < 0


def test_a_receiver_shares_with_an_empty_pot() -> None:
    both = shared_gauge(CubicMetre(0.024), PascalGauge(8e5), CubicMetre(0.024), PascalGauge(0.0))
    assert both == pytest.approx(4e5)
    assert fast_fill_temperature(Kelvin(293.15), psi(0), SEA_LEVEL) == pytest.approx(293.15)
