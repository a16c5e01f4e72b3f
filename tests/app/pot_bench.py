"""A window with one pot, and the shortest ways to a situation at it."""

import tomllib
from collections.abc import Mapping
from pathlib import Path

from PySide6.QtWidgets import QWidget

from shopassist.core.pot.words import Belief
from shopassist.panes.pot.screen import PotScreen
from shopassist.store.resources import resource
from tests.app.driver import Person
from tests.app.pot_walker import PotWalker


class PotDesk:
    """One person, one window, one pot."""

    def __init__(self, folder: Path, **plate: Mapping[str, object]) -> None:
        self.person = Person(folder)
        self.person.press("limits.read")
        text = resource("demo", "pots", "big-pot.toml").read_text("utf-8")
        mapping: dict[str, object] = dict(tomllib.loads(text))
        for section, values in plate.items():
            old = mapping.get(section, {})
            assert isinstance(old, dict)
            mapping[section] = {k: v for k, v in {**old, **values}.items() if v is not None}
        version, problems = self.person.program.services.plates.save(mapping)
        assert version is not None, problems
        self.pot = version.id
        self.walker = PotWalker(self.person)
        self.walker.go()

    @property
    def screen(self) -> PotScreen:
        return self.walker.screen

    @property
    def item(self) -> str:
        return self.screen.field.split(".")[0]

    @property
    def notes(self) -> str:
        return " ".join((*self.screen.notes, *self.screen.branch, *self.screen.cautions))

    @property
    def word(self) -> str:
        return self.person.program.window.pot_line.shown.word

    def held(self) -> "PotDesk":
        self.walker.until(Belief.PRESSURISED)
        return self

    def let_down_to(self, item: str) -> "PotDesk":
        self.walker.keys("F8")
        self.walker.until_item(item)
        return self

    def type(self, text: str, warmth: str = "") -> None:
        """Type a value, with its temperature where one is asked, and press Enter."""
        self.walker._pass(61)
        self.person.program.panes["pot"].take_focus()
        self.person.sequence("Ctrl+A")
        self.person.keys(text)
        if warmth:
            self.person.find(QWidget, "pot.answer.temperature").setFocus()
            self.person.keys(warmth)
        self.person.enter()

    def choose(self, answer: str) -> None:
        """Press the key of an answer."""
        button = next(each for each in self.screen.answers if each.id == answer)
        self.walker.keys(button.shown.shortcut or button.shown.key)

    def odd(self, thing: str) -> None:
        """Report one of the odd things from their card."""
        self.walker.keys("F7")
        self.person.find(QWidget, f"pot.offer.{thing}")
        self.person.program.panes["pot"].take_focus()
        self.person.press(f"pot.offer.{thing}")

    def wait(self, seconds: float) -> None:
        self.walker._pass(seconds)

    def rows(self, page: str) -> dict[str, str]:
        """Numbers of a page, as they stand on the screen."""
        presenter = self.person.program.presenters.pot
        presenter.on_page(page)  # type: ignore[arg-type]
        self.person.look()
        numbers = presenter.screen.numbers
        assert numbers is not None
        for row in numbers.rows:
            assert self.person.visible(row.id), row.id
        return {row.id: f"{row.value} | {row.range} | {row.note}" for row in numbers.rows}

    def close(self) -> None:
        self.person.close()
