"""PySide6 6.12 on Python 3.11 drops a reference to None at every call that returns nothing."""

import os
import sys

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import pytest
from PySide6.QtCore import QObject
from PySide6.QtGui import QImage, QPainter, QPen

CALLS = 20_000
SLACK = 1_000


@pytest.mark.skipif(sys.version_info >= (3, 12), reason="None is immortal from Python 3.12 on")
def test_calls_that_return_nothing_do_not_use_none_up(qapp: object) -> None:
    image = QImage(8, 8, QImage.Format.Format_RGB32)
    painter, pen, thing = QPainter(image), QPen(), QObject()
    before = sys.getrefcount(None)
    for _ in range(CALLS // 2):
        painter.setPen(pen)
        thing.setObjectName("x")
    after = sys.getrefcount(None)
    painter.end()
    assert after > before - SLACK
