"""What the menus, the pot line, the next line and the explain marks do in the real window."""

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QApplication, QLabel, QWidget

from shopassist.core.errors import StoreError
from shopassist.core.pot.words import Belief
from shopassist.widgets.explain_sheet import ExplainSheet
from shopassist.widgets.figure_view import FigureView
from shopassist.widgets.tokens import DARK, LIGHT
from tests.app.driver import Person


def act(person: Person, name: str) -> None:
    """Trigger a menu entry."""
    found = person.program.window.findChild(QAction, name)
    assert found is not None
    found.trigger()
    person.look()


def test_dark_and_light_change_at_run_time(shopkeeper: Person) -> None:
    window = shopkeeper.program.window
    act(shopkeeper, "view.theme.dark")
    assert window.look.tokens == DARK
    act(shopkeeper, "view.theme.light")
    assert window.look.tokens == LIGHT
    assert shopkeeper.program.base.settings.now.theme == "light"


def test_units_and_decimal_sign_are_the_readers_own(shopkeeper: Person) -> None:
    figure = shopkeeper.find(FigureView, "mix.part_a_target")
    assert (figure.shown.value, figure.shown.unit) == ("194.6", "g")
    act(shopkeeper, "view.decimal.,")
    assert figure.shown.value == "194,6"
    act(shopkeeper, "view.units.us")
    assert figure.shown.unit != "g"
    act(shopkeeper, "view.decimal..")
    act(shopkeeper, "view.units.metric")
    assert figure.shown.value == "194.6"


def test_let_down_is_one_press_from_anywhere(shopkeeper: Person) -> None:
    program = shopkeeper.program
    program.window.show_pane("log")
    shopkeeper.click("pot_line.action")
    pot = program.services.hand.pot
    assert program.services.pots.state(pot).belief is Belief.LETTING_DOWN
    assert program.window.board.focus == "pot"


def test_the_pot_is_headed_by_the_name_that_its_batch_has_now(shopkeeper: Person) -> None:
    program = shopkeeper.program
    program.window.show_pane("pot")
    shopkeeper.look()
    pot = program.services.pots.ids()[0]
    program.services.hand.take_pot(pot)
    (inside,) = program.services.loads.inside(pot)
    program.services.batches.name(inside, "Lamp feet, third go")
    shopkeeper.look()
    assert "Lamp feet, third go" in shopkeeper.find(QWidget, "pot").accessibleDescription()


def test_a_second_press_records_the_vent_open(shopkeeper: Person) -> None:
    program = shopkeeper.program
    shopkeeper.click("pot_line.action")
    assert shopkeeper.find(QWidget, "pot_line.action").isVisible()
    before = len(list(program.journal.read(f"pot/{program.services.hand.pot}")))
    shopkeeper.click("pot_line.action")
    rows = list(program.journal.read(f"pot/{program.services.hand.pot}"))
    assert len(rows) > before


def test_a_longer_date_has_its_room_where_a_shorter_one_stood(shopkeeper: Person) -> None:
    window = shopkeeper.program.window
    window.tell_time("Fri 1 Jan  11:11")
    window.resize(1400, 740)  # the bar lays itself out
    shopkeeper.look()
    window.tell_time("Wed 28 Oct  20:08")
    shopkeeper.look()
    assert window.clock.isVisible()
    assert window.clock.width() >= window.clock.sizeHint().width()
    assert window.clock.geometry().right() <= window.menuBar().width()


def test_enter_on_the_next_line_opens_what_is_due(shopkeeper: Person) -> None:
    window = shopkeeper.program.window
    window.show_pane("log")
    window.next_line.setFocus()
    shopkeeper.enter()
    assert window.board.focus == "cure"


def test_a_number_explains_itself_and_escape_gives_the_keyboard_back(shopkeeper: Person) -> None:
    window = shopkeeper.program.window
    window.show_pane("blank")
    shopkeeper.look()
    before = QApplication.focusWidget()
    shopkeeper.click("blank.wall_left.explain")
    sheet = shopkeeper.find(ExplainSheet, "blank.explanation")
    assert sheet.isVisible()
    assert sheet.shown is not None
    assert "3.7" in sheet.shown.value
    assert sheet.shown.sections
    shopkeeper.key(Qt.Key.Key_Escape)
    assert not shopkeeper.visible("blank.explanation")
    assert QApplication.focusWidget() is before


