import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core import amount
from shopassist.core.errors import OutOfRangeError, RefusedError
from shopassist.core.mixing import (
    PartMasses,
    deviation,
    hardener_for,
    pair_mismatch,
    part_masses,
    resin_for,
    stroke_ratio,
    volume_ratio,
    weight_ratio,
)
from shopassist.core.off_ratio import judge, rescue, serves
from shopassist.core.quantities import CubicMetre, Kilogram, KilogramPerCubicMetre, Ratio
from shopassist.core.scale import (
    Scale,
    least_batch,
    left_by_step,
    nearest,
    ratio_band,
    round_parts,
    spread_of_rounding,
)

masses = st.floats(1e-3, 50).map(Kilogram)
ratios = st.floats(0.02, 20).map(Ratio)
densities = st.floats(500, 3000).map(KilogramPerCubicMetre)
quick = settings(max_examples=60, deadline=None)


@quick
@given(masses, ratios)
def test_the_parts_sum_to_the_total_and_are_on_ratio(total: Kilogram, ratio: Ratio) -> None:
    parts = part_masses(total, ratio)
    assert parts.total == pytest.approx(total, rel=1e-12)
    assert deviation(parts.a, parts.b, ratio) == pytest.approx(0, abs=1e-9)


@quick
@given(masses, ratios, st.floats(1e-3, 1e3))
def test_a_mix_scales_with_its_total(total: Kilogram, ratio: Ratio, times: float) -> None:
    once, more = part_masses(total, ratio), part_masses(Kilogram(total * times), ratio)
    assert more.a == pytest.approx(once.a * times, rel=1e-9)


@quick
@given(ratios, densities, densities)
def test_weight_and_volume_ratio_are_each_others_inverse(
    ratio: Ratio, a: KilogramPerCubicMetre, b: KilogramPerCubicMetre
) -> None:
    assert volume_ratio(weight_ratio(ratio, a, b), a, b) == pytest.approx(ratio, rel=1e-12)


@quick
@given(masses, ratios)
def test_resin_for_and_hardener_for_are_each_others_inverse(mass: Kilogram, ratio: Ratio) -> None:
    assert resin_for(hardener_for(mass, ratio), ratio) == pytest.approx(mass, rel=1e-12)


@quick
@given(ratios, densities, densities)
def test_the_mix_is_no_lighter_and_no_heavier_than_its_parts(
    ratio: Ratio, a: KilogramPerCubicMetre, b: KilogramPerCubicMetre
) -> None:
    mixed = amount.mixed_density(ratio, a, b)
    assert min(a, b) * (1 - 1e-12) <= mixed <= max(a, b) * (1 + 1e-12)


@pytest.mark.parametrize("bad", [0.0, -1.0, float("nan"), float("inf")])
def test_a_ratio_that_is_none_is_refused_beside_its_field(bad: float) -> None:
    with pytest.raises(OutOfRangeError) as caught:
        part_masses(Kilogram(1.0), Ratio(bad))
    assert caught.value.field == "ratio"


def test_strokes_are_no_parts() -> None:
    big, small = CubicMetre(20e-6), CubicMetre(10e-6)
    metered = stroke_ratio(Ratio(1), Ratio(1), big, small)
    doubled = stroke_ratio(Ratio(2), Ratio(1), big, small)
    assert doubled / metered - 1 == -0.5


def test_waste_is_learned_from_what_was_left() -> None:
    assert amount.waste_left(Kilogram(0.108), Kilogram(0.1)) == pytest.approx(0.08)
    assert amount.waste_left(Kilogram(0.1), Kilogram(0.1)) == Ratio(0)
    assert amount.waste_left(Kilogram(0.09), Kilogram(0.1)) == Ratio(0)


# -- scale ---------------------------------------------------------------------------------


def test_a_scale_without_a_stated_error_is_off_by_two_steps_and_a_half() -> None:
    assert Scale(Kilogram(1e-3)).doubt == pytest.approx(2.5e-3)
    assert Scale(Kilogram(1e-3), Kilogram(1e-3)).doubt == pytest.approx(1.5e-3)


@quick
@given(ratios, st.floats(0.005, 0.2).map(Ratio), st.floats(1e-5, 5e-3).map(Kilogram))
def test_the_least_batch_is_just_within_its_tolerance(
    ratio: Ratio, tolerance: Ratio, doubt: Kilogram
) -> None:
    total = least_batch(ratio, tolerance, doubt)
    band = ratio_band(*_parts(total, ratio), doubt)
    assert band.high == pytest.approx(ratio * (1 + tolerance), rel=1e-9)
    assert band.low >= ratio * (1 - tolerance)
    smaller = ratio_band(*_parts(Kilogram(total * 0.99), ratio), doubt)
    assert smaller.high > ratio * (1 + tolerance)


def _parts(total: Kilogram, ratio: Ratio) -> tuple[Kilogram, Kilogram]:
    parts = part_masses(total, ratio)
    return parts.a, parts.b


