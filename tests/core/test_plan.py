"""The stages of a batch, their critical path, and where they lie in a real week."""

import itertools
import math
from dataclasses import replace
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core.errors import ShopError
from shopassist.core.plan import (
    Calendar,
    Done,
    Hours,
    Job,
    Planned,
    Rules,
    can_wait,
    floats,
    lay_out,
    plan,
    start_for,
)
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.stages import (
    GUESSES,
    STAGES,
    Stage,
    beside,
    hands_on,
    need_order,
    network,
    read_after,
    read_place,
    without,
)
from shopassist.core.work_hours import DEFAULT, hours_between, instant, need_hours

H = 3600.0
MONDAY = UtcSecond(4 * 86400.0 + 9 * H)
"""Monday 5 January 1970, nine in the morning."""


def no_offset(_: UtcSecond) -> float:
    return 0.0


WEEKS = hours_between(DEFAULT, MONDAY, 60, no_offset)


def job(**changes: object) -> Job:
    return replace(Job("one", STAGES, MONDAY), **changes)  # type: ignore[arg-type]


# -- the graph ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("guess", "hours"), [("low", 76.5), ("likely", 158.0), ("high", 467.8)]
)  # fmt: skip
def test_the_critical_path_of_the_default_batch(guess: str, hours: float) -> None:
    assert network(STAGES, guess).length / H == pytest.approx(hours)  # type: ignore[arg-type]


def test_only_mould_and_warming_have_room() -> None:
    found = network(STAGES)
    assert set(found.slots) - set(found.critical) == {"mould", "warm"}
    assert found.slots["warm"].float / H == pytest.approx(58.0)
    assert found.critical[0] == "rough"
    assert found.critical[-1] == "wax"


def test_eight_and_a_half_hours_are_hands_on() -> None:
    assert hands_on(STAGES) / H == pytest.approx(8.5)


def test_an_empty_plan_takes_no_time() -> None:
    assert network(()).length == pytest.approx(0.0)


@pytest.mark.parametrize(
    ("stages", "field"),
    [
        ((STAGES[0], STAGES[0]), "stages"),
        ((STAGES[1],), "dry"),
        ((replace(STAGES[0], low=Second(9e9)),), "rough"),
        ((replace(STAGES[0], after=("dry",)), STAGES[1]), "rough"),
    ],
)
def test_a_graph_that_cannot_be_is_refused(stages: tuple[object, ...], field: str) -> None:
    with pytest.raises(ShopError) as refused:
        need_order(stages)  # type: ignore[arg-type]
    assert refused.value.field == field


def test_what_waited_for_a_dropped_stage_waits_for_what_stood_before_it() -> None:
    plain = without(STAGES, frozenset({"vacuum", "soak", "wrap", "heat_up", "bake", "cool_bake"}))
    by_key = {each.key: each for each in plain}
    assert by_key["true"].after == ("cool_dry",)
    assert network(plain).length < network(STAGES).length


def test_dropping_what_is_not_there_changes_nothing() -> None:
    assert without(STAGES, frozenset({"knitting"})) == STAGES


# -- the week ------------------------------------------------------------------------------------


def placed(**changes: object) -> dict[str, Planned]:
    return {each.key: each for each in lay_out(job(**changes), Calendar(WEEKS), MONDAY)}


def is_open(at: float) -> bool:
    return any(each.start <= at <= each.end for each in WEEKS)


@pytest.mark.parametrize("guess", GUESSES)
@pytest.mark.parametrize("attended", [False, True])
def test_hands_are_only_asked_for_in_working_hours(guess: str, attended: bool) -> None:
    rules = Rules(attended)
    found = lay_out(job(), Calendar(WEEKS), MONDAY, guess, rules)  # type: ignore[arg-type]
    for each in found:
        if each.hands_end > each.start:
            assert is_open(each.start)
            assert is_open(each.hands_end)


def test_nothing_starts_before_what_it_waits_for() -> None:
    found = placed()
    for stage in STAGES:
        for key in stage.after:
            assert found[stage.key].start >= found[key].end


