"""What really happened with the stages, from the rows and from the other panes."""

from typing import Any

import pytest

from shopassist.core.batch import Batch, Cup
from shopassist.core.plan import Done
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Reading, Row
from shopassist.core.stage_log import (
    Marks,
    actuals,
    fold_all_marks,
    marks_of_batch,
    marks_of_wood,
)
from shopassist.core.stages import STAGES
from shopassist.core.wood_set import WoodSet


def at(hours: float) -> UtcSecond:
    return UtcSecond(hours * 3600.0)


def row(hours: float, kind: str, **body: Any) -> Row:
    reading = Reading(at(hours), Second(0.0), "boot", Second(0.0))
    return Row(1, "batch/one", 1, kind, 1, reading, at(hours), body, "")


def test_a_stage_that_was_started_and_ended_keeps_both_times() -> None:
    rows = [row(1, "stage_started", stage="dry"), row(25, "stage_ended", stage="dry")]
    assert fold_all_marks(rows) == Marks({"dry": at(1)}, {"dry": at(25)})


def test_a_stage_may_be_ended_without_a_start() -> None:
    assert fold_all_marks([row(5, "stage_ended", stage="cool")]) == Marks({}, {"cool": at(5)})


def test_a_stage_started_again_runs_again() -> None:
    rows = [row(1, "stage_started", stage="dry"), row(2, "stage_ended", stage="dry"),
            row(3, "stage_started", stage="dry")]  # fmt: skip
    assert fold_all_marks(rows) == Marks({"dry": at(3)}, {})


def test_what_is_taken_back_was_never_so() -> None:
    rows = [row(1, "stage_started", stage="dry"), row(2, "stage_taken_back", stage="dry")]
    assert fold_all_marks(rows) == Marks()


@pytest.mark.parametrize("strange", [row(1, "note", text="x"), row(1, "stage_started", stage=3)])
def test_other_rows_change_nothing(strange: Row) -> None:
    assert fold_all_marks([strange]) == Marks()


def test_events_of_the_wood_start_and_end_stages() -> None:
    state = WoodSet(events={"oven_on": at(1), "oven_off": at(20), "sank": at(40)})
    found = marks_of_wood(state)
    assert found.started == {"dry": at(1), "cool_dry": at(20)}
    assert found.ended == {"dry": at(20)}


def test_a_batch_that_is_mixed_only_has_its_pour_begun() -> None:
    cup = Cup(1, contact_row=row(3, "hardener_in"))
    assert marks_of_batch(Batch("one", cups=(cup,))) == Marks({"pour": at(3)}, {})
    poured = Batch("one", cups=(cup,), poured=at(3.2))
    assert marks_of_batch(poured).ended == {"pour": at(3.2)}


def test_pressure_runs_from_the_air_on_to_the_opened_pot() -> None:
    batch = Batch("one", poured=at(1), at_pressure=at(1.5), left_pot=at(30))
    assert marks_of_batch(batch) == Marks(
        {"pressure": at(1.5)}, {"pour": at(1.5), "pressure": at(30)}
    )
    assert marks_of_batch(Batch("one")) == Marks()


def test_own_marks_stand_above_those_of_another_pane() -> None:
    one = Marks({"dry": at(2)}, {}).over(Marks({"dry": at(1), "soak": at(9)}, {"dry": at(8)}))
    assert one == Marks({"dry": at(2), "soak": at(9)}, {"dry": at(8)})


def test_what_nobody_reported_is_over_once_something_after_it_has_begun() -> None:
    found = actuals(STAGES, Marks({"dry": at(5), "vacuum": at(30)}, {}))
    assert found["rough"] == Done(at(5), at(5))
    assert found["dry"] == Done(at(5), at(30))
    assert found["cool_dry"] == Done(at(30), at(30))
    assert found["vacuum"] == Done(at(30), None)
    assert "soak" not in found
    assert "mould" not in found


def test_an_end_without_a_start_took_no_time() -> None:
    assert actuals(STAGES, Marks({}, {"mould": at(7)})) == {"mould": Done(at(7), at(7))}


def test_a_stage_never_ends_before_it_began() -> None:
    found = actuals(STAGES, Marks({"rough": at(9), "dry": at(5)}, {}))
    assert found["rough"] == Done(at(9), at(9))
