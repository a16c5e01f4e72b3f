"""A clock that is moved by hand: for tests, the demo and ``--clock manual``."""

import math
from collections.abc import Callable, Iterable, Iterator

from shopassist.clock.zone import Zone, zone
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Reading

BEGIN = 1_790_000_000.0
"""21 September 2026, 14:13:20 UTC: where a new hand-moved clock stands."""
STRIDE = 30.0
"""``advance`` stops this often for the program to look, [s]: the beat of the heartbeat."""

Command = tuple[str, float]


class ManualClock:
    """Both clocks and the machine's boots, moved by hand."""

    def __init__(
        self, utc: float = BEGIN, offset: int | str = 0, boot: int = 1, since_boot: float = 600.0
    ) -> None:
        self.moved: Callable[[], None] | None = None
        """Called after every move, and every ``STRIDE`` within an ``advance``."""
        self._utc = utc
        self._since_boot = since_boot
        self._asleep = 0.0
        self._boot = boot
        self._zone: Zone = zone(offset)

    def read(self) -> Reading:
        """Look at both clocks."""
        return Reading(
            UtcSecond(self._utc),
            Second(self._since_boot),
            f"manual-{self._boot}",
            Second(self.offset_at(self._utc)),
            Second(self._asleep),
        )

    def offset_at(self, utc: float) -> int:
        """Local time less UTC at an instant, [s]."""
        return self._zone.offset_at(utc)

    def advance(self, seconds: float) -> None:
        """Let time go by with the machine awake."""
        left = seconds
        while left > 0:
            stride = min(left, STRIDE)
            self._go(stride)
            left -= stride
            self._tell()

    def suspend(self, seconds: float) -> None:
        """Let time go by with the machine asleep: nobody looks meanwhile."""
        self._asleep += seconds
        self._go(seconds)
        self._tell()

    def step(self, seconds: float) -> None:
        """Move the wall clock alone."""
        self._utc += seconds
        self._tell()

    def reboot(self, off_seconds: float) -> None:
        """Switch the machine off and on again; the start itself takes no time."""
        self._utc += off_seconds
        self._since_boot = self._asleep = 0.0
        self._boot += 1
        self._tell()

    def set_zone(self, spec: int | str) -> None:
        """Move to another offset, [s], or named zone."""
        self._zone = zone(spec)
        self._tell()

    def obey(self, command: Command) -> None:
        """Carry out one command of ``read_commands``."""
        act, seconds = command
        moves = {
            "advance": self.advance, "step": self.step, "suspend": self.suspend,
            "reboot": self.reboot,
        }  # fmt: skip
        moves[act](seconds)

    def _go(self, seconds: float) -> None:
        self._utc += seconds
        self._since_boot += seconds

    def _tell(self) -> None:
        if self.moved is not None:
            self.moved()


def read_commands(stream: Iterable[str]) -> Iterator[Command]:
    """Read lines ``advance 60``, ``step -3600``, ``suspend 900``, ``reboot 30``; [s].

    Empty lines are passed over; anything else that is not a command raises ``ValueError``.
    """
    for line in stream:
        if not line.strip():
            continue
        match line.split():
            case ["advance" | "step" | "suspend" | "reboot" as act, number]:
                seconds = float(number)
            case _:
                raise ValueError(f"not a command of the clock: {line.strip()!r}")
        if not math.isfinite(seconds) or (seconds < 0 and act != "step"):
            raise ValueError(f"time does not go by {number} s")
        yield act, seconds
