"""The minutes up to pressure: what is behind a batch, and when they are over."""

import pytest

from shopassist.core.batch import Batch, Cup
from shopassist.core.messages import Amount, Moment
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Row
from shopassist.services.beside import Beside
from shopassist.services.said import Said
from shopassist.services.steps import OVER, steps_beside, steps_now
from tests.fakes import HandClock

BY = Second(900.0)
BEGUN = UtcSecond(1_790_000_000.0)


def at(minutes: float) -> UtcSecond:
    return UtcSecond(BEGUN + 60.0 * minutes)


def batch(poured: UtcSecond | None = None, at_pressure: UtcSecond | None = None) -> Batch:
    contact = Row(1, "batch/one", 1, "hardener_in", 1, HandClock(BEGUN).read(), BEGUN, {}, "")
    return Batch("one", cups=(Cup(1, contact_row=contact),), poured=poured, at_pressure=at_pressure)


def page(of: Batch, minutes: float) -> Beside:
    return steps_beside(steps_now(Said(), BY, of, at(minutes)))


def test_at_pressure_nothing_is_late_any_more() -> None:
    shown = page(batch(at(10), at(14)), 120.0)
    assert shown.caution is None
    assert shown.notes == (OVER,)
    assert [dict(row[1].params).get("when") for row in shown.rows] == [
        Moment(BEGUN + BY),
        Moment(at(14)),
    ]
    assert steps_now(Said(), BY, batch(at(10), at(14)), at(120.0)).now is None


@pytest.mark.parametrize(("poured", "first"), [(None, "Stir"), (at(4), "Load")])
def test_what_was_poured_was_stirred(poured: UtcSecond | None, first: str) -> None:
    now = steps_now(Said(), BY, batch(poured), at(4)).now
    assert now is not None
    assert now.step is not None
    assert now.step.name == first


def test_a_run_tells_the_clock_and_a_plan_counts_minutes() -> None:
    running = dict(page(batch(), 1.0).rows[-1][1].params)["by"]
    assert running == Moment(BEGUN + BY)
    planned = steps_beside(steps_now(Said(), BY, None, at(0)))
    assert dict(planned.rows[-1][1].params)["by"] == Amount(BY, "Second")
    assert "hardener in" in " ".join(note.template for note in planned.notes)
