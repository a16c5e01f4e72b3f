"""Presenter ids, object names of the window and the list for contributors are the same."""

from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QApplication, QWidget

from shopassist import app
from shopassist.app.arguments import arguments
from shopassist.app.joined import Joined
from shopassist.clock.system import SystemClock
from shopassist.core.batch import Typed
from shopassist.core.quantities import Kilogram
from shopassist.panes.mix.asks import PAGES
from tests.contract.names import listed, matches, names_of, promised


@pytest.fixture
def program(tmp_path: Path, qapp: QApplication) -> Iterator[Joined]:
    """The demo shop, in which every pane has life in it."""
    asked = arguments(["--demo", "--data-dir", str(tmp_path)])
    base, _ = app.opened(asked, SystemClock())
    base.close()
    made = app.build(["--data-dir", str(tmp_path)])
    made.window.resize(1366, 740)
    made.window.show()
    yield made
    made.close()
    made.window.close()
    made.window.deleteLater()
    made.theme.deleteLater()
    for _ in range(3):
        QApplication.processEvents()


Look = Callable[[QWidget], Iterable[str]]


def visited(program: Joined, look: Look = names_of) -> set[str]:
    """What a look finds on a walk through the panes: the names of everything that is met."""
    found: set[str] = set()

    def stand_up() -> None:
        _stand_up(program, look, found)

    stand_up()
    hand, batches = program.services.hand, program.services.batches
    hand.take_batch(batches.open("Another"))
    for field, text, value in (("ratio_a", "100", 100.0), ("ratio_b", "30", 30.0)):
        batches.enter(hand.batch, field, Typed(text, value, "Ratio"))
    batches.enter(hand.batch, "amount", Typed("200 g", 0.2, "Kilogram"))
    stand_up()
    for part, grams in (("a", 150.0), ("b", 45.0)):
        batches.weigh(hand.batch, 1, part, Kilogram(grams / 1000))  # type: ignore[arg-type]
        stand_up()
    batches.hardener_in(hand.batch, 1)
    stand_up()
    batches.add_photo(hand.batch, "/nowhere/knob.jpg")
    program.presenters.log.on_page("photos")
    stand_up()
    for page, _ in program.presenters.pot.screen.pages:
        program.presenters.pot.on_page(page)
        stand_up()
    program.presenters.pot.on_page("list")
    program.presenters.pot.on_free("reading")
    stand_up()
    return found


def _stand_up(program: Joined, look: Look, found: set[str]) -> None:
    for key in program.panes:
        program.window.show_pane(key)
        for _ in range(3):
            QApplication.processEvents()
        found.update(look(program.window))
    for page, _, _ in PAGES:
        # Pages are built when they are first opened.
        program.presenters.mix.on_page(page)
    found.update(look(program.window))
    program.presenters.mix.on_page("ratio")


def nameless(window: QWidget) -> list[str]:
    """Whatever in sight the keyboard stops at and a screen reader has no name for."""
    stops = [
        each for each in window.findChildren(QWidget)
        if each.isVisible() and each.focusPolicy() & Qt.FocusPolicy.TabFocus
        and each.focusProxy() is None
    ]  # fmt: skip
    return [
        f"{type(each).__name__} {each.objectName()}" for each in stops
        if not QAccessible.queryAccessibleInterface(each).text(QAccessible.Text.Name).strip()
    ]  # fmt: skip


def test_the_page_lists_what_the_presenters_promise() -> None:
    assert listed() == {name for ids in promised().values() for name in ids}


def test_the_window_has_what_the_presenters_promise(program: Joined) -> None:
    names = visited(program)
    missing = [
        name
        for ids in promised().values()
        for name in ids
        if not any(matches(each, name) for each in names)
    ]
    assert missing == []


def test_whatever_the_keyboard_stops_at_has_a_name_to_be_read_aloud(program: Joined) -> None:
    assert visited(program, nameless) == set()


def test_a_promise_with_a_number_stands_for_any() -> None:
    assert matches("mix.cup.2.actual_a", "mix.cup.<n>.actual_a")
    assert matches("records.field.ratio.a", "records.field.<n>")
    assert not matches("mix.cup.actual_a", "mix.cup.<n>.actual_a")
    assert not matches("mix.amount", "mix.waste")
