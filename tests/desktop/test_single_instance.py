"""One program per data folder, with real processes."""

import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import IO

import pytest
from PySide6.QtCore import QLockFile
from pytestqt.qtbot import QtBot

from shopassist.core.errors import StoreError
from shopassist.desktop import single_instance
from shopassist.desktop.single_instance import SingleInstance

ROOT = Path(single_instance.__file__).resolve().parents[2]

PROGRAM = """
import sys
from pathlib import Path
from PySide6.QtCore import QCoreApplication
from shopassist.desktop.single_instance import SingleInstance
app = QCoreApplication(sys.argv)
one = SingleInstance(Path(sys.argv[1]))
if not one.take():
    print("told" if one.told else "not told", flush=True)
    sys.exit()
one.listen()
one.called.connect(lambda _: print("called", flush=True))
print("took over" if one.took_over else "took", flush=True)
app.exec()
"""


@pytest.fixture
def launched() -> Iterator[list[subprocess.Popen[str]]]:
    processes: list[subprocess.Popen[str]] = []
    yield processes
    for process in processes:
        process.kill()
        process.communicate()


def launch(processes: list[subprocess.Popen[str]], folder: Path) -> subprocess.Popen[str]:
    process = subprocess.Popen(
        [sys.executable, "-c", PROGRAM, str(folder)], stdout=subprocess.PIPE, text=True,
        env={"PYTHONPATH": str(ROOT), "QT_QPA_PLATFORM": "offscreen"},
    )  # fmt: skip
    processes.append(process)
    return process


def line(process: subprocess.Popen[str]) -> str:
    out: IO[str] | None = process.stdout
    assert out is not None
    return out.readline().strip()


def test_x09_a_second_launch_calls_the_first_and_is_gone_within_a_second(
    tmp_path: Path, launched: list[subprocess.Popen[str]]
) -> None:
    first = launch(launched, tmp_path)
    assert line(first) == "took"
    second = launch(launched, tmp_path)
    assert line(second) == "told"
    told_at = time.perf_counter()
    assert second.wait(timeout=20) == 0
    assert time.perf_counter() - told_at < 1.0
    assert line(first) == "called"
    assert first.poll() is None


def test_a_folder_whose_holder_was_killed_is_taken_over(
    tmp_path: Path, launched: list[subprocess.Popen[str]]
) -> None:
    first = launch(launched, tmp_path)
    assert line(first) == "took"
    first.send_signal(signal.SIGKILL)
    first.wait()
    second = launch(launched, tmp_path)
    assert line(second) == "took over"
    third = launch(launched, tmp_path)
    assert line(third) == "told"
    assert line(second) == "called"


def test_two_folders_do_not_know_each_other(
    tmp_path: Path, launched: list[subprocess.Popen[str]]
) -> None:
    assert line(launch(launched, tmp_path / "a")) == "took"
    assert line(launch(launched, tmp_path / "b")) == "took"


def test_the_first_hears_the_second_and_the_folder_is_free_after_release(
    tmp_path: Path, qtbot: QtBot
) -> None:
    first, second = SingleInstance(tmp_path), SingleInstance(tmp_path)
    calls: list[None] = []
    first.called.connect(calls.append)
    assert first.take()
    assert not second.take()
    first.listen()
    assert not second.take() and second.told
    first.listen()
    qtbot.waitUntil(lambda: len(calls) == 1, timeout=30_000)
    first.release()
    assert second.take() and not second.took_over
    second.release()
    second.release()


def test_a_holder_that_does_not_listen_is_not_told_and_keeps_its_folder(
    tmp_path: Path, qtbot: QtBot
) -> None:
    silent = QLockFile(str(tmp_path / "in-use.lock"))
    assert silent.tryLock(0)
    begun = time.perf_counter()
    second = SingleInstance(tmp_path)
    assert not second.take()
    assert time.perf_counter() - begun < 1.0
    assert not second.told
    silent.unlock()


def test_a_folder_that_cannot_be_made_is_said(tmp_path: Path, qtbot: QtBot) -> None:
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(StoreError):
        SingleInstance(tmp_path / "file" / "data").take()


@pytest.mark.skipif(sys.platform != "linux", reason="takes a folder that nobody can write")
def test_a_folder_that_cannot_be_written_is_said(qtbot: QtBot) -> None:
    with pytest.raises(StoreError):
        SingleInstance(Path("/proc")).take()


def test_without_a_socket_the_lock_still_holds(
    tmp_path: Path, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(SingleInstance, "_name", property(lambda _: "no/such/folder/" + "x" * 200))
    first = SingleInstance(tmp_path)
    assert first.take()
    first.listen()
    second = SingleInstance(tmp_path)
    assert not second.take() and not second.told
    first.release()
