import pytest
from PySide6.QtWidgets import QApplication

from shopassist.store.resources import resource
from shopassist.widgets import fonts
from shopassist.widgets.look import Look
from shopassist.widgets.theme import Theme
from tests.qt_hygiene import (
    loop_turns,
    no_job_left,
    no_timer_left_running,
    no_window_left,
)

__all__ = ["loop_turns", "no_job_left", "no_timer_left_running", "no_window_left"]


@pytest.fixture
def look(qapp: QApplication) -> Look:
    """The light look on a laptop's screen of 1366 pixels."""
    made = Look(fonts.load(sorted(resource("fonts").glob("*.otf"))))
    made.set_pitch(1 / 0.253)
    Theme(qapp, made)
    return made
