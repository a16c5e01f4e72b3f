"""Constant weight, end mass, meters at their floor, appliances that switch themselves off."""

import pytest

from shopassist.core.drying import (
    BATH_LIMIT,
    RULES,
    Weighing,
    allowed_loss,
    best_rule,
    can_resolve,
    judge,
    meter_bias,
    meter_reading,
    must_dry_again,
    resolution,
    rule,
    windings,
)
from shopassist.core.drying_end import end_mass, intervals_left, loss_ratio
from shopassist.core.errors import ShopError
from shopassist.core.quantities import Kilogram, Ratio, Second, UtcSecond
from shopassist.core.style import CHOICES, NumberStyle
from shopassist.core.wording import Wording

TENTH = Kilogram(0.0001)
GRAM = Kilogram(0.001)
HOUR = 3600


def log(*entries: tuple[float, float]) -> list[Weighing]:
    """Hours and grams."""
    return [Weighing(UtcSecond(h * HOUR), Kilogram(g / 1000)) for h, g in entries]


@pytest.mark.parametrize("each", RULES, ids=lambda each: each.key)
def test_every_rule_is_found_by_its_key(each: object) -> None:
    assert rule(each.key) is each  # type: ignore[attr-defined]


def test_an_unknown_rule_is_refused() -> None:
    with pytest.raises(ShopError):
        rule("hunch")


def test_a_kitchen_scale_cannot_resolve_a_tenth_of_a_percent_of_365_g() -> None:
    assert not can_resolve(rule("en"), Kilogram(0.365), GRAM)
    assert can_resolve(rule("en"), Kilogram(0.365), TENTH)


def test_the_strictest_rule_that_the_scale_resolves_is_taken() -> None:
    assert best_rule(Kilogram(0.365), TENTH).key == "en"
    assert best_rule(Kilogram(0.365), GRAM).key == "astm"


def test_the_loss_allowed_grows_with_the_share_and_with_the_step() -> None:
    assert allowed_loss(rule("en"), Kilogram(0.365), TENTH) == pytest.approx(0.000365)
    assert allowed_loss(rule("astm"), Kilogram(0.365), GRAM) == pytest.approx(0.002)
    assert allowed_loss(rule("is"), Kilogram(0.365), GRAM) == pytest.approx(2e-6)


def test_what_a_scale_cannot_tell_from_dry() -> None:
    assert resolution(Kilogram(0.365), GRAM) == pytest.approx(0.0027, abs=5e-5)


def test_nothing_weighed_is_not_dry() -> None:
    found = judge([], rule("en"), TENTH)
    assert not found.dry
    assert found.next_at is None


def test_a_scale_too_coarse_proves_nothing() -> None:
    found = judge(log((0, 365), (4, 365)), rule("en"), GRAM)
    assert not found.dry
    assert "cannot show" in found.text.template


def test_one_weighing_asks_for_another_after_the_interval() -> None:
    found = judge(log((0, 365)), rule("shop"), TENTH)
    assert not found.dry
    assert found.next_at == pytest.approx(4 * HOUR)


def test_a_second_weighing_too_soon_does_not_count() -> None:
    assert not judge(log((0, 365.0), (1, 365.0)), rule("shop"), TENTH).dry


def test_constant_weight_is_dry() -> None:
    found = judge(log((0, 400), (12, 365.3), (16, 365.1)), rule("shop"), TENTH)
    assert found.dry
    assert found.loss == pytest.approx(0.0002)


def test_a_piece_that_still_loses_is_not_dry() -> None:
    found = judge(log((0, 400), (4, 380), (8, 368)), rule("shop"), TENTH)
    assert not found.dry
    assert found.end_mass == pytest.approx(0.350)


def test_a_piece_that_gained_goes_back() -> None:
    found = judge(log((0, 365), (12, 366.5)), rule("shop"), TENTH)
    assert not found.dry
    assert "gained" in found.text.template


@pytest.mark.parametrize(
    "entries",
    [
        ((0, 400), (4, 380)),
        ((0, 400), (4, 380), (12, 368)),
        ((0, 400), (4, 380), (8, 350)),
        ((0, 400), (4, 400), (8, 390)),
        ((4, 400), (4, 390), (8, 380)),
    ],
)
def test_no_end_is_told_from_an_uneven_or_short_log(entries: tuple[tuple[float, float]]) -> None:
    assert judge(log(*entries), rule("shop"), TENTH).end_mass is None


def test_an_end_is_told_even_before_the_interval_has_passed() -> None:
    found = judge(log((0, 400), (1, 380), (2, 368)), rule("shop"), TENTH)
    assert found.end_mass == pytest.approx(0.350)


@pytest.mark.parametrize("third", [0.355, 0.380, 0.390])
def test_losses_that_do_not_shrink_have_no_end(third: float) -> None:
    with pytest.raises(ShopError):
        end_mass(Kilogram(0.400), Kilogram(0.380), Kilogram(third))


def test_a_first_interval_without_loss_has_no_end() -> None:
    with pytest.raises(ShopError):
        loss_ratio(Kilogram(0.400), Kilogram(0.400), Kilogram(0.390))


def test_a_piece_at_its_end_needs_no_more_intervals() -> None:
    assert intervals_left(
        Ratio(0.6), Kilogram(0.351), Kilogram(0.350), Ratio(0.005)
    ) == pytest.approx(0)


@pytest.mark.parametrize("ratio", [0.0, 1.0])
def test_a_loss_ratio_outside_its_range_is_refused(ratio: float) -> None:
    with pytest.raises(ShopError):
        intervals_left(Ratio(ratio), Kilogram(0.368), Kilogram(0.350), Ratio(0.005))


def test_three_per_mille_of_regain_sends_it_back_to_the_oven() -> None:
    assert must_dry_again(Kilogram(0.3651), Kilogram(0.3665))
    assert not must_dry_again(Kilogram(0.3651), Kilogram(0.3660))


def test_a_meter_at_its_floor_says_this_or_less() -> None:
    words = Wording(NumberStyle(".", "dmy"), CHOICES["metric"], lambda _: 0)
    assert words.say(meter_reading(Ratio(0.06), Ratio(0.06)).text) == "6.0 % or less (meter floor)"
    above = meter_reading(Ratio(0.09), Ratio(0.06))
    assert not above.at_floor
    assert words.say(above.text) == "9.0 %"


def test_the_bias_of_a_meter_is_told() -> None:
    assert meter_bias(Ratio(0.08), Kilogram(0.0988), Kilogram(0.089)) == pytest.approx(
        -0.030, abs=2e-4
    )


def test_twelve_hours_on_a_two_hour_timer_take_six_windings() -> None:
    assert windings(Second(12 * HOUR), Second(2 * HOUR)) == 6
    assert windings(Second(24 * HOUR), Second(10 * HOUR)) == 3
    assert windings(Second(1 * HOUR), Second(2 * HOUR)) == 1


def test_wood_goes_into_the_bath_no_warmer_than_30_celsius() -> None:
    assert pytest.approx(303.15) == BATH_LIMIT
