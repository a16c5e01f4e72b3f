"""What both sides of the bench are measured with: first paint, painted widgets, a census."""

import json
import time
from collections.abc import Callable, Iterable
from dataclasses import asdict, dataclass
from functools import partial
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QEvent, QObject, QPoint, Qt, QTimer
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel, QLineEdit, QWidget

PATIENCE_S = 2.0
DIGITS = "1234567890"


@dataclass(frozen=True)
class Piece:
    """One visible leaf of a window: what a bare program draws in its place."""

    kind: str
    rect: tuple[int, int, int, int]
    text: str
    repainted: bool = False


@dataclass(frozen=True)
class Census:
    """The visible work of a window."""

    width: int
    height: int
    pieces: tuple[Piece, ...]

    def save(self, path: Path) -> None:
        """Write it for the bare program."""
        path.write_text(json.dumps(asdict(self)), "utf-8")

    @classmethod
    def load(cls, path: Path) -> "Census":
        """Read what ``save`` wrote."""
        raw = json.loads(path.read_text("utf-8"))
        pieces = (Piece(p["kind"], tuple(p["rect"]), p["text"], p["repainted"])
                  for p in raw["pieces"])  # fmt: skip
        return cls(raw["width"], raw["height"], tuple(pieces))


class Painted(QObject):
    """Notes which widgets have been painted since it was last emptied; first it watches all."""

    def __init__(self, app: QCoreApplication) -> None:
        super().__init__()
        self.widgets: set[QWidget] = set()
        self._watched: frozenset[QObject] = frozenset({app})
        app.installEventFilter(self)

    def only(self, widgets: Iterable[QObject]) -> None:
        """Watch these and nothing else: what is timed is not slowed by being looked at."""
        wanted = frozenset(widgets)
        for leaving in self._watched - wanted:
            leaving.removeEventFilter(self)
        for coming in wanted - self._watched:
            coming.installEventFilter(self)
        self._watched = wanted

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Note a paint; hold nothing back."""
        if event.type() == QEvent.Type.Paint and isinstance(watched, QWidget):
            self.widgets.add(watched)
        return False


class FirstPaint(QObject):
    """Calls back once, when the first paint of a window has been done."""

    def __init__(self, window: QWidget, then: Callable[[], None]) -> None:
        super().__init__(window)
        self._then = then
        self._seen = False
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Wait for the whole paint: the children follow in the same turn of the event loop."""
        if event.type() == QEvent.Type.Paint and not self._seen:
            self._seen = True
            QTimer.singleShot(0, self._then)
        return False


def report_first_paint(window: QWidget, begun_ns: int) -> None:
    """Show the window; print the seconds since ``begun_ns`` when it has been painted; stop."""

    def done() -> None:
        print((time.monotonic_ns() - begun_ns) / 1e9, flush=True)
        QCoreApplication.exit(0)

    probe = FirstPaint(window, done)
    window.show()
    QApplication.exec()
    del probe


def census(window: QWidget, repainted: set[QWidget]) -> Census:
    """List the visible leaves of a window; custom-drawn ones count as painters."""
    leaves = [
        w for w in window.findChildren(QWidget) if _leaf(w) and not w.visibleRegion().isEmpty()
    ]
    pieces = tuple(_piece(leaf, window, repainted=leaf in repainted) for leaf in leaves)
    return Census(window.width(), window.height(), pieces)


def keystrokes(
    edit: QLineEdit, dependents: set[QWidget], painted: Painted, count: int
) -> list[float]:
    """Time keystrokes until every dependent widget has been painted again.

    A digit comes and goes, then the next; after ten the number before them is changed, untimed. So
    half of what is timed shows numbers that were never on screen before.
    """
    edit.setFocus()
    found: list[float] = []
    for turn in range(count // 2):
        if turn and turn % len(DIGITS) == 0:
            for letter in ("\b", DIGITS[turn // len(DIGITS) % len(DIGITS)]):
                press(edit, letter)
                settle(0.02)
        found += [
            until_painted(partial(press, edit, letter), dependents, painted)
            for letter in (DIGITS[turn % len(DIGITS)], "\b")
        ]
    return found


def press(target: QWidget, letter: str) -> None:
    """Type one key as the window system would hand it over."""
    key = Qt.Key.Key_Backspace if letter == "\b" else Qt.Key(ord(letter))
    for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
        event = QKeyEvent(kind, key, Qt.KeyboardModifier.NoModifier, letter)
        QCoreApplication.sendEvent(target, event)


def settle(seconds: float) -> None:
    """Let the event loop run for a while."""
    end = time.perf_counter() + seconds
    while time.perf_counter() < end:
        QCoreApplication.processEvents()


def idle_cpu(seconds: float) -> float:
    """Run the event loop and return the processor time that this process used meanwhile."""
    used: list[float] = []
    warm = 6.0  # what follows the first paint is done by then

    def begin() -> None:
        used.append(time.process_time())
        QTimer.singleShot(int(seconds * 1000), end)

    def end() -> None:
        used.append(time.process_time())
        QCoreApplication.exit(0)

    QTimer.singleShot(int(warm * 1000), begin)
    QApplication.exec()
    return used[1] - used[0]


def until_painted(act: Callable[[], None], wanted: set[QWidget], painted: Painted) -> float:
    """Time an act until every widget that depends on it has been painted again."""
    painted.only(wanted)
    painted.widgets.clear()
    begun = time.perf_counter()
    act()
    while not wanted <= painted.widgets:
        QCoreApplication.processEvents()
        if time.perf_counter() - begun > PATIENCE_S:
            late = sorted(w.objectName() or type(w).__name__ for w in wanted - painted.widgets)
            raise TimeoutError(f"never painted: {', '.join(late)}")
    return time.perf_counter() - begun


def _leaf(widget: QWidget) -> bool:
    """Whether it shows something itself; the mark within a number belongs to the number."""
    if isinstance(widget, QAbstractButton) and _draws(widget.parentWidget()):
        return False
    if isinstance(widget, QLabel | QLineEdit | QAbstractButton) or _draws(widget):
        return True
    return not any(child.isVisible() for child in widget.findChildren(QWidget))


def _draws(widget: QWidget | None) -> bool:
    """Whether it is a piece of ours that draws what it has been given to show."""
    return hasattr(widget, "shown") and not isinstance(widget, QAbstractButton)


def _piece(leaf: QWidget, window: QWidget, *, repainted: bool) -> Piece:
    corner = leaf.mapTo(window, QPoint(0, 0))
    rect = (corner.x(), corner.y(), leaf.width(), leaf.height())
    for kind, sort in (("label", QLabel), ("edit", QLineEdit), ("button", QAbstractButton)):
        if isinstance(leaf, sort):
            return Piece(kind, rect, leaf.text(), repainted)
    drawing = leaf.objectName().endswith(".drawing")
    return Piece("drawing" if drawing else "painter", rect, _words(leaf), repainted)


def _words(leaf: QWidget) -> str:
    """What a drawn piece shows, as a screen reader says it: a bare program has to write it too."""
    told = getattr(leaf, "spoken", None)
    return str(told()) if callable(told) else leaf.accessibleName()
