"""The rules of the procedure, one test each."""

from dataclasses import replace

import pytest

from shopassist.core.messages import say
from shopassist.core.pot.events import Answer, Correction, Note, PlateSet, Press, Tell
from shopassist.core.pot.evidence import dwell_left, dwell_owed, signs_owed, third_owed
from shopassist.core.pot.plate import Gauge, Holes
from shopassist.core.pot.words import CANT_TELL, Act, Belief, Branch, Item, Sign, Told
from shopassist.core.quantities import Metre, PascalGauge
from tests.core.pot.bench import BAR, DAY, GAUGE, Sitting, plate

TWO_HOLES = Holes("north", "east", "east", "north")


def proving(sitting: Sitting | None = None) -> Sitting:
    made = (sitting or Sitting()).held()
    made.let_down()
    return made


# -- time --------------------------------------------------------------------------------


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


# -- air on ------------------------------------------------------------------------------


def filling() -> Sitting:
    sitting = Sitting()
    sitting.ready()
    sitting.close()
    sitting.press(Act.AIR_ON)
    return sitting


def test_a_gauge_that_does_not_follow_the_first_air_ends_the_filling() -> None:
    sitting = filling()
    sitting.typed(Item.FIRST_AIR, 0.29 * BAR)
    assert sitting.believes(Belief.LETTING_DOWN)
    assert sitting.state.branch is Branch.FALL_NOT_SEEN
    assert sitting.state.unseen_forced


def test_a_gauge_that_disagrees_with_the_regulator_ends_the_filling() -> None:
    sitting = filling()
    sitting.typed(Item.FIRST_AIR, 0.7 * BAR)
    sitting.answer(Item.REGULATOR, "higher")
    assert sitting.state.branch is Branch.FALL_NOT_SEEN


def test_a_hiss_at_the_lid_ends_in_reseating_and_keeps_four_answers() -> None:
    sitting = filling()
    sitting.typed(Item.FIRST_AIR, 0.7 * BAR)
    sitting.answer(Item.REGULATOR, "agrees")
    sitting.answer(Item.LID_HISS, "some")
    assert sitting.state.branch is Branch.RESEAT
    sitting.press(Act.OPENED)
    sitting.answer(Item.LID_OFF_NOW, "inside_seen")
    sitting.answer(Item.AFTERCARE, "cleaned")
    assert sitting.asks(Item.GASKET)
    sitting.answer(Item.GASKET, "clean")
    assert sitting.asks(Item.BASELINE)
    sitting.typed(Item.BASELINE, 0.0)
    assert sitting.asks(Item.CLAMPS_ROUND)
    assert sitting.state.hold == 4 * BAR


def at_pressure(value: float) -> Sitting:
    sitting = filling()
    sitting.typed(Item.FIRST_AIR, 0.7 * BAR)
    sitting.answer(Item.REGULATOR, "agrees")
    sitting.answer(Item.LID_HISS, "none")
    sitting.typed(Item.AT_PRESSURE, value)
    return sitting


def test_over_the_limit_is_typed_again_and_twice_lets_down() -> None:
    sitting = at_pressure(4.6 * BAR)
    assert sitting.asks(Item.AT_PRESSURE)
    assert sitting.state.branch is Branch.OVER_LIMIT
    sitting.typed(Item.AT_PRESSURE, 4.6 * BAR)
    assert sitting.believes(Belief.LETTING_DOWN)


def test_above_the_rating_locks_the_pot_until_an_examination() -> None:
    sitting = at_pressure(5.6 * BAR)
    assert sitting.believes(Belief.LETTING_DOWN)
    assert sitting.state.branch is Branch.OVER_RATING
    assert sitting.state.locked
    sitting.do(Note("an examiner", "no harm found"))
    assert not sitting.state.locked


