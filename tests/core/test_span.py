"""A value with its range, and a range carried through a function."""

import pytest

from shopassist.core.errors import OutOfRangeError
from shopassist.core.quantities import Kilogram, Metre
from shopassist.core.span import Span, across, between, exact


def test_one_value_is_exact_and_a_range_is_not() -> None:
    assert exact(Metre(2.0)) == Span(2.0, 2.0, 2.0)
    assert exact(Metre(2.0)).is_exact
    assert not Span(1.0, 2.0, 3.0).is_exact


def test_a_typed_range_has_its_likely_value_half_way() -> None:
    assert between(Metre(2.0), Metre(5.0), "length") == Span(2.0, 3.5, 5.0)
    assert between(Metre(2.0), Metre(2.0), "length") == exact(2.0)


@pytest.mark.parametrize("ends", [(5.0, 2.0), (float("nan"), 2.0), (2.0, float("nan"))])
def test_a_range_whose_highest_is_not_above_its_lowest_is_refused(
    ends: tuple[float, float],
) -> None:
    with pytest.raises(OutOfRangeError) as refused:
        between(Metre(ends[0]), Metre(ends[1]), "length")
    assert refused.value.field == "length"


def test_a_range_goes_through_a_function_by_its_corners() -> None:
    def share(part: float, whole: float) -> Kilogram:
        return Kilogram(part / whole)

    carried = across(share, Span(1.0, 2.0, 3.0), Span(4.0, 5.0, 8.0))
    assert carried == Span(1.0 / 8.0, 2.0 / 5.0, 3.0 / 4.0)
    assert across(share, exact(2.0), Span(4.0, 5.0, 8.0)) == Span(0.25, 0.4, 0.5)


def test_exact_values_ask_a_function_once() -> None:
    asked: list[tuple[float, float]] = []

    def product(first: float, second: float) -> Kilogram:
        asked.append((first, second))
        return Kilogram(first * second)

    assert across(product, exact(2.0), exact(3.0)) == exact(6.0)
    assert asked == [(2.0, 3.0)]
