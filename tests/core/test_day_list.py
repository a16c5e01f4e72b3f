"""The day's list: now, can wait, at night."""

from dataclasses import replace

import pytest

from shopassist.core.day_list import day_list, today
from shopassist.core.plan import Calendar, Done, Hours, Job, Rules, lay_out
from shopassist.core.quantities import UtcSecond
from shopassist.core.stages import STAGES
from shopassist.core.work_hours import DEFAULT, hours_between

H = 3600.0
MONDAY = UtcSecond(4 * 86400.0)
WEEKS = hours_between(DEFAULT, MONDAY, 90, lambda _: 0.0)


def at(hours: float) -> UtcSecond:
    return UtcSecond(MONDAY + hours * H)


def listed(
    now: UtcSecond, done: dict[str, Done], *, attended: bool = False, jobs: int = 1
) -> dict[str, list[str]]:
    """Stages by their kind."""
    midnight = UtcSecond(now - now % 86400.0 + 86400.0)
    calendar = Calendar(WEEKS)
    made = [Job(str(n), STAGES, now, done if n == 0 else {}) for n in range(jobs)]
    placed = {each.batch_id: lay_out(each, calendar, now, rules=Rules(attended)) for each in made}
    found: dict[str, list[str]] = {}
    for todo in day_list(made, placed, today(now, midnight, WEEKS), WEEKS, Rules(attended)):
        found.setdefault(todo.kind, []).append(todo.stage.key)
    return found


def test_a_new_batch_begins_with_turning_and_moulds_can_wait() -> None:
    found = listed(at(9), {})
    assert found["now"] == ["rough"]
    assert found["later"] == ["dry", "mould", "warm"]
    assert found["night"] == ["dry"]


def test_what_has_room_can_wait_and_says_until_when() -> None:
    done = {"rough": Done(at(9), at(10)), "dry": Done(at(10))}
    found = listed(at(11), done)
    assert found["can wait"] == ["mould"]
    assert "now" not in found
    job = Job("0", STAGES, at(11), done)
    placed = {"0": lay_out(job, Calendar(WEEKS), at(11))}
    todo = next(
        each for each in day_list([job], placed, today(at(11), at(24), WEEKS), WEEKS)
        if each.kind == "can wait"
    )  # fmt: skip
    assert todo.latest > at(24)


def test_a_wait_that_ought_to_be_over_is_looked_at_first() -> None:
    done = {"rough": Done(at(9), at(10)), "dry": Done(at(10))}
    found = listed(at(35), done)
    assert next(iter(found)) == "look"
    assert found["look"] == ["dry"]


def test_an_oven_that_may_not_run_alone_is_switched_off_before_leaving() -> None:
    done = {"rough": Done(at(9), at(10)), "dry": Done(at(10))}
    assert listed(at(11), done, attended=True)["off"] == ["dry"]
    assert "off" not in listed(at(11), done)


def test_at_night_the_waits_go_on_and_the_next_thing_is_named() -> None:
    done = {"rough": Done(at(9), at(10)), "dry": Done(at(10)), "mould": Done(at(11), at(11.5)),
            "warm": Done(at(12))}  # fmt: skip
    found = listed(at(22), done)
    assert found["night"] == ["dry"]
    assert found["next"] == ["cool_dry"]
    assert found["look"] == ["warm"]
    assert "now" not in found


def test_two_batches_stand_in_one_list() -> None:
    found = listed(at(9), {}, jobs=2)
    assert found["now"].count("rough") == 1
    assert found["later"].count("rough") == 1


def test_a_day_off_has_no_closing() -> None:
    sunday = UtcSecond(MONDAY - 12 * H)
    day = today(sunday, MONDAY, WEEKS)
    assert day.closing == pytest.approx(sunday)
    assert day.opening == pytest.approx(at(9))


def test_without_hours_ahead_the_opening_is_the_closing() -> None:
    day = today(at(9), at(24), [Hours(at(8), at(10))])
    assert (day.closing, day.opening) == (at(10), at(10))


def test_when_all_is_done_the_list_is_empty() -> None:
    done = {each.key: Done(at(1), at(2)) for each in STAGES}
    assert listed(at(9), done) == {}


def test_an_attended_stage_that_runs_is_only_counted_while_somebody_is_there() -> None:
    stage = replace(STAGES[1], after=())
    job = Job("0", (stage,), at(16), {"dry": Done(at(16))})
    free = lay_out(job, Calendar(WEEKS), at(17))[0]
    watched = lay_out(job, Calendar(WEEKS), at(17), rules=Rules(attended=True))[0]
    assert free.end == pytest.approx(at(40))
    assert watched.end == pytest.approx(at(16 + 2 + 15 + 9 + 15 + 9 + 15 + 4))