def test_a_person_does_one_thing_at_a_time() -> None:
    found = sorted(placed().values(), key=lambda each: each.start)
    busy = [each for each in found if each.hands_end > each.start]
    for one, two in itertools.pairwise(busy):
        assert two.start >= one.hands_end


def test_waits_run_through_the_night_and_attended_ones_do_not() -> None:
    free = placed()
    assert free["dry"].end - free["dry"].start == pytest.approx(24 * H)
    watched = {
        each.key: each
        for each in lay_out(job(), Calendar(WEEKS), MONDAY, "likely", Rules(attended=True))
    }
    assert watched["dry"].end - watched["dry"].start > 24 * H
    assert watched["wax"].end > free["wax"].end


def test_what_is_done_stays_and_what_runs_ends_no_earlier_than_now() -> None:
    later = UtcSecond(MONDAY + 80 * H)
    done = {
        "rough": Done(MONDAY, UtcSecond(MONDAY + 2 * H)),
        "dry": Done(UtcSecond(MONDAY + 2 * H)),
    }
    found = {each.key: each for each in lay_out(job(done=done), Calendar(WEEKS), later)}
    assert found["rough"].kind == "done"
    assert found["rough"].end == pytest.approx(MONDAY + 2 * H)
    assert found["dry"].kind == "running"
    assert found["dry"].end == pytest.approx(later)
    assert found["cool_dry"].start >= later


def test_a_second_batch_is_threaded_into_the_waits_of_the_first() -> None:
    jobs = [job(), job(batch_id="two")]
    found = plan(jobs, WEEKS, MONDAY)
    first = {each.key: each for each in found["one"]}
    second = {each.key: each for each in found["two"]}
    assert second["rough"].start < first["wax"].end
    assert second["dry"].start >= first["dry"].end
    assert second["wax"].end - first["wax"].end < first["wax"].end - MONDAY
    assert {e.key: e for e in plan([job()], WEEKS, MONDAY)["one"]} == first


def test_the_pot_holds_one_batch_at_a_time() -> None:
    found = plan([job(), job(batch_id="two")], WEEKS, MONDAY)
    spans = sorted(
        (each.start, each.end)
        for each in (*found["one"], *found["two"])
        if each.key == "pressure"
    )  # fmt: skip
    assert spans[1][0] >= spans[0][1]


def test_a_due_day_gives_the_latest_start_that_still_makes_it() -> None:
    due = UtcSecond(MONDAY + 21 * 86400.0)
    start = start_for(job(), WEEKS, MONDAY, due)
    end = max(each.end for each in lay_out(job(not_before=start), Calendar(WEEKS), MONDAY))
    late = max(
        each.end
        for each in lay_out(job(not_before=UtcSecond(start + 900.0)), Calendar(WEEKS), MONDAY)
    )
    assert end <= due < late


def test_a_due_day_too_near_is_refused() -> None:
    with pytest.raises(ShopError) as refused:
        start_for(job(), WEEKS, MONDAY, UtcSecond(MONDAY + 86400.0))
    assert refused.value.field == "due"


def test_a_batch_without_stages_can_start_when_it_is_due() -> None:
    due = UtcSecond(MONDAY + 9000.0)
    assert start_for(job(stages=()), WEEKS, MONDAY, due) == pytest.approx(due)


def test_float_in_the_week_is_room_before_the_next_stage() -> None:
    found = lay_out(job(), Calendar(WEEKS), MONDAY)
    room = floats(found, STAGES, Calendar(WEEKS))
    assert room["wax"] == pytest.approx(0.0)
    assert room["warm"] > 24 * H
    assert all(each >= 0 for each in room.values())


