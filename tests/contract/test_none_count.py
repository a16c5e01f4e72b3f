"""PySide6 6.12 on Python 3.11 drops a reference to None at every call that returns nothing."""

import os
import sys

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import pytest
from PySide6.QtCore import QObject
from PySide6.QtGui import QImage, QPainter, QPen

CALLS = 20_000
AT_ONCE = 100
SLACK = 400  # what else the interpreter may let go meanwhile


@pytest.mark.skipif(sys.version_info >= (3, 12), reason="None is immortal from Python 3.12 on")
def test_calls_that_return_nothing_do_not_use_none_up(qapp: object) -> None:
    image = QImage(8, 8, QImage.Format.Format_RGB32)
    painter, pen, thing = QPainter(image), QPen(), QObject()
    before = sys.getrefcount(None)
    fell = False
    for _ in range(CALLS // AT_ONCE):
        for _ in range(AT_ONCE // 2):
            painter.setPen(pen)
            thing.setObjectName("x")
        fell = sys.getrefcount(None) <= before - SLACK
        if fell:  # at zero the process would end instead of the test
            break
    painter.end()
    assert not fell
