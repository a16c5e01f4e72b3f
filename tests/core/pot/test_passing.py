"""What time takes away: the end of a word, what its renewal asks, and what a restart leaves."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from shopassist.core.pot.evidence import dwell_left
from shopassist.core.pot.passing import settled
from shopassist.core.pot.words import Act, Belief, Branch, Item, Sign, Told
from tests.core.pot.bench import BAR, Sitting, no_hiss, proving

SEEN_FOR_THE_WORD = (
    Item.SIGN_SEEN, Item.ZERO_AGAIN, Item.INLET_NOW, Item.HOSE_NOW, Item.VENT_NOW_SEEN,
)  # fmt: skip


def stuck_gauge() -> Sitting:
    """Two openings hissed and the gauge did not follow; all is proved."""
    sitting = no_hiss()
    for sign in (Sign.INLET, Sign.RING):
        sitting.answer(Item.OPENING, sign)
        sitting.answer(Item.OPENING_HEARD, "hiss_silent", sign)
    sitting.typed(Item.SILENCE, 0.0, "silent")
    sitting.wait(1800)
    sitting.sign(Sign.INLET)
    sitting.sign(Sign.RING)
    sitting.typed(Item.SILENCE_AGAIN, 0.0, "silent")
    sitting.sights()
    return sitting


def proved() -> Sitting:
    sitting = proving()
    sitting.prove()
    return sitting


def expired(sitting: Sitting, young: Item) -> Sitting:
    """Give the word on evidence of which one kind is young, and let it run out."""
    zeros = (Item.ZERO, Item.SILENCE)
    pieces = sitting.state.evidence
    aged = tuple(
        p if p.item is young or p.item in zeros else replace(p, age=p.age - 400) for p in pieces
    )
    sitting.state = replace(sitting.state, evidence=aged)
    sitting.press(Act.CONFIRM)
    sitting.wait(200)
    assert sitting.believes(Belief.PROVING)
    return sitting


# -- the end of a word ---------------------------------------------------------------------------


@pytest.mark.parametrize("item", SEEN_FOR_THE_WORD)
def test_a_renewal_asks_again_what_the_word_rested_on_however_young(item: Item) -> None:
    sitting = expired(proved(), item)
    asked = []
    for step in (
        lambda: sitting.sign(Sign.VENT), lambda: sitting.typed(Item.ZERO_AGAIN, 0.0),
        lambda: sitting.answer(Item.INLET_NOW, "shut"),
        lambda: sitting.answer(Item.HOSE_NOW, "apart"),
        lambda: sitting.answer(Item.VENT_NOW_SEEN, "open"),
    ):  # fmt: skip
        asked.append(sitting.item)
        step()
    assert asked == [Item.SIGN, *SEEN_FOR_THE_WORD[1:]]
    sitting.press(Act.CONFIRM)
    assert sitting.believes(Belief.CLEAR)


def test_a_renewal_with_a_failed_gauge_asks_the_silence_again() -> None:
    sitting = expired(stuck_gauge(), Item.SILENCE_AGAIN)
    sitting.sign(Sign.INLET)
    sitting.sign(Sign.RING)
    assert sitting.asks(Item.SILENCE_AGAIN)


def test_the_word_is_gone_when_its_time_is_up_and_not_a_moment_later() -> None:
    sitting = Sitting().cleared()
    grant = sitting.state.grant
    assert grant is not None
    sitting.wait(grant.expires - sitting.now.age)
    assert sitting.believes(Belief.PROVING)


def test_a_lid_that_moved_counts_for_five_minutes_and_not_a_moment_longer() -> None:
    sitting = Sitting().cleared()
    sitting.crack()
    until = sitting.state.crack_expires
    assert until is not None
    assert until == sitting.now.age + 300
    sitting.wait(until - sitting.now.age)
    assert sitting.believes(Belief.CLEAR)


# -- restarts -----------------------------------------------------------------------------------


def over_rating() -> Sitting:
    sitting = Sitting().held()
    sitting.typed(Item.READING, 6 * BAR)
    return sitting


def pressed(act: Act) -> Callable[[], Sitting]:
    def made() -> Sitting:
        sitting = Sitting().held()
        sitting.press(act)
        return sitting

    return made


def sign_with_air() -> Sitting:
    sitting = proving()
    sitting.wait(600)
    sitting.sign(Sign.RING, "some")
    return sitting


def over_limit() -> Sitting:
    sitting = Sitting().held()
    sitting.typed(Item.READING, 5 * BAR)
    return sitting


@pytest.mark.parametrize(
    ("made", "branch"),
    [
        (over_rating, Branch.OVER_RATING),
        (pressed(Act.RELIEF_LIFTED), Branch.RELIEF_LIFTED),
        (pressed(Act.TOO_HOT), Branch.TOO_HOT),
        (pressed(Act.SUPPLY_LOST), Branch.SUPPLY_LOST),  # a power cut stops the computer too
        (pressed(Act.LOST_TRACK), Branch.LOST_TRACK),
        (stuck_gauge, Branch.STUCK_GAUGE),
    ],
)
def test_a_warning_about_the_pot_itself_stands_after_a_restart(
    made: Callable[[], Sitting], branch: Branch
) -> None:
    sitting = made()
    assert sitting.shows(branch)
    sitting.tell(Told.RESTARTED)
    assert sitting.shows(branch)


@pytest.mark.parametrize(
    ("made", "branch"),
    [
        (no_hiss, Branch.NO_HISS),
        (sign_with_air, Branch.DISAGREE),
        (over_limit, Branch.OVER_LIMIT),
    ],
)
def test_a_warning_about_a_step_goes_with_the_step(
    made: Callable[[], Sitting], branch: Branch
) -> None:
    sitting = made()
    assert sitting.shows(branch)
    sitting.tell(Told.RESTARTED)
    assert sitting.shows(Branch.NONE)


def test_after_a_restart_the_limit_may_be_bled_to_once_more() -> None:
    sitting = over_limit()
    sitting.tell(Told.RESTARTED)
    sitting.typed(Item.READING, 5 * BAR)
    assert sitting.believes(Belief.PRESSURISED)
    assert sitting.shows(Branch.OVER_LIMIT)
    sitting.typed(Item.READING, 5 * BAR)
    assert sitting.believes(Belief.LETTING_DOWN)


def stuck_lid(sitting: Sitting) -> None:
    while sitting.asks(Item.SLACKEN):
        sitting.answer(Item.SLACKEN, "done")
    sitting.answer(Item.ROCK, "stuck")


def test_after_a_restart_a_lid_may_stick_as_often_as_before() -> None:
    sitting = Sitting().cleared()
    stuck_lid(sitting)
    sitting.answer(Item.ROCK, "stuck")
    sitting.tell(Told.RESTARTED)
    sitting.press(Act.LET_DOWN)
    sitting.isolate(press=False)
    sitting.vent("was_open_silent")
    sitting.typed(Item.ZERO, 0.0)
    sitting.prove()
    sitting.press(Act.CONFIRM)
    for _ in range(2):
        stuck_lid(sitting)
        assert sitting.shows(Branch.STUCK_LID)
    stuck_lid(sitting)
    assert sitting.believes(Belief.SUSPECT)


# -- suspends -----------------------------------------------------------------------------------


@pytest.mark.parametrize(("seconds", "lost"), [(0.5, 0.5), (90.0, 90.0), (-50.0, 0.0)])
def test_a_suspend_takes_its_own_length_from_the_dwell_and_never_gives_any(
    seconds: float, lost: float
) -> None:
    sitting = proving()
    left = dwell_left(sitting.state, sitting.now)
    sitting.tell(Told.SUSPENDED, seconds)
    assert dwell_left(settled(sitting.state, sitting.now), sitting.now) == left + lost
