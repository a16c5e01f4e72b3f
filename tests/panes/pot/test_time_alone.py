"""What time alone changes is drawn within a second, and no answer goes to a question out of sight."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from shopassist.core.pot.words import Belief
from shopassist.widgets.theme import Theme
from tests.panes.pot.test_view import ViewBench, settle

IDLE, WORD = 605.0, 605.0
"""Longer than the list waits for an answer, and than the word holds, [s]."""


@pytest.fixture
def made(tmp_path: Path, qapp: QApplication) -> Iterator[ViewBench]:
    bench = ViewBench(tmp_path)
    theme = Theme(qapp, bench.look)
    settle()
    bench.go("pressurised")
    bench.press("pot.offer.let_down")
    yield bench
    bench.view.close()
    bench.view.deleteLater()
    theme.deleteLater()
    settle()


def test_after_ten_idle_minutes_the_screen_asks_where_one_was(made: ViewBench) -> None:
    made.go_item("hose")
    made.wait(IDLE)
    made.view.tick()
    settle()
    assert made.item == "where_were_you"
    assert made.view.card.question.words == made.screen.question
    assert made.find("pot.answer.been_here").isVisible()


def test_a_word_that_ran_out_leaves_the_screen(made: ViewBench) -> None:
    made.go_item("slacken")
    word = made.screen.belief
    assert word is Belief.CLEAR
    made.wait(WORD)
    made.view.tick()
    settle()
    assert made.screen.belief is Belief.PROVING
    assert made.view.card.question.words == made.screen.question
    for each in made.screen.answers:
        assert made.find(each.name).isVisible()


@pytest.mark.parametrize("item", ["hose", "zero_again"])
def test_an_answer_to_what_is_asked_no_longer_is_not_taken(made: ViewBench, item: str) -> None:
    made.go_item(item)
    before = made.shop.pots.revision(made.pot)
    made.wait(IDLE)
    assert made.item == "where_were_you"
    if item == "zero_again":
        QTest.keyClicks(made.find("pot.answer.typed_reading"), "0.0")
        made.press("pot.answer.record")
    else:
        made.press("pot.answer.cant_tell")
    assert made.shop.pots.revision(made.pot) == before
    assert made.view.card.question.words == made.screen.question
    made.press("pot.answer.been_here")
    assert made.shop.pots.revision(made.pot) > before
