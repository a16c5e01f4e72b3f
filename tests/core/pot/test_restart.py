"""Restart, doubt, correction."""

from dataclasses import replace

import pytest

from shopassist.core.pot.events import Correction, Tell
from shopassist.core.pot.plate import Gauge
from shopassist.core.pot.words import Act, Belief, Branch, Item, Told
from shopassist.core.quantities import PascalGauge
from tests.core.pot.bench import BAR, Sitting, no_hiss, proving


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