def test_any_reading_above_the_rating_lets_down_from_anywhere_but_suspect() -> None:
    sitting = Sitting().held()
    sitting.typed(Item.READING, 5.6 * BAR)
    assert sitting.state.branch is Branch.OVER_RATING
    sitting.press(Act.DOUBT)
    sitting.do(Note("an examiner", "looked"))
    sitting.press(Act.DOUBT)
    sitting.typed(Item.READING, 5.6 * BAR)
    assert sitting.believes(Belief.SUSPECT)
    assert sitting.state.locked


def test_over_the_limit_in_hold_is_bled_and_read_again() -> None:
    sitting = Sitting().held()
    sitting.typed(Item.READING, 4.6 * BAR)
    assert sitting.asks(Item.READING)
    sitting.typed(Item.READING, 4.4 * BAR)
    assert sitting.asks(None)
    assert sitting.state.branch is Branch.NONE


@pytest.mark.parametrize("change", ["connected", "isolated", "lost", "back", "topped_up"])
def test_a_supply_change_retypes_the_reading(change: str) -> None:
    sitting = Sitting().held()
    sitting.answer(Item.SUPPLY, change)
    assert sitting.asks(Item.READING)
    sitting.typed(Item.READING, 4 * BAR)
    assert sitting.asks(None)


def test_a_supply_change_voids_vent_and_zero_evidence() -> None:
    sitting = proving()
    sitting.answer(Item.SUPPLY, "connected")
    assert sitting.believes(Belief.LETTING_DOWN)
    assert not sitting.state.fall_recorded
    assert sitting.state.find(Item.ZERO) is None


def test_the_supply_lost_asks_a_reading_and_leaves_the_pot_full() -> None:
    sitting = Sitting().held()
    sitting.press(Act.SUPPLY_LOST)
    assert sitting.shows(Branch.SUPPLY_LOST)
    assert sitting.asks(Item.READING)
    sitting.typed(Item.READING, 3.9 * BAR)
    assert sitting.shows(Branch.NONE)
    assert sitting.believes(Belief.PRESSURISED)


# -- let down ----------------------------------------------------------------------------


def test_let_down_and_vent_now_work_from_everywhere_but_open() -> None:
    for belief in Belief:
        for act in (Act.LET_DOWN, Act.VENT_NOW):
            sitting = Sitting().held()
            sitting.state = replace(sitting.state, belief=belief, suspect_why=say("Why."))
            if belief is Belief.OPEN:
                sitting.refused(Press(act))
            else:
                sitting.press(act)
                assert sitting.believes(Belief.LETTING_DOWN)


def test_vent_now_records_the_vent_and_still_owes_isolation() -> None:
    sitting = Sitting().held()
    sitting.press(Act.VENT_NOW)
    assert sitting.state.find(Item.VENT) is not None
    assert sitting.asks(Item.INLET)
    sitting.isolate(press=False)
    sitting.answer(Item.EYES, "covered")
    assert sitting.asks(Item.VENT)


def test_vent_now_by_mistake_is_undone_by_air_is_in() -> None:
    sitting = Sitting().held()
    sitting.press(Act.VENT_NOW)
    sitting.press(Act.AIR_IN)
    assert sitting.believes(Belief.PRESSURISED)
    assert sitting.asks(Item.READING)


def test_vent_now_before_any_reading_keeps_the_start_of_the_fall_unknown() -> None:
    sitting = Sitting(opened=False)
    sitting.press(Act.VENT_NOW)
    sitting.press(Act.VENT_NOW)
    assert sitting.state.fall_from is None


def test_staying_at_pressure_undoes_a_mispress() -> None:
    sitting = Sitting().held()
    sitting.press(Act.LET_DOWN)
    sitting.typed(Item.STAY, 3.9 * BAR)
    assert sitting.believes(Belief.PRESSURISED)


def test_nobody_stays_once_the_vent_was_opened() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    assert not sitting.state.may_stay


def test_air_is_in_is_taken_in_every_state_even_with_a_locked_plate() -> None:
    for belief in Belief:
        sitting = Sitting()
        sitting.state = replace(sitting.state, belief=belief, locked=True)
        sitting.press(Act.AIR_IN)
        assert sitting.believes(Belief.PRESSURISED)


