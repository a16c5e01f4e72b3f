"""What no longer counts is withdrawn, what lasts stays, and a caution is never forgotten."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from shopassist.core.pot.events import PlateSet
from shopassist.core.pot.evidence import Path, path, signs_owed
from shopassist.core.pot.moves import OF_THE_RUN, READY_ITEMS, gauge_lost
from shopassist.core.pot.words import Act, Belief, Item, Sign, Told
from tests.core.pot.bench import BAR, Sitting, no_hiss, plate, proving


def checked() -> Sitting:
    """At pressure, with a leak check and a temperature on record."""
    sitting = Sitting().held()
    sitting.typed(Item.READING, 4 * BAR)
    sitting.typed(Item.TEMPERATURE, 293.15)
    sitting.typed(Item.LEAK_START, 4 * BAR, temperature=293.15)
    sitting.wait(1800)
    sitting.typed(Item.LEAK_END, 4 * BAR, temperature=293.15)
    return sitting


def items(sitting: Sitting) -> set[Item]:
    return {piece.item for piece in sitting.state.evidence}


def rise(sitting: Sitting) -> None:
    """Vent, and see the gauge rise again."""
    sitting.isolate()
    sitting.vent()
    sitting.fall()
    sitting.typed(Item.ZERO, 2.5 * BAR)


# -- what a let-down and a restart leave ------------------------------------------------------


@pytest.mark.parametrize("item", [i for i in OF_THE_RUN if i not in READY_ITEMS])
def test_a_letting_down_that_starts_again_keeps_what_the_run_had(item: Item) -> None:
    sitting = checked()
    before = sitting.state.find(item)
    assert before is not None
    rise(sitting)
    assert sitting.asks(Item.INLET)
    assert sitting.state.find(item) == before


@pytest.mark.parametrize("item", READY_ITEMS)
def test_ready_lasts_through_a_restart(item: Item) -> None:
    sitting = checked()
    before = sitting.state.all(item)
    assert before
    sitting.tell_restart()
    assert sitting.state.all(item) == before


def test_a_restart_leaves_nothing_but_ready() -> None:
    sitting = checked()
    sitting.tell_restart()
    assert items(sitting) == set(READY_ITEMS)


def test_a_restart_while_the_air_goes_in_asks_no_more_for_it() -> None:
    sitting = Sitting()
    sitting.ready()
    sitting.close()
    sitting.press(Act.AIR_ON)
    sitting.typed(Item.FIRST_AIR, 0.7 * BAR)
    sitting.tell(Told.RESTARTED)
    assert not sitting.state.filling
    assert not sitting.asks(Item.REGULATOR)


def test_a_rise_does_not_bring_back_the_way_to_stay() -> None:
    sitting = Sitting().held()
    rise(sitting)
    assert not sitting.state.may_stay
    assert not sitting.state.reading_owed


@pytest.mark.parametrize("until", ["letting down", "proving", "clear", "cracked"])
def test_a_relief_valve_that_lifts_late_withdraws_every_sighting(until: str) -> None:
    sitting = proving() if until == "proving" else Sitting()
    if until == "letting down":
        sitting.held()
        sitting.isolate()
    elif until != "proving":
        sitting.cleared()
    if until == "cracked":
        sitting.crack()
    assert sitting.state.belief.name.casefold().replace("_", " ") == until
    sitting.press(Act.RELIEF_LIFTED)
    assert sitting.believes(Belief.LETTING_DOWN)
    assert sitting.asks(Item.INLET)
    assert items(sitting) <= set(OF_THE_RUN)


def test_a_newer_answer_takes_the_place_of_the_older_one() -> None:
    sitting = Sitting().held()
    for value in (3.9, 3.8):
        sitting.typed(Item.READING, value * BAR)
    (reading,) = sitting.state.all(Item.READING)
    assert reading.number == 3.8 * BAR
    holes = [piece.about for piece in sitting.state.all(Item.HOLE)]
    assert holes == ["north", "east", "south", "west"]


def test_every_opening_of_the_vent_stays_on_record() -> None:
    sitting = Sitting().held()
    sitting.press(Act.VENT_NOW)
    sitting.isolate(press=False)
    sitting.vent()
    assert [piece.value for piece in sitting.state.all(Item.VENT)] == ["pressed", "opened_hiss"]


def test_a_lost_gauge_takes_its_zeros_and_the_signs_along() -> None:
    sitting = proving()
    sitting.prove(Sign.VENT)
    state = sitting.state
    zero = state.find(Item.ZERO)
    assert zero is not None
    silences = tuple(replace(zero, item=i) for i in (Item.SILENCE, Item.SILENCE_AGAIN))
    lost = gauge_lost(replace(state, evidence=(*state.evidence, *silences)), sitting.now, "below")
    withdrawn = {Item.ZERO, Item.ZERO_AGAIN, Item.SILENCE, Item.SILENCE_AGAIN, Item.SIGN_SEEN}
    had = {piece.item for piece in (*state.evidence, *silences)}
    assert {piece.item for piece in lost.evidence} == had - withdrawn
    assert withdrawn <= had


# -- cautions ------------------------------------------------------------------------------------


def closed() -> Sitting:
    sitting = Sitting()
    sitting.ready()
    sitting.close()
    assert path(sitting.state) is Path.NO_AIR
    return sitting


def no_air_cracked() -> Sitting:
    sitting = closed()
    sitting.press(Act.LET_DOWN)
    sitting.isolate(press=False)
    sitting.answer(Item.VENT, "was_open_silent")
    sitting.typed(Item.ZERO, 0.0)
    sitting.wait(120)
    sitting.typed(Item.ZERO_AGAIN, 0.0)
    sitting.sights()
    sitting.press(Act.CONFIRM)
    assert path(sitting.state) is Path.NO_AIR
    return sitting


def hiss_at_the_lid(sitting: Sitting) -> None:
    sitting.answer(Item.SLACKEN, "hiss")


def air_is_in(sitting: Sitting) -> None:
    sitting.press(Act.AIR_IN)


def over_the_rating(sitting: Sitting) -> None:
    sitting.typed(Item.READING, 6 * BAR)


def supply_back(sitting: Sitting) -> None:
    sitting.tell(Told.RESTARTED)
    sitting.answer(Item.SUPPLY, "back")


@pytest.mark.parametrize(("made", "act"), [
    (closed, supply_back),
    (no_air_cracked, hiss_at_the_lid), (closed, air_is_in), (closed, over_the_rating),
])  # fmt: skip
def test_what_tells_of_air_ends_no_air_yet(
    made: Callable[[], Sitting], act: Callable[[Sitting], None]
) -> None:
    sitting = made()
    act(sitting)
    assert path(sitting.state) is Path.NORMAL
    assert signs_owed(sitting.state) > 0


def test_a_reading_above_zero_in_a_closed_pot_is_the_reading_that_is_owed() -> None:
    sitting = closed()
    sitting.typed(Item.READING, 1 * BAR)
    assert sitting.believes(Belief.PRESSURISED)
    assert sitting.asks(None)


def test_some_air_at_the_second_silence_starts_again() -> None:
    sitting = no_hiss()
    for sign in (Sign.INLET, Sign.RING):
        sitting.answer(Item.OPENING, sign)
        sitting.answer(Item.OPENING_HEARD, "hiss_silent", sign)
    sitting.typed(Item.SILENCE, 0.0, "silent")
    sitting.wait(1800)
    sitting.sign(Sign.INLET)
    sitting.sign(Sign.RING)
    sitting.answer(Item.SILENCE_AGAIN, "some")
    assert sitting.asks(Item.INLET)
    assert sitting.state.disagreed == 1
    assert sitting.state.find(Item.SILENCE) is None


def test_after_a_stop_the_signs_may_disagree_from_the_start_again() -> None:
    sitting = proving()
    sitting.wait(600)
    sitting.sign(Sign.RING, "some")
    assert sitting.state.disagreed == 1
    sitting.press(Act.DOUBT)
    assert sitting.believes(Belief.SUSPECT)
    assert sitting.state.disagreed == 0


def test_a_pass_that_is_done_begins_the_next_at_its_first_clamp() -> None:
    sitting = Sitting().cleared()
    sitting.typed(Item.SLACKEN, 3, "3")
    assert sitting.state.clamp_reached == 3
    sitting.answer(Item.SLACKEN, "done")
    assert (sitting.state.passes, sitting.state.clamp_reached) == (1, 0)


def test_a_mark_stands_once() -> None:
    sitting = Sitting(opened=False)
    sitting.answer(Item.LID_OFF_NOW, "inside_seen")
    first = sitting.state.marks
    sitting.press(Act.AIR_IN)
    sitting.press(Act.DOUBT)
    sitting.answer(Item.LID_OFF_NOW, "inside_seen")
    assert first == ("lid off now",)
    assert sorted(sitting.state.marks) == ["air without the list", "lid off now"]


def test_the_plate_of_a_new_pot_is_entered_while_its_state_is_not_known() -> None:
    sitting = Sitting(opened=False)
    assert sitting.believes(Belief.UNKNOWN)
    sitting.do(PlateSet(2, plate(clamps=8)))
    assert sitting.state.plate == plate(clamps=8)
