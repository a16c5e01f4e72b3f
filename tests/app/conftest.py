"""A person at the window, in an empty folder or in the invented shop; no noise."""

from collections.abc import Iterator
from pathlib import Path
from threading import Event

import pytest
from PySide6.QtWidgets import QApplication

from shopassist.app.arguments import arguments
from shopassist.app.demo import fill_demo
from shopassist.app.foundation import folders
from shopassist.clock.manual import ManualClock
from shopassist.desktop import awake, sound
from tests.app.driver import Person
from tests.qt_hygiene import no_job_left, no_timer_left_running, no_window_left

__all__ = ["no_job_left", "no_timer_left_running", "no_window_left"]


class Silent:
    """A loudspeaker that works and is not heard in the office."""

    def play(self, samples: bytes, stopped: Event) -> None:
        del samples, stopped


@pytest.fixture(autouse=True)
def no_noise(monkeypatch: pytest.MonkeyPatch) -> None:
    """Tests make no noise and leave the machine its sleep."""
    monkeypatch.setattr(sound, "Speaker", Silent)
    monkeypatch.setattr(awake, "for_this_system", lambda: None)


@pytest.fixture
def shopkeeper(tmp_path: Path, qapp: QApplication) -> Iterator[Person]:
    """In the invented shop, a pot under pressure beside them."""
    clock = ManualClock(1_780_000_000.0, 3600, since_boot=10 * 86400.0)
    asked = arguments(["--data-dir", str(tmp_path), "--clock", "manual"])
    fill_demo(folders(asked), clock, manual=True)
    made = Person(tmp_path, clock)
    made.press("limits.read")
    yield made
    made.close()
