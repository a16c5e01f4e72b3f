from math import inf

from shopassist.core.wording import NONE, Wording


def test_the_corner_of_the_window_names_day_and_time() -> None:
    words = Wording(offset_at=lambda _: 3600)
    assert words.corner(1_790_000_000.0) == "Mon 21 Sep  15:13"
    assert words.corner(inf) == NONE
    assert words.day(1_790_000_000.0) == "Mon 21"
    assert words.day(inf) == NONE
    assert words.offset(0.0) == 3600
