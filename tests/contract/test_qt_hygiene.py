"""The fixtures of ``tests/qt_hygiene.py`` do fail a test that leaves something behind."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
HEAD = """
from PySide6.QtCore import QCoreApplication, QRunnable, QThreadPool, QTimer
from PySide6.QtWidgets import QLabel
from tests.qt_hygiene import (
    loop_turns,
    no_job_left,
    no_timer_left_running,
    no_window_left,
)
KEPT = []
"""

LEAKS = {
    "timer": "timer = QTimer(); timer.start(60_000); KEPT.append(timer)",
    "window": "label = QLabel('left'); label.show(); KEPT.append(label)",
    "job": "import threading; QThreadPool.globalInstance().start(lambda: threading.Event().wait(3))",
    "leaving": "QCoreApplication.exit(0)",
}
TIDY = {
    "timer": "timer = QTimer(); timer.start(60_000); timer.stop(); KEPT.append(timer)",
    "window": "label = QLabel('shut'); qtbot.addWidget(label); label.show()",
    "job": "QThreadPool.globalInstance().start(lambda: None)",
    "leaving": "QTimer.singleShot(0, QCoreApplication.quit); QCoreApplication.exec()",
}


def run_one(folder: Path, body: str) -> subprocess.CompletedProcess[str]:
    case = folder / "test_case.py"
    case.write_text(f"{HEAD}\ndef test_case(qtbot):\n    {body}\n", "utf-8")
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:randomly", "-p", "no:cacheprovider"]
    command += ["-c", str(ROOT / "pyproject.toml"), "--rootdir", str(ROOT), "-x", str(case)]
    return subprocess.run(
        command,
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
    )


@pytest.mark.parametrize("leak", sorted(LEAKS))
def test_a_leak_fails_its_test(leak: str, tmp_path: Path) -> None:
    outcome = run_one(tmp_path, LEAKS[leak])
    assert outcome.returncode == 1, outcome.stdout
    assert "left" in outcome.stdout


@pytest.mark.parametrize("thing", sorted(TIDY))
def test_a_tidy_test_passes(thing: str, tmp_path: Path) -> None:
    outcome = run_one(tmp_path, TIDY[thing])
    assert outcome.returncode == 0, outcome.stdout