def test_air_from_an_open_pot_leaves_no_baseline_and_owes_a_third_sign() -> None:
    sitting = Sitting()
    sitting.ready()
    sitting.press(Act.AIR_IN)
    sitting.typed(Item.READING, 4 * BAR)
    assert sitting.state.baseline is None
    sitting.let_down()
    assert third_owed(sitting.state)


def test_a_hose_that_keeps_spitting_is_vented_first_and_owed_before_a_zero() -> None:
    sitting = Sitting().held()
    sitting.press(Act.LET_DOWN)
    sitting.answer(Item.INLET, "shut")
    sitting.answer(Item.HOSE_BLED, "spitting")
    assert sitting.asks(Item.VENT)
    sitting.answer(Item.VENT, "opened_hiss")
    assert sitting.asks(Item.HOSE)


def test_an_unwatched_fall_owes_half_an_hour_and_a_third_sign() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.fall(speed="not_watched")
    sitting.typed(Item.ZERO, 0.0)
    assert dwell_owed(sitting.state) == 1800.0
    assert signs_owed(sitting.state) == 2


def test_a_fall_at_once_is_not_seen_whatever_was_read() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.fall(speed="at_once")
    assert not sitting.state.fall_recorded
    assert sitting.asks(Item.ZERO)


def test_a_first_reading_must_lie_well_below_the_start() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.typed(Item.FALL_FIRST, 3.5 * BAR)
    assert sitting.asks(Item.FALL_FIRST)
    sitting.typed(Item.FALL_FIRST, 3.5 * BAR)
    assert sitting.asks(Item.FALL_FIRST)


def test_a_first_reading_near_zero_is_no_fall() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.typed(Item.FALL_FIRST, 0.2 * BAR)
    assert sitting.state.fall_missed
    assert sitting.asks(Item.VENT_AGAIN)


def test_cold_air_may_rise_in_the_minute_but_not_three_times() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.typed(Item.FALL_FIRST, 2.0 * BAR)
    for rise in (2.1, 2.2):
        sitting.wait(60)
        sitting.typed(Item.FALL_SECOND, rise * BAR)
        assert sitting.asks(Item.FALL_SECOND)
    sitting.wait(60)
    sitting.typed(Item.FALL_SECOND, 2.3 * BAR)
    assert sitting.asks(Item.INLET)
    assert sitting.state.fall_missed


def test_a_gauge_that_drops_with_the_vent_shut_shows_no_fall() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.typed(Item.FALL_FIRST, 2.0 * BAR)
    sitting.wait(60)
    sitting.typed(Item.FALL_SECOND, 0.0)
    assert sitting.state.fall_missed


def test_the_start_of_the_fall_is_read_where_it_is_not_on_record() -> None:
    sitting = Sitting(opened=False)
    sitting.isolate()
    sitting.vent()
    sitting.typed(Item.FALL_FIRST, 4 * BAR)
    assert sitting.asks(Item.FALL_FIRST)
    sitting.typed(Item.FALL_FIRST, 2 * BAR)
    assert sitting.asks(Item.FALL_SECOND)


def test_a_recorded_fall_lasts_through_a_restart_and_lapses_with_air() -> None:
    sitting = proving()
    sitting.tell(Told.RESTARTED)
    assert sitting.state.fall_recorded
    sitting.press(Act.AIR_IN)
    assert not sitting.state.fall_recorded


def test_a_reading_above_the_band_is_no_zero() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.fall()
    sitting.typed(Item.ZERO, 0.06 * BAR)
    assert sitting.asks(Item.ZERO)
    sitting.typed(Item.ZERO, 0.05 * BAR)
    assert sitting.believes(Belief.PROVING)


def test_a_reading_that_rises_while_venting_goes_back_to_isolating() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.fall()
    sitting.typed(Item.ZERO, 1 * BAR)
    sitting.typed(Item.ZERO, 1.2 * BAR)
    assert sitting.asks(Item.INLET)


