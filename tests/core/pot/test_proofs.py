"""Samples of the long proofs; the full counts run by the prove command."""

import random
import sys
from dataclasses import replace

import pytest

from shopassist.core.pot.advance import advance
from shopassist.core.pot.events import Answer, Event, Press, Tell, Typed
from shopassist.core.pot.passing import settled
from shopassist.core.pot.plate import Holes
from shopassist.core.pot.state import PotState
from shopassist.core.pot.steps import PROVE
from shopassist.core.pot.words import Act, Belief, Item, Told
from tests.core.pot.bench import BAR, plate
from tests.proofs import pot_machine, pot_physics, pot_walk
from tests.proofs.pot_air import Case
from tests.proofs.pot_moves import Place, further
from tests.proofs.pot_physics import Person

pytestmark = pytest.mark.proof
HEALTHY = Case(Holes("a", "b", "c", "d"), True)
MOST_EVENTS = 45


def test_no_grant_and_no_restart_breaks_the_invariant() -> None:
    report = pot_machine.run(100, 1)
    assert report.passed, report.failures[:5]
    assert report.figures["grants"] > 2


def test_an_honest_person_is_never_told_clear_with_air_in_the_pot() -> None:
    report = pot_physics.run(300, 1)
    assert report.passed, report.failures[:5]
    assert report.figures["clear"] > 50


@pytest.mark.parametrize("layout", range(pot_walk.FULL))
def test_the_walk_finds_no_forbidden_move(layout: int) -> None:
    done = pot_walk.sampled(layout, 60)
    assert not done.wrong, done.wrong[:5]
    assert done.figures["left"] > 0


ALMOST: tuple[tuple[Event, float], ...] = (
    (Typed(Item.READING, 4 * BAR, "4", "bar"), 2), (Press(Act.LET_DOWN), 2),
    (Answer(Item.INLET, "shut"), 2), (Answer(Item.HOSE_BLED, "bled"), 2),
    (Answer(Item.HOSE, "apart"), 2), (Answer(Item.EYES, "covered"), 2),
    (Answer(Item.VENT, "opened_hiss"), 2), (Typed(Item.FALL_FIRST, 2 * BAR, "2", "bar"), 30),
    (Typed(Item.FALL_SECOND, 2 * BAR, "2", "bar"), 60), (Answer(Item.VENT_AGAIN, "open"), 2),
    (Answer(Item.FALL_SPEED, "slowly"), 2), (Typed(Item.ZERO, 0.0, "0", "bar"), 60),
    (Answer(Item.SIGN, "vent"), 600), (Answer(Item.SIGN_SEEN, "none", "vent"), 2),
    (Typed(Item.ZERO_AGAIN, 0.0, "0", "bar"), 2),
)  # fmt: skip
"""From full pressure to the last looks, each after so many seconds."""


@pytest.mark.parametrize("gone", [Item.INLET_NOW, Item.HOSE_NOW, Item.VENT_NOW_SEEN])
def test_the_walk_notices_a_missing_look(gone: Item, monkeypatch: pytest.MonkeyPatch) -> None:
    place = pot_walk.begin(plate())[-1]
    for event, wait in ALMOST:
        now = further(place.now, wait)
        state = advance(place.state, event, now)
        assert isinstance(state, PotState)
        assert not place.witness.watch(place.state, event, state, now)
        place = Place(state, now, place.witness)
    steps = sys.modules["shopassist.core.pot.steps"]
    monkeypatch.setattr(steps, "PROVE", tuple(step for step in PROVE if step.item is not gone))
    wrong = pot_walk.walk([place], 1, 200).wrong
    assert any(f"{gone} not seen" in line for line in wrong)


def test_a_state_that_was_never_walked_is_found() -> None:
    done = pot_walk.sampled(0, 60)
    begun = pot_walk.begin(plate(holes=pot_walk.LAYOUTS[0]))
    pot_walk.stray(done, begun, random.Random(1), 5)
    assert any(line.startswith("never walked") for line in done.wrong)


def test_states_that_are_not_the_same_are_told_apart(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pot_walk, "COMPARED", 1.0)
    monkeypatch.setattr(sys.modules["tests.proofs.pot_merge"], "_of_this_list", lambda *_: ())
    wrong = pot_walk.sampled(0, 3).wrong
    assert any(line.startswith("merged, and told apart") for line in wrong)


@pytest.mark.parametrize("vent_time", [30.0, 120.0, 600.0, 1200.0])
@pytest.mark.parametrize("slackening", [60.0, 600.0, 1200.0])
def test_a_healthy_pot_is_opened_whatever_vent_and_clamps_take(
    vent_time: float, slackening: float
) -> None:
    person = Person(replace(HEALTHY, vent_time=vent_time))
    person.must(Answer(Item.LID_OFF_NOW, "inside_seen"))
    assert person.live().end == "clear"
    assert person.crack(slackening).end == "open"
    assert "lid off late" not in person.state.marks


@pytest.mark.parametrize("at", range(20, MOST_EVENTS))
def test_a_restart_anywhere_leaves_a_way_to_the_open_lid(at: int) -> None:
    person = Person(HEALTHY)
    person.must(Answer(Item.LID_OFF_NOW, "inside_seen"))
    done = False
    for _ in range(400):
        person.wait(2)
        state = settled(person.state, person.now)
        if len(person.events) >= at and not done:
            person.must(Tell(Told.RESTARTED))
            done = True
            continue
        if state.belief is Belief.CLEAR:
            assert person.crack(120.0).end == "open"
            return
        assert person.act(state.belief)
    raise AssertionError(person.state.belief)


@pytest.mark.parametrize(
    "gone", [step.item for step in PROVE if step.item is not Item.SILENCE_AGAIN]
)
def test_the_machine_notices_a_missing_step(gone: Item, monkeypatch: pytest.MonkeyPatch) -> None:
    steps = sys.modules["shopassist.core.pot.steps"]
    monkeypatch.setattr(steps, "PROVE", tuple(step for step in PROVE if step.item is not gone))
    assert not pot_machine.run(25, 3).passed
