"""A whole batch through the real window, by keyboard alone, killed and put to sleep on the way."""

import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QApplication

from shopassist.core.pot.words import Belief
from shopassist.store.resources import resource
from tests.app.driver import Person
from tests.app.pot_walker import PotWalker

HOUR = 3600.0


class Bench:
    """The person and whatever program is running just now."""

    def __init__(self, folder: Path) -> None:
        self.person = Person(folder)

    def kill(self) -> None:
        """kill −9, then start it again on the same folder."""
        clock, folder = self.person.clock, self.person.folder
        self.person.kill()
        self.person = Person(folder, clock)


@pytest.fixture
def bench(tmp_path: Path, qapp: QApplication) -> Iterator[Bench]:
    made = Bench(tmp_path)
    yield made
    made.person.close()


def record(person: Person, kind: str, name: str) -> None:
    """Read one of the demo's records from its file in the Records pane."""
    path = resource("demo", "sheets" if kind == "resin" else "pots", f"{name}.toml")
    assert tomllib.loads(path.read_text("utf-8"))
    number = 0 if kind == "resin" else 1
    action = person.program.window.findChild(QAction, f"records.open.{number}")
    assert action is not None
    action.trigger()
    person.look()
    person.tab_to("records.import", most=150)
    person.keys(str(path))
    person.enter()
    person.tab_to("records.save", most=150)
    person.key(Qt.Key.Key_Space)


def pane(person: Person, name: str) -> None:
    """Bring a pane into hand by its key of the View menu."""
    action = person.program.window.findChild(QAction, f"view.{name}")
    assert action is not None
    person.sequence(action.shortcut().toString())


def weigh_out(person: Person) -> None:
    """From an empty Mix pane to hardener in the cup."""
    pane(person, "mix")
    person.tab_to("mix.sheet")
    person.key(Qt.Key.Key_Down)
    person.tab_to("mix.amount")
    person.keys("200 g")
    person.enter()
    person.tab_to("mix.cup.1.actual_a")
    person.keys("166.2")
    person.enter()
    person.tab_to("mix.cup.1.actual_b")
    person.keys("216.0")
    person.enter()
    person.press("mix.hardener_in")


def test_a_whole_batch_by_keyboard_with_a_kill_and_a_sleep(bench: Bench) -> None:
    person = bench.person
    person.press("limits.read")
    record(person, "resin", "slow-clear")
    record(person, "pot", "big-pot")
    weigh_out(person)
    batch = person.program.services.hand.batch
    contact = person.program.services.batches.get(batch).first_contact
    assert contact is not None
    assert contact == pytest.approx(float(person.clock.read().utc))
    cups = person.program.services.batches.get(batch).cups

    # Killed the moment the hardener is in: nothing acknowledged is lost, the clock goes on.
    bench.kill()
    person = bench.person
    person.clock.advance(20 * 60.0)
    person.program.ticker.call_all()
    assert person.program.services.batches.get(batch).cups == cups
    view = person.program.services.cure.view(batch)
    assert view is not None
    assert view.elapsed.likely == pytest.approx(20 * 60.0, abs=1.0)
    pane(person, "mix")
    person.press("mix.poured")

    walker = PotWalker(person)
    walker.go()
    walker.until(Belief.PRESSURISED)
    assert person.program.window.pot_line.shown.word == "PRESSURISED"
    assert person.program.services.batches.get(batch).at_pressure is not None

    # The laptop sleeps for the night with the pot at pressure; then the battery is empty.
    person.clock.suspend(11 * HOUR)
    person.program.ticker.call_all()
    held = person.program.services.cure.view(batch)
    assert held is not None
    bench.kill()
    person = bench.person
    again = person.program.services.cure.view(batch)
    assert again is not None
    assert again.elapsed.likely == pytest.approx(held.elapsed.likely, abs=1.0)
    assert again.elapsed.likely == pytest.approx(float(person.clock.read().utc) - contact, abs=1.0)
    assert person.program.window.pot_line.shown.word == "PRESSURISED"

    walker = PotWalker(person)
    walker.go()
    walker.keys("F8")
    walker.until_item("sign")
    assert person.program.window.pot_line.shown.word == "PROVING"
    walker.until(Belief.OPEN, most=120)
    assert person.program.window.pot_line.shown.word.startswith("OPEN")

    pane(person, "log")
    person.press("log.outcome.good")
    assert person.program.services.batches.get(batch).outcome == "good"
    person.press("log.again")
    person.look()
    repeat = person.program.services.hand.batch
    assert repeat != batch
    assert person.program.services.batches.get(repeat).entries["amount"].text == "200 g"
