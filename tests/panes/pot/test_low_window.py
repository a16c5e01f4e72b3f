"""A low window: gaps shrink before answers do."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from shopassist.widgets.answer_button import GAP_MM, LEAST_GAP_MM
from shopassist.widgets.theme import Theme
from tests.panes.pot.test_view import ViewBench, settle, whole_in


@pytest.fixture
def held(tmp_path: Path, qapp: QApplication) -> Iterator[ViewBench]:
    bench = ViewBench(tmp_path)
    theme = Theme(qapp, bench.look)
    settle()
    bench.go("pressurised")
    yield bench
    bench.view.close()
    bench.view.deleteLater()
    theme.deleteLater()
    settle()


@pytest.fixture
def low(held: ViewBench) -> ViewBench:
    held.press("pot.offer.let_down")
    held.go_item("sign")
    return held


def test_the_gaps_shrink_and_the_answers_stay_whole(low: ViewBench) -> None:
    grid = low.view.card.answers
    apart = {}
    for height in (545, 480):
        low.view.resize(930, height)
        settle()
        whole_in(low, [*grid.buttons.values(), *low.view.card.offers.buttons.values()])
        first, second = list(grid.buttons.values())[:2]
        apart[height] = second.x() - first.geometry().right() - 1
    assert apart == {545: low.look.mm(GAP_MM), 480: low.look.mm(LEAST_GAP_MM)}


def test_what_was_reported_is_shown_whole_or_not_at_all(held: ViewBench) -> None:
    held.press("pot.more")
    held.press("pot.offer.too_hot")
    last, seen = held.view.card.last, set()
    for height in range(600, 330, -15):
        held.view.resize(930, height)
        settle()
        seen.add(last.isVisible())
        if last.isVisible():
            room = last.parentWidget()
            assert room is not None
            assert last.geometry().bottom() <= room.height(), height
    assert seen == {True, False}
