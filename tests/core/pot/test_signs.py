"""Second and third signs, and what undoes them."""

from dataclasses import replace

import pytest

from shopassist.core.pot.events import Answer
from shopassist.core.pot.evidence import dwell_owed, signs_owed, third_owed
from shopassist.core.pot.plate import Holes
from shopassist.core.pot.words import CANT_TELL, Act, Belief, Branch, Item, Sign
from shopassist.core.quantities import Metre
from tests.core.pot.bench import BAR, TWO_HOLES, Sitting, plate, proving


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
