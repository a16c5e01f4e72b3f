"""What the window shows before the first minute is over."""

from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from shopassist import app
from tests.app.driver import Person
from tests.app.test_alarms import Shop


def test_a_start_shows_the_running_cure_in_its_card_at_once(tmp_path: Path, qapp: object) -> None:
    first = Shop(tmp_path)
    first.mixed()
    first.close()
    again = Person(tmp_path, first.clock)
    shown = again.program.window.cards["cure"].shown
    assert shown.right == "Knobs 12"
    assert ":" in shown.value
    again.close()


def test_a_window_that_nothing_paints_has_its_alarms_all_the_same(
    tmp_path: Path, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It may start minimised, or on a desktop that is not in sight."""
    monkeypatch.setattr("shopassist.app.late.UNSEEN", 0.05)
    made = app.build(["--data-dir", str(tmp_path)])
    qtbot.waitUntil(lambda: made.late.desk is not None, timeout=30_000)
    desk = made.late.desk
    made.window.show()
    qtbot.waitUntil(lambda: made.window._painted, timeout=30_000)
    assert made.late.desk is desk
    made.close()
    made.window.close()
    made.window.deleteLater()
    made.theme.deleteLater()
