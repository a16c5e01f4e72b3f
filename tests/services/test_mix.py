"""From ratio, basis and amount to what the scale must show."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopassist.core.figures import Origin
from shopassist.core.quantities import Kilogram, Ratio
from shopassist.services.mix import MixInputs, MixPlan, plan, verdict


def typed(value: float, quantity: str = "Ratio") -> Origin:
    return Origin(value, quantity, "typed")


def given_mix(
    a: float = 100.0, b: float = 30.0, grams: float = 200.0, step: float = 0.1, waste: float = 0.0
) -> MixInputs:
    return MixInputs(
        typed(a), typed(b), "weight", typed(grams / 1e3, "Kilogram"), typed(waste),
        typed(step / 1e3, "Kilogram"),
    )  # fmt: skip


def by_volume(amount: Origin, *densities: float | None) -> MixInputs:
    made = [None if each is None else typed(each, "KilogramPerCubicMetre") for each in densities]
    return replace(
        given_mix(2.0, 1.0), basis="volume", amount=amount,
        density_a=made[0], density_b=made[1], density_mixed=made[2],
    )  # fmt: skip


def grams(made: MixPlan) -> tuple[float, ...]:
    assert made.missing is None
    return tuple(
        round(float(each.value or 0.0) * 1e3, 6) for each in (made.part_a, made.part_b, made.total)
    )


def test_what_is_missing_is_named_in_the_order_it_is_asked() -> None:
    whole = given_mix()
    for lacking, words in (
        (replace(whole, ratio_a=None), "needs the ratio"),
        (replace(whole, amount=None), "needs the amount"),
        (replace(whole, amount=typed(2e-4, "CubicMetre")), "needs the density"),
    ):
        made = plan(lacking)
        assert made.missing is not None
        assert made.missing.template.startswith(words)
        assert made.part_a.value is None


def test_an_amount_of_nothing_is_told_and_not_raised() -> None:
    assert plan(given_mix(grams=0.0)).missing is not None


def test_a_litre_by_volume_is_grams_by_both_densities() -> None:
    """2 : 1 by volume at 1.12 and 0.98 g/ml is 0.4375 by weight."""
    made = plan(by_volume(typed(0.1436, "Kilogram"), 1120.0, 980.0, None))
    assert made.ratio == pytest.approx(0.4375)
    assert grams(made) == (99.9, 43.7, 143.6)


def test_the_density_of_the_mix_comes_from_its_parts_where_the_sheet_has_none() -> None:
    made = plan(by_volume(typed(300e-6, "CubicMetre"), 1120.0, 980.0, None))
    # 200 ml and 100 ml are 224 g and 98 g.
    assert grams(made) == pytest.approx((224.0, 98.0, 322.0), abs=0.1)
    stated = plan(by_volume(typed(300e-6, "CubicMetre"), 1120.0, 980.0, 1100.0))
    assert grams(stated)[2] == pytest.approx(330.0, abs=0.2)


def test_marked_cups_where_no_density_is_known() -> None:
    made = plan(by_volume(typed(300e-6, "CubicMetre"), None, None, None))
    assert made.quantity == "CubicMetre"
    assert [step.reading for step in made.steps] == pytest.approx([200e-6, 300e-6])
    assert plan(by_volume(typed(0.3, "Kilogram"), None, None, None)).missing is not None


def test_b_first_turns_the_stops_and_the_rest_follows_from_it() -> None:
    made = plan(replace(given_mix(), b_first=True), poured_b=Kilogram(0.0462))
    assert [step.part for step in made.steps] == ["b", "a"]
    assert made.part_a.formula == "mixing.resin_for"
    assert grams(made) == (154.0, 46.2, 200.2)


def test_colour_stands_in_the_middle_and_changes_no_part() -> None:
    plain, coloured = plan(given_mix()), plan(replace(given_mix(), colour=Kilogram(0.002)))
    assert grams(plain) == grams(coloured)
    assert [step.part for step in coloured.steps] == ["a", "colour", "b"]
    assert coloured.steps[-1].reading - plain.steps[-1].reading == pytest.approx(0.002)


def test_a_cup_without_resin_has_no_verdict() -> None:
    assert verdict(Kilogram(0.0), Kilogram(0.1), Ratio(0.3), None) is None
    found = verdict(Kilogram(0.1), Kilogram(0.03), Ratio(0.3), None)
    assert found is not None
    assert found.band == "on"


AMOUNT = st.floats(0.5, 20_000.0)
PARTS = st.floats(0.05, 200.0)
STEP = st.sampled_from([0.01, 0.1, 0.5, 1.0])


@given(PARTS, PARTS, AMOUNT, STEP)
def test_the_parts_always_sum_and_the_last_stop_is_their_sum(
    a: float, b: float, amount: float, step: float
) -> None:
    made = plan(given_mix(a, b, amount, step))
    part_a, part_b, total = (float(f.value or 0) for f in (made.part_a, made.part_b, made.total))
    assert part_a + part_b == pytest.approx(total, rel=1e-12)
    assert made.steps[-1].reading == pytest.approx(total, rel=1e-12)


@given(PARTS, PARTS, AMOUNT, STEP)
def test_the_larger_part_is_never_rounded_down(
    a: float, b: float, amount: float, step: float
) -> None:
    made = plan(given_mix(a, b, amount, step))
    larger = max(float(made.part_a.value or 0), float(made.part_b.value or 0))
    exact = amount / 1e3 * max(a, b) / (a + b)
    assert exact * (1 - 1e-9) <= larger <= exact + step / 1e3 * (1 + 1e-6)


@given(PARTS, PARTS, AMOUNT, st.floats(0.5, 1.6))
def test_b_from_the_a_that_was_poured_is_on_the_ratio_within_half_a_step(
    a: float, b: float, amount: float, poured: float
) -> None:
    mass = Kilogram(amount / 1e3 * a / (a + b) * poured)
    made = plan(given_mix(a, b, amount, 0.01), poured_a=mass)
    exact = mass * b / a
    assert made.part_b.value is not None
    assert abs(made.part_b.value - max(exact, 1e-5)) <= 0.5e-5 * (1 + 1e-6)


@given(PARTS, PARTS, AMOUNT, st.floats(1.01, 3.0))
def test_more_of_everything_is_never_less(a: float, b: float, amount: float, more: float) -> None:
    small, large = plan(given_mix(a, b, amount)), plan(given_mix(a, b, amount * more))
    for one, two in ((small.part_a, large.part_a), (small.part_b, large.part_b)):
        assert float(two.value or 0) >= float(one.value or 0) - 1e-12


@given(PARTS, PARTS, AMOUNT, st.floats(1e-2, 1e2))
def test_the_unit_of_the_parts_changes_nothing(
    a: float, b: float, amount: float, times: float
) -> None:
    one, other = plan(given_mix(a, b, amount)), plan(given_mix(a * times, b * times, amount))
    assert float(other.part_a.value or 0) == pytest.approx(
        float(one.part_a.value or 0), abs=1.01e-4
    )
