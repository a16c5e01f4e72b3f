"""Odd things and their ways out."""

from dataclasses import replace

import pytest

from shopassist.core.pot.events import Note, PlateSet
from shopassist.core.pot.evidence import dwell_owed
from shopassist.core.pot.words import Act, Belief, Branch, Item, Sign, Told
from tests.core.pot.bench import BAR, DAY, GAUGE, TWO_HOLES, Sitting, no_hiss, plate, proving


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


def test_a_fall_on_record_ends_where_the_pot_was_opened_without_the_list() -> None:
    sitting = proving()
    assert dwell_owed(sitting.state) < 1800.0
    sitting.press(Act.DOUBT)
    sitting.press(Act.OPENED)
    sitting.press(Act.LET_DOWN)
    assert not sitting.state.fall_recorded
    assert dwell_owed(sitting.state) == 1800.0


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
