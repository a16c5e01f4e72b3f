import pytest

from shopassist.clock.zone import zone
from shopassist.core.entry import read_ago, read_clock, read_moment
from shopassist.core.errors import EntryError
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Reading

MONDAY = 1_790_000_000.0
"""Monday, 21 September 2026, 15:13:20 local time at an offset of an hour."""
NOW = Reading(UtcSecond(MONDAY), Second(600.0), "boot", Second(3600.0))


def minutes(text: str, *, ahead: bool = False) -> float:
    return (read_moment(text, NOW, ahead=ahead) - NOW.utc) / 60


def refused(text: str, *, ahead: bool = False) -> EntryError:
    with pytest.raises(EntryError) as caught:
        read_moment(text, NOW, ahead=ahead, field="mix.hardener_in")
    assert caught.value.field == "mix.hardener_in"
    return caught.value


@pytest.mark.parametrize(
    ("text", "before"),
    [
        ("now", 0),
        ("just now", 0),
        ("5 min ago", 5),
        ("5 ago", 5),
        ("1h20 ago", 80),
        ("15:13", 1 / 3),
        ("14:06", 67 + 1 / 3),
        ("14:06:20", 67),
        ("2:06 pm", 67 + 1 / 3),
        ("2 p.m.", 73 + 1 / 3),
        ("14h06", 67 + 1 / 3),
        ("14.06", 67 + 1 / 3),
        ("12 am", 913 + 1 / 3),
        ("12:00 pm", 193 + 1 / 3),
        ("yesterday 15:13", 1440 + 1 / 3),
        ("today 9:13", 360 + 1 / 3),
        ("Mon 9:13", 360 + 1 / 3),
        ("Monday, 15:14", 10_080 - 2 / 3),
        ("Sun 15:13", 1440 + 1 / 3),
        ("2026-09-20 15:13", 1440 + 1 / 3),
    ],
)
def test_a_past_instant_is_read_as_it_is_said(text: str, before: float) -> None:
    assert minutes(text) == pytest.approx(-before)


@pytest.mark.parametrize(
    ("text", "after"),
    [
        ("15:14", 2 / 3),
        ("9:13", 1080 - 1 / 3),
        ("tomorrow 15:14", 1440 + 2 / 3),
        ("Tue 15:14", 1440 + 2 / 3),
        ("Mon 9:13", 10_080 - 360 - 1 / 3),
    ],
)
def test_a_planned_instant_is_the_next_one(text: str, after: float) -> None:
    assert minutes(text, ahead=True) == pytest.approx(after)


def test_shortly_before_midnight_counts_shortly_after_it() -> None:
    midnight = Reading(UtcSecond(MONDAY - 15 * 3600.0), Second(0.0), "boot", Second(3600.0))
    assert (midnight.utc - read_clock("23:58", midnight)) / 60 == pytest.approx(15 + 1 / 3)


def test_later_today_is_not_taken_for_yesterday() -> None:
    assert refused("15:30").choices == ("yesterday 15:30",)
    assert minutes("yesterday 15:30") == pytest.approx(-(1440 - 16 - 2 / 3))


@pytest.mark.parametrize(
    "text", ["", "soon", "14", "14:6", "25:00", "14:60", "13 pm", "0 am", "2026-02-31 10:00",
             "someday 10:00", "14:06:75", "x ago", "400 d ago", "today 23:00"],
)  # fmt: skip
def test_what_no_clock_shows_is_refused(text: str) -> None:
    refused(text)


def test_a_planned_day_that_is_over_is_refused() -> None:
    assert dict(refused("today 9:00", ahead=True).title.params) == {"words": "already past"}


def test_nothing_is_ago_in_the_future() -> None:
    assert read_ago("0", NOW) == NOW.utc
    with pytest.raises(EntryError):
        read_ago("-5", NOW)


def test_the_hour_that_summer_time_skips_never_was() -> None:
    offset_at = zone("Europe/Berlin").offset_at
    spring = 1_774_746_000.0  # 29 March 2026, 01:00 UTC: 02:00 becomes 03:00
    now = Reading(UtcSecond(spring + 3600.0), Second(0.0), "boot", Second(7200.0))
    assert read_clock("3:30", now, offset_at) == spring + 1800.0
    assert read_clock("1:30", now, offset_at) == spring - 1800.0
    with pytest.raises(EntryError) as caught:
        read_clock("today 2:30", now, offset_at)
    assert "forward" in caught.value.title.template


def test_of_the_hour_that_comes_twice_the_later_one_is_meant() -> None:
    offset_at = zone("Europe/Berlin").offset_at
    autumn = 1_792_890_000.0  # 25 October 2026, 01:00 UTC: 03:00 becomes 02:00
    now = Reading(UtcSecond(autumn + 3600.0), Second(0.0), "boot", Second(3600.0))
    assert read_clock("2:30", now, offset_at) == autumn + 1800.0
    earlier = Reading(UtcSecond(autumn - 600.0), Second(0.0), "boot", Second(7200.0))
    assert read_clock("2:30", earlier, offset_at) == autumn - 1800.0


@pytest.mark.parametrize(
    ("hours", "ahead"),
    [(7.0, False), (-1.0, True), (-4.0, True)],
    ids=["in the morning", "before it", "the evening before"],
)
def test_an_hour_that_was_skipped_is_told_as_such_without_a_day_too(
    hours: float, ahead: bool
) -> None:
    """Case X03: on 29 March 2026 no clock in Berlin shows half past two."""
    spring = 1_774_746_000.0  # 02:00 there becomes 03:00
    now = Reading(UtcSecond(spring + hours * 3600), Second(600.0), "boot", Second(3600.0))
    with pytest.raises(EntryError) as caught:
        read_clock("2:30", now, zone("Europe/Berlin").offset_at, ahead=ahead)
    assert caught.value.title.template == "The clocks were put forward over this hour."
