"""The one timer of the program: several rates, on the second, still when nobody listens."""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import count
from math import ceil

from PySide6.QtCore import QElapsedTimer, QObject, Qt, QTimer

AHEAD_S = 0.002
"""This much too early counts as on time: a timer may fire a little before its hour."""


@dataclass(slots=True)
class _Listener:
    seconds: float
    callback: Callable[[], None]
    due: float
    """On the stopwatch, [s]."""


class Ticker(QObject):
    """Calls back at several rates with a single timer.

    Calls fall on multiples of their rate in wall time, so that all seconds change together. They
    only say that it is time to look: what time it is, every listener asks the clock itself.
    """

    def __init__(
        self,
        now: Callable[[], float],
        parent: QObject | None = None,
        stopwatch: Callable[[], float] | None = None,
    ) -> None:
        super().__init__(parent)
        self._now = now
        self._stopwatch = stopwatch or _stopwatch()
        self._listeners: dict[int, _Listener] = {}
        self._numbers = count()
        self._timer = QTimer(self)
        self._timer.setObjectName("ticker")
        self._timer.setSingleShot(True)
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self.beat)

    def every(self, seconds: float, callback: Callable[[], None]) -> Callable[[], None]:
        """Call back at a rate until the returned function is called."""
        if not seconds > 0:
            raise ValueError(f"not a rate: {seconds}")
        number = next(self._numbers)
        due = self._stopwatch() + self._left(seconds)
        self._listeners[number] = _Listener(seconds, callback, due)
        self._arm()

        def stop() -> None:
            if self._listeners.pop(number, None) is not None:
                self._arm()

        return stop

    @property
    def is_running(self) -> bool:
        """Whether anybody listens."""
        return self._timer.isActive()

    def beat(self) -> None:
        """Call whoever is due."""
        self._call(self._stopwatch() + AHEAD_S)

    def call_all(self) -> None:
        """Call everybody: the clock was moved by hand, or the machine has slept."""
        self._call(float("inf"))

    def _call(self, until: float) -> None:
        try:
            for number in list(self._listeners):
                listener = self._listeners.get(number)
                if listener is not None and listener.due <= until:
                    listener.due = self._next(listener.seconds)
                    listener.callback()
        finally:
            self._arm()

    def _left(self, seconds: float) -> float:
        """Time to the next multiple of a rate."""
        return seconds - (self._now() + AHEAD_S) % seconds

    def _next(self, seconds: float) -> float:
        """When to call again; a clock that stands still must not make it hurry."""
        step = self._left(seconds)
        return self._stopwatch() + (step if step >= seconds / 2 else step + seconds)

    def _arm(self) -> None:
        """Sleep until the first one is due; not at all when nobody listens."""
        if not self._listeners:
            self._timer.stop()
            return
        first = min(listener.due for listener in self._listeners.values())
        self._timer.start(ceil(max(first - self._stopwatch(), 0.0) * 1000))


def _stopwatch() -> Callable[[], float]:
    """Seconds that only ever go forward."""
    timer = QElapsedTimer()
    timer.start()
    return lambda: timer.nsecsElapsed() / 1e9
