"""Coming events as a calendar file (RFC 5545), written by a kept library."""

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta

from shopassist.core.quantities import Second, UtcSecond
from shopassist.services.coming import Event

LASTS = Second(900.0)
"""Length of an event that has none; ours."""


def calendar_bytes(events: Sequence[Event], now: UtcSecond) -> bytes:
    """The calendar file, each event with its alarm."""
    from icalendar import Alarm, Calendar
    from icalendar import Event as Entry

    book = Calendar()
    book.add("prodid", "-//Shopassist//batch//EN")
    book.add("version", "2.0")
    for each in events:
        entry = Entry()
        entry.add("uid", f"{each.key}@shopassist.invalid")
        entry.add("dtstamp", _moment(now))
        entry.add("dtstart", _moment(each.at))
        entry.add("duration", timedelta(seconds=LASTS))
        entry.add("summary", each.title)
        if each.words:
            entry.add("description", each.words)
        alarm = Alarm()
        alarm.add("action", "DISPLAY")
        alarm.add("description", each.title)
        alarm.add("trigger", timedelta(seconds=-each.lead))
        entry.add_component(alarm)
        book.add_component(entry)
    return bytes(book.to_ical())


def _moment(at: UtcSecond) -> datetime:
    return datetime.fromtimestamp(round(at), UTC)
