"""Clocks of one's own in words: what each counts to, and how urgent it is."""

from shopassist.clock import Clock
from shopassist.core.wording import Wording
from shopassist.panes.cure.screen import OWN, Other
from shopassist.services.waits import WaitService

Urgency = tuple[int, float]


class OwnClocks:
    """Stands beside the cures in the same list."""

    def __init__(self, waits: WaitService, clock: Clock, wording: Wording) -> None:
        self._waits, self._clock, self._wording = waits, clock, wording

    def listed(self, now: float) -> list[tuple[Urgency, Other]]:
        """Each with its urgency, as the cures are ranked."""
        found = []
        for each in self._waits.running():
            gate = each.next(now)
            closing = each.closes is not None and gate == each.closes
            ahead = "before" if closing else "from"
            caption = f"{ahead} {self._wording.clock(gate, now, late=not closing)}"
            passed = gate <= now
            if passed:
                caption = f"{caption}: {'missed' if closing else 'reached'}"
            urgency = (2, -float(gate)) if passed else (0 if closing else 1, float(gate))
            found.append((urgency, Other(f"{OWN}{each.wait.id}", each.wait.what, caption)))
        return found

    def first(self) -> str:
        """The soonest, as its place in the list is called; empty without one."""
        running = self._waits.running()
        return f"{OWN}{running[0].wait.id}" if running else ""

    def digits(self, name: str) -> str:
        """The countdown of one; empty once it has ended."""
        now = self._clock.read().utc
        for each in self._waits.running():
            if f"{OWN}{each.wait.id}" == name:
                return self._wording.digits(max(0.0, each.next(now) - now))
        return ""

    def end(self, name: str) -> None:
        """It is done."""
        self._waits.end(name.removeprefix(OWN))
