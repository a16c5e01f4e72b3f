"""A person at the window, in an empty folder or in the invented shop; no noise."""

from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from shutil import copytree
from sqlite3 import connect
from threading import Event

import pytest
from PySide6.QtWidgets import QApplication

from shopassist.app.arguments import Arguments, arguments
from shopassist.app.demo import fill_demo
from shopassist.app.foundation import folders
from shopassist.clock.manual import ManualClock
from shopassist.core.rows import Reading
from shopassist.desktop import awake, sound
from shopassist.store.opening import PLACE
from shopassist.store.place import place_of
from tests.app.driver import Person
from tests.qt_hygiene import (
    loop_turns,
    no_job_left,
    no_timer_left_running,
    no_window_left,
)

__all__ = ["loop_turns", "no_job_left", "no_timer_left_running", "no_window_left"]


class Silent:
    """A loudspeaker that works and is not heard in the office."""

    def play(self, samples: bytes, stopped: Event) -> None:
        del samples, stopped


@pytest.fixture(autouse=True)
def no_noise(monkeypatch: pytest.MonkeyPatch) -> None:
    """Tests make no noise and leave the machine its sleep."""
    monkeypatch.setattr(sound, "Speaker", Silent)
    monkeypatch.setattr(awake, "for_this_system", lambda: None)


SUMMER = 3600
"""Local time less UTC in the invented shop, [s]."""


@dataclass(frozen=True)
class InventedShop:
    """A folder, and what the clock said when it was filled."""

    folder: Path
    at: Reading

    @staticmethod
    def asked(folder: Path) -> Arguments:
        """How the program is started there."""
        return arguments(["--data-dir", str(folder), "--clock", "manual"])

    def copied(self, into: Path) -> ManualClock:
        """Put the shop into a folder as if it had grown there; a clock that goes on from there."""
        copytree(self.folder, into, dirs_exist_ok=True)
        file = folders(self.asked(into)).data / "journal.db"
        with closing(connect(file)) as journal, journal:
            done = journal.execute(
                "UPDATE meta SET value = ? WHERE name = ?", (place_of(file), PLACE)
            )
            assert done.rowcount == 1
        return ManualClock(self.at.utc, SUMMER, since_boot=self.at.since_boot)


@pytest.fixture(scope="session")
def invented_shop(tmp_path_factory: pytest.TempPathFactory) -> InventedShop:
    """Filled once; a test copies it."""
    folder = tmp_path_factory.mktemp("invented")
    clock = ManualClock(1_780_000_000.0, SUMMER, since_boot=10 * 86400.0)
    fill_demo(folders(InventedShop.asked(folder)), clock, manual=True)
    return InventedShop(folder, clock.read())


@pytest.fixture
def shopkeeper(tmp_path: Path, qapp: QApplication, invented_shop: InventedShop) -> Iterator[Person]:
    """In the invented shop, a pot under pressure beside them."""
    made = Person(tmp_path, invented_shop.copied(tmp_path))
    made.press("limits.read")
    yield made
    made.close()
