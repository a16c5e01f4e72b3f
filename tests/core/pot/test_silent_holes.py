"""A hole that was silent while the gauge stood above zero gives no sign afterwards."""

from dataclasses import replace

import pytest

from shopassist.core.pot.events import Answer, Correction
from shopassist.core.pot.evidence import (
    dwell_replaces_third,
    hopeless,
    signs_left,
    signs_owed,
    usable_signs,
)
from shopassist.core.pot.notes import notes_of
from shopassist.core.pot.plate import Holes
from shopassist.core.pot.words import Act, Belief, Branch, Item, Sign, Told
from shopassist.core.wording import Wording
from tests.core.pot.bench import BAR, Sitting, plate

SHARED = Holes(gauge="north", vent="east", relief="south", inlet="east", test_valve="east")
"""Vent, inlet and test valve on one cross: a plug in it silences all three."""


def no_hiss(holes: Holes | None = None) -> Sitting:
    """The vent is opened at 4 bar and nothing is heard."""
    sitting = Sitting(plate() if holes is None else plate(holes=holes)).held()
    sitting.isolate()
    sitting.vent("opened_none")
    sitting.typed(Item.VENT_READING, 3.9 * BAR)
    assert sitting.shows(Branch.NO_HISS)
    return sitting


def opened(sitting: Sitting, sign: Sign, heard: str) -> None:
    sitting.answer(Item.OPENING, sign)
    sitting.answer(Item.OPENING_HEARD, heard, sign)


def down_by_the_ring(sitting: Sitting) -> None:
    opened(sitting, Sign.RING, "hiss_falls")
    sitting.fall()
    sitting.wait(600)
    sitting.typed(Item.ZERO, 0.0)


def silent(sitting: Sitting) -> frozenset[str]:
    return sitting.state.silent_holes


def test_a_test_valve_on_the_hole_of_a_plugged_vent_tells_nothing() -> None:
    """Found by drawing pots with real air: half a bar was left behind a gauge that reads low."""
    sitting = no_hiss(SHARED)
    down_by_the_ring(sitting)
    assert sitting.believes(Belief.PROVING)
    told = "Hole east was silent under pressure: nothing on it is a sign."
    assert told in [Wording().say(text) for text in notes_of(sitting.state, None, sitting.now)]
    assert signs_owed(sitting.state) == 1
    assert signs_left(sitting.state, sitting.now) == (Sign.RING,)
    sitting.wait(600)
    sitting.refused(Answer(Item.SIGN, Sign.TEST_VALVE))
    sitting.sign(Sign.RING)
    sitting.typed(Item.ZERO_AGAIN, 0.0)
    sitting.sights()
    sitting.press(Act.CONFIRM)
    assert sitting.believes(Belief.CLEAR)


def test_where_no_other_opening_is_left_there_is_no_word() -> None:
    sitting = no_hiss()
    opened(sitting, Sign.RING, "none")
    opened(sitting, Sign.INLET, "hiss_falls")
    assert silent(sitting) == {"east", "south"}
    sitting.fall()
    assert usable_signs(sitting.state) == (Sign.INLET,)
    state = replace(sitting.state, silent_holes=frozenset({"east", "south", "west"}))
    told = hopeless(state)
    assert told is not None
    assert told.template.startswith("No opening is left that was not silent under pressure")
    bare = hopeless(replace(state, silent_holes=frozenset(), plate=plate(holes=Holes("n", "n"))))
    assert bare is not None
    assert bare.template.startswith("One opening only")


@pytest.mark.parametrize("item", [Item.FALL_FIRST, Item.ZERO, Item.ZERO_AGAIN])
def test_a_vent_that_falls_silent_above_zero_gives_no_sign_any_more(item: Item) -> None:
    """It hissed at first: something closed it on the way down."""
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    if item is not Item.FALL_FIRST:
        sitting.fall()
        sitting.wait(30)
    if item is Item.ZERO_AGAIN:
        sitting.typed(Item.ZERO, 0.0)
        sitting.wait(600)
        sitting.sign(Sign.INLET)
    assert Sign.VENT in usable_signs(sitting.state)
    sitting.answer(item, "silent_steady")
    assert silent(sitting) == {"east"}
    assert Sign.VENT not in usable_signs(sitting.state)
    sitting.press(Act.LET_DOWN)
    sitting.isolate(press=False)
    sitting.vent("was_open_air")
    assert silent(sitting) == frozenset()
    assert Sign.VENT in usable_signs(sitting.state)


def test_a_reading_of_zero_at_a_silent_vent_holds_nothing_against_it() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent("opened_none")
    sitting.typed(Item.VENT_READING, 0.0)
    assert silent(sitting) == frozenset()


