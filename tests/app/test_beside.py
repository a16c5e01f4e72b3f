"""Cards beside the panes: this shop, asked once and changed at any time; what goes on at the end."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QProcess, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QApplication, QPushButton

from shopassist.widgets.limits_card import LimitsCard
from shopassist.widgets.prose import Heading
from tests.app.driver import Person


@pytest.fixture
def newcomer(tmp_path: Path, qapp: QApplication) -> Iterator[Person]:
    """At the first start of all."""
    made = Person(tmp_path)
    made.program.base.state.put("shop_told", "")
    made.press("limits.read")
    yield made
    made.close()


def open_shop(person: Person) -> None:
    found = person.program.window.findChild(QAction, "view.shop")
    assert found is not None
    found.trigger()
    person.look()


def test_after_the_limits_a_newcomer_is_asked_about_the_shop_once(newcomer: Person) -> None:
    assert newcomer.visible("shop")
    assert newcomer.visible("pot_line")
    newcomer.press("shop.mix")
    assert not newcomer.visible("shop")
    assert newcomer.program.base.state.get("shop_told") == "yes"
    assert newcomer.program.window.board.focus == "mix"


def test_entering_a_pot_first_opens_its_record(newcomer: Person) -> None:
    newcomer.press("shop.pot")
    assert newcomer.program.window.board.focus == "records"
    assert newcomer.program.presenters.records.screen.kind == 1


def test_the_invented_shop_is_another_program(
    newcomer: Person, monkeypatch: pytest.MonkeyPatch
) -> None:
    started: list[list[str]] = []
    monkeypatch.setattr(QProcess, "startDetached", lambda _, words: started.append(words))
    newcomer.press("shop.demo")
    assert started == [["-m", "shopassist", "--demo"]]


def test_escape_puts_a_card_away_and_the_keyboard_stands_on_it(newcomer: Person) -> None:
    newcomer.press("shop.mix")
    for name, button in (("help.about", "about.close"), ("view.shop", "shop.done")):
        found = newcomer.program.window.findChild(QAction, name)
        assert found is not None
        found.trigger()
        newcomer.look()
        focused = QApplication.focusWidget()
        assert focused is not None
        assert focused.objectName() == button
        newcomer.key(Qt.Key.Key_Escape)
        assert not newcomer.visible(button)


def test_choices_count_at_once_and_are_kept(newcomer: Person) -> None:
    newcomer.press("shop.mix")
    open_shop(newcomer)
    newcomer.tab_to("shop.units.metric")
    newcomer.key(Qt.Key.Key_Right)
    newcomer.tab_to("shop.decimal..")
    newcomer.key(Qt.Key.Key_Right)
    newcomer.tab_to("shop.date_order.day")
    newcomer.key(Qt.Key.Key_Right)
    newcomer.key(Qt.Key.Key_Right)
    now = newcomer.program.base.settings.now
    assert (now.units, now.decimal, now.date_order) == ("us", ",", "year")


def test_the_elevation_changes_the_air_that_gauges_read_against(newcomer: Person) -> None:
    before = newcomer.program.services.ambient()
    newcomer.tab_to("shop.elevation")
    newcomer.keys("1524 m\t")
    assert newcomer.program.base.settings.now.elevation == 1524.0
    # U.S. Standard Atmosphere 1976 at 1524 m: 84.3 kPa.
    assert newcomer.program.services.ambient() == pytest.approx(84.3e3, rel=2e-3)
    assert newcomer.program.services.ambient() < before


def test_an_elevation_off_the_earth_is_told_beside_its_field(newcomer: Person) -> None:
    newcomer.tab_to("shop.elevation")
    newcomer.keys("20000 m\t")
    assert newcomer.program.base.settings.now.elevation == 0.0
    assert newcomer.find(QPushButton, "shop.mix").isVisible()


def test_a_ruler_at_the_screen_corrects_every_size(newcomer: Person) -> None:
    window = newcomer.program.window
    newcomer.press("shop.mix")
    open_shop(newcomer)
    before = window.look.metrics.px_per_mm
    newcomer.tab_to("shop.ruler")
    newcomer.keys("48 mm\t")
    assert newcomer.program.base.settings.now.size == pytest.approx(1.25)
    assert window.look.metrics.px_per_mm == pytest.approx(1.25 * before, rel=0.01)


def test_the_shop_is_changed_later_under_view(newcomer: Person) -> None:
    newcomer.press("shop.mix")
    open_shop(newcomer)
    newcomer.tab_to("shop.units.metric")
    newcomer.key(Qt.Key.Key_Right)
    newcomer.key(Qt.Key.Key_Right)
    newcomer.press("shop.done")
    assert not newcomer.visible("shop")
    assert newcomer.program.base.settings.now.units == "mixed"


def words_of(card: LimitsCard) -> str:
    return " ".join(each.words for each in card.findChildren(Heading))


def test_closing_under_pressure_says_so_and_closes_by_one_more_press(shopkeeper: Person) -> None:
    window = shopkeeper.program.window
    window.close()
    shopkeeper.look()
    assert window.isVisible()
    told = words_of(shopkeeper.find(LimitsCard, "quit"))
    assert "PRESSURISED" in told
    assert "2.76 bar" in told
    assert "Hold until" in told
    shopkeeper.press("quit.stay")
    assert window.isVisible()
    window.close()
    shopkeeper.look()
    shopkeeper.press("quit.now")
    assert not window.isVisible()


def test_with_nothing_running_the_window_just_closes(newcomer: Person) -> None:
    newcomer.program.window.close()
    newcomer.look()
    assert not newcomer.program.window.isVisible()
