"""The log of ten years against one that holds a screenful: search, compare, open.

Each act is timed from the key or the press until everything that it touches has been painted.
"""

from collections.abc import Callable
from functools import partial
from typing import Any

from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QPushButton, QTableView, QWidget

from chores.bench_probe import Painted, settle, until_painted

TURNS, LEARNT = 24, 8
"""Acts that are timed, and those before from which it is learnt what each of them paints."""
Act = Callable[[int], None]


def seconds(joined: Any, painted: Painted, name: str) -> list[float]:
    """Times of one act of the log, each until everything that it touches has been painted."""
    window = joined.window
    window.resize(1366, 740)
    window.show()
    settle(0.2)
    joined.services.index.read_all()
    window.show_pane("log")
    settle(0.3)
    act = ACTS[name](window)
    seen = [_touched(partial(act, turn), painted) for turn in range(LEARNT)]
    touched = [set.intersection(*seen[turn % 2 :: 2]) for turn in (0, 1)]
    return [until_painted(partial(act, turn), touched[turn % 2], painted) for turn in range(TURNS)]


def _touched(act: Callable[[], None], painted: Painted) -> set[QWidget]:
    """What an act paints."""
    painted.widgets.clear()
    act()
    settle(0.2)
    return set(painted.widgets)


def _found(window: QWidget, kind: type[Any], name: str) -> Any:
    found = window.findChild(kind, name)
    if found is None:
        raise LookupError(f"there is no {name}")
    return found


def _search(window: QWidget) -> Act:
    """A letter more of a word that every batch has, and that letter taken away again."""
    line = _found(window, QLineEdit, "log.search")
    line.setFocus()
    _key(line, "o")
    return lambda turn: _key(line, "o" if turn % 2 == 0 else "\b")


def _compare(window: QWidget) -> Act:
    """The page that compares, opened and left for the facts."""
    pages = [_found(window, QPushButton, f"log.page.{number}") for number in (2, 1)]
    return lambda turn: pages[turn % 2].click()


def _open(window: QWidget) -> Act:
    """The next batch down, the next one up."""
    table = _found(window, QTableView, "log.table")
    table.setFocus()
    return lambda turn: _key(table, "down" if turn % 2 == 0 else "up")


ACTS: dict[str, Callable[[QWidget], Act]] = {
    "search": _search, "compare": _compare, "open": _open,
}  # fmt: skip
KEYS = {"\b": Qt.Key.Key_Backspace, "down": Qt.Key.Key_Down, "up": Qt.Key.Key_Up}


def _key(target: QWidget, letter: str) -> None:
    key = KEYS.get(letter, Qt.Key(ord(letter[0].upper())))
    text = letter if len(letter) == 1 else ""
    for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
        event = QKeyEvent(kind, key, Qt.KeyboardModifier.NoModifier, text)
        QCoreApplication.sendEvent(target, event)