def test_the_baseline_moves_the_band_but_never_over_a_division() -> None:
    sitting = Sitting().held(baseline=0.08 * BAR)
    sitting.isolate()
    sitting.vent()
    sitting.fall()
    sitting.typed(Item.ZERO, 0.11 * BAR)
    assert sitting.asks(Item.ZERO)
    sitting.typed(Item.ZERO, 0.1 * BAR)
    assert sitting.believes(Belief.PROVING)


# -- no air yet --------------------------------------------------------------------------


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


def test_a_relief_valve_that_lifts_on_a_closed_pot_means_air() -> None:
    sitting = closed()
    sitting.press(Act.RELIEF_LIFTED)
    assert sitting.believes(Belief.PRESSURISED)


# -- signs -------------------------------------------------------------------------------


def test_a_large_hidden_force_asks_a_third_sign() -> None:
    sitting = proving(Sitting(plate(seal_diameter=Metre(0.3))))
    assert signs_owed(sitting.state) == 2


def test_a_gauge_never_seen_live_asks_a_third_sign() -> None:
    sitting = proving()
    sitting.state = replace(sitting.state, highest=0.7 * BAR)
    assert third_owed(sitting.state)


def test_a_long_dwell_stands_in_where_there_is_no_third_opening() -> None:
    large = plate(seal_diameter=Metre(0.3), holes=TWO_HOLES, inlet_opens=False)
    sitting = proving(Sitting(large))
    assert dwell_owed(sitting.state) == 1800.0
    assert signs_owed(sitting.state) == 1


def test_the_vent_is_a_sign_only_after_its_hiss() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent("was_open_silent")
    sitting.typed(Item.VENT_READING, 0.0)
    sitting.typed(Item.ZERO, 0.0)
    sitting.wait(1800)
    assert sitting.refused(Answer(Item.SIGN, Sign.VENT)).guard == "sign known"


def test_one_opening_only_cannot_be_told() -> None:
    one = plate(holes=Holes("north", "north", "north", "north"))
    sitting = Sitting(one, opened=False)
    sitting.press(Act.AIR_IN)
    sitting.typed(Item.READING, 4 * BAR)
    sitting.isolate()
    sitting.vent()
    sitting.fall()
    sitting.typed(Item.ZERO, 0.0)
    assert sitting.believes(Belief.SUSPECT)


def test_no_third_opening_and_no_stand_in_means_suspect() -> None:
    sitting = Sitting(plate(holes=TWO_HOLES, inlet_opens=False), opened=False)
    sitting.isolate()
    sitting.vent("was_open_silent")
    sitting.typed(Item.VENT_READING, 0.0)
    sitting.typed(Item.ZERO, 0.0)
    assert sitting.believes(Belief.SUSPECT)


def test_without_a_plate_there_is_no_word() -> None:
    sitting = Sitting(opened=False)
    sitting.state = replace(sitting.state, plate=None)
    sitting.isolate()
    sitting.vent()
    sitting.answer(Item.FALL_FIRST, "straight_to_zero")
    sitting.typed(Item.ZERO, 0.0)
    assert sitting.believes(Belief.SUSPECT)


def test_some_air_at_a_sign_goes_back_to_isolating_as_fall_not_seen() -> None:
    sitting = proving()
    sitting.wait(600)
    sitting.sign(Sign.VENT, "some")
    assert sitting.state.branch is Branch.DISAGREE
    assert sitting.state.unseen_forced
    assert sitting.state.vent_hissed


def test_air_at_another_opening_shows_that_the_vent_was_not_clear() -> None:
    sitting = proving()
    sitting.wait(600)
    sitting.sign(Sign.RING, "some")
    assert not sitting.state.vent_hissed


def test_three_disagreements_are_suspect() -> None:
    sitting = proving()
    sitting.state = replace(sitting.state, disagreed=2)
    sitting.wait(600)
    sitting.sign(Sign.VENT, "some")
    assert sitting.believes(Belief.SUSPECT)