@pytest.mark.parametrize("heard", ["hiss_silent", "hiss_falls"])
def test_air_that_is_heard_there_later_is_as_good_as_a_clean_hole(heard: str) -> None:
    sitting = no_hiss(SHARED)
    sitting.state = replace(sitting.state, silent_holes=frozenset({"east", "south"}))
    opened(sitting, Sign.RING, heard)
    assert silent(sitting) == {"east"}


def test_air_moving_at_the_vent_shows_that_its_hole_is_open() -> None:
    sitting = no_hiss(SHARED)
    down_by_the_ring(sitting)
    sitting.wait(600)
    sitting.sign(Sign.RING)
    sitting.typed(Item.ZERO_AGAIN, 0.0)
    sitting.answer(Item.INLET_NOW, "shut")
    sitting.answer(Item.HOSE_NOW, "apart")
    assert silent(sitting) == {"east"}
    sitting.answer(Item.VENT_NOW_SEEN, "open_air")
    assert silent(sitting) == frozenset()


def test_a_sign_that_shows_air_shows_that_its_hole_is_open() -> None:
    sitting = Sitting().held()
    sitting.let_down()
    sitting.state = replace(sitting.state, silent_holes=frozenset({"south"}))
    sitting.wait(600)
    sitting.answer(Item.SIGN, Sign.INLET)
    sitting.state = replace(sitting.state, silent_holes=frozenset({"south", "west"}))
    sitting.answer(Item.SIGN_SEEN, "some", Sign.INLET)
    assert silent(sitting) == {"south"}


def test_it_lasts_through_a_restart_and_ends_with_the_lid_off() -> None:
    sitting = no_hiss()
    sitting.tell(Told.RESTARTED)
    assert silent(sitting) == {"east"}
    sitting.press(Act.LET_DOWN)
    assert silent(sitting) == {"east"}
    sitting.tell(Told.RESTORED)
    sitting.answer(Item.LID_OFF_NOW, "inside_seen")
    assert silent(sitting) == frozenset()


def test_a_long_dwell_stands_in_for_no_opening_that_is_merely_plugged() -> None:
    """The vent hissed earlier in the run; the plate has two openings besides the gauge's."""
    holes = Holes(gauge="north", vent="east", relief="south")
    sitting = Sitting(plate(holes=holes, inlet_opens=False)).held()
    sitting.isolate()
    sitting.vent()
    sitting.answer(Item.FALL_FIRST, "silent_steady")
    opened(sitting, Sign.RING, "hiss_falls")
    assert usable_signs(sitting.state) == (Sign.RING,)
    assert not dwell_replaces_third(sitting.state)
    assert signs_owed(sitting.state) == 2
    sitting.wait(2000)
    sitting.typed(Item.ZERO, 0.0)
    assert sitting.believes(Belief.SUSPECT)


@pytest.mark.parametrize(
    ("item", "left"),
    [(Item.VENT_READING, {"south"}), (Item.OPENING_HEARD, {"east", "south"}),
     (Item.VENT, {"east", "south"}), (Item.ZERO, {"east", "south"})],
)  # fmt: skip
def test_a_reading_that_was_typed_by_mistake_is_taken_back(item: Item, left: set[str]) -> None:
    """An opening that was silent by mistake is offered again, and air is heard there."""
    sitting = no_hiss()
    opened(sitting, Sign.RING, "none")
    sitting.do(Correction(item, "slip"))
    assert silent(sitting) == left


def test_air_that_was_heard_by_mistake_leaves_its_hole_in_doubt() -> None:
    vent = Sitting().held()
    vent.isolate()
    vent.vent()
    vent.do(Correction(Item.VENT, "slip"))
    assert silent(vent) == {"east"}
    vent.isolate(press=False)
    vent.vent("opened_none")
    vent.typed(Item.VENT_READING, 0.0)
    vent.do(Correction(Item.VENT_READING, "slip"))
    vent.isolate(press=False)
    vent.vent("opened_none")
    vent.do(Correction(Item.VENT, "slip"))
    assert silent(vent) == frozenset()
    ring = no_hiss()
    opened(ring, Sign.RING, "hiss_falls")
    ring.do(Correction(Item.OPENING_HEARD, "slip"))
    assert silent(ring) == {"east", "south"}


def test_another_slip_leaves_a_vent_that_hissed_alone() -> None:
    sitting = Sitting().held()
    sitting.let_down()
    sitting.do(Correction(Item.ZERO, "slip"))
    assert sitting.state.vent_hissed
    assert silent(sitting) == frozenset()


def test_a_silent_vent_above_the_rating_is_as_silent() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent("opened_none")
    sitting.typed(Item.VENT_READING, 5.6 * BAR)
    assert sitting.shows(Branch.OVER_RATING)
    assert silent(sitting) == {"east"}
