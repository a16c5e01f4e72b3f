"""Samples of the long proofs; the full counts run by the prove command."""

import sys
from dataclasses import replace

import pytest

from shopassist.core.pot.events import Answer, Tell
from shopassist.core.pot.passing import settled
from shopassist.core.pot.plate import Holes
from shopassist.core.pot.steps import PROVE
from shopassist.core.pot.words import Belief, Item, Told
from tests.proofs import pot_machine, pot_physics, pot_walk
from tests.proofs.pot_air import Case
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


def test_the_walk_finds_no_forbidden_move() -> None:
    report = pot_walk.run(240, 1)
    assert report.passed, report.failures[:5]


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
