from datetime import UTC, datetime, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core.civil import civil, days_of, is_date, seconds_of

EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


@settings(max_examples=300)
@given(st.integers(min_value=-62_135_596_800, max_value=253_402_300_799))
def test_the_calendar_agrees_with_the_library_for_nine_thousand_years(seconds: int) -> None:
    there = EPOCH + timedelta(seconds=seconds)
    here = civil(seconds)
    assert (here.year, here.month, here.day) == (there.year, there.month, there.day)
    assert (here.hour, here.minute, here.second) == (there.hour, there.minute, there.second)
    assert here.weekday == there.weekday()
    back = here.hour * 3600 + here.minute * 60 + here.second
    assert seconds_of(here.year, here.month, here.day, back) == seconds


def test_parts_of_a_second_are_dropped_before_1970_too() -> None:
    assert civil(59.999).second == 59
    assert civil(-0.001).second == 59
    assert civil(-0.001).day_number == -1


def test_leap_days_follow_the_rule_of_four_hundred() -> None:
    assert is_date(2000, 2, 29)
    assert not is_date(1900, 2, 29)
    assert is_date(2028, 2, 29)
    assert not is_date(2026, 2, 29)
    assert not is_date(2026, 13, 1)
    assert not is_date(2026, 1, 0)
    assert days_of(2000, 3, 1) - days_of(2000, 2, 28) == 2
