"""Rows and back: each event is one row, and the record is what the rows say."""

import json
from dataclasses import fields, replace

import pytest

from shopassist.core.pot.events import (
    Answer,
    Correction,
    Event,
    Note,
    PlateSet,
    Press,
    Tell,
    Typed,
    event_from_row,
    row_of,
)
from shopassist.core.pot.fold import AgeScale, Record, fold, fold_all, tell
from shopassist.core.pot.plate import Plate
from shopassist.core.pot.words import Act, Belief, Item, Sign, Told
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Body, Reading, Row
from tests.core.pot.bench import BAR, plate

EVENTS: list[Event] = [
    Answer(Item.SIGN_SEEN, "none", Sign.RING),
    Typed(Item.LEAK_END, 4 * BAR, "4,0", "bar", 293.15),
    Typed(Item.ZERO, 0.0, "0", "psi"),
    Press(Act.LET_DOWN),
    Note("an examiner", "no harm"),
    Correction(Item.VENT, "it was the other one"),
    Tell(Told.SUSPENDED, 90.0),
    PlateSet(1, plate()),
]


def plate_of(version: int) -> Plate | None:
    return plate() if version == 1 else None


def reading(seconds: float, boot: str = "one", utc: float | None = None) -> Reading:
    wall = 1.7e9 + seconds if utc is None else utc
    return Reading(UtcSecond(wall), Second(1000 + seconds), boot, Second(0.0))


def row(number: int, event: Event, at: Reading, version: int = 1) -> Row:
    kind, body = row_of(event)
    return Row(number, "pot/x", number, kind, version, at, at.utc, body, "")


@pytest.mark.parametrize("event", EVENTS)
def test_an_event_comes_back_from_its_row(event: Event) -> None:
    kind, body = row_of(event)
    assert event_from_row(kind, json.loads(json.dumps(body)), plate_of) == event


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        ("novelty", {}),
        ("answer", {"item": "no such item", "choice": "x", "about": ""}),
        ("answer", {"item": "vent"}),
        ("typed", {"item": "zero", "value": "0", "text": "0", "unit": "bar"}),
        ("typed", {"item": "zero", "value": True, "text": "0", "unit": "bar"}),
        ("told", {"what": "restarted", "seconds": None}),
    ],
)
def test_a_row_that_cannot_be_read_makes_the_pot_not_known(kind: str, body: Body) -> None:
    assert event_from_row(kind, body, plate_of) is None
    opened = fold(Record(), row(1, Answer(Item.LID_OFF_NOW, "inside_seen"), reading(0)), plate_of)
    assert opened.state.belief is Belief.OPEN
    bad = Row(2, "pot/x", 2, kind, 1, reading(1), UtcSecond(0), body, "")
    assert fold(opened, bad, plate_of).state.belief is Belief.UNKNOWN


def test_a_row_of_a_later_version_is_not_believed() -> None:
    made = fold(Record(), row(1, Answer(Item.LID_OFF_NOW, "inside_seen"), reading(0), 2), plate_of)
    assert made.state.belief is Belief.UNKNOWN


def test_a_row_that_the_procedure_refuses_makes_the_pot_not_known() -> None:
    opened = fold(Record(), row(1, Answer(Item.LID_OFF_NOW, "inside_seen"), reading(0)), plate_of)
    forged = fold(opened, row(2, Press(Act.CONFIRM), reading(1)), plate_of)
    assert forged.state.belief is Belief.UNKNOWN


def test_a_row_after_another_is_taken_as_it_is() -> None:
    opened = fold(Record(), row(1, Answer(Item.LID_OFF_NOW, "inside_seen"), reading(0)), plate_of)
    assert fold(opened, row(2, Press(Act.STOP), reading(1)), plate_of).state.belief is Belief.OPEN


def test_a_pot_that_nobody_has_reported_on_has_nothing_on_record_and_may_hold_air() -> None:
    state = Record().state
    assert state.belief is Belief.UNKNOWN
    assert state.air
    assert state.ambient == 101_325.0
    names = {each.name for each in fields(state)} - {"belief", "air", "ambient"}
    assert {name for name in names if getattr(state, name)} == set()


def test_another_boot_between_two_rows_is_a_restart() -> None:
    rows = [
        row(1, Press(Act.AIR_IN), reading(0)),
        row(2, Press(Act.LET_DOWN), reading(10)),
        row(3, Typed(Item.READING, BAR, "1", "bar"), reading(-900, "two", 1.7e9 + 500)),
    ]
    record = fold_all(rows, plate_of)
    assert record.state.belief is Belief.PRESSURISED
    assert record.scale.age == 500


def test_rows_older_than_restored_data_are_not_believed() -> None:
    rows = [
        row(1, Answer(Item.LID_OFF_NOW, "inside_seen"), reading(0)),
        row(9, Press(Act.STOP), reading(10)),
    ]
    assert fold_all(rows, plate_of).state.belief is Belief.OPEN
    for place in (1, 5, 8):
        assert fold_all(rows, plate_of, displaced=place).state.belief is Belief.UNKNOWN
    assert fold_all(rows, plate_of, displaced=9).state.belief is Belief.OPEN


def test_ages_run_on_through_a_reboot_and_never_back() -> None:
    scale = AgeScale().on(reading(0)).on(reading(100))
    assert scale.age == 100
    assert scale.on(reading(0, "two", 1.7e9 + 400)).age == 400
    assert scale.on(reading(0, "two", 1.6e9)).age == 100
    assert scale.now(reading(130)).age == 130
    back = replace(reading(0), since_boot=Second(0.0))
    assert not scale.same_boot(back)


def test_a_finding_is_folded_without_a_row() -> None:
    record = tell(Record(), Tell(Told.RESTORED), reading(0))
    assert record.state.belief is Belief.UNKNOWN
