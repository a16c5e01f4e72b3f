"""Drawing wakes no other threads: what is filled is small, and a busy machine keeps one waiting."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

DRAW = """
import os, sys
from shopassist.app import application
app = application()
if sys.argv[1] == "usual":
    del os.environ["QT_NO_GUI_THREADPOOL"]
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QBrush, QColor, QImage, QPainter, QPixmap, QPolygonF
tile = QPixmap(10, 10)
tile.fill(QColor("tan"))
image = QImage(500, 400, QImage.Format.Format_RGB32)
before = len(os.listdir("/proc/self/task"))
painter = QPainter(image)
painter.setBrush(QBrush(tile))
painter.drawPolygon(QPolygonF([QPointF(5, 5), QPointF(490, 40), QPointF(250, 390)]))
painter.end()
print(len(os.listdir("/proc/self/task")) - before)
"""


def threads(how: str) -> int:
    """Threads that one drawing brings along."""
    root = Path(__file__).parents[2]
    more = {"PYTHONPATH": str(root), "QT_QPA_PLATFORM": "offscreen"}
    done = subprocess.run(
        [sys.executable, "-c", DRAW, how], env=os.environ | more, check=True,
        capture_output=True, text=True,
    )  # fmt: skip
    return int(done.stdout)


@pytest.mark.skipif(sys.platform != "linux", reason="counts the threads as Linux lists them")
def test_drawing_keeps_to_its_own_thread() -> None:
    assert threads("ours") == 0
    if (os.cpu_count() or 1) > 1:
        assert threads("usual") > 0  # or the program would not have to ask for it
