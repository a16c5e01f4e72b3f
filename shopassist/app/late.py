"""What the first paint does without: alarms, a look through the journal, its copy, the index."""

import gc
from collections.abc import Callable, Iterable
from threading import Event, Thread
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, Signal

from shopassist.app.foundation import Foundation, daily_copy
from shopassist.app.services import Services
from shopassist.core.errors import ShopError
from shopassist.services.next import Due
from shopassist.shell.main_window import MainWindow
from shopassist.store.opening import check
from shopassist.widgets.look import Look
from shopassist.widgets.ticker import Ticker

if TYPE_CHECKING:
    from shopassist.app.alarm_desk import AlarmDesk

SOON, SLICES, LATER = 0.01, 0.05, 2.0
"""How long after the first paint alarms, index and rare units begin, [s]; the index goes on so."""


UNSEEN = 3.0
"""How long a window may stay unpainted before all of it begins without, [s]; ours."""


class Late(QObject):
    """Begins once the window has been painted, or soon where nothing paints it; ends in order."""

    found = Signal(object)
    """What the look through the journal found, brought over to the window's thread."""
    copied = Signal(object)
    """Why there is no backup of today; None where there is one."""

    def __init__(self, base: Foundation, services: Services, look: Look, ticker: Ticker) -> None:
        super().__init__()
        self.begun = False
        self.desk: AlarmDesk | None = None
        self.checker: Thread | None = None
        self._base, self._services, self._look, self._ticker = base, services, look, ticker
        self._closing = Event()
        self._stops: dict[str, Callable[[], None]] = {}
        self.found.connect(self._check_done, Qt.ConnectionType.QueuedConnection)
        self.copied.connect(self._copy_done, Qt.ConnectionType.QueuedConnection)

    def begin(self, window: MainWindow) -> None:
        """Now there is time: alarms first, then the journal as a whole, at last the rare units."""
        if self.begun:
            return
        self.begun = True
        self._stops.pop("unseen", lambda: None)()
        self._later("desk", SOON, lambda: self._build_desk(window))
        self._later("warm", LATER, self._warm)

    def wait_for(self, window: MainWindow) -> None:
        """Begin with the first paint; a window that starts minimised has none, yet its alarms."""
        window.first_painted.connect(lambda: self.begin(window))
        self._later("unseen", UNSEEN, lambda: self.begin(window))

    def dues(self) -> Iterable[Due]:
        """Waits of what the first paint does without."""
        return self._services.dues() if self.begun else ()

    def tell(self, act: "Callable[[AlarmDesk], None]") -> None:
        """Have the alarms do something, once they are there."""
        if self.desk is not None:
            act(self.desk)

    def _later(self, name: str, seconds: float, act: Callable[[], None]) -> None:
        self._stops[name] = self._ticker.every(seconds, act)

    def _build_desk(self, window: MainWindow) -> None:
        """Alarms; what was missed is raised at once, and what is found next finds them there."""
        from shopassist.app.alarm_desk import AlarmDesk

        self._stops.pop("desk")()
        gc.freeze()  # what the start made stays: looking through it for garbage would be felt
        gc.enable()
        self._later("index", SLICES, self._index)
        self.desk = AlarmDesk(
            self._base, self._services, window, self._look, self._ticker, self.dues
        )
        self.desk.minute()
        self._tell_restored()
        self._look_through()

    def _look_through(self) -> None:
        paths, now = self._base.paths, float(self._base.clock.read().utc)

        def run() -> None:
            wrong = check(paths.journal, self._closing.is_set)
            self.found.emit(wrong)
            if not wrong and not self._closing.is_set():
                self.copied.emit(daily_copy(paths, now))

        self.checker = Thread(target=run, name="journal check", daemon=True)
        self.checker.start()

    def _tell_restored(self) -> None:
        """Say once that a backup has been put in the log's place."""
        name = self._base.state.get("restored")
        if name:
            self._base.state.put("restored", "")
            title = "A backup is in place of the log. Every pot is NOT KNOWN."
            self.tell(lambda desk: desk.tell(title, name))

    def _warm(self) -> None:
        """Fetch the rare units, once."""
        self._stops.pop("warm")()
        self._services.wording.warm()

    def _index(self) -> None:
        """Read the log in slices, until it can be searched as a whole."""
        if not self._services.index.step():
            self._stops.pop("index")()

    def _copy_done(self, error: object) -> None:
        if isinstance(error, ShopError) and not self._closing.is_set():
            say = self._services.wording
            title, detail = say.say(error.title), say.say(error.detail)
            self.tell(lambda desk: desk.tell(f"There is no backup of today. {title}", detail))

    def _check_done(self, found: object) -> None:
        if isinstance(found, tuple) and found and not self._closing.is_set():
            self._services.pots.disbelieve()
            self.tell(lambda desk: desk.means.log_broken(found[0]))
            self.tell(lambda desk: desk.service.renew())

    def close(self) -> None:
        """Stop, and wait for the look through the journal to notice."""
        self._closing.set()
        for stop in self._stops.values():
            stop()
        self.tell(lambda desk: desk.close())
        if self.checker is not None:
            self.checker.join()
