"""More short cuts at a pot: double clicks, digits in a burst, its record removed, an older file."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtWidgets import QApplication, QWidget

from shopassist.clock.manual import ManualClock
from shopassist.core.pot.words import Belief
from shopassist.store.opening import back_up, restore
from tests.app.pot_bench import PotDesk
from tests.app.pot_hands import MouseWalker
from tests.proofs.pot_hand import Hand

WORD = (Belief.CLEAR, Belief.CRACKED, Belief.OPEN)


@pytest.fixture
def desk(tmp_path: Path, qapp: QApplication) -> Iterator[PotDesk]:
    made = PotDesk(tmp_path)
    yield made
    made.close()


def believes(hand: Hand, belief: Belief) -> bool:
    return hand.state.belief is belief


def test_double_clicks_all_the_way_down_never_give_the_word(desk: PotDesk) -> None:
    desk.held().walker.keys("F8")
    hand = MouseWalker(desk.person)
    for _ in range(25):
        if not desk.screen.answers:
            desk.wait(60)
            continue
        button = desk.person.find(QWidget, desk.screen.answers[-1].name)
        if not button.isEnabled():
            button = desk.person.find(QWidget, desk.screen.answers[0].name)
        hand.down(button)
        hand.up()
        hand._send(QEvent.Type.MouseButtonDblClick, Qt.MouseButton.LeftButton)
        hand.up()
        desk.person.look()
        assert desk.screen.belief not in WORD, desk.item


def test_digits_in_a_burst_never_give_the_word(desk: PotDesk) -> None:
    desk.held().walker.keys("F8")
    for burst in ("111111", "222222", "121212", "333333", "987654321"):
        for digit in burst:
            desk.walker.keys(digit)
        assert desk.screen.belief not in WORD, burst


def test_a_pot_whose_record_is_removed_or_renamed_is_as_full_as_before(desk: PotDesk) -> None:
    desk.held().let_down_to("dwell")
    plates = desk.person.program.services.plates
    newest = plates.newest(desk.pot)
    assert newest is not None
    plates.remove(desk.pot)
    desk.person.look()
    assert desk.screen.belief is Belief.PROVING
    assert desk.pot in desk.person.program.services.pots.ids()
    assert desk.word.startswith("PROVING")


def test_an_older_file_in_place_of_the_log_makes_the_pot_not_known(tmp_path: Path) -> None:
    hand = Hand(tmp_path / "log", ManualClock())
    while not believes(hand, Belief.OPEN):
        hand.step()
    kept = back_up(hand.shop.journal, tmp_path / "backups")
    while not believes(hand, Belief.PROVING):
        hand.step()
    clock = hand.shop.clock
    hand.close()
    clock.moved = None
    restore(kept, tmp_path / "log" / "journal.db", clock)
    again = Hand(tmp_path / "log", clock)
    assert believes(again, Belief.UNKNOWN)
    again.close()


def test_an_answer_taken_back_costs_what_rests_on_it(desk: PotDesk) -> None:
    """A zero that was typed too soon is taken back, and typed again at once: from isolating."""
    desk.held().let_down_to("rock")
    zero = desk.person.program.services.pots.state(desk.pot)
    desk.odd("wrong")
    state = desk.person.program.services.pots.state(desk.pot)
    assert state.belief is Belief.LETTING_DOWN
    assert len(state.evidence) < len(zero.evidence)
    assert desk.item in ("inlet_now", "inlet", "supply")


def test_what_is_taken_back_is_named_and_only_while_it_counts(desk: PotDesk) -> None:
    desk.held().walker.keys("1")
    desk.type("2.4")
    desk.walker.keys("F7")
    (wrong,) = [each for each in desk.screen.answers if each.id == "wrong"]
    assert wrong.shown.second == "Gauge: 2.4 bar. It counts no more."
    desk.person.press(wrong.name)
    assert desk.screen.belief is Belief.PRESSURISED
    desk.walker.keys("F7")
    assert "wrong" not in [each.id for each in desk.screen.answers]
