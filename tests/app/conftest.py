from threading import Event

import pytest

from shopassist.desktop import awake, sound
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
