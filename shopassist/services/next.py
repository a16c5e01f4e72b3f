"""What comes next: the most urgent dated event of everything that runs."""

from collections.abc import Callable, Iterable
from enum import IntEnum
from typing import Literal

from shopassist.core.alarms.table import Kind
from shopassist.core.frozen import frozen
from shopassist.core.messages import Text
from shopassist.core.quantities import UtcSecond

PaneName = Literal["mix", "cure", "pot", "stabilise", "plan", "turn"]


class Rank(IntEnum):
    """How much it costs to miss the event; lower comes first."""

    URGENT = 0
    """A hazard whose gate has come within reach."""
    HAZARD = 1
    RELEASE = 2
    LATER = 3


@frozen
class Due:
    """A dated event."""

    event: Text
    """For instance *Pressurise by {gate}*."""
    gate: UtcSecond | None
    range: Text | None
    rank: Rank
    pane: PaneName
    subject: str
    """Name of the batch or the pot."""
    owner: str
    """Id of the batch or the pot."""
    alarm: Kind = "wait_over"
    """Which alarm it is once its gate is behind."""


def soonest(dues: Iterable[Due], now: float, reach: float = 3600.0) -> Due | None:
    """The highest rank first, then the soonest; a hazard within reach (ours: an hour) is urgent."""

    def order(due: Due) -> tuple[int, float]:
        gate = float("inf") if due.gate is None else due.gate
        urgent = due.rank is Rank.HAZARD and gate - now < reach
        return (Rank.URGENT if urgent else due.rank, gate)

    return min(dues, key=order, default=None)


class NextService:
    """Gathers what the other services have coming."""

    def __init__(self, *sources: Callable[[], Iterable[Due]]) -> None:
        self._sources = sources

    def due(self, now: float) -> Due | None:
        """The one event that the next line shows."""
        return soonest((due for source in self._sources for due in source()), now)