def test_air_moving_at_the_vent_at_the_end_goes_back_to_isolating() -> None:
    sitting = proving()
    sitting.wait(600)
    sitting.sign(Sign.VENT)
    sitting.typed(Item.ZERO_AGAIN, 0.0)
    sitting.answer(Item.INLET_NOW, "shut")
    sitting.answer(Item.HOSE_NOW, "apart")
    sitting.answer(Item.VENT_NOW_SEEN, "open_air")
    assert sitting.believes(Belief.LETTING_DOWN)


@pytest.mark.parametrize(("first", "second"), [(-0.05, 0.04), (0.0, 0.06)])
def test_a_second_zero_that_rose_does_not_count(first: float, second: float) -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.fall()
    sitting.typed(Item.ZERO, first * BAR)
    sitting.wait(600)
    sitting.sign(Sign.VENT)
    sitting.typed(Item.ZERO_AGAIN, second * BAR)
    assert sitting.believes(Belief.LETTING_DOWN)


@pytest.mark.parametrize(
    ("item", "choice"),
    [(Item.INLET_NOW, "open"), (Item.HOSE_NOW, "coupled"), (Item.VENT_NOW_SEEN, "shut")],
)
def test_a_wrong_sighting_undoes_the_zero(item: Item, choice: str) -> None:
    sitting = proving()
    sitting.wait(600)
    sitting.sign(Sign.VENT)
    sitting.typed(Item.ZERO_AGAIN, 0.0)
    for each, good in ((Item.INLET_NOW, "shut"), (Item.HOSE_NOW, "apart")):
        if each is item:
            break
        sitting.answer(each, good)
    sitting.answer(item, choice)
    assert sitting.believes(Belief.LETTING_DOWN)


def test_cant_tell_never_advances() -> None:
    sitting = proving()
    sitting.wait(600)
    sitting.answer(Item.SIGN, Sign.RING)
    sitting.answer(Item.SIGN_SEEN, CANT_TELL, Sign.RING)
    assert sitting.asks(Item.SIGN)


# -- branches ----------------------------------------------------------------------------


def no_hiss(made: Sitting | None = None) -> Sitting:
    sitting = (made or Sitting()).held()
    sitting.isolate()
    sitting.vent("opened_none")
    sitting.typed(Item.VENT_READING, 4 * BAR)
    return sitting


def test_no_hiss_with_pressure_asks_another_opening() -> None:
    sitting = no_hiss()
    assert sitting.state.branch is Branch.NO_HISS
    sitting.answer(Item.OPENING, Sign.INLET)
    sitting.answer(Item.OPENING_HEARD, "hiss_falls", Sign.INLET)
    assert sitting.asks(Item.FALL_FIRST)


def test_no_hiss_without_another_opening_is_suspect() -> None:
    sitting = no_hiss(Sitting(plate(holes=TWO_HOLES, inlet_opens=False)))
    assert sitting.believes(Belief.SUSPECT)


def test_no_hiss_anywhere_is_suspect() -> None:
    sitting = no_hiss()
    for sign in (Sign.INLET, Sign.RING):
        sitting.answer(Item.OPENING, sign)
        sitting.answer(Item.OPENING_HEARD, "none", sign)
    assert sitting.believes(Belief.SUSPECT)


@pytest.mark.parametrize("item", [Item.FALL_FIRST, Item.ZERO, Item.ZERO_AGAIN])
def test_silent_and_steady_above_zero_is_no_hiss_whenever(item: Item) -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    if item is not Item.FALL_FIRST:
        sitting.fall()
    if item is Item.ZERO_AGAIN:
        sitting.typed(Item.ZERO, 0.0)
        sitting.wait(600)
        sitting.sign(Sign.VENT)
    sitting.answer(item, "silent_steady")
    assert sitting.state.branch is Branch.NO_HISS


