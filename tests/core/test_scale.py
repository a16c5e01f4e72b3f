"""What a scale can tell, by numbers that can be worked out on paper."""

from collections.abc import Callable

import pytest

from shopassist.core.errors import OutOfRangeError
from shopassist.core.mixing import PartMasses
from shopassist.core.quantities import Kilogram, Ratio
from shopassist.core.scale import (
    least_batch,
    left_by_step,
    ratio_band,
    round_parts,
    spread_of_rounding,
)

GRAM = 1e-3


def kilos(*grams: float) -> tuple[Kilogram, ...]:
    return tuple(Kilogram(each * GRAM) for each in grams)


def test_a_band_takes_both_errors_at_their_worst_and_against_each_other() -> None:
    band = ratio_band(Kilogram(100.0), Kilogram(25.0), Kilogram(5.0))
    assert (band.low, band.high) == (20.0 / 105.0, 30.0 / 95.0)


def test_a_scale_without_doubt_gives_one_ratio() -> None:
    band = ratio_band(Kilogram(100.0), Kilogram(25.0), Kilogram(0.0))
    assert (band.low, band.high) == (0.25, 0.25)


def test_the_spread_of_rounding_adds_the_shares_of_both_parts_as_squares() -> None:
    assert spread_of_rounding(Kilogram(3.0), Kilogram(4.0), Kilogram(12.0), 3) == pytest.approx(2.5)


def test_half_a_step_of_the_smaller_part_is_left() -> None:
    assert left_by_step(Kilogram(20.0), Kilogram(1.0)) == 0.025


def test_the_larger_part_is_rounded_up_and_the_smaller_follows_it() -> None:
    larger, smaller, step = kilos(144.3, 63.36, 1.0)
    rounded = round_parts(PartMasses(larger, smaller), step)
    assert (rounded.a, rounded.b) == pytest.approx((0.145, 0.064))
    turned = round_parts(PartMasses(smaller, larger), step)
    assert (turned.a, turned.b) == pytest.approx((0.064, 0.145))


@pytest.mark.parametrize(
    "refused",
    [
        lambda: ratio_band(Kilogram(1.0), Kilogram(1.0), Kilogram(-0.1)),
        lambda: least_batch(Ratio(0.0), Ratio(0.03), Kilogram(0.5)),
        lambda: least_batch(Ratio(0.25), Ratio(-0.03), Kilogram(0.5)),
        lambda: spread_of_rounding(Kilogram(1.0), Kilogram(1.0), Kilogram(0.1), 0),
        lambda: left_by_step(Kilogram(-1.0), Kilogram(0.1)),
        lambda: round_parts(PartMasses(Kilogram(1.0), Kilogram(0.5)), Kilogram(-0.1)),
    ],
)
def test_what_no_scale_can_show_is_refused(refused: Callable[[], object]) -> None:
    with pytest.raises(OutOfRangeError):
        refused()
