"""Isolate, vent, fall, zero."""

from dataclasses import replace

import pytest

from shopassist.core.messages import say
from shopassist.core.pot.events import Press
from shopassist.core.pot.evidence import dwell_owed, signs_owed, third_owed
from shopassist.core.pot.words import Act, Belief, Branch, Item, Sign, Told
from tests.core.pot.bench import BAR, Sitting, proving


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


# -- the edges of a fall ------------------------------------------------------------------


def venting(sitting: Sitting | None = None) -> Sitting:
    """Isolated from four bar, and the vent hisses."""
    made = (sitting or Sitting()).held()
    made.isolate()
    made.vent()
    return made


@pytest.mark.parametrize(("value", "asked"), [
    (3.0, Item.FALL_SECOND), (3.01, Item.FALL_FIRST), (0.3, Item.FALL_SECOND),
    (0.29, Item.VENT_AGAIN),
])  # fmt: skip
def test_a_fall_is_read_from_three_quarters_down_to_three_divisions(
    value: float, asked: Item
) -> None:
    sitting = venting()
    sitting.typed(Item.FALL_FIRST, value * BAR)
    assert sitting.asks(asked)
    assert sitting.state.fall_missed is (asked is Item.VENT_AGAIN)


@pytest.mark.parametrize(("start", "asked"), [(0.4, Item.FALL_FIRST), (0.39, Item.VENT_AGAIN)])
def test_a_start_under_four_divisions_leaves_no_room_for_a_fall(start: float, asked: Item) -> None:
    sitting = Sitting(opened=False)
    sitting.isolate()
    sitting.vent()
    sitting.typed(Item.FALL_FIRST, start * BAR)
    assert sitting.asks(asked)


def test_the_first_reading_of_a_fall_lies_below_the_last_one() -> None:
    sitting = venting()
    sitting.typed(Item.READING, 2 * BAR)
    sitting.typed(Item.FALL_FIRST, 2 * BAR)
    assert sitting.asks(Item.FALL_FIRST)
    sitting.typed(Item.FALL_FIRST, 1.9 * BAR)
    assert sitting.asks(Item.FALL_SECOND)


@pytest.mark.parametrize(("value", "asked"), [(3.99, Item.FALL_SECOND), (4.0, Item.INLET)])
def test_a_gauge_back_at_its_start_has_air_coming_in(value: float, asked: Item) -> None:
    sitting = venting()
    sitting.typed(Item.FALL_FIRST, 2 * BAR)
    sitting.wait(60)
    sitting.typed(Item.FALL_SECOND, value * BAR)
    assert sitting.asks(asked)


@pytest.mark.parametrize(("value", "missed"), [(0.3, False), (0.29, True)])
def test_the_second_reading_stands_three_divisions_up_too(value: float, missed: bool) -> None:
    sitting = venting()
    sitting.typed(Item.FALL_FIRST, 2 * BAR)
    sitting.wait(60)
    sitting.typed(Item.FALL_SECOND, value * BAR)
    assert sitting.state.fall_missed is missed


def test_half_a_division_more_is_no_rise_yet() -> None:
    sitting = venting()
    sitting.fall(second=200000.0)
    sitting.typed(Item.ZERO, 205000.0)
    assert sitting.asks(Item.ZERO)
    sitting.typed(Item.ZERO, 210001.0)
    assert sitting.asks(Item.INLET)


@pytest.mark.parametrize("reading", [None, 0.0])
def test_a_fall_that_was_missed_is_not_had_later_in_the_same_let_down(
    reading: float | None,
) -> None:
    sitting = venting() if reading is None else Sitting().held()
    if reading is None:
        sitting.answer(Item.FALL_FIRST, "silent_steady")
    else:
        sitting.isolate()
        sitting.vent("opened_none")
        sitting.typed(Item.VENT_READING, reading)
        sitting.answer(Item.ZERO, "silent_steady")
    assert sitting.shows(Branch.NO_HISS)
    sitting.answer(Item.OPENING, Sign.INLET)
    sitting.answer(Item.OPENING_HEARD, "hiss_falls", Sign.INLET)
    assert not sitting.asks(Item.FALL_FIRST)
    sitting.typed(Item.ZERO, 0.0)
    assert dwell_owed(sitting.state) == 1800.0
    assert signs_owed(sitting.state) == 2


# -- sightings ----------------------------------------------------------------------------


def test_a_good_sighting_after_an_idle_time_keeps_the_zero() -> None:
    sitting = proving()
    sitting.wait(dwell_owed(sitting.state) + 601)
    sitting.answer(Item.WHERE, "been_here")
    sitting.answer(Item.INLET, "shut")
    sitting.answer(Item.HOSE, "apart")
    sitting.answer(Item.VENT_AGAIN, "open")
    assert sitting.believes(Belief.PROVING)
    assert sitting.asks(Item.SIGN)


@pytest.mark.parametrize(("item", "choice"), [
    (Item.INLET, "open"), (Item.HOSE, "coupled"), (Item.VENT_AGAIN, "shut"),
])  # fmt: skip
def test_a_bad_sighting_after_an_idle_time_undoes_the_zero(item: Item, choice: str) -> None:
    sitting = proving()
    sitting.wait(dwell_owed(sitting.state) + 601)
    sitting.answer(Item.WHERE, "been_here")
    for each, good in ((Item.INLET, "shut"), (Item.HOSE, "apart"), (Item.VENT_AGAIN, "open")):
        sitting.answer(each, choice if each is item else good)
        if each is item:
            break
    assert sitting.believes(Belief.LETTING_DOWN)
    assert sitting.state.find(Item.ZERO) is None


def test_the_inlet_shut_or_opened_as_the_sign_keeps_the_proof() -> None:
    for seen in ("shut", "opened_as_sign"):
        sitting = proving()
        sitting.wait(600)
        sitting.sign(Sign.INLET)
        sitting.typed(Item.ZERO_AGAIN, 0.0)
        sitting.answer(Item.INLET_NOW, seen)
        assert sitting.asks(Item.HOSE_NOW)
        assert sitting.believes(Belief.PROVING)


def test_air_moving_at_the_vent_beside_a_zero_is_a_disagreement() -> None:
    sitting = proving()
    sitting.wait(600)
    sitting.sign(Sign.VENT)
    sitting.typed(Item.ZERO_AGAIN, 0.0)
    sitting.answer(Item.INLET_NOW, "shut")
    sitting.answer(Item.HOSE_NOW, "apart")
    sitting.answer(Item.VENT_NOW_SEEN, "open_air")
    assert sitting.shows(Branch.DISAGREE)
    assert sitting.asks(Item.INLET)
    assert sitting.state.disagreed == 1
    assert sitting.state.unseen_forced