def test_two_openings_that_hissed_prove_a_stuck_gauge_by_silence_typed_twice() -> None:
    sitting = no_hiss()
    for sign in (Sign.INLET, Sign.RING):
        sitting.answer(Item.OPENING, sign)
        sitting.answer(Item.OPENING_HEARD, "hiss_silent", sign)
    assert sitting.state.gauge_failed == "stuck"
    sitting.typed(Item.SILENCE, 0.0, "Silent")
    assert dwell_owed(sitting.state) == 1800.0
    sitting.wait(1800)
    sitting.sign(Sign.INLET)
    sitting.sign(Sign.RING)
    sitting.typed(Item.SILENCE_AGAIN, 0.0, "silent")
    sitting.answer(Item.INLET_NOW, "opened_as_sign")
    sitting.answer(Item.HOSE_NOW, "apart")
    sitting.answer(Item.VENT_NOW_SEEN, "open")
    sitting.press(Act.CONFIRM)
    assert sitting.believes(Belief.CLEAR)


@pytest.mark.parametrize("item", [Item.VENT_READING, Item.ZERO, Item.ZERO_AGAIN])
def test_a_reading_below_the_band_is_a_failed_gauge(item: Item) -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent("opened_none" if item is Item.VENT_READING else "opened_hiss")
    if item is not Item.VENT_READING:
        sitting.fall()
    if item is Item.ZERO_AGAIN:
        sitting.typed(Item.ZERO, 0.0)
        sitting.wait(600)
        sitting.sign(Sign.VENT)
    sitting.typed(item, -0.1 * BAR)
    assert sitting.state.gauge_failed == "below"
    assert sitting.state.branch is Branch.STUCK_GAUGE


def test_a_needle_on_its_pin_is_no_zero() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.fall()
    sitting.answer(Item.ZERO, "on_pin")
    assert sitting.state.gauge_failed == "below"


def test_a_needle_on_its_pin_is_no_baseline() -> None:
    sitting = Sitting()
    sitting.ready_until_baseline()
    sitting.answer(Item.BASELINE, "on_pin")
    assert sitting.asks(Item.BASELINE)


def test_air_that_moves_instead_of_silence_goes_back() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.fall()
    sitting.answer(Item.ZERO, "on_pin")
    sitting.answer(Item.SILENCE, "some")
    assert sitting.asks(Item.INLET)


def test_a_failed_gauge_without_two_proved_openings_is_suspect() -> None:
    sitting = Sitting(plate(holes=TWO_HOLES, inlet_opens=False)).held()
    sitting.isolate()
    sitting.vent()
    sitting.fall()
    sitting.answer(Item.ZERO, "on_pin")
    sitting.typed(Item.SILENCE, 0.0, "silent")
    assert sitting.believes(Belief.SUSPECT)


def test_a_new_gauge_ends_a_failed_one() -> None:
    sitting = Sitting()
    sitting.state = replace(sitting.state, gauge_failed="stuck")
    sitting.do(PlateSet(2, plate()))
    assert sitting.state.gauge_failed == "stuck"
    sitting.do(PlateSet(3, plate(gauge=replace(GAUGE, fitted="new"))))
    assert not sitting.state.gauge_failed
    sitting.do(PlateSet(4, None))
    sitting.do(PlateSet(5, plate()))
    assert sitting.state.plate_version == 5


def test_the_relief_valve_that_lifted_owes_a_live_lift() -> None:
    sitting = Sitting().held()
    sitting.press(Act.RELIEF_LIFTED)
    assert sitting.believes(Belief.PRESSURISED)
    assert sitting.state.lift_owed
    late = proving()
    late.press(Act.RELIEF_LIFTED)
    assert late.believes(Belief.LETTING_DOWN)


def test_a_test_run_with_its_lift_lets_the_next_run_cast() -> None:
    sitting = Sitting(plate(relief_lifted=None))
    sitting.held(run="test")
    sitting.answer(Item.LIVE_LIFT, "did_not_lift")
    assert sitting.state.lift_owed
    sitting.typed(Item.LIVE_LIFT, 4 * BAR)
    assert sitting.state.lifted_day == DAY
    sitting.press(Act.OPENED)
    sitting.answer(Item.LID_OFF_NOW, "inside_seen")
    sitting.answer(Item.AFTERCARE, "later")
    sitting.answer(Item.RUN, "casting")


