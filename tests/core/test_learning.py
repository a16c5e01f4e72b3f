"""Times learnt from witness cups, and what failures have in common."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopassist.core.compare import compare
from shopassist.core.errors import ShopError
from shopassist.core.learning import T95, fit, offer, t_value
from shopassist.core.quantities import Second

H = 3600.0


def ages(*hours: float) -> list[Second]:
    return [Second(each * H) for each in hours]


def test_the_table_of_student_is_that_of_a_library() -> None:
    stats = pytest.importorskip("scipy.stats")
    for freedom, value in T95.items():
        assert value == pytest.approx(stats.t.ppf(0.975, freedom), abs=6e-4)


def test_between_two_rows_the_wider_value_is_taken() -> None:
    assert t_value(11) == T95[10]
    assert t_value(500) == T95[60]


def test_two_batches_say_nothing() -> None:
    with pytest.raises(ShopError):
        t_value(1)
    with pytest.raises(ShopError):
        fit(ages(10, 11), Second(10 * H))


def test_even_batches_that_ran_late_move_a_release_later() -> None:
    found = fit(ages(11, 12, 13), Second(10 * H))
    assert found.factor == pytest.approx(1.2, abs=0.01)
    assert found.low < found.factor < found.high
    later = offer(found, Second(10 * H), "release")
    assert later.changed
    assert later.time > 12 * H


def test_a_hazard_never_moves_later() -> None:
    found = fit(ages(11, 12, 13), Second(10 * H))
    assert offer(found, Second(10 * H), "hazard").time <= 10 * H


def test_a_release_never_moves_below_the_makers_minimum() -> None:
    found = fit(ages(5, 5.1, 5.2), Second(10 * H))
    held = offer(found, Second(10 * H), "release")
    assert held.time == pytest.approx(10 * H)
    assert not held.changed
    assert "stands" in held.text.template
    lower = offer(found, Second(10 * H), "release", Second(8 * H))
    assert lower.time == pytest.approx(8 * H)
    assert lower.changed


@given(st.lists(st.floats(0.5, 2.0), min_size=3, max_size=30))
def test_whatever_was_seen_hazards_only_come_earlier_and_releases_only_later(
    shares: list[float],
) -> None:
    found = fit([Second(each * H) for each in shares], Second(H))
    assert offer(found, Second(H), "hazard").time <= H
    assert offer(found, Second(H), "release").time >= H * (1 - 1e-12)
    assert found.low <= found.factor <= found.high


def test_the_band_holds_the_next_batch_about_as_often_as_it_says() -> None:
    random = pytest.importorskip("random").Random(7)
    held = 0
    for _ in range(2000):
        seen = [Second(random.lognormvariate(0.0, 0.15)) for _ in range(6)]
        found = fit(seen[:5], Second(1.0))
        held += found.low <= seen[5] <= found.high
    assert held / 2000 == pytest.approx(0.95, abs=0.02)


# -- what failures share -------------------------------------------------------------------------

BAD = [
    {"Resin": "Slow clear", "Coldest": "under the minimum", "Cups": "1"},
    {"Resin": "Slow clear", "Coldest": "under the minimum", "Cups": "2"},
    {"Resin": "Slow clear", "Coldest": "under the minimum"},
]
GOOD = [
    {"Resin": "Slow clear", "Coldest": "20 °C", "Cups": "1"},
    {"Resin": "Slow clear", "Coldest": "21 °C", "Cups": "1"},
    {"Resin": "Quick opaque", "Coldest": "20 °C", "Cups": "1"},
]


def test_the_one_common_factor_stands_first() -> None:
    found = compare(BAD, GOOD)
    assert found.shared[0].name == "Coldest"
    assert found.shared[0].tells_apart
    assert not found.shared[1].tells_apart
    assert found.shared[1].others_with == 2
    assert "Look first" in found.verdict.template


def test_what_was_not_written_down_is_named() -> None:
    assert compare(BAD, GOOD).unknown == ("Cups",)


def test_few_batches_are_called_few() -> None:
    found = compare(BAD[:1], GOOD)
    assert found.thin
    assert "Too few" in found.verdict.template


def test_what_all_share_tells_nothing() -> None:
    found = compare(GOOD, GOOD)
    assert "Nothing on record" in found.verdict.template


def test_a_fact_unknown_to_the_others_does_not_tell_apart() -> None:
    found = compare([{"Lot": "7"}], [{}])
    assert not found.shared[0].tells_apart
    assert compare([], []).shared == ()
