"""From the first air to the hold."""

import pytest

from shopassist.core.pot.events import Note, Typed
from shopassist.core.pot.plate import working_limit
from shopassist.core.pot.running import typed_over_rating
from shopassist.core.pot.vocabulary import TYPED_ITEMS
from shopassist.core.pot.words import Act, Belief, Branch, Item
from tests.core.pot.bench import BAR, DAY, Sitting, plate, proving


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


@pytest.mark.parametrize("change", ["lost", "back", "topped_up"])
def test_the_filling_ends_with_a_supply_that_is_connected_or_isolated(change: str) -> None:
    """Whatever else happened to it meanwhile may have moved the pressure: it is read again."""
    sitting = at_pressure(4 * BAR)
    sitting.answer(Item.SUPPLY, change)
    assert sitting.asks(Item.SUPPLY)
    sitting.answer(Item.SUPPLY, "isolated")
    assert sitting.asks(Item.READING)
    sitting.typed(Item.READING, 4.6 * BAR)
    assert sitting.shows(Branch.OVER_LIMIT)


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


# -- edges --------------------------------------------------------------------------------


@pytest.mark.parametrize("baseline", [0.0, 5000.0])
@pytest.mark.parametrize("short", [0.0, 1.0])
def test_the_gauge_follows_from_three_divisions_above_its_baseline(
    baseline: float, short: float
) -> None:
    sitting = Sitting()
    sitting.ready(baseline=baseline)
    sitting.close()
    sitting.press(Act.AIR_ON)
    sitting.typed(Item.FIRST_AIR, baseline + 30000.0 - short)
    assert sitting.believes(Belief.LETTING_DOWN if short else Belief.PRESSURISED)


@pytest.mark.parametrize("more", [0.0, 1.0])
def test_the_rating_itself_is_not_above_the_rating(more: float) -> None:
    sitting = at_pressure(5.5 * BAR + more)
    assert sitting.state.locked is bool(more)


@pytest.mark.parametrize("more", [0.0, 1.0])
def test_the_working_limit_itself_is_not_over_it(more: float) -> None:
    limit = working_limit(plate(), Sitting().state.ambient)
    assert limit is not None
    assert at_pressure(limit.pressure + more).shows(Branch.OVER_LIMIT if more else Branch.NONE)


def test_twice_over_the_limit_still_counts_as_air() -> None:
    sitting = at_pressure(4.6 * BAR)
    sitting.typed(Item.AT_PRESSURE, 4.6 * BAR)
    assert sitting.believes(Belief.LETTING_DOWN)
    assert sitting.state.air


def test_over_the_limit_while_letting_down_does_not_start_again() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    for _ in range(2):
        sitting.typed(Item.READING, 4.6 * BAR)
    assert sitting.shows(Branch.NONE)
    assert sitting.asks(Item.EYES)


def test_no_reading_ends_a_stop() -> None:
    sitting = Sitting().held()
    sitting.press(Act.DOUBT)
    for value in (4.6, 4.6, 0.0):
        sitting.typed(Item.READING, value * BAR)
        assert sitting.believes(Belief.SUSPECT)


@pytest.mark.parametrize("belief", [Belief.CLEAR, Belief.CRACKED])
def test_a_reading_above_zero_takes_the_word_back(belief: Belief) -> None:
    sitting = Sitting().cleared()
    if belief is Belief.CRACKED:
        sitting.crack()
    sitting.typed(Item.READING, 0.0)
    assert sitting.believes(belief)
    sitting.typed(Item.READING, 0.5 * BAR)
    assert sitting.believes(Belief.LETTING_DOWN)
    assert sitting.shows(Branch.DISAGREE)
    assert sitting.state.grant is None


@pytest.mark.parametrize("short", [0.0, 1.0])
def test_a_live_lift_counts_from_three_quarters_of_the_set_pressure(short: float) -> None:
    sitting = Sitting(plate(relief_lifted=DAY - 400)).held(run="test")
    assert sitting.asks(Item.LIVE_LIFT)
    sitting.typed(Item.LIVE_LIFT, 375000.0 - short)
    assert sitting.state.lifted_day == (None if short else DAY)


def test_a_fault_is_added_to_the_marks_of_the_run() -> None:
    sitting = Sitting(opened=False)
    sitting.answer(Item.LID_OFF_NOW, "inside_seen")
    sitting.answer(Item.AFTERCARE, "faults")
    assert sitting.state.marks == ("lid off now", "fault reported")


@pytest.mark.parametrize("item", [Item.LEAK_START, Item.LEAK_END])
def test_a_reading_of_the_leak_check_is_a_reading(item: Item) -> None:
    sitting = Sitting().held()
    sitting.typed(item, 4.6 * BAR, temperature=293.15)
    assert sitting.state.last == sitting.state.find(item)
    assert sitting.shows(Branch.OVER_LIMIT)
    assert sitting.asks(Item.READING)


@pytest.mark.parametrize("item", [
    item for item, quantity in TYPED_ITEMS.items()
    if quantity == "PascalGauge" and item not in (Item.HOLD_PRESSURE, Item.BASELINE)
])  # fmt: skip
def test_whatever_was_asked_a_reading_above_the_rating_locks_the_pot(item: Item) -> None:
    sitting = Sitting().held()
    assert (
        typed_over_rating(sitting.state, Typed(item, 5.5 * BAR, "5.5", "bar"), sitting.now) is None
    )
    over = typed_over_rating(sitting.state, Typed(item, 5.6 * BAR, "5.6", "bar"), sitting.now)
    assert over is not None
    assert over.locked
    assert over.belief is Belief.LETTING_DOWN
