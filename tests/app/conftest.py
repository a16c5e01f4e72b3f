from tests.qt_hygiene import no_job_left, no_timer_left_running, no_window_left

__all__ = ["no_job_left", "no_timer_left_running", "no_window_left"]
