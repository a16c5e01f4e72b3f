"""Local time less UTC, for a fixed offset or a named zone."""

from datetime import UTC, datetime
from typing import Protocol

from shopassist.core.frozen import frozen


class Zone(Protocol):
    """Knows local time less UTC at any instant."""

    def offset_at(self, utc: float) -> int:
        """Local time less UTC, [s]."""
        ...


@frozen
class FixedZone:
    """The same offset all year."""

    offset: int

    def offset_at(self, utc: float) -> int:  # noqa: ARG002
        """Local time less UTC, [s]."""
        return self.offset


@frozen
class NamedZone:
    """A zone of the system's time zone data, with its summer time."""

    name: str

    def offset_at(self, utc: float) -> int:
        """Local time less UTC, [s]."""
        from zoneinfo import ZoneInfo  # most starts need no named zone

        local = datetime.fromtimestamp(utc, UTC).astimezone(ZoneInfo(self.name))
        offset = local.utcoffset()
        return int(offset.total_seconds()) if offset is not None else 0


def zone(spec: int | str) -> Zone:
    """Make a zone from an offset, [s], or from a name."""
    return FixedZone(spec) if isinstance(spec, int) else NamedZone(spec)
