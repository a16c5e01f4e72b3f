"""Fixtures for every Qt test: nothing may be left behind.

A ``conftest.py`` of a Qt folder imports them by name; the platform is settled on import, that is
before pytest-qt makes the application.
"""

import gc
import os
from collections.abc import Iterator

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import pytest
import shiboken6
from PySide6.QtCore import QCoreApplication, QEvent, QEventLoop, QThreadPool, QTimer
from PySide6.QtWidgets import QApplication, QWidget

JOB_PATIENCE_MS = 2_000


@pytest.fixture(autouse=True)
def no_timer_left_running(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    started: list[QTimer] = []
    real = QTimer.start

    def spy(self: QTimer, *args: int) -> None:
        started.append(self)
        real(self, *args)

    monkeypatch.setattr(QTimer, "start", spy)
    yield
    _settle()
    left = [timer for timer in started if shiboken6.isValid(timer) and timer.isActive()]
    names = [f"{timer.objectName() or 'timer'} ({timer.interval()} ms)" for timer in left]
    for timer in left:
        timer.stop()
    assert not left, f"timers left running: {names}"


@pytest.fixture(autouse=True)
def no_window_left(request: pytest.FixtureRequest) -> Iterator[None]:
    before = set(map(id, _windows()))
    yield
    _settle()
    left = [window for window in _windows() if id(window) not in before]
    names = [f"{type(window).__name__} {window.objectName()!r}" for window in left]
    for window in left:
        window.close()
        window.deleteLater()
    assert not left, f"top-level widgets left: {names}"


@pytest.fixture(autouse=True)
def loop_turns() -> Iterator[None]:
    """An application told to leave outside its own loop lets no later loop turn."""
    yield
    if QCoreApplication.instance() is None:
        return
    loop = QEventLoop()
    QTimer.singleShot(0, loop.quit)
    turned = loop.exec() == 0
    if not turned:
        end_in_order()
    assert turned, "the event loop was left told to leave and turns no more"


@pytest.fixture(autouse=True)
def no_job_left() -> Iterator[None]:
    yield
    pool = QThreadPool.globalInstance()
    assert pool.waitForDone(JOB_PATIENCE_MS), "jobs of the thread pool were left running"


def end_in_order() -> None:
    """Begin and end the application's own loop: later loops turn again."""
    QTimer.singleShot(0, QCoreApplication.quit)
    QCoreApplication.exec()


def _windows() -> list[QWidget]:
    if QApplication.instance() is None:
        return []
    return [
        w for w in QApplication.topLevelWidgets() if shiboken6.isValid(w) and w.parent() is None
    ]


def _settle() -> None:
    """Let deferred deletions happen, so that only what is truly left counts."""
    if QCoreApplication.instance() is None:
        return
    gc.collect()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
