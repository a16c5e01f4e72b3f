"""A probe inside against what the cabinet is set to: how long they have disagreed."""

from collections.abc import Iterable
from typing import Literal

from shopassist.core.frozen import frozen
from shopassist.core.quantities import Kelvin, KelvinDelta, Second, UtcSecond

ASTRAY = KelvinDelta(3.0)
"""So far a probe may be from the setting; common practice, no source."""
FOR = Second(900.0)
"""So long it may be further off before somebody is called; common practice, no source."""
WARMS = KelvinDelta(0.5)
"""What has risen by this within that time is still on its way up; ours."""
BACK = Second(3600.0)
"""Readings are looked at so far back from the newest; ours."""
HOLDS = Second(3 * 3600.0)
"""So long a reading says something about the cabinet; ours, as in the cure's own gap."""

Side = Literal["hot", "cold"]


@frozen
class Setting:
    """A cabinet and what its thermostat is set to."""

    id: str
    name: str
    set_at: Kelvin


@frozen
class Probe:
    """What a thermometer inside read; an interval begins earlier than it ends."""

    since: UtcSecond
    at: UtcSecond
    low: Kelvin
    high: Kelvin
    loaded: bool = True
    """Something cures in there: an empty cabinet may be cold."""

    @property
    def middle(self) -> Kelvin:
        """Half-way between the ends."""
        return Kelvin((self.low + self.high) / 2)

    def side(self, set_at: Kelvin) -> Side | None:
        """Which side of the setting all of it lies on, beyond what is allowed."""
        if self.low - set_at > ASTRAY:
            return "hot"
        return "cold" if self.loaded and set_at - self.high > ASTRAY else None


@frozen
class Astray:
    """The cabinet is not what it is set to, as far as anybody read."""

    side: Side
    since: UtcSecond
    last: Probe

    @property
    def begins(self) -> UtcSecond:
        """When somebody is called."""
        return UtcSecond(self.since + FOR)

    @property
    def ends(self) -> UtcSecond:
        """When the newest reading is too old to say anything."""
        return UtcSecond(self.last.at + HOLDS)


def astray(probes: Iterable[Probe], set_at: Kelvin) -> Astray | None:
    """How it stands by the newest reading and those that agree with it, back to the first."""
    newest_first = sorted(probes, key=lambda each: each.at, reverse=True)
    last = next(iter(newest_first), None)
    side = None if last is None else last.side(set_at)
    if last is None or side is None:
        return None
    since = last.since
    for each in newest_first:
        rises = side == "cold" and last.middle - each.middle >= WARMS
        if each.side(set_at) != side or rises or last.at - each.at > BACK:
            break
        since = min(since, each.since)
    return Astray(side, since, last)
