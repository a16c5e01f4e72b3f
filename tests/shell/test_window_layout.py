import itertools

import pytest
from PySide6.QtCore import QRect, QSize
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from shopassist.shell.window_layout import PRIMARY, Parts, WindowLayout, arrange, others
from shopassist.widgets.look import Look

KEYS = ("mix", "cure", "pot", "blank", "log")


class Line(QWidget):
    """A piece of a fixed size."""

    def __init__(self, width: int, height: int) -> None:
        super().__init__()
        self._size = QSize(width, height)

    def sizeHint(self) -> QSize:
        return self._size


class Sheet(QWidget):
    """A pane or card that remembers what it was told."""

    focused = False
    row = False

    def set_focused(self, focused: bool) -> None:
        self.focused = focused

    def set_row(self, on: bool) -> None:
        self.row = on


@pytest.fixture
def board(qapp: object, qtbot: QtBot) -> WindowLayout:
    alarm = Line(10, 40)
    alarm.hide()
    parts = Parts(
        Line(10, 80),
        alarm,
        Line(84, 10),
        Line(10, 60),
        {key: Sheet() for key in KEYS},
        {key: Sheet() for key in PRIMARY},
    )
    made = WindowLayout(Look("Sans Serif"), parts)
    qtbot.addWidget(made)
    made.resize(1366, 740)
    made.show()
    return made


def rects(board: WindowLayout) -> list[QRect]:
    widgets = [*board.parts.panes.values(), *board.parts.cards.values()]
    return [w.geometry() for w in widgets if w.isVisible()]


@pytest.mark.parametrize("width", [640, 911, 999, 1000, 1280, 1366, 1599, 1600, 1920, 2560])
@pytest.mark.parametrize("focus", KEYS)
def test_nothing_overlaps_and_nothing_leaves_its_room(width: int, focus: str) -> None:
    room = QRect(100, 90, width, 560)
    places = arrange(room, focus, 50)
    found = [*places.panes.values(), *places.cards.values()]
    for rect in found:
        assert room.contains(rect)
        assert rect.height() > 0
    for one, other in itertools.combinations(found, 2):
        assert not one.intersects(other)
    assert focus in places.panes
    assert {*places.panes, *places.cards} >= ({"cure", "pot"} if width < 1600 else set(PRIMARY))


def test_wide_windows_show_the_three_side_by_side() -> None:
    places = arrange(QRect(0, 0, 1800, 800), "pot", 50)
    assert tuple(places.panes) == PRIMARY
    assert places.cards == {}
    assert places.panes["cure"].width() > places.panes["pot"].width() > places.panes["mix"].width()
    assert places.panes["pot"].right() == 1799


def test_a_secondary_pane_in_a_wide_window_leaves_cure_in_sight() -> None:
    places = arrange(QRect(0, 0, 1800, 800), "blank", 50)
    assert set(places.panes) == {"blank", "cure"}
    assert set(places.cards) == {"pot", "mix"}
    assert places.row


def test_a_secondary_pane_in_large_type_is_not_cut_for_cure() -> None:
    """1,800 pixels hold two panes in body type of 15 pixels, not in 18."""
    room = QRect(0, 0, 1800, 800)
    assert set(arrange(room, "turn", 50, body_px=15).panes) == {"turn", "cure"}
    large = arrange(room, "turn", 50, body_px=18)
    assert set(large.panes) == {"turn"}
    assert set(large.cards) == {"cure", "pot"}
    assert large.panes["turn"].width() > 56 * 18
    assert tuple(arrange(room, "mix", 50, body_px=18).panes) == PRIMARY


def test_pot_on_a_walk_takes_the_room_of_two_and_cure_stays() -> None:
    room = QRect(0, 0, 1800, 800)
    for focus in ("pot", "cure"):
        places = arrange(room, focus, 50, "pot")
        assert set(places.panes) == {"pot", "cure"}
        assert set(places.cards) == {"mix"}
        assert places.panes["pot"].width() > 860
    assert set(arrange(room, "mix", 50, "pot").panes) == {"mix", "cure"}
    assert arrange(QRect(0, 0, 1270, 570), "pot", 50, "pot") == arrange(
        QRect(0, 0, 1270, 570), "pot", 50
    )


