"""Sets of places as whole numbers."""

from hypothesis import given
from hypothesis import strategies as st

from shopassist.core.places import Span, downward, joined, lowest, set_of, whole, without

PLACES = st.sets(st.integers(0, 300), min_size=1)


@given(st.permutations(range(0, 90, 7)))
def test_a_set_is_the_same_in_whatever_order_its_places_come(order: list[int]) -> None:
    span: Span | None = None
    for place in order:
        span = joined(span, place, 1)
    assert span is not None
    assert span[0] == 0
    assert whole(span) == set_of(order)


@given(PLACES, st.data())
def test_what_is_taken_out_is_gone_and_nothing_else(places: set[int], data: st.DataObject) -> None:
    first = min(places)
    span = joined(None, first, set_of(place - first for place in places))
    gone = data.draw(st.sampled_from(sorted(places)))
    assert downward(whole(without(span, gone))) == sorted(places - {gone}, reverse=True)


@given(PLACES)
def test_a_set_is_written_out_the_last_place_first(places: set[int]) -> None:
    assert downward(set_of(places)) == sorted(places, reverse=True)
    assert lowest(set_of(places)) == min(places)


def test_an_empty_set_has_no_places() -> None:
    assert downward(set_of(())) == []
