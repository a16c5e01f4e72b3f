"""The means to alarm: the log, the disk, the sound, the power. Losing one is itself an alarm."""

from collections.abc import Callable, Iterator
from typing import Protocol

from shopassist.clock import Clock
from shopassist.core.alarms import causes
from shopassist.core.alarms.causes import Cause, Whose
from shopassist.core.alarms.table import Kind
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.quantities import UtcSecond
from shopassist.services.session import Session

LEAST_FREE = 200_000_000
"""Less free on the disk is told, [bytes]; ours."""
LOW, OUT = 0.2, 0.1
"""Charge of the battery at which the person is called; ours."""
MACHINE = Whose("", "This machine", "cure")


@frozen
class Battery:
    """What the machine says about its power."""

    charge: float
    """0 to 1."""
    plugged: bool


class Machine(Protocol):
    """What is asked of the machine; ``desktop`` answers."""

    def free_bytes(self) -> int | None:
        """Room left where the log is; None where it cannot be read."""
        ...

    def battery(self) -> Battery | None:
        """The battery; None where there is none or it cannot be read."""
        ...

    def sound_trouble(self) -> Text | None:
        """Why nothing can be heard; None while sound works or was not tried."""
        ...

    def awake_trouble(self) -> Text | None:
        """Why the machine may fall asleep in a window in which it should not."""
        ...


class Means:
    """Watches over what alarms depend on."""

    def __init__(
        self,
        session: Session,
        clock: Clock,
        machine: Machine,
        busy: Callable[[], bool],
    ) -> None:
        self._session, self._clock, self._machine, self._busy = session, clock, machine, busy
        self._since: dict[Kind, UtcSecond] = {}
        self._broken: Text | None = None
        self._lost = False

    def log_failed(self, _: object = None) -> None:
        """A row could not be written."""
        self._lost = True

    def log_broken(self, what: Text) -> None:
        """The log was found to be changed or damaged."""
        self._broken = what

    def causes(self, _: frozenset[str] = frozenset()) -> Iterator[Cause]:
        """What is lost now."""
        for kind, lost, detail in self._findings():
            if not lost:
                self._since.pop(kind, None)
                continue
            since = self._since.setdefault(kind, self._clock.read().utc)
            yield causes.so(MACHINE, kind, since, detail)

    def _findings(self) -> Iterator[tuple[Kind, bool, Text | None]]:
        yield "log_lost", self._log_lost(), None
        yield "log_broken", self._broken is not None, self._broken
        busy = self._busy()
        free = self._machine.free_bytes() if busy else None
        shown = say("{room} MB", room=LEAST_FREE // 1_000_000)
        yield "disk_low", free is not None and free < LEAST_FREE, shown
        yield from self._power(busy)
        sound = self._machine.sound_trouble() if busy else None
        yield "no_sound", sound is not None, sound
        awake = self._machine.awake_trouble()
        yield "may_sleep", awake is not None, awake

    def _log_lost(self) -> bool:
        """Tried again by the heartbeat, as long as it is lost."""
        if self._lost or not self._session.well:
            self._session.beat()
            self._lost = not self._session.well
        return self._lost

    def _power(self, busy: bool) -> Iterator[tuple[Kind, bool, Text | None]]:  # noqa: FBT001
        battery = self._machine.battery() if busy else None
        drains = battery is not None and not battery.plugged
        charge = battery.charge if battery is not None else 1.0
        shown = say("{charge}", charge=Amount(charge, "Ratio", 0, "%"))
        yield "battery_out", drains and charge < OUT, shown
        yield "battery_low", drains and OUT <= charge < LOW, shown


class NoMachine:
    """Where nothing is known of the machine: in tests, in the demo's story."""

    def free_bytes(self) -> int | None:
        """Not known."""
        return None

    def battery(self) -> Battery | None:
        """Not known."""
        return None

    def sound_trouble(self) -> Text | None:
        """Not tried."""
        return None

    def awake_trouble(self) -> Text | None:
        """Not tried."""
        return None
