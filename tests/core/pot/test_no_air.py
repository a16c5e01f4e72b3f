"""A pot closed without air."""

import pytest

from shopassist.core.pot.evidence import dwell_owed
from shopassist.core.pot.words import Act, Belief, Item, Told
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


def test_a_relief_valve_that_lifts_on_a_closed_pot_means_air() -> None:
    sitting = closed()
    sitting.press(Act.RELIEF_LIFTED)
    assert sitting.believes(Belief.PRESSURISED)
