"""A pot closed without air."""

from collections.abc import Callable

import pytest

from shopassist.core.pot.events import Note, Press
from shopassist.core.pot.evidence import Path, dwell_owed, path, signs_owed
from shopassist.core.pot.moves import above_band
from shopassist.core.pot.state import PotState
from shopassist.core.pot.words import Act, Belief, Branch, Item, Sign, Told
from tests.core.pot.bench import BAR, Sitting


def closed() -> Sitting:
    sitting = Sitting()
    sitting.ready()
    sitting.close()
    return sitting


def test_no_air_yet_needs_two_zeros_two_minutes_apart_and_the_sightings() -> None:
    sitting = closed()
    sitting.isolate()
    sitting.answer(Item.VENT, "opened_none")
    sitting.typed(Item.ZERO, 0.0)
    assert dwell_owed(sitting.state) == 120.0
    sitting.wait(120)
    sitting.typed(Item.ZERO_AGAIN, 0.0)
    sitting.sights()
    sitting.press(Act.CONFIRM)
    assert sitting.believes(Belief.CLEAR)


def test_no_air_yet_is_kept_through_a_restart() -> None:
    sitting = closed()
    sitting.tell(Told.RESTARTED)
    assert sitting.believes(Belief.PRESSURISED)
    assert not sitting.state.air


@pytest.mark.parametrize("item", [Item.VENT, Item.ZERO])
def test_any_sign_of_air_ends_no_air_yet(item: Item) -> None:
    sitting = closed()
    sitting.isolate()
    if item is Item.VENT:
        sitting.answer(Item.VENT, "opened_hiss")
    else:
        sitting.answer(Item.VENT, "opened_none")
        sitting.typed(Item.ZERO, 1 * BAR)
    assert sitting.state.air


def test_a_reading_on_a_closed_pot_means_that_air_is_in() -> None:
    sitting = closed()
    sitting.typed(Item.READING, 0.0)
    assert sitting.believes(Belief.CLOSED)
    sitting.typed(Item.READING, 1 * BAR)
    assert sitting.believes(Belief.PRESSURISED)


@pytest.mark.parametrize("act", [None, Act.LET_DOWN, Act.DOUBT])
def test_a_relief_valve_that_lifts_ends_no_air_yet_wherever_it_is_told(act: Act | None) -> None:
    sitting = closed()
    if act is None:
        sitting.tell(Told.RESTARTED)
    else:
        sitting.press(act)
    sitting.press(Act.RELIEF_LIFTED)
    assert sitting.state.air


@pytest.mark.parametrize("act", [None, Act.LET_DOWN, Act.DOUBT])
def test_a_reading_above_zero_ends_no_air_yet_wherever_it_is_typed(act: Act | None) -> None:
    sitting = closed()
    if act is None:
        sitting.tell(Told.RESTARTED)
    else:
        sitting.press(act)
    sitting.typed(Item.READING, 0.0)
    assert not sitting.state.air
    sitting.typed(Item.READING, 2 * BAR)
    assert sitting.state.air


def test_without_a_plate_any_reading_above_nothing_means_air() -> None:
    state = PotState(air=False)
    assert above_band(state, 1 * BAR)
    assert not above_band(state, 0.0)


def test_a_relief_valve_that_lifts_on_a_closed_pot_means_air() -> None:
    sitting = closed()
    sitting.press(Act.RELIEF_LIFTED)
    assert sitting.believes(Belief.PRESSURISED)


def test_without_air_two_minutes_are_enough_however_long_the_vent_was_open() -> None:
    sitting = closed()
    sitting.isolate()
    sitting.answer(Item.VENT, "opened_none")
    sitting.wait(300)
    sitting.typed(Item.ZERO, 0.0)
    assert dwell_owed(sitting.state) == 120.0


def zero(sitting: Sitting) -> None:
    sitting.isolate()
    sitting.answer(Item.VENT, "opened_none")
    sitting.typed(Item.ZERO, 0.0)


def steady_at_once(sitting: Sitting) -> None:
    sitting.isolate()
    sitting.answer(Item.VENT, "opened_none")
    sitting.answer(Item.ZERO, "silent_steady")


def steady_after_a_zero(sitting: Sitting) -> None:
    zero(sitting)
    sitting.wait(120)
    sitting.answer(Item.ZERO_AGAIN, "silent_steady")


def somebody_moved_things(sitting: Sitting) -> None:
    zero(sitting)
    sitting.wait(1000)
    sitting.answer(Item.WHERE, "moved")


def a_doubt(sitting: Sitting) -> None:
    sitting.press(Act.DOUBT)
    sitting.press(Act.LET_DOWN)


def a_doubt_and_a_note(sitting: Sitting) -> None:
    sitting.press(Act.DOUBT)
    sitting.do(Note("Somebody", "Looked at it"))


@pytest.mark.parametrize("act", [
    steady_at_once, steady_after_a_zero, somebody_moved_things, a_doubt, a_doubt_and_a_note,
])  # fmt: skip
def test_whatever_leaves_a_doubt_ends_no_air_yet(act: Callable[[Sitting], None]) -> None:
    sitting = closed()
    act(sitting)
    assert sitting.believes(Belief.LETTING_DOWN)
    assert path(sitting.state) is Path.NORMAL
    assert dwell_owed(sitting.state) == 1800.0
    assert signs_owed(sitting.state) == 2


def test_air_that_left_by_another_opening_was_in_the_pot() -> None:
    sitting = closed()
    steady_at_once(sitting)
    sitting.answer(Item.EYES, "covered")
    sitting.typed(Item.VENT_READING, 1 * BAR)
    sitting.answer(Item.OPENING, Sign.INLET)
    sitting.answer(Item.OPENING_HEARD, "hiss_falls", Sign.INLET)
    sitting.wait(30)
    sitting.typed(Item.FALL_FIRST, 0.0)
    sitting.answer(Item.VENT_AGAIN, "open")
    sitting.typed(Item.ZERO, 0.0)
    sitting.wait(120)
    assert sitting.asks(Item.DWELL)
    sitting.wait(1680)
    assert sitting.asks(Item.SIGN)
    assert sitting.refused(Press(Act.CONFIRM)).guard == "confirm last"


def test_a_gauge_that_stands_above_zero_takes_the_zero_before_it_back() -> None:
    sitting = Sitting().held()
    sitting.let_down()
    sitting.wait(600)
    sitting.sign(Sign.VENT)
    sitting.answer(Item.ZERO_AGAIN, "silent_steady")
    assert sitting.believes(Belief.LETTING_DOWN)
    assert sitting.shows(Branch.NO_HISS)
    assert sitting.state.find(Item.ZERO) is None
    assert sitting.asks(Item.INLET)
