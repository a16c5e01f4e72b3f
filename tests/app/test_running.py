"""From the command line to the event loop and back, in this process."""

import logging
import os
import sys
from collections.abc import Callable, Iterator
from io import TextIOWrapper
from pathlib import Path
from types import SimpleNamespace
from typing import cast

import pytest
from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QApplication, QLabel, QPlainTextEdit, QPushButton, QWidget

from shopassist import __main__
from shopassist.app.arguments import Arguments
from shopassist.app.foundation import folders
from shopassist.app.joined import Joined
from shopassist.app.running import CANNOT, IN_USE, _hear, run
from shopassist.desktop.single_instance import SingleInstance
from shopassist.shell.main_window import MainWindow
from shopassist.widgets.next_line import NextLine
from shopassist.widgets.ticker import Ticker
from tests.qt_hygiene import end_in_order


def top(name: str) -> QWidget:
    """Find a window by its name."""
    found = [w for w in QApplication.topLevelWidgets() if w.objectName() == name and w.isVisible()]
    assert found, f"there is no window {name}"
    return found[0]


def main_window() -> MainWindow:
    found = top("window")
    assert isinstance(found, MainWindow)
    return found


class Later(QObject):
    """Calls back when the event loop turns."""

    now = Signal()


def while_running(*acts: Callable[[], object]) -> list[BaseException]:
    """Do these things once the event loop turns, then close every window."""
    troubles: list[BaseException] = []

    def go() -> None:
        try:
            for act in acts:
                act()
                QApplication.processEvents()
        except (AssertionError, LookupError) as error:
            troubles.append(error)
        finally:
            for window in QApplication.topLevelWidgets():
                window.close()
            QApplication.quit()

    later = Later(QApplication.instance())
    later.now.connect(go, Qt.ConnectionType.QueuedConnection)
    later.now.emit()
    return troubles


def swept() -> None:
    """Take away what a finished run left of its windows, and of its words to leave.

    A second word to leave (the last window closed, then ``quit``) is taken up after the run is
    over; from then on no loop of a later test would turn, until one more run has ended in order.
    """
    for window in QApplication.topLevelWidgets():
        window.close()
        window.deleteLater()
    QApplication.processEvents()
    end_in_order()


@pytest.fixture
def typed(monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[[str], object]]:
    """Standard input of the program, written to by the test."""
    read, write = os.pipe()
    with os.fdopen(read) as stdin:
        monkeypatch.setattr(sys, "stdin", stdin)
        hand: TextIOWrapper = os.fdopen(write, "w")

        def put(line: str) -> None:
            hand.write(line + "\n")
            hand.flush()

        yield put
        if not hand.closed:
            hand.close()


@pytest.fixture(autouse=True)
def _left_clean(qapp: QApplication) -> Iterator[None]:
    yield
    swept()


def test_a_run_ends_in_order_and_says_so(tmp_path: Path) -> None:
    seen: list[str] = []
    troubles = while_running(lambda: seen.append(main_window().windowTitle()))
    assert run(Arguments(tmp_path, demo=False, manual=False)) == 0
    assert not troubles
    assert seen == ["Shopassist"]
    again = SingleInstance(tmp_path)
    assert again.take()
    assert not again.took_over
    again.release()


def test_the_first_window_is_as_large_as_the_screen_and_later_ones_as_they_were_left(
    tmp_path: Path,
) -> None:
    large: list[bool] = []

    def look() -> None:
        large.append(main_window().isMaximized())
        main_window().showNormal()
        main_window().resize(900, 600)

    for _ in range(2):
        troubles = while_running(look)
        assert run(Arguments(tmp_path, demo=False, manual=False)) == 0
        assert not troubles
        swept()
    assert large == [True, False]


def test_the_command_line_leads_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "argv", ["shopassist", "--data-dir", str(tmp_path)])
    troubles = while_running(main_window)
    assert __main__.main() == 0
    assert not troubles


