"""Every odd thing at a pot, met through the window: its own words and its own look."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from shopassist.core.pot.words import Belief
from shopassist.widgets.branch_note import BranchNote
from tests.app.pot_bench import PotDesk

Story = Callable[[PotDesk], None]


@pytest.fixture
def desk(tmp_path: Path, qapp: QApplication) -> Iterator[PotDesk]:
    made = PotDesk(tmp_path)
    yield made
    made.close()


def over_limit(desk: PotDesk) -> None:
    desk.walker.until_item("at_pressure")
    desk.type("3.6")


def no_hiss(desk: PotDesk) -> None:
    desk.held().let_down_to("vent")
    desk.choose("opened_none")
    desk.type("2.7")


def rising(desk: PotDesk) -> None:
    desk.held().let_down_to("fall_second")
    desk.type("1.36")


def disagree(desk: PotDesk) -> None:
    desk.held().let_down_to("sign")
    desk.choose("vent")
    desk.choose("some")


def stuck_lid(desk: PotDesk) -> None:
    desk.held().let_down_to("rock")
    desk.choose("stuck")


def below_zero(desk: PotDesk) -> None:
    desk.held().let_down_to("zero")
    desk.choose("on_pin")


def odd(thing: str) -> Story:
    def tell(desk: PotDesk) -> None:
        desk.held().odd(thing)

    return tell


@pytest.mark.parametrize(
    ("story", "key", "words"),
    [
        (over_limit, "over_limit", "Bleed down to it"),
        (no_hiss, "no_hiss", "Do not probe it"),
        (rising, "rising", "rose with the vent shut"),
        (disagree, "disagree", "Believe the worse"),
        (stuck_lid, "stuck_lid", "Use no pry bar"),
        (below_zero, "stuck_gauge", "The gauge failed"),
        (odd("relief_lifted"), "relief_lifted", "let it reseat"),
        (odd("supply_lost"), "supply_lost", "before power returns"),
        (odd("too_hot"), "too_hot", "Heater off"),
        (odd("lost_track"), "lost_track", "Start from isolating"),
        (odd("opened_without_list"), "opened_without_list", "say how it is now"),
        (odd("doubt"), "suspect", "Put no tools in the vent"),
    ],
)
def test_it_is_shown_with_its_own_words_and_mark(
    desk: PotDesk, story: Story, key: str, words: str
) -> None:
    story(desk)
    note = desk.person.find(BranchNote, "pot.branch")
    assert note.isVisible()
    assert note.key == key
    assert words in f"{note.what} {note.why}"
    assert desk.screen.belief not in (Belief.CLEAR, Belief.OPEN) or key == "stuck_lid"


def test_the_third_time_a_lid_sticks_wants_help(desk: PotDesk) -> None:
    stuck_lid(desk)
    for _ in range(2):
        desk.choose("stuck")
    assert desk.word == "STOP"
    assert "get help" in desk.notes
