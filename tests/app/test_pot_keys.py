"""Digits answer a pot card from inside its pane alone."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QApplication, QLineEdit, QWidget

from shopassist.core.pot.words import Belief
from tests.app.driver import Person
from tests.app.pot_walker import PotWalker
from tests.app.test_whole_batch import record

DIGITS = "1234567890"


@pytest.fixture
def person(tmp_path: Path, qapp: QApplication) -> Iterator[Person]:
    made = Person(tmp_path)
    made.program.window.resize(1920, 1040)
    made.press("limits.read")
    record(made, "pot", "big-pot")
    yield made
    made.close()


def asked(person: Person) -> tuple[str, str]:
    screen = person.program.presenters.pot.screen
    return screen.field, screen.refusal


def test_a_digit_typed_into_another_pane_never_answers_the_pot(person: Person) -> None:
    walker = PotWalker(person)
    walker.go()
    walker.until_item("ring")
    before = asked(person)
    person.program.window.show_pane("mix")
    person.look()
    assert person.visible("pot.question")
    entries = [
        entry
        for entry in person.program.window.findChildren(QLineEdit)
        if entry.isVisible() and not entry.objectName().startswith("pot.")
    ]
    assert len(entries) > 3
    for entry in entries:
        entry.setFocus()
        person.keys(DIGITS)
        person.key(Qt.Key.Key_Escape)
        assert asked(person) == before, entry.objectName()
    assert any(entry.text() for entry in entries)


def test_a_digit_on_anything_outside_the_pane_never_answers_the_pot(person: Person) -> None:
    walker = PotWalker(person)
    walker.go()
    walker.until_item("ring")
    before = asked(person)
    person.program.window.show_pane("mix")
    person.look()
    pot = person.program.panes["pot"]
    others = [
        each
        for each in person.program.window.findChildren(QWidget)
        if each.isVisible()
        and each.focusPolicy() & Qt.FocusPolicy.TabFocus
        and each is not pot
        and not pot.isAncestorOf(each)
        and not isinstance(each, QLineEdit)
    ]
    assert any(isinstance(each, QAbstractButton) for each in others)
    for each in others:
        each.setFocus()
        for key in (Qt.Key.Key_1, Qt.Key.Key_2, Qt.Key.Key_3, Qt.Key.Key_F8, Qt.Key.Key_F9):
            person.key(key)
        assert asked(person) == before, each.objectName()


def test_the_same_digit_inside_the_pane_does(person: Person) -> None:
    walker = PotWalker(person)
    walker.go()
    walker.until_item("ring")
    before = asked(person)
    person.key(Qt.Key.Key_2)
    assert asked(person) != before


@pytest.mark.parametrize("offer", ["let_down", "vent_now"])
def test_let_down_from_a_page_leaves_the_keyboard_on_no_answer(person: Person, offer: str) -> None:
    walker = PotWalker(person)
    walker.go()
    walker.until(Belief.PRESSURISED)
    pot = person.program.presenters.pot
    pot.on_free("reading")
    person.look()
    pot.on_page("vessel")
    person.look()
    person.press(f"pot.offer.{offer}")
    assert pot.screen.belief is Belief.LETTING_DOWN
    focused = QApplication.focusWidget()
    assert focused is not None
    assert focused.isVisible()
    assert not isinstance(focused, QAbstractButton), focused.objectName()
    before = asked(person)
    person.key(Qt.Key.Key_Space)
    assert asked(person) == before