@pytest.mark.parametrize("attended", [False, True])
@pytest.mark.parametrize("key", [each.key for each in STAGES])
def test_as_late_as_it_can_wait_a_stage_moves_no_end_and_later_it_does(
    key: str, attended: bool
) -> None:
    rules, jobs = Rules(attended), [job(), job(batch_id="two")]
    found = plan(jobs, WEEKS, MONDAY, "likely", rules)
    room = floats(found["one"], STAGES, Calendar(WEEKS), "likely", rules)[key]
    waits = can_wait(jobs, WEEKS, MONDAY, ("one", key), room, rules)
    assert 0 <= waits <= room
    start = next(each.start for each in found["one"] if each.key == key)

    def ends(delay: float) -> list[float]:
        held = [job(held={key: UtcSecond(start + delay)}), jobs[1]]
        after = plan(held, WEEKS, MONDAY, "likely", rules)
        return [max(each.end for each in placed) for placed in after.values()]

    assert ends(waits) <= ends(0.0)
    assert any(late > was for late, was in zip(ends(room + 30 * H), ends(0.0), strict=True))


def test_a_stage_waits_only_as_long_as_another_batch_can_spare_the_hands() -> None:
    def stage(key: str, hours: float, hands: float) -> Stage:
        lasts = Second(hours * H)
        return Stage(key, key, lasts, lasts, lasts, Second(hands * H))

    mornings = [Hours(UtcSecond(MONDAY + d * 24 * H), UtcSecond(MONDAY + (d * 24 + 4) * H))
                for d in range(9)]  # fmt: skip
    jobs = [job(stages=(stage("turn", 1, 1), stage("rest", 5, 0))),
            job(batch_id="two", stages=(stage("sand", 2, 2), stage("set", 4, 0)))]  # fmt: skip
    waits = can_wait(jobs, mornings, MONDAY, ("one", "turn"), Second(1.5 * H))
    assert waits == pytest.approx(H)


def test_a_stretch_that_is_too_short_is_passed_over_backward_too() -> None:
    calendar = Calendar([Hours(UtcSecond(0.0), UtcSecond(10.0)),
                         Hours(UtcSecond(20.0), UtcSecond(21.0))])  # fmt: skip
    assert calendar.open_until(21.0, 5.0) == pytest.approx(5.0)


def test_a_batch_without_stages_has_nothing_to_wait_for() -> None:
    jobs = [job(), job(batch_id="two", stages=())]
    assert can_wait(jobs, WEEKS, MONDAY, ("one", "wax"), Second(0.0)) == pytest.approx(0.0)
    assert can_wait(jobs, WEEKS, MONDAY, ("one", "warm"), Second(H)) == pytest.approx(H)


def test_what_runs_may_drag_on_and_what_is_done_has_no_room() -> None:
    done = {"rough": Done(MONDAY, UtcSecond(MONDAY + H)), "dry": Done(UtcSecond(MONDAY + H))}
    found = lay_out(job(done=done), Calendar(WEEKS), UtcSecond(MONDAY + 2 * H))
    room = floats(found, STAGES, Calendar(WEEKS))
    assert room["rough"] == pytest.approx(0.0)
    assert room["dry"] > 0


def test_before_all_hours_nothing_fits() -> None:
    calendar = Calendar(WEEKS)
    assert calendar.open_until(MONDAY - 10 * H, 60.0) == -math.inf
    assert calendar.open_until(MONDAY + 30.0, 60.0) == pytest.approx(MONDAY + 30.0)
    assert calendar.begun_inside(MONDAY + 5 * H, 6 * H) == -math.inf
    assert calendar.begun_inside(MONDAY + 24 * H + H, 2 * H) == pytest.approx(MONDAY + 8 * H)


def test_hours_too_short_for_a_stage_are_refused() -> None:
    minutes = [Hours(UtcSecond(MONDAY + d * 86400.0), UtcSecond(MONDAY + d * 86400.0 + 60.0))
               for d in range(30)]  # fmt: skip
    with pytest.raises(ShopError, match="long enough"):
        lay_out(job(), Calendar(minutes), MONDAY)


def test_too_few_hours_for_an_attended_wait_are_refused() -> None:
    with pytest.raises(ShopError, match="not enough"):
        lay_out(job(), Calendar(WEEKS[:2]), MONDAY, "likely", Rules(attended=True))


