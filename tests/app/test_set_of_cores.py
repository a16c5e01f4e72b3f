"""A set of cores from first weighing to uptake in the invented shop, by keyboard, over days.

The laptop sleeps in the drying, the power fails under vacuum, the program is killed in the soak.
"""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QApplication, QComboBox

from tests.app.driver import Person

HOUR = 3600.0


class Hands:
    """Keys at the Stabilise pane; nothing is clicked, no service is called."""

    def __init__(self, person: Person) -> None:
        self.person = person

    def pane(self) -> None:
        action = self.person.program.window.findChild(QAction, "view.stabilise")
        assert action is not None
        self.person.sequence(action.shortcut().toString())

    def type(self, name: str, text: str) -> None:
        self.person.tab_to(f"stabilise.{name}", most=150)
        self.person.keys(text)
        self.person.enter()

    def choose(self, name: str, words: str) -> None:
        """By its letters, as in any list."""
        self.person.tab_to(f"stabilise.{name}", most=150)
        box = QApplication.focusWidget()
        assert isinstance(box, QComboBox)
        for _ in range(box.findText(words) - box.currentIndex()):
            self.person.key(Qt.Key.Key_Down)

    def page(self, number: int) -> None:
        self.person.tab_to(f"stabilise.page.{number}", most=150)
        self.person.key(Qt.Key.Key_Space)

    def act(self, words: str) -> None:
        screen = self.person.program.presenters.stabilise.screen
        texts = [each.words for each in screen.acts]
        assert words in texts, (texts, screen.why, screen.message, screen.facts)
        self.person.tab_to(f"stabilise.act.{texts.index(words) + 1}", most=150)
        self.person.key(Qt.Key.Key_Space)

    def later(self, hours: float) -> None:
        self.person.clock.advance(hours * HOUR)
        self.person.program.ticker.call_all()
        self.person.look()

    @property
    def what(self) -> str:
        return self.person.program.presenters.stabilise.screen.what

    def figures(self) -> dict[str, str]:
        found = self.person.program.presenters.stabilise.screen.figures
        return {each.label: f"{each.value} {each.unit}".strip() for each in found}


def describe_set(hands: Hands) -> None:
    """Wood, oven, bath, vacuum and bake, each on its page."""
    for page, entries in (
        (2, {"pieces": "6", "diameter": "52", "length": "130"}),
        (3, {"scale_step": "0.1 g", "cut_off": "12"}),
        (4, {"vessel_diameter": "200", "vessel_height": "300", "bath": "Tin 4"}),
        (5, {"pump_best": "5 mbar", "soak": "4"}),
        (6, {"oven": "95", "core_goal": "88", "hold": "120"}),
    ):
        hands.page(page)
        for name, text in entries.items():
            hands.type(name, text)


def test_a_set_goes_from_first_weighing_to_uptake(shopkeeper: Person, tmp_path: Path) -> None:
    person = shopkeeper
    hands = Hands(person)
    person.sequence("Ctrl+N")
    hands.pane()
    assert hands.what == "Weigh the whole set before the oven."
    describe_set(hands)
    hands.page(2)
    hands.choose("species", "Maple, sugar")
    hands.type("mass", "1220.4")
    hands.act("Oven is at temperature, wood is in")
    assert "not the dial" not in hands.what

    # The laptop sleeps through the first night; the oven's own clock stops it after twelve hours.
    person.clock.suspend(13 * HOUR)
    person.program.ticker.call_all()
    assert person.program.presenters.stabilise.screen.wait.startswith("The oven is off")
    alarms = person.program.late.desk
    assert alarms is not None
    key = f"oven_stops/{person.program.services.hand.batch}"
    assert alarms.service.cause(key) is not None
    hands.act("Oven started again")
    assert "does not count" in person.program.presenters.stabilise.screen.why
    hands.later(7)
    hands.type("mass", "1080.3")
    hands.later(3)
    hands.type("mass", "1080.0")
    hands.act("Out of the oven, sealed")
    hands.later(2)
    hands.act("It is cool")
    hands.type("mass", "1080.5")
    assert {"Resin to pour", "Ballast", "Cover at the start"} <= set(hands.figures())
    hands.act("Covered, ballast on")

    hands.act("Pump is on")
    hands.later(0.3)
    hands.act("Foam has collapsed")
    hands.later(1)
    # The power fails: nothing is known of the chamber, and the time under vacuum begins anew.
    hands.act("Power was cut")
    assert hands.what == "Read the gauge and look at the oil."
    assert "not known" in person.program.presenters.stabilise.screen.note
    hands.act("Gauge read, oil looked at")
    hands.act("Pump is on")
    hands.later(0.3)
    hands.act("Foam has collapsed")
    hands.type("dial", "1008 mbar")
    assert "best of this pump" in person.program.presenters.stabilise.screen.note
    hands.later(2)
    hands.act("No bubbles any more")
    hands.later(0.2)
    hands.act("Valve shut, air is in")

    # Killed in the soak; the soak goes on, and ends at twice the vacuum, not before.
    batch, clock = person.program.services.hand.batch, person.clock
    person.kill()
    person = Person(tmp_path, clock)
    hands = Hands(person)
    hands.pane()
    assert person.program.services.hand.batch == batch
    hands.later(3)
    hands.act("Out of the bath")
    assert "early removal" in person.program.presenters.stabilise.screen.message
    hands.later(2.1)
    hands.act("It sank")
    hands.act("Out of the bath")
    hands.type("mass", "1900")
    hands.act("Wrapped")
    hands.act("Packets are in the hot oven")
    hands.type("oven_reads", "95")
    hands.later(2)
    hands.type("probe", "88")
    assert hands.what.startswith("Hold.")
    person.clock.suspend(2.5 * HOUR)
    person.program.ticker.call_all()
    hands.act("Oven off")
    hands.later(4)
    hands.type("mass", "1720")
    figures = hands.figures()
    assert figures["Uptake on the dry mass"] == "59.3 %"
    assert figures["Share of the ceiling"] == "66.3 %"
    hands.act("All are hard")
    hands.act("On to Blank")
    blank = person.program.presenters.blank.screen.answers["density_low"]
    assert blank.origin == "from Stabilise"
    assert blank.value == pytest.approx(1.720 / (6 * 0.13 * 3.14159265 * 0.026**2), rel=1e-6)
    person.close()