def test_too_hot_stays_on_the_card_through_the_let_down() -> None:
    sitting = Sitting().held()
    sitting.press(Act.TOO_HOT)
    assert sitting.believes(Belief.PRESSURISED)
    sitting.press(Act.LET_DOWN)
    assert sitting.state.branch is Branch.TOO_HOT


def test_a_lid_stuck_three_times_wants_help() -> None:
    sitting = Sitting().cleared()
    for _ in range(3):
        sitting.answer(Item.SLACKEN, "done")
    sitting.answer(Item.ROCK, "stuck")
    assert sitting.state.branch is Branch.STUCK_LID
    sitting.answer(Item.ROCK, "stuck")
    sitting.answer(Item.ROCK, "stuck")
    assert sitting.believes(Belief.SUSPECT)


@pytest.mark.parametrize("item", [Item.SLACKEN, Item.ROCK, Item.LID_OFF])
def test_a_hiss_at_the_lid_is_suspect(item: Item) -> None:
    sitting = Sitting().cleared()
    if item is not Item.SLACKEN:
        for _ in range(3):
            sitting.answer(Item.SLACKEN, "done")
    if item is Item.LID_OFF:
        sitting.answer(Item.ROCK, "free")
        sitting.answer(Item.LID_OFF, "still_on")
    sitting.answer(item, "hiss")
    assert sitting.believes(Belief.SUSPECT)


def test_lost_track_starts_again_as_fall_not_seen() -> None:
    sitting = proving()
    sitting.press(Act.LOST_TRACK)
    assert sitting.asks(Item.INLET)
    assert sitting.state.branch is Branch.LOST_TRACK
    assert sitting.state.unseen_forced


def test_opened_without_the_list_is_recorded() -> None:
    sitting = Sitting().held()
    sitting.press(Act.OPENED)
    assert sitting.believes(Belief.UNKNOWN)
    sitting.answer(Item.LID_OFF_NOW, "lid_is_on")
    assert sitting.believes(Belief.UNKNOWN)
    sitting.answer(Item.LID_OFF_NOW, "inside_seen")
    assert sitting.believes(Belief.OPEN)
    assert "opened without the list" in sitting.state.marks


def test_suspect_survives_a_restart_and_lets_air_out_at_once() -> None:
    sitting = Sitting().held()
    sitting.press(Act.DOUBT)
    sitting.tell(Told.RESTARTED)
    assert sitting.believes(Belief.SUSPECT)
    sitting.press(Act.LET_DOWN)
    assert sitting.believes(Belief.LETTING_DOWN)
    assert sitting.state.unseen_forced


def test_an_examination_leads_out_of_suspect_as_fall_not_seen() -> None:
    sitting = Sitting().held()
    sitting.press(Act.DOUBT)
    sitting.do(Note("an examiner", "vent cleaned"))
    assert sitting.believes(Belief.LETTING_DOWN)
    assert sitting.state.unseen_forced


def test_a_lid_seen_off_leads_out_of_suspect() -> None:
    sitting = Sitting().held()
    sitting.press(Act.DOUBT)
    sitting.answer(Item.LID_OFF_NOW, "inside_seen")
    assert sitting.believes(Belief.OPEN)


def test_a_fault_found_after_the_run_is_a_mark_and_blocks_nothing() -> None:
    sitting = Sitting().held()
    sitting.press(Act.OPENED)
    sitting.answer(Item.LID_OFF_NOW, "inside_seen")
    sitting.answer(Item.AFTERCARE, "faults")
    assert "fault reported" in sitting.state.marks
    assert sitting.asks(Item.RUN)


# -- restart, correction -----------------------------------------------------------------


