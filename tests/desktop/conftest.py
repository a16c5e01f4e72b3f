from tests.qt_hygiene import (
    loop_turns,
    no_job_left,
    no_timer_left_running,
    no_window_left,
)

__all__ = ["loop_turns", "no_job_left", "no_timer_left_running", "no_window_left"]
