"""Every odd thing at a pot has a look of its own, in grey as well."""

from collections.abc import Iterator
from itertools import combinations

import pytest
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication

from shopassist.core.pot.words import Branch
from shopassist.widgets.branch_note import MARKS, BranchNote
from shopassist.widgets.look import Look
from shopassist.widgets.tokens import DARK
from tests.widgets.pictures import apart, plainly


@pytest.fixture
def note(look: Look) -> Iterator[BranchNote]:
    made = BranchNote(look, "pot.branch")
    made.resize(500, 60)
    yield made
    made.close()
    made.deleteLater()


def picture(note: BranchNote, key: str) -> QImage:
    """The block with its mark; the same words everywhere."""
    note.show_branch(key, "Same words.", "Same words.")
    QApplication.processEvents()
    block = round(2.4 * note.look.metrics.body_px)
    return note.grab(note.rect().adjusted(0, 0, block - note.width(), 0)).toImage()


def test_every_branch_has_a_mark() -> None:
    assert {str(branch) for branch in Branch if branch} <= set(MARKS)
    assert {"cant_tell", "rising", "expired", "suspect"} <= set(MARKS)


@pytest.mark.parametrize("dark", [False, True])
def test_no_two_look_alike_even_in_grey(note: BranchNote, dark: bool) -> None:
    if dark:
        note.look.set_tokens(DARK)
    pictures = {key: plainly(picture(note, key), "grey") for key in MARKS}
    for (one, first), (two, second) in combinations(pictures.items(), 2):
        assert apart(first, second) > 0.01, (one, two)


def test_what_hurries_is_said_and_shown(note: BranchNote) -> None:
    note.show_branch("too_hot", "What", "Do")
    assert note.rank == "high"
    assert note.accessibleDescription() == "Do (high)"
    note.show_branch("supply_lost", "What", "Do")
    assert (note.rank, note.block_colours()) == ("low", ("select", "ink"))


def test_without_words_there_is_nothing(note: BranchNote) -> None:
    note.show_branch("", "", "")
    assert note.isHidden()
    assert note.rank == "medium"
    note.show_branch("", "Plain", "note")
    assert not note.grab().isNull()
