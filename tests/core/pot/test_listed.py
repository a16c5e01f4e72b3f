"""What may be reported although it is not asked for, and what may not."""

from dataclasses import replace

import pytest

from shopassist.core.pot.events import Answer, Correction, Event, Typed
from shopassist.core.pot.listed import wrong_answer
from shopassist.core.pot.words import Act, Belief, Item, Sign, Told
from tests.core.pot.bench import BAR, Sitting, no_hiss, proving


def out_of_turn(sitting: Sitting, event: Event) -> bool:
    return sitting.refused(event).guard == "in turn"


def stay() -> Typed:
    return Typed(Item.STAY, 4 * BAR, "4", "bar")


LATE_PASS = Answer(Item.SLACKEN, "done")
LATE_LID = Answer(Item.LID_OFF, "inside_seen")
LIFT = Typed(Item.LIVE_LIFT, 4 * BAR, "4", "bar")


# -- staying at pressure ---------------------------------------------------------------------------


def test_a_mis_press_of_let_down_is_undone_while_the_vent_was_not_opened() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.do(stay())
    assert sitting.believes(Belief.PRESSURISED)


@pytest.mark.parametrize("press", [False, True])
def test_once_the_vent_was_opened_there_is_no_staying(press: bool) -> None:
    sitting = Sitting().held()
    sitting.isolate()
    if press:
        sitting.press(Act.VENT_NOW)
    else:
        sitting.vent()
    assert out_of_turn(sitting, stay())
    sitting.press(Act.LET_DOWN)
    assert out_of_turn(sitting, stay())


def test_a_pot_that_nobody_knows_is_not_stayed_at() -> None:
    sitting = Sitting(opened=False)
    sitting.press(Act.LET_DOWN)
    assert out_of_turn(sitting, stay())


def test_without_air_there_is_no_pressure_to_stay_at() -> None:
    sitting = Sitting()
    sitting.ready()
    sitting.close()
    sitting.tell(Told.RESTARTED)
    assert sitting.believes(Belief.PRESSURISED)
    sitting.press(Act.LET_DOWN)
    assert out_of_turn(sitting, stay())


# -- filling and holding ---------------------------------------------------------------------------


def test_the_supply_is_asked_for_at_its_place_while_the_air_goes_in() -> None:
    sitting = Sitting()
    sitting.ready()
    sitting.close()
    sitting.press(Act.AIR_ON)
    assert out_of_turn(sitting, Answer(Item.SUPPLY, "isolated"))
    sitting.typed(Item.READING, 0.5 * BAR)
    sitting.typed(Item.FIRST_AIR, 0.7 * BAR)


def test_a_test_run_may_lift_its_relief_valve_again() -> None:
    sitting = Sitting().held(run="test")
    sitting.do(LIFT)
    assert sitting.asks(None)
    sitting.do(LIFT)
    sitting.press(Act.LET_DOWN)
    assert out_of_turn(sitting, LIFT)


def test_a_run_with_resin_lifts_no_relief_valve() -> None:
    assert out_of_turn(Sitting().held(), LIFT)


# -- slackening and the lid --------------------------------------------------------------------------


def test_a_clamp_is_not_slackened_before_the_word_was_given() -> None:
    sitting = proving()
    assert out_of_turn(sitting, LATE_PASS)
    sitting.prove()
    assert out_of_turn(sitting, LATE_PASS)
    assert out_of_turn(sitting, LATE_LID)


def test_a_pass_that_comes_after_the_word_ran_out_is_taken() -> None:
    sitting = Sitting().cleared()
    sitting.wait(601)
    assert sitting.believes(Belief.PROVING)
    sitting.do(LATE_PASS)
    assert sitting.state.passes == 1


def test_a_lid_that_moved_freely_takes_no_more_passes() -> None:
    sitting = Sitting().cleared()
    sitting.crack()
    assert out_of_turn(sitting, LATE_PASS)


def test_a_lid_that_was_free_may_be_reported_off_after_its_time() -> None:
    sitting = Sitting().cleared()
    sitting.crack()
    sitting.wait(300)
    assert sitting.asks(Item.ROCK)
    sitting.do(LATE_LID)
    assert sitting.believes(Belief.OPEN)
    assert "lid off late" in sitting.state.marks


@pytest.mark.parametrize("passes", [0, 3])
def test_a_lid_that_was_never_free_is_not_off(passes: int) -> None:
    sitting = Sitting().cleared()
    for _ in range(passes):
        sitting.do(LATE_PASS)
    assert out_of_turn(sitting, LATE_LID)


# -- a failed gauge -------------------------------------------------------------------------------


def test_a_gauge_that_failed_is_not_read_on_the_way_to_the_silence() -> None:
    sitting = no_hiss()
    sitting.typed(Item.READING, 3.9 * BAR)
    for sign in (Sign.INLET, Sign.RING):
        sitting.answer(Item.OPENING, sign)
        sitting.answer(Item.OPENING_HEARD, "hiss_silent", sign)
    assert sitting.state.gauge_failed == "stuck"
    assert out_of_turn(sitting, Typed(Item.READING, 3.9 * BAR, "3.9", "bar"))


# -- taking back -------------------------------------------------------------------------------------


@pytest.mark.parametrize("belief", list(Belief))
def test_an_answer_is_taken_back_where_what_rests_on_it_is_withdrawn(belief: Belief) -> None:
    sitting = Sitting().cleared()
    sitting.answer(Item.SLACKEN, "done")
    state = replace(sitting.state, belief=belief)
    late = belief not in (Belief.UNKNOWN, Belief.OPEN, Belief.CLOSED, Belief.SUSPECT)
    assert (wrong_answer(state) is not None) is late


def test_an_answer_that_was_taken_back_is_not_taken_back_again() -> None:
    sitting = Sitting().held()
    sitting.typed(Item.READING, 3.9 * BAR)
    assert wrong_answer(sitting.state) == sitting.state.find(Item.READING)
    sitting.do(Correction(Item.READING, "read the other dial"))
    assert wrong_answer(sitting.state) is None
