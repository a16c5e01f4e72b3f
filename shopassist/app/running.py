"""From the command line to the event loop and back."""

import gc
import logging
import sys
import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import TracebackType

from PySide6.QtCore import QSocketNotifier, Qt
from PySide6.QtWidgets import (
    QApplication,
    QLabel,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from shopassist.app import application, opened
from shopassist.app.arguments import Arguments
from shopassist.app.foundation import folders
from shopassist.app.joined import Joined
from shopassist.app.late import SOON
from shopassist.clock.manual import ManualClock, read_commands
from shopassist.clock.system import SystemClock
from shopassist.core.errors import StoreError
from shopassist.core.messages import Text
from shopassist.core.wording import Wording
from shopassist.desktop.single_instance import SingleInstance

LOG = logging.getLogger("shopassist")
UNSEEN = 1.0
"""How long later launches wait to be heard by a window that nothing paints, [s] at most; ours."""
IN_USE, CANNOT = 3, 4
"""Exit status: another window holds the folder; the data cannot be opened."""


def run(asked: Arguments) -> int:
    """Run the program on one data folder; the result is the exit status."""
    qt = application()
    only = SingleInstance(folders(asked).data)
    try:
        if not only.take():
            LOG.warning("another window holds this folder; it was called forward")
            return IN_USE
        return _with_folder(qt, asked, only)
    except StoreError as error:
        return _say_and_wait(qt, error.title, error.detail)


def _with_folder(qt: QApplication, asked: Arguments, only: SingleInstance) -> int:
    clock = ManualClock() if asked.manual else SystemClock()
    try:
        joined = Joined(qt, *opened(asked, clock))
    except StoreError as error:
        only.release()
        return _say_and_wait(qt, error.title, error.detail)
    only.called.connect(lambda _: forward(joined))
    _hear(joined, only)
    with _trouble_told():
        notifier = _obey(joined, clock) if isinstance(clock, ManualClock) else None
        if joined.base.state.get("window"):
            joined.window.show()
        else:
            joined.window.showMaximized()  # read from two metres, so as large as the screen
        status = qt.exec()
        joined.close()
        del notifier
    only.release()
    return status


def _hear(joined: Joined, only: SingleInstance) -> None:
    """Listen for later launches after the first paint; soon, too, where nothing paints it."""
    stops: list[Callable[[], None]] = []

    def begin() -> None:
        for stop in stops:
            stop()
        only.listen()

    def after(seconds: float) -> None:
        stops.append(joined.ticker.every(seconds, begin))

    joined.window.first_painted.connect(lambda: after(SOON))
    after(UNSEEN)


def forward(joined: Joined) -> None:
    """Bring the window forward, because a second launch asked for it."""
    window = joined.window
    window.setWindowState(window.windowState() & ~Qt.WindowState.WindowMinimized)
    window.raise_()
    window.activateWindow()


def _obey(joined: Joined, clock: ManualClock) -> QSocketNotifier:
    """Move the hand-moved clock by lines on standard input."""
    notifier = QSocketNotifier(sys.stdin.fileno(), QSocketNotifier.Type.Read)

    def read() -> None:
        line = sys.stdin.readline()
        if not line:
            notifier.setEnabled(False)
            return
        for command in read_commands([line]):
            clock.obey(command)
        joined.tick()
        joined.refresh()

    clock.moved = joined.base.session.beat
    notifier.activated.connect(read)
    return notifier


@contextmanager
def _trouble_told() -> Iterator[None]:
    """Tell what is a bug with its trace; the clocks stay in sight and nothing is saved."""
    before = sys.excepthook
    windows: list[QWidget] = []

    def tell(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        words = "".join(traceback.format_exception(kind, error, trace))
        LOG.error("%s", words)
        windows.append(trouble_window(words))

    sys.excepthook = tell
    try:
        yield
    finally:
        sys.excepthook = before


def trouble_window(words: str) -> QWidget:
    """A plain window with the trace; it covers nothing and stops nothing."""
    window = QWidget()
    window.setObjectName("trouble")
    window.setWindowTitle("Shopassist: something went wrong")
    column = QVBoxLayout(window)
    column.addWidget(QLabel("This is a mistake in the program. Your log is untouched."))
    text = QPlainTextEdit(words)
    text.setReadOnly(True)
    text.setAccessibleName("What went wrong")
    column.addWidget(text)
    window.resize(720, 360)
    window.show()
    return window


def _say_and_wait(qt: QApplication, title: Text, detail: Text) -> int:
    """Say why the data cannot be opened, in a window of its own; nothing was changed."""
    gc.enable()
    words = Wording()
    window = QWidget()
    window.setObjectName("cannot_open")
    window.setWindowTitle("Shopassist")
    column = QVBoxLayout(window)
    for text in (title, detail):
        label = QLabel(words.say(text))
        label.setWordWrap(True)
        column.addWidget(label)
    column.addWidget(QLabel("Nothing was changed."))
    button = QPushButton("Close")
    button.clicked.connect(qt.quit)
    column.addWidget(button)
    window.resize(520, 200)
    window.show()
    qt.exec()
    return CANNOT
