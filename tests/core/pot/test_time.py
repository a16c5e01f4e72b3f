"""Dwells, lives, expiry, idleness."""

from dataclasses import replace

import pytest

from shopassist.core.pot.evidence import dwell_left, dwell_owed
from shopassist.core.pot.words import Act, Belief, Item, Sign, Told
from tests.core.pot.bench import BAR, GAUGE, Sitting, plate, proving


def test_the_dwell_is_the_vent_time() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.fall()
    sitting.wait(110)
    sitting.typed(Item.ZERO, 0.0)
    assert dwell_owed(sitting.state) == 200.0


def test_the_dwell_is_two_minutes_at_least_and_ten_at_most() -> None:
    sitting = proving()
    zero = sitting.state.find(Item.ZERO)
    assert zero is not None
    early = replace(zero, age=zero.age - 100)
    late = replace(zero, age=zero.age + 5000)
    assert dwell_owed(replace(sitting.state, evidence=(*sitting.state.evidence, early))) == 120.0
    assert dwell_owed(replace(sitting.state, evidence=(*sitting.state.evidence, late))) == 600.0


def test_an_unknown_gauge_class_stretches_the_dwell_by_half() -> None:
    gauge = replace(GAUGE, accuracy=None)
    sitting = Sitting(plate(gauge=gauge)).held()
    sitting.isolate()
    sitting.vent()
    sitting.fall()
    sitting.wait(110)
    sitting.typed(Item.ZERO, 0.0)
    assert dwell_owed(sitting.state) == 300.0


def test_a_zero_needs_the_whole_dwell() -> None:
    sitting = proving()
    owed = dwell_owed(sitting.state)
    sitting.wait(owed - 0.1)
    assert sitting.asks(Item.DWELL)
    sitting.wait(0.1)
    assert sitting.asks(Item.SIGN)


def test_a_suspend_counts_as_age_and_never_as_dwell() -> None:
    sitting = proving()
    owed = dwell_owed(sitting.state)
    sitting.wait(owed + 60)
    sitting.tell(Told.SUSPENDED, 100.0)
    assert sitting.asks(Item.DWELL)
    assert dwell_left(sitting.state, sitting.now) == pytest.approx(40.0)


def test_a_suspend_over_two_minutes_counts_as_a_restart() -> None:
    sitting = proving()
    sitting.tell(Told.SUSPENDED, 120.0)
    assert sitting.believes(Belief.PROVING)
    sitting.tell(Told.SUSPENDED, 121.0)
    assert sitting.believes(Belief.PRESSURISED)


def test_clear_to_crack_lasts_ten_minutes_from_its_oldest_evidence() -> None:
    sitting = proving()
    sitting.wait(600)
    sitting.sign(Sign.VENT)
    sitting.wait(200)
    sitting.typed(Item.ZERO_AGAIN, 0.0)
    sitting.sights()
    sitting.press(Act.CONFIRM)
    sitting.wait(399.9)
    assert sitting.believes(Belief.CLEAR)
    sitting.wait(0.2)
    assert sitting.believes(Belief.PROVING)


def test_a_sign_too_old_for_three_minutes_of_clearance_is_asked_again() -> None:
    sitting = proving()
    sitting.wait(600)
    sitting.sign(Sign.VENT)
    sitting.typed(Item.ZERO_AGAIN, 0.0)
    sitting.sights()
    sitting.wait(421)
    assert sitting.asks(Item.SIGN)


def test_expiry_while_slackening_keeps_the_passes_and_asks_no_new_dwell() -> None:
    sitting = Sitting().cleared()
    sitting.answer(Item.SLACKEN, "done")
    sitting.typed(Item.SLACKEN, 4.0)
    sitting.wait(601)
    assert sitting.believes(Belief.PROVING)
    sitting.answer(Item.SLACKEN, "done")
    assert sitting.asks(Item.SIGN)
    sitting.sign(Sign.VENT)
    sitting.typed(Item.ZERO_AGAIN, 0.0)
    sitting.sights()
    sitting.press(Act.CONFIRM)
    assert sitting.state.passes == 2
    sitting.answer(Item.SLACKEN, "done")
    assert sitting.asks(Item.ROCK)


def test_clear_to_open_lasts_five_minutes_then_the_lid_is_rocked_again() -> None:
    sitting = Sitting().cleared()
    sitting.crack()
    sitting.wait(299)
    assert sitting.believes(Belief.CRACKED)
    sitting.wait(2)
    assert sitting.believes(Belief.CLEAR)
    assert sitting.asks(Item.ROCK)


def test_when_both_have_run_out_everything_is_renewed() -> None:
    sitting = Sitting().cleared()
    sitting.crack()
    sitting.wait(700)
    assert sitting.believes(Belief.PROVING)
    assert sitting.asks(Item.WHERE)


def test_a_lid_off_that_comes_late_is_taken_as_a_fact() -> None:
    sitting = Sitting().cleared()
    sitting.crack()
    sitting.wait(700)
    sitting.answer(Item.LID_OFF, "inside_seen")
    assert sitting.believes(Belief.OPEN)
    assert "lid off late" in sitting.state.marks


def test_ten_idle_minutes_ask_the_sightings_again_and_erase_nothing() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.wait(601)
    assert sitting.asks(Item.WHERE)
    sitting.answer(Item.WHERE, "was_away")
    assert sitting.asks(Item.INLET)
    sitting.answer(Item.INLET, "shut")
    sitting.answer(Item.HOSE, "apart")
    assert sitting.asks(Item.EYES)


def test_a_wait_that_was_asked_for_is_never_idle() -> None:
    sitting = proving()
    sitting.wait(dwell_owed(sitting.state) + 599)
    assert sitting.asks(Item.SIGN)
    sitting.wait(2)
    assert sitting.asks(Item.WHERE)


def test_waiting_a_long_vent_out_is_not_idle() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.wait(1200)
    assert sitting.asks(Item.FALL_FIRST)
    sitting.typed(Item.FALL_FIRST, 2 * BAR)
    sitting.wait(659)
    assert sitting.asks(Item.FALL_SECOND)
    sitting.wait(2)
    assert sitting.asks(Item.WHERE)


def test_somebody_who_moved_things_means_isolating_and_fall_not_seen() -> None:
    sitting = proving()
    sitting.wait(dwell_owed(sitting.state) + 601)
    sitting.answer(Item.WHERE, "moved")
    assert sitting.believes(Belief.LETTING_DOWN)
    assert sitting.state.unseen_forced


def test_there_is_no_idle_rule_under_pressure() -> None:
    sitting = Sitting().held()
    sitting.wait(86400)
    assert sitting.asks(None)


@pytest.mark.parametrize(("more", "asked"), [(600.0, Item.SIGN), (600.5, Item.WHERE)])
def test_somebody_is_idle_after_more_than_ten_minutes(more: float, asked: Item) -> None:
    sitting = proving()
    sitting.wait(dwell_owed(sitting.state) + more)
    assert sitting.asks(asked)


def test_a_dwell_that_is_done_stays_done_and_is_never_less_than_nothing() -> None:
    sitting = proving()
    assert dwell_left(sitting.state, sitting.now) > 0
    assert dwell_left(replace(sitting.state, dwell_done=True), sitting.now) == 0.0
    sitting.wait(dwell_owed(sitting.state) + 100)
    assert dwell_left(sitting.state, sitting.now) == 0.0


def test_a_vent_that_was_open_and_moves_air_has_hissed_and_owes_a_fall() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent("was_open_air")
    assert sitting.state.vent_hissed
    assert sitting.asks(Item.FALL_FIRST)
