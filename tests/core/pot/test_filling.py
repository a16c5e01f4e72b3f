"""From the first air to the hold."""

import pytest

from shopassist.core.pot.events import Note
from shopassist.core.pot.words import Act, Belief, Branch, Item
from tests.core.pot.bench import BAR, Sitting, proving


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
