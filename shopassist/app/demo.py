"""The invented shop: the real services, replayed on a hand-moved clock into an empty folder."""

from dataclasses import replace

from shopassist.app.demo_story import Story
from shopassist.app.foundation import refuse_used_folder
from shopassist.clock import Clock
from shopassist.clock.manual import ManualClock
from shopassist.core.rows import Reading
from shopassist.store.keeping import KeptFile
from shopassist.store.opening import open_journal
from shopassist.store.paths import Paths
from shopassist.store.resources import resource
from shopassist.store.sheet_files import folder_of
from shopassist.store.state import State

WINDOW = {"warmup.moulds": "1.4 kg", "warmup.wood": "0.2 kg", "shop_told": "yes"}
"""What stands in the invented shop's cabinet, and that it was asked about itself."""
DAYS_BACK = 9 * 86400.0
"""The invented shop has been working for nine days."""


class Replay(ManualClock):
    """A hand-moved clock of this machine's own boot: the story ends at this very moment."""

    def __init__(self, now: Reading) -> None:
        super().__init__(
            float(now.utc) - DAYS_BACK, int(now.utc_offset), 0, float(now.since_boot) - DAYS_BACK
        )
        self._boot_id = now.boot_id

    def read(self) -> Reading:
        """Look at both clocks."""
        return replace(super().read(), boot_id=self._boot_id)


def fill_demo(paths: Paths, clock: Clock, *, manual: bool = False) -> None:
    """Fill the folder, unless it is the demo's own from an earlier start."""
    if is_demo(paths, clock, manual=manual):
        return
    refuse_used_folder(paths.journal)
    now = clock.read()
    hand = Replay(now)
    journal = open_journal(paths.journal, hand, manual=manual, demo=True)
    try:
        story = Story(paths, journal, hand, float(now.utc))
        for kind in ("scale", "colour", "lot", "pump", "bath"):
            story.shelve(kind, folder_of(resource("demo", f"{kind}s")))
        batch = story.tell(
            folder_of(resource("demo", "sheets")),
            folder_of(resource("demo", "pots")),
            folder_of(resource("demo", "cabinets")),
            folder_of(resource("demo", "chambers")),
        )
    finally:
        journal.close()
    for name, text in (WINDOW | {"batch": batch}).items():
        State(KeptFile(paths.window)).put(name, text)


def is_demo(paths: Paths, clock: Clock, *, manual: bool = False) -> bool:
    """Whether the folder was filled by an earlier start of the demo."""
    if not paths.journal.exists():
        return False
    journal = open_journal(paths.journal, clock, manual=manual)
    try:
        return journal.born().get("demo") is True
    finally:
        journal.close()
