"""Presses, from the states in which a person presses them."""

from collections.abc import Callable

import pytest

from shopassist.core.pot.events import Answer
from shopassist.core.pot.words import Act, Belief, Branch, Item
from tests.core.pot.bench import BAR, Sitting, no_hiss, proving


def filling() -> Sitting:
    sitting = Sitting()
    sitting.ready()
    sitting.close()
    sitting.press(Act.AIR_ON)
    sitting.typed(Item.FIRST_AIR, 0.7 * BAR)
    sitting.answer(Item.REGULATOR, "agrees")
    sitting.answer(Item.LID_HISS, "none")
    return sitting


def held() -> Sitting:
    return Sitting().held()


# -- warnings -------------------------------------------------------------------------------------


def lifted() -> Sitting:
    sitting = held()
    sitting.press(Act.RELIEF_LIFTED)
    return sitting


def hot() -> Sitting:
    sitting = held()
    sitting.press(Act.TOO_HOT)
    return sitting


def over_rating() -> Sitting:
    sitting = held()
    sitting.typed(Item.READING, 6 * BAR)
    return sitting


@pytest.mark.parametrize("act", [Act.LET_DOWN, Act.VENT_NOW])
@pytest.mark.parametrize(
    ("made", "branch"),
    [
        (lifted, Branch.RELIEF_LIFTED),
        (hot, Branch.TOO_HOT),
        (over_rating, Branch.OVER_RATING),
    ],
)
def test_a_warning_about_the_pot_stays_on_the_card_while_the_air_is_let_out(
    made: Callable[[], Sitting], branch: Branch, act: Act
) -> None:
    sitting = made()
    sitting.press(act)
    assert sitting.believes(Belief.LETTING_DOWN)
    assert sitting.shows(branch)


def test_a_warning_about_the_supply_goes_when_the_air_is_let_out() -> None:
    sitting = held()
    sitting.press(Act.SUPPLY_LOST)
    sitting.press(Act.LET_DOWN)
    assert sitting.shows(Branch.NONE)


# -- supply lost ------------------------------------------------------------------------------------


def test_a_supply_that_fails_while_the_air_goes_in_asks_a_reading_after_it() -> None:
    sitting = filling()
    sitting.typed(Item.AT_PRESSURE, 4 * BAR)
    sitting.press(Act.SUPPLY_LOST)
    assert sitting.asks(Item.SUPPLY)
    sitting.answer(Item.SUPPLY, "isolated")
    assert sitting.asks(Item.READING)
    sitting.typed(Item.READING, 3.9 * BAR)
    assert sitting.asks(None)
    assert sitting.shows(Branch.NONE)


def test_the_reading_at_pressure_is_the_one_that_a_failed_supply_owes() -> None:
    sitting = filling()
    sitting.press(Act.SUPPLY_LOST)
    sitting.typed(Item.AT_PRESSURE, 3.9 * BAR)
    sitting.answer(Item.SUPPLY, "isolated")
    assert sitting.asks(None)


@pytest.mark.parametrize("made", [held, proving])
def test_a_supply_that_fails_is_on_record(made: Callable[[], Sitting]) -> None:
    sitting = made()
    sitting.press(Act.SUPPLY_LOST)
    assert sitting.state.value(Item.SUPPLY) == "lost"


@pytest.mark.parametrize("tell", [
    lambda sitting: sitting.press(Act.SUPPLY_LOST),
    lambda sitting: sitting.answer(Item.SUPPLY, "lost"),
])  # fmt: skip
def test_a_supply_that_fails_while_the_pot_is_proven_voids_vent_and_zero_evidence(
    tell: Callable[[Sitting], None],
) -> None:
    sitting = proving()
    tell(sitting)
    assert sitting.believes(Belief.LETTING_DOWN)
    assert sitting.asks(Item.INLET)
    assert sitting.state.find(Item.ZERO) is None
    assert sitting.state.find(Item.VENT) is None
    assert not sitting.state.fall_recorded
    assert sitting.shows(Branch.SUPPLY_LOST)
    sitting.typed(Item.READING, 0.0)
    assert sitting.shows(Branch.NONE)
    assert sitting.believes(Belief.LETTING_DOWN)


def test_a_supply_that_fails_before_any_air_leaves_the_pot_without_air() -> None:
    sitting = Sitting()
    sitting.ready()
    sitting.close()
    sitting.press(Act.SUPPLY_LOST)
    assert sitting.believes(Belief.CLOSED)
    assert not sitting.state.air
    assert sitting.shows(Branch.SUPPLY_LOST)


def test_an_opening_that_was_chosen_is_not_waited_for_once_it_is_too_hot() -> None:
    sitting = no_hiss()
    sitting.answer(Item.OPENING, "inlet")
    assert sitting.asks(Item.OPENING_HEARD)
    sitting.press(Act.TOO_HOT)
    assert sitting.shows(Branch.TOO_HOT)
    assert not sitting.state.sign_asked
    assert sitting.asks(Item.ZERO)
    sitting.answer(Item.ZERO, "silent_steady")
    assert sitting.asks(Item.OPENING)


# -- air is in already --------------------------------------------------------------------------------


def test_vent_now_by_mistake_is_undone_and_the_run_goes_on_as_it_was() -> None:
    sitting = held()
    before = sitting.state
    sitting.press(Act.VENT_NOW)
    sitting.press(Act.AIR_IN)
    assert sitting.believes(Belief.PRESSURISED)
    assert sitting.asks(Item.READING)
    after = sitting.state
    assert (after.baseline, after.marks, after.hold) == (before.baseline, before.marks, before.hold)
    assert after.find(Item.BASELINE) == before.find(Item.BASELINE)
    assert after.find(Item.RUN) == before.find(Item.RUN)


def test_air_into_an_open_pot_is_believed_and_nothing_of_ready_counts() -> None:
    sitting = Sitting()
    sitting.ready()
    sitting.press(Act.AIR_IN)
    assert sitting.believes(Belief.PRESSURISED)
    assert sitting.state.baseline is None
    assert sitting.state.evidence == ()
    assert sitting.state.marks[-1] == "air without the list"


def test_air_in_before_the_last_run_was_cleaned_up_is_cleaned_up_after_the_next() -> None:
    sitting = Sitting(opened=False)
    sitting.answer(Item.LID_OFF_NOW, "inside_seen")
    assert sitting.asks(Item.AFTERCARE)
    sitting.press(Act.AIR_IN)
    sitting.press(Act.DOUBT)
    sitting.do(Answer(Item.LID_OFF_NOW, "inside_seen"))
    assert sitting.asks(Item.AFTERCARE)
