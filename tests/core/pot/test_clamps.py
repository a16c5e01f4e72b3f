from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopassist.core.errors import OutOfRangeError
from shopassist.core.pot.clamps import MOST, slackening_order, tightening_order

counts = st.integers(1, MOST)


@pytest.mark.parametrize(
    ("clamps", "order"),
    [
        (1, [1]),
        (2, [1, 2]),
        (3, [1, 2, 3]),
        (4, [1, 3, 2, 4]),
        (5, [1, 3, 5, 2, 4]),
        (6, [1, 4, 2, 5, 3, 6]),
        (7, [1, 4, 7, 3, 6, 2, 5]),
        (8, [1, 5, 3, 7, 2, 6, 4, 8]),
        (10, [1, 6, 3, 8, 5, 10, 7, 2, 9, 4]),
        (12, [1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12]),
        (16, [1, 9, 5, 13, 3, 11, 7, 15, 2, 10, 6, 14, 4, 12, 8, 16]),
        (20, [1, 11, 6, 16, 3, 13, 8, 18, 5, 15, 10, 20, 2, 12, 7, 17, 4, 14, 9, 19]),
        (
            24,
            [1, 13, 7, 19, 4, 16, 10, 22, 2, 14, 8, 20, 5, 17, 11, 23, 3, 15, 9, 21, 6, 18, 12, 24],
        ),
    ],
)
def test_the_order_is_the_printed_cross_pattern(clamps: int, order: list[int]) -> None:
    assert list(tightening_order(clamps)) == order


def test_a_lid_without_clamps_has_no_order() -> None:
    with pytest.raises(OutOfRangeError):
        tightening_order(0)


@given(counts)
def test_every_clamp_is_tightened_once(clamps: int) -> None:
    assert sorted(tightening_order(clamps)) == list(range(1, clamps + 1))


@given(counts.filter(lambda n: n % 2 == 0))
def test_pairs_of_an_even_lid_lie_opposite(clamps: int) -> None:
    order = tightening_order(clamps)
    for first, second in zip(order[::2], order[1::2], strict=True):
        assert abs(first - second) == clamps // 2


@pytest.mark.parametrize("clamps", range(5, 13))
def test_neighbours_never_follow_one_another(clamps: int) -> None:
    order = tightening_order(clamps)
    for first, second in pairwise(order):
        around = abs(first - second)
        assert min(around, clamps - around) > 1


@given(counts.flatmap(lambda n: st.tuples(st.just(n), st.integers(1, n))))
def test_slackening_begins_at_the_far_side(case: tuple[int, int]) -> None:
    clamps, nearest = case
    order = slackening_order(clamps, nearest)
    assert sorted(order) == list(range(1, clamps + 1))
    around = abs(order[0] - nearest)
    assert min(around, clamps - around) == clamps // 2


@pytest.mark.parametrize(("clamps", "nearest"), [(0, 1), (MOST + 1, 1), (6, 0), (6, 7)])
def test_a_lid_that_cannot_be_is_refused(clamps: int, nearest: int) -> None:
    with pytest.raises(OutOfRangeError):
        slackening_order(clamps, nearest)


def test_a_lid_is_slackened_from_the_clamp_opposite_to_the_first() -> None:
    assert slackening_order(6) == (4, 1, 5, 2, 6, 3)
    assert slackening_order(6, nearest=3) == (6, 3, 1, 4, 2, 5)