def test_a_second_launch_says_in_use_and_calls_the_first_forward(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    calls: list[None] = []
    holder = SingleInstance(tmp_path)
    holder.called.connect(calls.append)
    assert holder.take()
    holder.listen()
    with caplog.at_level(logging.WARNING, "shopassist"):
        assert run(Arguments(tmp_path, demo=False, manual=False)) == IN_USE
    QApplication.processEvents()
    holder.release()
    assert calls == [None]
    assert "called forward" in caplog.text


def test_a_launch_beside_it_brings_the_minimised_window_back(tmp_path: Path) -> None:
    states: list[bool] = []

    def second() -> None:
        window, other = main_window(), SingleInstance(tmp_path)
        while not other.told:  # it listens a moment after its first paint
            QApplication.processEvents()
            assert not other.take()
        QApplication.processEvents()
        window.showMinimized()
        states.append(window.isMinimized())
        assert run(Arguments(tmp_path, demo=False, manual=False)) == IN_USE
        QApplication.processEvents()
        states.append(window.isMinimized())

    troubles = while_running(second)
    assert run(Arguments(tmp_path, demo=False, manual=False)) == 0
    assert not troubles
    assert states == [True, False]


def test_a_window_that_nothing_paints_hears_later_launches_too(qapp: QApplication) -> None:
    ticker, unseen, heard = Ticker(lambda: 0.0), Later(), list[str]()
    joined = SimpleNamespace(ticker=ticker, window=SimpleNamespace(first_painted=unseen.now))
    only = SimpleNamespace(listen=lambda: heard.append("listens"))
    _hear(cast(Joined, joined), cast(SingleInstance, only))
    assert not heard
    ticker.call_all()
    assert heard == ["listens"]
    assert not ticker.is_running


def test_later_launches_are_heard_after_the_first_paint_not_within_it(qapp: QApplication) -> None:
    ticker, painted, heard = Ticker(lambda: 0.0), Later(), list[str]()
    joined = SimpleNamespace(ticker=ticker, window=SimpleNamespace(first_painted=painted.now))
    only = SimpleNamespace(listen=lambda: heard.append("listens"))
    _hear(cast(Joined, joined), cast(SingleInstance, only))
    painted.now.emit()
    assert not heard
    ticker.call_all()
    assert heard == ["listens"]
    assert not ticker.is_running


def test_a_foreign_file_is_told_in_a_window_and_left_as_it_is(tmp_path: Path) -> None:
    journal = folders(Arguments(tmp_path, demo=False, manual=False)).journal
    journal.parent.mkdir(parents=True, exist_ok=True)
    journal.write_text("a letter, not a log", "utf-8")
    words: list[str] = []

    def look() -> None:
        window = top("cannot_open")
        words.extend(label.text() for label in window.findChildren(QLabel))
        window.findChildren(QPushButton)[0].click()

    troubles = while_running(look)
    assert run(Arguments(tmp_path, demo=False, manual=False)) == CANNOT
    assert not troubles
    assert words[-1] == "Nothing was changed."
    assert journal.read_text("utf-8") == "a letter, not a log"


def test_lines_on_standard_input_move_the_clock(
    tmp_path: Path, typed: Callable[[str], object]
) -> None:
    corners: list[str] = []

    def corner() -> None:
        corners.append(main_window().clock.text())

    troubles = while_running(corner, lambda: typed("advance 3600"), corner)
    assert run(Arguments(tmp_path, demo=False, manual=True)) == 0
    assert not troubles
    assert corners[0] != corners[1]


def test_a_mistake_in_the_program_is_told_with_its_trace_and_stops_nothing(
    tmp_path: Path, typed: Callable[[str], object], caplog: pytest.LogCaptureFixture
) -> None:
    words: list[str] = []

    def look() -> None:
        traces = top("trouble").findChildren(QPlainTextEdit)
        words.append(traces[0].toPlainText())
        assert main_window().findChild(NextLine, "next_line") is not None

    before = sys.excepthook
    troubles = while_running(lambda: typed("fly 12"), look)
    with caplog.at_level(logging.ERROR, "shopassist"):
        assert run(Arguments(tmp_path, demo=False, manual=True)) == 0
    assert not troubles
    assert "not a command of the clock" in words[0]
    assert "not a command of the clock" in caplog.text
    assert sys.excepthook is before