def test_hours_that_overlap_are_refused() -> None:
    with pytest.raises(ShopError):
        Calendar([Hours(UtcSecond(0.0), UtcSecond(10.0)), Hours(UtcSecond(5.0), UtcSecond(20.0))])


@settings(max_examples=30)
@given(st.lists(st.floats(0.2, 3.0), min_size=24, max_size=24), st.booleans())
def test_longer_stages_never_end_earlier(factors: list[float], attended: bool) -> None:
    longer = tuple(
        replace(each, likely=Second(each.likely * max(f, 1.0)),
                high=Second(each.high * max(f, 1.0)))
        for each, f in zip(STAGES, factors, strict=True)
    )  # fmt: skip
    one = network(STAGES).length
    assert network(longer).length >= one
    found = lay_out(job(stages=longer), Calendar(WEEKS), MONDAY, "likely", Rules(attended))
    assert max(each.end for each in found) >= MONDAY + network(longer).length


# -- hours -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "week", [{}, {0: ()}, {0: ((Second(9.0), Second(9.0)),)},
             {0: ((Second(0.0), Second(9.0)), (Second(8.0), Second(10.0)))},
             {0: ((Second(0.0), Second(90000.0)),)}],
)  # fmt: skip
def test_hours_that_cannot_be_are_refused(week: dict[int, tuple[object, ...]]) -> None:
    with pytest.raises(ShopError):
        need_hours(week)  # type: ignore[arg-type]


def test_there_is_no_work_on_sunday_by_default() -> None:
    found = hours_between(DEFAULT, MONDAY, 7, no_offset)
    assert len(found) == 6


def test_nine_in_the_morning_stays_nine_across_the_changes_of_the_clock() -> None:
    zone = ZoneInfo("Europe/Berlin")
    from datetime import UTC, datetime

    def offset(at: UtcSecond) -> float:
        found = datetime.fromtimestamp(at, UTC).astimezone(zone).utcoffset()
        assert found is not None
        return found.total_seconds()

    start = UtcSecond(datetime(2026, 3, 23, tzinfo=zone).timestamp())
    for each in hours_between(DEFAULT, start, 240, offset):
        local = datetime.fromtimestamp(each.start, UTC).astimezone(zone)
        assert (local.hour, local.minute) == (9, 0)
        assert each.end - each.start == pytest.approx(9 * H)


def test_a_stretch_that_the_leap_swallows_is_left_out() -> None:
    def leap(at: UtcSecond) -> float:
        return 3600.0 if at >= MONDAY else 0.0

    day = int(MONDAY // 86400)
    week = {0: ((Second(9 * H), Second(10 * H)),)}
    assert hours_between(week, UtcSecond(day * 86400.0), 1, leap) == ()
    assert instant(day, 9 * H, leap) >= MONDAY - H


def test_stages_are_named_by_the_beginning_of_their_names_or_a_part() -> None:
    assert read_after("turn the; sealer ; bore", STAGES, "x") == ("turn", "seal", "drill")
    assert read_after("Cool", STAGES, "x") == ("cool_bake",), "a whole name goes before its like"
    assert read_after(" – ", STAGES, "x") == ()
    with pytest.raises(ShopError, match="No stage"):
        read_after("polish", STAGES, "x")
    with pytest.raises(ShopError, match="More than one"):
        read_after("oven", STAGES, "x")


def test_a_place_is_one_of_those_that_a_shop_has() -> None:
    assert [read_place(word, "x") for word in ("Oven", "nothing", "pot ")] == ["oven", "", "pot"]
    with pytest.raises(ShopError, match="Say one of"):
        read_place("garage", "x")


def test_what_may_overlap_is_what_neither_waits_nor_shares_a_place() -> None:
    keys = {each.key for each in beside(STAGES, "mould")}
    assert {"rough", "dry", "bake", "true"} <= keys
    assert not keys & {"warm", "pour", "wax"}
    assert "drill" not in {each.key for each in beside(STAGES, "rough")}
    alone = [replace(each, after=(), place="lathe") for each in STAGES[:3]]
    assert beside(alone, "rough") == ()