def test_the_keyboard_of_an_explanation_goes_back_past_an_earlier_one(shopkeeper: Person) -> None:
    window = shopkeeper.program.window
    window.show_pane("blank")
    shopkeeper.look()
    before = QApplication.focusWidget()
    shopkeeper.click("blank.wall_left.explain")
    shopkeeper.click("blank.for_all.explain")
    shopkeeper.key(Qt.Key.Key_Escape)
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    assert window.findChildren(ExplainSheet) == []
    assert QApplication.focusWidget() is before


def test_closing_an_explanation_leaves_the_keyboard_in_sight(shopkeeper: Person) -> None:
    mix = shopkeeper.program.presenters.mix
    for page in ("measure", "ratio"):
        mix.on_page(page)
        shopkeeper.find(QWidget, "mix.page.2").setFocus()
        figure = shopkeeper.find(FigureView, "mix.part_a_target")
        figure.mark.setFocus()
        figure.mark.click()
        figure.hide()
        shopkeeper.click("mix.explanation.close")
        focused = QApplication.focusWidget()
        assert focused is not None
        assert focused.isVisible()
        figure.show()


def test_every_mark_of_the_invented_shop_opens_an_explanation(shopkeeper: Person) -> None:
    window = shopkeeper.program.window
    seen = 0
    for pane in ("mix", "cure", "blank", "stabilise", "warm-up"):
        window.show_pane(pane)
        shopkeeper.look()
        for figure in window.findChildren(FigureView):
            if figure.mark.isVisible():
                figure.mark.click()
                shopkeeper.look()
                sheets = [s for s in window.findChildren(ExplainSheet) if s.isVisible()]
                assert len(sheets) == 1, figure.objectName()
                shown = sheets[0].shown
                assert shown is not None
                assert shown.sections, figure.objectName()
                sheets[0].closed.emit()
                shopkeeper.look()
                seen += 1
    assert seen > 10


def test_limits_and_about_stand_beside_the_panes(shopkeeper: Person) -> None:
    for name, card, way in (
        ("help.limits", "limits", "limits.read"),
        ("help.about", "about", "about.close"),
    ):
        act(shopkeeper, name)
        assert shopkeeper.visible(card)
        assert shopkeeper.visible("pot_line")
        shopkeeper.press(way)
        assert not shopkeeper.visible(card)


def test_records_open_by_their_kind(shopkeeper: Person) -> None:
    act(shopkeeper, "records.open.1")
    assert shopkeeper.program.window.board.focus == "records"
    assert shopkeeper.program.presenters.records.screen.kind == 1


def test_what_is_doubtful_of_a_plate_stands_beside_its_entry(shopkeeper: Person) -> None:
    act(shopkeeper, "records.open.1")
    pane = shopkeeper.program.presenters.records
    pane.on_edit("rating.pressure", "60 bar")
    pane.on_leave("rating.pressure")
    told = {cell.field.place: cell.remark for group in pane.screen.groups for cell in group.cells}
    assert told["rating.pressure"].endswith("Is the unit as stamped?")


def test_what_cannot_be_written_is_an_alarm_and_nothing_is_lost(
    shopkeeper: Person, monkeypatch: pytest.MonkeyPatch
) -> None:
    program = shopkeeper.program
    batches = program.services.batches.ids()

    def full(*_: object, **__: object) -> None:
        raise StoreError("The disk is full.", "Nothing was written.")

    monkeypatch.setattr(program.services.batches, "open", full)
    act(shopkeeper, "batch.new")
    assert program.window.alarm_band.isVisible()
    words = " ".join(
        [program.window.alarm_band.accessibleDescription()]
        + [each.text() for each in program.window.alarm_band.findChildren(QLabel)]
    )
    assert "disk is full" in words
    assert program.services.batches.ids() == batches


def test_again_takes_the_number_of_a_job_card(shopkeeper: Person) -> None:
    program = shopkeeper.program
    count = len(program.services.batches.ids())
    program._again(0)
    assert len(program.services.batches.ids()) == count + 1
    program._again(99)
    assert len(program.services.batches.ids()) == count + 1