@pytest.mark.parametrize("belief", list(Belief))
@pytest.mark.parametrize("told", [Told.RESTARTED, Told.CLOCK_DOUBTED])
def test_no_restart_goes_into_a_clearer_state(belief: Belief, told: Told) -> None:
    sitting = Sitting().cleared()
    sitting.state = replace(sitting.state, belief=belief)
    sitting.tell(told)
    kept = (Belief.UNKNOWN, Belief.OPEN, Belief.SUSPECT)
    assert sitting.believes(belief if belief in kept else Belief.PRESSURISED)
    assert sitting.state.doubted is (told is Told.CLOCK_DOUBTED)


def test_a_restart_keeps_what_the_page_names_and_loses_the_rest() -> None:
    sitting = Sitting().cleared()
    sitting.answer(Item.SLACKEN, "done")
    sitting.tell(Told.RESTARTED)
    state = sitting.state
    assert (state.baseline, state.highest, state.passes) == (0.0, 4 * BAR, 1)
    assert state.vent_hissed
    assert state.fall_recorded
    assert state.grant is None
    lost = (Item.INLET, Item.ZERO, Item.SIGN_SEEN, Item.VENT, Item.ZERO_AGAIN)
    assert all(state.find(item) is None for item in lost)


def test_restored_data_are_not_believed() -> None:
    sitting = Sitting()
    sitting.tell(Told.RESTORED)
    assert sitting.believes(Belief.UNKNOWN)
    assert sitting.state.air


def test_a_doubted_clock_asks_ready_again() -> None:
    sitting = Sitting()
    sitting.ready()
    sitting.tell(Told.CLOCK_DOUBTED)
    assert sitting.asks(Item.RUN)


def test_a_standing_branch_survives_a_restart_and_a_passing_one_does_not() -> None:
    sitting = Sitting().held()
    sitting.press(Act.TOO_HOT)
    sitting.tell(Told.RESTARTED)
    assert sitting.state.branch is Branch.TOO_HOT
    other = no_hiss()
    other.tell(Told.RESTARTED)
    assert other.state.branch is Branch.NONE


@pytest.mark.parametrize("item", [Item.BASELINE, Item.ZERO, Item.VENT, Item.FALL_SPEED, Item.EYES])
def test_a_correction_drops_and_never_restores(item: Item) -> None:
    sitting = Sitting().cleared()
    before = sitting.state
    sitting.do(Correction(item, "read the wrong dial"))
    assert sitting.believes(Belief.LETTING_DOWN)
    state = sitting.state
    assert state.baseline == (None if item is Item.BASELINE else before.baseline)
    assert state.highest == (None if item is Item.ZERO else before.highest)
    assert state.vent_hissed is (item is not Item.VENT)
    assert state.fall_recorded is (item not in (Item.ZERO, Item.FALL_SPEED))


def test_a_correction_under_pressure_leaves_the_belief() -> None:
    sitting = Sitting().held()
    sitting.do(Correction(Item.SUPPLY, "it was the other hose"))
    assert sitting.believes(Belief.PRESSURISED)


def test_a_reading_above_zero_while_proving_is_believed() -> None:
    sitting = proving()
    sitting.typed(Item.READING, 0.0)
    assert sitting.believes(Belief.PROVING)
    sitting.typed(Item.READING, 1 * BAR)
    assert sitting.state.branch is Branch.DISAGREE


def test_a_reading_of_an_unknown_pot_moves_nothing() -> None:
    sitting = Sitting(opened=False)
    sitting.typed(Item.READING, 1 * BAR)
    assert sitting.believes(Belief.UNKNOWN)


def test_clamps_not_yet_round_leave_the_pot_open() -> None:
    sitting = Sitting()
    sitting.ready()
    sitting.answer(Item.CLAMPS_ROUND, "not_yet")
    assert sitting.believes(Belief.OPEN)


def test_a_digital_gauge_counts_divisions_cautiously() -> None:
    gauge = Gauge(PascalGauge(7 * BAR), PascalGauge(0.001 * BAR), digital=True)
    assert gauge.division == pytest.approx(0.07 * BAR)


def test_what_the_program_tells_is_never_refused() -> None:
    sitting = Sitting()
    for told in Told:
        sitting.do(Tell(told, 5.0))