def test_a_board_is_told_which_pane_is_broad(board: WindowLayout) -> None:
    board.resize(1920, 1000)
    board.set_focus("pot")
    assert board.shown() == set(PRIMARY)
    board.set_broad("pot")
    assert board.shown() == {"pot", "cure"}
    board.set_broad("")
    assert board.shown() == set(PRIMARY)


def test_narrow_windows_show_one_pane_and_two_cards() -> None:
    places = arrange(QRect(0, 0, 1270, 570), "cure", 50)
    assert set(places.panes) == {"cure"}
    assert set(places.cards) == set(others("cure")) == {"pot", "mix"}
    assert not places.row


def test_under_a_thousand_pixels_the_cards_are_one_row() -> None:
    places = arrange(QRect(0, 0, 900, 500), "mix", 50)
    tops = {rect.top() for rect in places.cards.values()}
    assert places.row
    assert len(tops) == 1


def test_in_a_low_and_narrow_window_the_pot_stands_alone() -> None:
    low, high = QRect(0, 0, 800, 300), QRect(0, 0, 800, 560)
    assert arrange(low, "pot", 50, body_px=17).panes == {"pot": low}
    assert not arrange(low, "pot", 50, body_px=17).cards
    assert len(arrange(high, "pot", 50, body_px=17).cards) == 2
    assert len(arrange(low, "mix", 50, body_px=17).cards) == 2


def test_pot_line_and_next_line_run_edge_to_edge(board: WindowLayout) -> None:
    assert board.parts.pot_line.geometry() == QRect(0, 0, 1366, 80)
    assert board.parts.next_line.geometry() == QRect(0, 680, 1366, 60)


def test_an_alarm_pushes_panes_down_and_covers_nothing(board: WindowLayout) -> None:
    top = rects(board)[0].top()
    board.parts.alarm_band.show()
    board.arrange()
    assert board.parts.alarm_band.geometry() == QRect(0, 80, 1366, 40)
    assert rects(board)[0].top() == top + 40


def test_the_focus_changes_panes_at_once(board: WindowLayout) -> None:
    assert board.focus == "mix"
    board.set_focus("blank")
    panes = board.parts.panes
    assert panes["blank"].isVisible()
    assert not panes["mix"].isVisible()
    assert board.shown() == {"blank"}
    blank = panes["blank"]
    assert isinstance(blank, Sheet)
    assert blank.focused
    board.set_focus("nothing")
    assert board.focus == "blank"


def test_a_view_over_the_panes_leaves_pot_line_and_next_line(board: WindowLayout) -> None:
    view = QWidget()
    board.set_over(view)
    assert view.geometry() == QRect(0, 80, 1366, 600)
    assert not board.parts.rail.isVisible()
    assert board.parts.pot_line.isVisible()
    board.set_over(None)
    assert board.parts.rail.isVisible()
    assert not view.isVisible()


def test_a_card_beside_the_panes_is_never_over_them(board: WindowLayout) -> None:
    card = QWidget()
    board.set_beside(card)
    assert all(not card.geometry().intersects(rect) for rect in rects(board))
    board.set_beside(None)
    assert not card.isVisible()
    assert board.minimumSizeHint().width() <= 1366
    assert not board.grab().isNull()


def test_a_walk_that_half_a_window_would_cramp_stands_as_in_a_narrow_one() -> None:
    room = QRect(0, 0, 1760, 800)
    for focus in ("pot", "cure"):
        places = arrange(room, focus, 50, "pot", 1000)
        assert set(places.panes) == {focus}
        assert places.panes[focus].width() > 1300
    assert set(arrange(room, "pot", 50, "pot", 800).panes) == {"pot", "cure"}
    assert set(arrange(room, "mix", 50, "pot", 1000).panes) == {"mix", "cure"}


def test_in_a_low_window_the_next_line_yields_to_an_alarm_over_a_pots_list(
    board: WindowLayout,
) -> None:
    board.resize(1366, 700)
    board.set_focus("pot")
    board.parts.alarm_band.show()
    board.arrange()
    assert not board.parts.next_line.isHidden()
    board.set_broad("pot")
    assert board.parts.next_line.isHidden()
    assert not board.parts.pot_line.isHidden()
    board.resize(1366, 1000)
    board.arrange()
    assert not board.parts.next_line.isHidden()
    board.resize(1366, 700)
    board.parts.alarm_band.hide()
    board.arrange()
    assert not board.parts.next_line.isHidden()
