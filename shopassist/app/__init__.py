"""The one place that builds and joins everything."""

import builtins
import os
import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING

from shopassist.app.arguments import Arguments, arguments
from shopassist.app.foundation import Foundation, folders, lay
from shopassist.app.presenters import Presenters
from shopassist.app.services import Services, build_services, start_services
from shopassist.clock import Clock
from shopassist.clock.manual import ManualClock
from shopassist.clock.system import SystemClock

if TYPE_CHECKING:
    from PySide6.QtWidgets import QApplication

    from shopassist.app.joined import Joined

__all__ = ["Presenters", "build", "main"]


def bring_in_qt() -> None:
    """Import Qt, and put Python's own import back.

    Qt's stays behind otherwise and reads the source of every module that follows, in search of a
    switch to other names of Qt's methods, which nothing here uses: a tenth of the first paint.
    """
    pythons_own = builtins.__import__
    import PySide6.QtCore  # noqa: F401

    vars(builtins)["__import__"] = pythons_own


def application() -> "QApplication":
    """The one Qt application of this process."""
    bring_in_qt()
    from PySide6.QtWidgets import QApplication

    made = QApplication.instance()
    if isinstance(made, QApplication):
        return made
    # What is filled here is small: to wake other threads for it, and to wait for them on a busy
    # machine, costs more than they save.
    os.environ.setdefault("QT_NO_GUI_THREADPOOL", "1")
    # Named here, not set later: a style object in Python brings a hundred of its names along.
    qt = QApplication([*sys.argv[:1], "-style", "fusion"])
    qt.setApplicationName("shopassist")
    qt.setApplicationDisplayName("Shopassist")
    qt.setDesktopFileName("shopassist")
    return qt


def build(words: Sequence[str], clock: Clock | None = None) -> "Joined":
    """Open a data folder and build the window over it; raises ``StoreError``."""
    from shopassist.app.joined import Joined

    asked = arguments(words)
    qt = application()
    base, made = opened(asked, clock or (ManualClock() if asked.manual else SystemClock()))
    return Joined(qt, base, made)


def opened(asked: Arguments, clock: Clock) -> tuple[Foundation, Services]:
    """Lay the foundation, start the session and build the services."""
    paths = folders(asked)
    if asked.demo:
        from shopassist.app.demo import fill_demo

        fill_demo(paths, clock, manual=asked.manual)
    base = lay(paths, clock, manual=asked.manual)
    found = base.session.start()
    made = build_services(base)
    start_services(made, base, found)
    return base, made


def main() -> int:
    """Run the program; the result is the exit status."""
    bring_in_qt()
    from shopassist.app.running import run

    return run(arguments(sys.argv[1:]))
