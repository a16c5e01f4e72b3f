"""The calendar file, read by a reader that has nothing in common with the library that wrote it."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.work_hours import DEFAULT, hours_between
from shopassist.desktop.calendar_file import LASTS, calendar_bytes
from shopassist.services.coming import LEAD, Event
from tests.desktop import rfc5545
from tests.desktop.rfc5545 import Component, NotValidError

pytest.importorskip("icalendar")
ZONES = ("Europe/Berlin", "America/New_York", "Australia/Lord_Howe")
WORDS = "Hold until; gel, late \\ 8–9 h\nsecond line " + "ü🪵" * 40


def at(*when: int) -> UtcSecond:
    return UtcSecond(datetime(*when, tzinfo=UTC).timestamp())  # type: ignore[misc, arg-type]


def written(*events: Event) -> bytes:
    return calendar_bytes(events, at(2026, 1, 1))


def events_in(data: bytes) -> list[Component]:
    return rfc5545.read(data).inside


def alarm_of(event: Component) -> datetime:
    """When it goes off."""
    (alarm,) = event.inside
    start, trigger = event.values["DTSTART"], alarm.values["TRIGGER"]
    assert isinstance(start, datetime)
    assert isinstance(trigger, timedelta)
    return start + trigger


def test_every_word_and_instant_comes_back() -> None:
    events = (
        Event("a", WORDS, at(2026, 10, 25, 0, 30), WORDS, Second(1200.0)),
        Event("b", "Turn", at(2026, 10, 25, 1, 30)),
    )
    for given, read in zip(events, events_in(written(*events)), strict=True):
        start = datetime.fromtimestamp(given.at, UTC)
        assert read.values["UID"] == f"{given.key}@shopassist.invalid"
        assert read.values["SUMMARY"] == given.title
        assert read.values.get("DESCRIPTION", "") == given.words
        assert read.values["DTSTART"] == start
        assert read.values["DURATION"] == timedelta(seconds=LASTS)
        assert alarm_of(read) == start - timedelta(seconds=given.lead)
        assert read.inside[0].values["DESCRIPTION"] == given.title


@pytest.mark.parametrize("zone", ZONES)
@pytest.mark.parametrize("month", [3, 4, 10, 11])
def test_nine_o_clock_is_nine_o_clock_on_both_sides_of_a_change(zone: str, month: int) -> None:
    here = ZoneInfo(zone)

    def offset(when: UtcSecond) -> float:
        moved = datetime.fromtimestamp(when, UTC).astimezone(here).utcoffset()
        assert moved is not None
        return moved.total_seconds()

    hours = hours_between(DEFAULT, at(2026, month, 1, 12), 31, offset)
    events = [Event(f"e{n}", "Open", each.start) for n, each in enumerate(hours)]
    read = [each.values["DTSTART"] for each in events_in(written(*events))]
    assert len(read) > 24
    local = [each.astimezone(here) for each in read if isinstance(each, datetime)]
    assert {(each.hour, each.minute) for each in local} == {(9, 0)}
    alarms = [alarm_of(each).astimezone(here) for each in events_in(written(*events))]
    assert {(each.hour, each.minute) for each in alarms} == {(8, 50)}


def test_in_each_zone_one_of_these_months_changes_the_clock() -> None:
    for zone in ZONES:
        offsets = {
            datetime(2026, month, day, 12, tzinfo=ZoneInfo(zone)).utcoffset()
            for month in (3, 4, 10, 11)
            for day in (1, 28)
        }
        assert len(offsets) == 2, zone


@pytest.mark.parametrize("hour", [0, 1])
def test_the_hour_that_comes_twice_holds_two_instants(hour: int) -> None:
    """In Berlin both of these are half past two on the night of 25 October."""
    here = ZoneInfo("Europe/Berlin")
    (event,) = events_in(written(Event("a", "x", at(2026, 10, 25, hour, 30))))
    start = event.values["DTSTART"]
    assert isinstance(start, datetime)
    assert start.hour == hour
    assert (start.astimezone(here).hour, start.astimezone(here).minute) == (2, 30)
    assert start.astimezone(here).fold == hour


def swap(old: bytes, new: bytes) -> Callable[[bytes], bytes]:
    def change(data: bytes) -> bytes:
        assert old in data, old
        return data.replace(old, new)

    return change


@pytest.mark.parametrize(
    "change",
    [
        swap(b"\r\n", b"\n"),
        swap(b"END:VCALENDAR\r\n", b""),
        swap(b"END:VCALENDAR\r\n", b"END:VCALENDAR"),
        swap(b"END:VALARM\r\n", b""),
        swap(b"BEGIN:VALARM\r\n", b""),
        swap(b"VERSION:2.0", b"VERSION:3.0"),
        swap(b"PRODID:", b"X-PRODID:"),
        swap(b"DTSTART:20261025T003000Z", b"DTSTART:20261025T003000"),
        swap(b"DTSTART:20261025T003000Z", b"DTSTART:20261325T003000Z"),
        swap(b"DTSTART:20261025T003000Z", b"DTSTART;TZID=Europe/Berlin:20261025T003000Z"),
        swap(b"TRIGGER:-PT20M", b"TRIGGER:-20M"),
        swap(b"TRIGGER:-PT20M", b"TRIGGER:-PT"),
        swap(b"TRIGGER:-PT20M\r\n", b""),
        swap(b"ACTION:DISPLAY", b"ACTION:AUDIO"),
        swap(b"\\;", b";"),
        swap(b"SUMMARY:", b"SUMMARY:x" + b"y" * 80),
        swap(b"UID:b@", b"UID:a@"),
        swap(b"DURATION:PT15M", b"DURATION:PT15M\r\nDURATION:PT15M"),
        swap(b"DURATION:PT15M", b"\r\nDURATION:PT15M"),
        swap(b"BEGIN:VCALENDAR\r\n", b" BEGIN:VCALENDAR\r\n"),
        swap(b"BEGIN:VCALENDAR\r\n", b""),
        swap(b"BEGIN:VEVENT", b"BEGIN:VTODO"),
    ],
)  # fmt: skip
def test_the_reader_refuses_what_the_standard_forbids(change: Callable[[bytes], bytes]) -> None:
    data = written(
        Event("a", "Hold; now", at(2026, 10, 25, 0, 30), "", Second(1200.0)),
        Event("b", "Turn", at(2026, 10, 25, 1, 30)),
    )
    rfc5545.read(data)
    with pytest.raises((NotValidError, ValueError)):
        rfc5545.read(change(data))


def test_lead_is_ten_minutes_unless_it_is_a_hazard() -> None:
    (event,) = events_in(written(Event("a", "x", at(2026, 5, 1, 12))))
    assert alarm_of(event) == datetime(2026, 5, 1, 12, tzinfo=UTC) - timedelta(seconds=LEAD)
