"""What the window shows before the first minute is over."""

from pathlib import Path

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
