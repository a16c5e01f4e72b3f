"""A tired person who wants the lid off: every short cut that was tried, through the window."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication

from shopassist.core.pot.evidence import dwell_left
from shopassist.core.pot.words import Belief
from tests.app.driver import Person
from tests.app.pot_bench import PotDesk
from tests.app.pot_walker import PotWalker

WORD = (Belief.CLEAR, Belief.CRACKED, Belief.OPEN)


@pytest.fixture
def desk(tmp_path: Path, qapp: QApplication) -> Iterator[PotDesk]:
    made = PotDesk(tmp_path)
    yield made
    made.close()


def no_word(desk: PotDesk) -> bool:
    return desk.screen.belief not in WORD


@pytest.mark.parametrize("keys", ["1", "2", "3", "1 2", "2 1", "Return", "Space", "0 Return"])
def test_the_same_keys_over_and_over_do_not_open_it(desk: PotDesk, keys: str) -> None:
    desk.held().walker.keys("F8")
    for _ in range(40):
        for key in keys.split():
            desk.walker.keys(key)
        desk.wait(70)
        assert no_word(desk), desk.item


def test_a_key_held_down_answers_once(desk: PotDesk) -> None:
    desk.held().walker.keys("F8")
    desk.choose("shut")
    assert desk.item == "hose_bled"
    for _ in range(30):
        event = QKeyEvent(
            QEvent.Type.KeyPress, Qt.Key.Key_2, Qt.KeyboardModifier.NoModifier, "2", autorep=True
        )
        focused = QApplication.focusWidget()
        assert focused is not None
        QApplication.sendEvent(focused, event)
    desk.person.look()
    assert desk.item == "hose_bled"


def test_a_restart_in_the_wait_begins_at_isolating(tmp_path: Path, qapp: QApplication) -> None:
    desk = PotDesk(tmp_path)
    desk.held().let_down_to("dwell")
    clock = desk.person.clock
    desk.person.kill()
    again = Person(tmp_path, clock)
    walker = PotWalker(again)
    walker.go()
    assert walker.screen.belief is Belief.PRESSURISED
    walker.keys("F8")
    walker.until_item("dwell")
    assert walker.screen.wait_digits
    again.close()


def test_sleep_is_no_wait(desk: PotDesk) -> None:
    desk.held().let_down_to("dwell")
    desk.person.clock.suspend(3600)
    desk.person.program.ticker.call_all()
    desk.person.look()
    assert desk.word == "PRESSURISED"
    desk.walker.keys("F8")
    desk.walker.until_item("dwell")
    assert desk.screen.wait_digits != "0:00"


def test_a_nap_of_less_than_two_minutes_is_no_wait_either(desk: PotDesk) -> None:
    desk.held().let_down_to("dwell")
    clock, ticker = desk.person.clock, desk.person.program.ticker
    pots = desk.person.program.services.pots
    before = dwell_left(pots.state(desk.pot), pots._now(desk.pot))
    for _ in range(12):
        clock.suspend(115)
        ticker.call_all()
    desk.person.look()
    assert dwell_left(pots.state(desk.pot), pots._now(desk.pot)) == before
    assert desk.word.startswith("PROVING")
    clock.advance(20)
    assert dwell_left(pots.state(desk.pot), pots._now(desk.pot)) == before - 20


def test_a_clock_set_forward_is_no_wait(desk: PotDesk) -> None:
    desk.held().let_down_to("dwell")
    desk.person.clock.step(3600)
    desk.person.program.ticker.call_all()
    desk.person.look()
    assert no_word(desk)
    assert desk.item in ("dwell", "inlet", "") or desk.screen.belief is Belief.PRESSURISED


def test_straight_to_zero_costs_half_an_hour_and_a_third_sign(desk: PotDesk) -> None:
    desk.held().let_down_to("fall_first")
    desk.choose("straight_to_zero")
    desk.walker.until_item("dwell")
    assert desk.screen.wait_digits == "30:00"
    assert "third sign" in desk.notes


def test_at_once_is_not_a_fall_seen(desk: PotDesk) -> None:
    desk.held().let_down_to("fall_speed")
    desk.choose("at_once")
    desk.walker.until_item("dwell")
    assert desk.screen.wait_digits == "30:00"


def test_vent_now_does_not_skip_the_isolating(desk: PotDesk) -> None:
    desk.held().walker.keys("F9")
    assert desk.item == "inlet"
    desk.walker.until_item("zero")
    reported = {row.label for row in desk.screen.reported}
    assert {"Inlet", "Hose"} <= reported


def test_the_same_hole_is_not_two_signs(desk: PotDesk) -> None:
    desk.held().let_down_to("sign")
    desk.choose("vent")
    desk.choose("none")
    assert desk.item == "sign"
    assert "vent" not in [each.id for each in desk.screen.answers]


def test_a_zero_below_the_band_is_a_failed_gauge(desk: PotDesk) -> None:
    desk.held().let_down_to("zero")
    desk.type("-0.3")
    if desk.screen.refusal:
        assert desk.item == "zero"
        return
    assert desk.screen.branch_key in ("stuck_gauge", "suspect")
    assert no_word(desk)


def test_a_plate_made_kinder_in_the_middle_waits_for_the_open_lid(desk: PotDesk) -> None:
    desk.held().let_down_to("sign")
    plates = desk.person.program.services.plates
    newest = plates.newest(desk.pot)
    assert newest is not None
    owed = desk.notes
    mapping = {
        "name": "Big pot", "rating": {"pressure": "9 bar", "warmest": "20 °C"},
        "lid": {"clamps": 1, "passes": 2}, "size": {"seal_diameter": "20 mm"},
    }  # fmt: skip
    version, problems = plates.save(mapping, desk.pot)
    assert version is not None, problems
    desk.person.look()
    assert desk.notes == owed
    state = desk.person.program.services.pots.state(desk.pot)
    assert state.plate_version == newest.number


def test_another_page_another_pane_and_undo_change_nothing(desk: PotDesk) -> None:
    desk.held().let_down_to("dwell")
    before = (desk.item, desk.screen.wait_digits)
    for keys in ("Ctrl+Z", "Ctrl+1", "Ctrl+2", "Ctrl+3", "Ctrl+Z"):
        desk.person.sequence(keys)
    for page in ("vessel", "air", "readings", "list"):
        desk.person.program.presenters.pot.on_page(page)
    assert (desk.item, desk.screen.wait_digits) == before


def test_stop_and_cant_tell_move_nothing(desk: PotDesk) -> None:
    desk.held().let_down_to("vent")
    desk.person.press("pot.stop")
    assert desk.item == "vent"
    for _ in range(5):
        desk.choose("cant_tell")
        assert (desk.item, desk.screen.branch_key) == ("vent", "cant_tell")


def test_opened_without_the_list_is_recorded_and_not_believed(desk: PotDesk) -> None:
    desk.held()
    desk.odd("opened_without_list")
    assert desk.word == "NOT KNOWN"
    assert desk.item == "lid_off_now"
    desk.choose("lid_is_on")
    assert desk.word == "NOT KNOWN"
    desk.choose("inside_seen")
    assert desk.word.startswith("OPEN")
    marks = desk.person.program.services.pots.state(desk.pot).marks
    assert "opened without the list" in marks


def test_waiting_too_long_with_the_word_takes_it_back(desk: PotDesk) -> None:
    desk.held().let_down_to("slacken")
    assert desk.word == "CLEAR TO CRACK"
    desk.choose("done")
    desk.wait(601)
    assert desk.word == "PROVING"
    assert desk.screen.branch_key == "expired"
    assert "Hands off" in desk.notes
    assert desk.person.program.services.pots.state(desk.pot).passes == 1


def test_a_hiss_at_the_lid_stops_everything(desk: PotDesk) -> None:
    desk.held().let_down_to("rock")
    desk.choose("hiss")
    assert desk.word == "STOP"
    assert desk.screen.branch_key == "suspect"
    desk.wait(24 * 3600)
    assert desk.word == "STOP"
