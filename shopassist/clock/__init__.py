"""Where the time comes from: one protocol, the system's clock and a hand-moved one."""

from typing import Protocol

from shopassist.core.rows import Reading


class Clock(Protocol):
    """The only source of time in the program."""

    def read(self) -> Reading:
        """Look at wall time and time since boot together."""
        ...

    def offset_at(self, utc: float) -> int:
        """Local time less UTC at another instant, [s]; follows daylight saving."""
        ...
