from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from shopassist.widgets import fonts
from shopassist.widgets.look import Look
from tests.qt_hygiene import (
    loop_turns,
    no_job_left,
    no_timer_left_running,
    no_window_left,
)

__all__ = ["loop_turns", "no_job_left", "no_timer_left_running", "no_window_left"]

FONTS = Path(__file__).parents[2] / "resources" / "fonts"


class HandTicks:
    """A ticker moved by hand."""

    def __init__(self) -> None:
        self.now = 0.0
        self.listeners: list[tuple[float, Callable[[], None]]] = []

    def every(self, seconds: float, callback: Callable[[], None]) -> Callable[[], None]:
        entry = (seconds, callback)
        self.listeners.append(entry)

        def stop() -> None:
            if entry in self.listeners:
                self.listeners.remove(entry)

        return stop

    def advance(self, seconds: float, step: float = 1 / 30) -> None:
        end = self.now + seconds
        while self.now < end - 1e-9:
            self.now = min(self.now + step, end)
            for _, callback in tuple(self.listeners):
                callback()


@pytest.fixture
def ticks() -> HandTicks:
    return HandTicks()


@pytest.fixture
def look(qapp: QApplication) -> Look:
    """The look with the family that is shipped."""
    return Look(fonts.load(sorted(FONTS.glob("*.otf"))))