@pytest.mark.parametrize("field", ["mass_a", "mass_b"])
def test_a_mass_within_the_doubt_of_the_scale_tells_nothing(field: str) -> None:
    given_masses = {"mass_a": Kilogram(0.1), "mass_b": Kilogram(0.1), field: Kilogram(1e-3)}
    with pytest.raises(OutOfRangeError) as caught:
        ratio_band(**given_masses, doubt=Kilogram(1e-3))
    assert caught.value.field == field


@quick
@given(st.floats(0.02, 20).map(Kilogram), ratios, st.sampled_from([1e-4, 1e-3, 5e-3]))
def test_rounding_never_takes_off_the_larger_part_and_keeps_the_ratio_as_near_as_it_can(
    total: Kilogram, ratio: Ratio, step: float
) -> None:
    exact = part_masses(total, ratio)
    rounded = round_parts(exact, Kilogram(step))
    larger, smaller = max(rounded.a, rounded.b), min(rounded.a, rounded.b)
    assert larger >= max(exact.a, exact.b) - 1e-9
    for mass in (rounded.a, rounded.b):
        assert mass / step == pytest.approx(round(mass / step), abs=1e-6)
    if smaller > 2 * step:
        off = deviation(rounded.a, rounded.b, ratio)
        # B over A may be off a little more where A is the smaller part
        assert abs(off) <= left_by_step(smaller, Kilogram(step)) * 1.4 + 1e-9


def test_what_already_fits_the_step_stays() -> None:
    parts = PartMasses(Kilogram(0.1), Kilogram(0.044))
    assert round_parts(parts, Kilogram(1e-3)).a == pytest.approx(0.1)
    assert round_parts(parts, Kilogram(1e-3)).b == pytest.approx(0.044)


def test_a_trace_is_never_rounded_to_nothing() -> None:
    assert nearest(Kilogram(1e-4), Kilogram(1e-3)) == 1e-3


def test_two_readings_spread_more_than_one() -> None:
    a, b, step = Kilogram(0.1), Kilogram(0.025), Kilogram(1e-3)
    once, twice = (spread_of_rounding(a, b, step, count) for count in (1, 2))
    assert twice / once == pytest.approx(2**0.5)


# -- off ratio -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("mass_b", "tolerance", "band"),
    [
        (44.0, None, "on"), (44.88, None, "on"), (44.9, None, "near"), (46.2, None, "near"),
        (46.3, None, "off"), (48.3, None, "off"), (48.4, None, "far off"), (39.6, None, "far off"),
        (45.0, 0.03, "on"), (45.4, 0.03, "off"), (48.4, 0.03, "far off"),
        (49.0, 0.12, "on"), (49.28, 0.12, "on"), (49.4, 0.12, "far off"),
    ],
)  # fmt: skip
def test_bands_follow_the_sheet_or_our_own_limits(
    mass_b: float, tolerance: float | None, band: str
) -> None:
    limit = None if tolerance is None else Ratio(tolerance)
    verdict = judge(Kilogram(0.1), Kilogram(mass_b / 1e3), Ratio(0.44), limit)
    assert verdict.band == band
    assert verdict.needs_reason == (band == "far off")
    assert verdict.by_sheet == (tolerance is not None)


@quick
@given(masses, masses, ratios)
def test_a_rescued_cup_is_on_its_ratio_and_only_ever_fuller(
    a: Kilogram, b: Kilogram, ratio: Ratio
) -> None:
    found = rescue(a, b, ratio, reacting=False)
    if found is None:
        assert deviation(a, b, ratio) == pytest.approx(0, abs=1e-8)
        return
    assert found.mass > 0
    more_a = a + found.mass if found.part == "a" else a
    more_b = b + found.mass if found.part == "b" else b
    assert deviation(Kilogram(more_a), Kilogram(more_b), ratio) == pytest.approx(0, abs=1e-6)
    assert found.total == pytest.approx(more_a + more_b)
    assert found.words


def test_nothing_may_be_added_once_it_reacts() -> None:
    with pytest.raises(RefusedError):
        rescue(Kilogram(0.144), Kilogram(0.050), Ratio(0.44), reacting=True)
    assert rescue(Kilogram(0.1), Kilogram(0.044), Ratio(0.44), reacting=True) is None


def test_m03_short_hardener_serves_only_part_of_the_resin() -> None:
    served, over = serves(Kilogram(0.050), Kilogram(0.144), Ratio(0.44))
    assert round(served * 1e3, 1) == 113.6
    assert round(over * 1e3, 1) == 30.4


def test_a_label_that_agrees_with_its_densities_is_apart_by_nothing() -> None:
    a, b = KilogramPerCubicMetre(1150.0), KilogramPerCubicMetre(954.5)
    assert pair_mismatch(Ratio(0.83), Ratio(1.0), a, b) == pytest.approx(0.0, abs=1e-3)
    heavier = KilogramPerCubicMetre(1050.0)
    assert pair_mismatch(Ratio(0.83), Ratio(1.0), a, heavier) == pytest.approx(-0.0910, abs=1e-3)
