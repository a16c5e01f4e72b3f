"""A strict reader of calendar files by RFC 5545, written from its grammar and nothing else.

It knows no more than the files of this program need, and refuses everything that it does not know.
The library that writes those files has no part in it.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

LINE = re.compile(
    r"([A-Z][A-Z0-9-]*)((?:;[A-Z0-9-]+=(?:\"[^\"\x00-\x1f]*\"|[^\";:,\x00-\x1f]+))*):(.*)"
)
DATE_TIME = re.compile(r"(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)Z")
DURATION = re.compile(
    r"([+-]?)P(?:(\d+)W|(?=[\dT])(?:(\d+)D)?(?:T(?=\d)(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?)?)"
)
TEXT = re.compile(r"(?:[^\\,;\x00-\x08\x0a-\x1f]|\\[\\,;nN])*")
ESCAPED = re.compile(r"\\([\\,;nN])")


class NotValidError(ValueError):
    """What the standard forbids."""


@dataclass
class Component:
    """A part of the file between its BEGIN and its END."""

    name: str
    values: dict[str, object] = field(default_factory=dict)
    inside: list["Component"] = field(default_factory=list)


def need(is_so: object, what: str) -> None:
    if not is_so:
        raise NotValidError(what)


def lines(data: bytes) -> list[str]:
    """Unfold; physical lines end in CRLF and hold 75 octets at most."""
    need(data.endswith(b"\r\n"), "the last line has no end")
    physical = data[:-2].split(b"\r\n")
    need(all(b"\r" not in each and b"\n" not in each for each in physical), "a bare CR or LF")
    need(all(len(each) <= 75 for each in physical), "a line of more than 75 octets")
    found: list[bytes] = []
    for each in physical:
        if each[:1] in (b" ", b"\t"):
            need(found, "a fold before the first line")
            found[-1] += each[1:]
        else:
            need(each, "an empty line")
            found.append(each)
    return [each.decode("utf-8") for each in found]


def text(value: str) -> str:
    need(TEXT.fullmatch(value), f"text that is not escaped: {value}")
    return ESCAPED.sub(lambda m: "\n" if m[1] in "nN" else m[1], value)


def instant(value: str) -> datetime:
    found = DATE_TIME.fullmatch(value)
    need(found, f"no UTC instant: {value}")
    assert found is not None
    return datetime(*map(int, found.groups()), tzinfo=UTC)  # type: ignore[misc, arg-type]


def duration(value: str) -> timedelta:
    found = DURATION.fullmatch(value)
    need(found and value[-1] not in "PT", f"no duration: {value}")
    assert found is not None
    weeks, days, hours, minutes, seconds = (int(each or 0) for each in found.groups()[1:])
    length = timedelta(weeks=weeks, days=days, hours=hours, minutes=minutes, seconds=seconds)
    return -length if found[1] == "-" else length


def word(*allowed: str) -> Callable[[str], str]:
    def read(value: str) -> str:
        need(value in allowed, f"{value} is none of {allowed}")
        return value

    return read


Reader = Callable[[str], object]
KNOWN: dict[str, dict[str, Reader]] = {
    "VCALENDAR": {"PRODID": text, "VERSION": word("2.0")},
    "VEVENT": {"UID": text, "DTSTAMP": instant, "DTSTART": instant, "DURATION": duration,
               "SUMMARY": text, "DESCRIPTION": text},
    "VALARM": {"ACTION": word("DISPLAY"), "DESCRIPTION": text, "TRIGGER": duration},
}  # fmt: skip
"""Properties, each at most once, and how their values read."""
NEEDED = {
    "VCALENDAR": {"PRODID", "VERSION"},
    "VEVENT": {"UID", "DTSTAMP", "DTSTART"},
    "VALARM": {"ACTION", "DESCRIPTION", "TRIGGER"},
}
STANDS_IN = {"VCALENDAR": "", "VEVENT": "VCALENDAR", "VALARM": "VEVENT"}


def _parts(data: bytes) -> Iterator[tuple[str, str]]:
    for each in lines(data):
        found = LINE.fullmatch(each)
        need(found, f"no content line: {each}")
        assert found is not None
        need(not found[2], f"a parameter that is not needed here: {each}")
        yield found[1], found[3]


def read(data: bytes) -> Component:
    """The calendar, or ``NotValidError``."""
    open_ones: list[Component] = []
    whole: Component | None = None
    for name, value in _parts(data):
        need(whole is None, "something after the calendar")
        if name == "BEGIN":
            _begin(open_ones, value)
        elif name == "END":
            need(open_ones and open_ones[-1].name == value, f"END:{value} closes nothing")
            done = open_ones.pop()
            missing = NEEDED[value] - set(done.values)
            need(not missing, f"{value} without {missing}")
            whole = done if not open_ones else None
        else:
            need(open_ones, f"{name} outside of the calendar")
            _property(open_ones[-1], name, value)
    need(whole, "no whole calendar")
    assert whole is not None
    uids = [each.values["UID"] for each in whole.inside]
    need(len(uids) == len(set(uids)), "two events of one UID")
    return whole


def _begin(open_ones: list[Component], name: str) -> None:
    need(name in STANDS_IN, f"an unknown component {name}")
    outer = open_ones[-1].name if open_ones else ""
    need(STANDS_IN[name] == outer, f"{name} inside of {outer or 'nothing'}")
    made = Component(name)
    if open_ones:
        open_ones[-1].inside.append(made)
    open_ones.append(made)


def _property(of: Component, name: str, value: str) -> None:
    need(not of.inside or of.name == "VEVENT", f"{name} after a component")
    need(name in KNOWN[of.name], f"{name} in {of.name}")
    need(name not in of.values, f"{name} twice")
    of.values[name] = KNOWN[of.name][name](value)
