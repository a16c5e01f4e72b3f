"""Where the clocks' own edges lie, and that a range holds what really happened."""

import math
from dataclasses import replace
from typing import Any

import pytest

from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Reading, Row
from shopassist.core.timeline import (
    EARLIEST,
    LATEST,
    Elapsed,
    Finding,
    Timeline,
    elapsed,
    fold_all,
    note,
    reading_body,
    reconcile,
    same_boot,
)

DAY = 86_400.0
BEGIN = 1_790_000_000.0
NEW_YEAR_2025, NEW_YEAR_2100 = 1_735_689_600.0, 4_102_444_800.0


def look(utc: float, since_boot: float, boot: str = "a") -> Reading:
    return Reading(UtcSecond(BEGIN + utc), Second(since_boot), boot, Second(0.0))


def at(utc: float, since_boot: float = 40.0, boot: str = "b") -> Reading:
    return look(utc - BEGIN, since_boot, boot)


def line_of(*readings: Reading) -> Timeline:
    line = Timeline()
    for reading in readings:
        line = note(line, reading)
    return line


def kinds(before: Reading, now: Reading, *, running: bool = True) -> list[str]:
    return [one.kind for one in reconcile(before, now, running=running)]


def reasons(before: Reading, now: Reading) -> list[str]:
    return [one.reason for one in reconcile(before, now, running=False) if one.reason]


def ends(since: Reading, now: Reading, line: Timeline) -> tuple[float, float, float]:
    span = elapsed(since, now, line)
    return span.low, span.likely, span.high


# -- findings ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "length", "told"),
    [
        ("suspended", 120.0, False), ("suspended", 120.5, True),
        ("clock_stepped", 30.0, False), ("clock_stepped", -30.0, False),
        ("clock_stepped", 30.5, True), ("clock_stepped", -30.5, True),
        ("rebooted", 1.0, True), ("zone_changed", 3600.0, True), ("clock_doubted", 0.0, True),
    ],
)  # fmt: skip
def test_a_suspend_is_told_from_two_minutes_and_a_step_from_half_a_minute(
    kind: Any, length: float, told: bool
) -> None:
    assert Finding(kind, look(0, 100), look(5, 105), Second(length)).told is told


def test_the_row_of_a_finding_says_how_long_why_and_what_was_before() -> None:
    found = reconcile(look(0, 5000), look(-60, 40, "b"), running=False)[1]
    assert found.body == {
        "length": -60.0, "reason": "wall clock went back", "before": reading_body(look(0, 5000)),
    }  # fmt: skip


def test_half_a_minute_of_doubt_is_passed_over() -> None:
    assert not Elapsed(Second(0.0), Second(0.0), Second(30.0)).doubted
    assert Elapsed(Second(0.0), Second(0.0), Second(30.5)).doubted


@pytest.mark.parametrize(("slept", "found"), [(1.0, []), (1.5, ["suspended"])])
def test_a_nap_of_a_second_is_lost_between_two_looks(slept: float, found: list[str]) -> None:
    assert kinds(look(0, 100), replace(look(5, 105), asleep=Second(slept))) == found


@pytest.mark.parametrize(
    ("moved", "apart", "jumped"),
    [
        (2.0, 0.0, False), (2.0002, 0.0, True), (-2.0, 0.0, False), (-2.0002, 0.0, True),
        (2.0 + 43.0, DAY, False), (2.0 + 44.0, DAY, True),
    ],
)  # fmt: skip
def test_two_seconds_and_what_steering_does_are_no_jump_of_the_wall_clock(
    moved: float, apart: float, jumped: bool
) -> None:
    found = kinds(look(0, 100), look(apart + moved, 100 + apart), running=False)
    assert found == (["clock_stepped"] if jumped else [])


def test_a_time_since_boot_that_runs_back_by_any_time_is_a_doubt() -> None:
    assert reasons(look(0, 100), look(-0.5, 99.5)) == ["since boot went back"]


@pytest.mark.parametrize(
    ("utc", "believed"),
    [
        (NEW_YEAR_2025, True), (NEW_YEAR_2025 - 1, False),
        (NEW_YEAR_2100 - 1, True), (NEW_YEAR_2100, False),
    ],
)  # fmt: skip
def test_years_from_2025_to_2099_are_believed(utc: float, believed: bool) -> None:
    assert (reasons(at(utc, 0.0), at(utc, 0.0)) == []) is believed
    assert ("year" in reasons(at(utc, 9000.0, "a"), at(utc, 40.0, "b"))) is not believed


def test_a_year_that_cannot_be_is_the_reason_on_either_side_of_a_restart() -> None:
    lost = at(0.0)
    assert reasons(lost, look(0, 40, "c")) == ["year"]
    assert reasons(look(0, 5000), lost) == ["year"]


@pytest.mark.parametrize(
    ("gap", "reason"),
    [
        (38.0, []), (37.5, ["wall clock went back"]), (41.0, []),
        (14 * DAY, []), (14 * DAY + 0.5, ["off too long"]),
    ],
)  # fmt: skip
def test_a_restart_takes_at_least_the_time_since_it_and_at_most_a_fortnight(
    gap: float, reason: list[str]
) -> None:
    assert reasons(look(0, 5000), look(gap, 40, "b")) == reason


# -- one run of the machine or another ----------------------------------------------------------------


def test_without_boot_ids_a_run_is_known_by_where_its_start_lies() -> None:
    one = look(0, 100, "")
    assert same_boot(one, one)
    assert same_boot(one, look(0.5, 100.5, ""))
    assert not same_boot(one, look(-0.5, 99.5, ""))
    assert same_boot(one, look(90.0, 160, ""))
    assert not same_boot(one, look(90.5, 160, ""))


def test_without_boot_ids_two_small_moves_of_the_wall_clock_are_still_one_run() -> None:
    last, since, now = look(0, 100, ""), look(80, 160, ""), look(100, 220, "")
    assert not same_boot(since, now)
    assert ends(since, now, line_of(last)) == (60.0, 60.0, 60.0)


@pytest.mark.parametrize("boots", [("a", "b"), ("", "")])
def test_only_boot_ids_tell_that_a_machine_ran_all_that_time(boots: tuple[str, str]) -> None:
    since, now = look(0, 100, boots[0]), look(-600, 900, boots[1])
    assert elapsed(since, now, line_of(since, now)).low == (900.0 if boots[0] else 0.0)


def test_without_boot_ids_an_equal_time_since_boot_tells_no_restart() -> None:
    since, now = look(0, 100, ""), look(-600, 100, "")
    assert elapsed(since, now, line_of(since, now)).low == 0.0


def test_a_reading_that_runs_back_a_little_does_not_shorten_a_run() -> None:
    assert line_of(look(0, 5000), look(-0.5, 4999.5)).boots[-1].last.since_boot == 5000.0


def test_each_wall_time_of_a_start_is_kept_once() -> None:
    moves = (0.0, 100.0, 0.0, 100.0, 2.0, 102.5)
    line = line_of(*(look(move + n, 5000 + n) for n, move in enumerate(moves)))
    walls = [wall - (BEGIN - 5000) for wall in line.boots[0].walls]
    assert walls == [0.0, 100.0, 102.5]


# -- ranges ------------------------------------------------------------------------------------------


def test_a_clock_moved_in_a_run_between_leaves_the_truth_in_the_range() -> None:
    """An hour ahead in the second run and on: each of the two gaps may be an hour longer."""
    line = line_of(
        look(0, 5000), look(700, 40, "b"), look(800 + 3600, 140, "b"), look(1000 + 3600, 10, "c")
    )
    low, _, high = ends(look(0, 5000), look(1060 + 3600, 70, "c"), line)
    assert (low, high) == (1060.0, 1060.0 + 2 * 3600.0)


def test_every_gap_keeps_the_word_that_the_user_gave_for_it() -> None:
    rows = [
        _row(1, "started", look(0, 5000)),
        _row(2, "clock_settled", look(-600, 40, "b"), boot_id="b", gap=1800.0),
        _row(3, "clock_settled", look(-900, 40, "c"), boot_id="c", gap=300.0),
    ]
    assert ends(look(0, 5000), look(-840, 100, "c"), fold_all(rows)) == (2160.0, 2160.0, 2160.0)


def _row(seq: int, kind: str, recorded: Reading, **body: Any) -> Row:
    return Row(seq, "shop", seq, kind, 1, recorded, recorded.utc, body, "")


def test_a_machine_off_too_long_by_two_clocks_was_off_at_most_by_the_longer() -> None:
    line = line_of(look(0, 5000), look(DAY * 21, 40, "b"), look(DAY * 22 + 60, 100, "b"))
    assert ends(look(0, 5000), look(DAY * 22 + 60, 100, "b"), line) == (100, 100, DAY * 22 + 60)


def test_a_gap_of_a_lifetime_is_no_upper_end() -> None:
    line = line_of(at(0.0, 5000.0, "a"), at(NEW_YEAR_2100 - DAY))
    assert ends(at(0.0, 5000.0, "a"), at(NEW_YEAR_2100 - DAY), line)[2] == math.inf
    shorter = line_of(at(0.0, 5000.0, "a"), at(LATEST - EARLIEST - DAY))
    low, _, high = ends(at(0.0, 5000.0, "a"), at(LATEST - EARLIEST - DAY), shorter)
    assert (low, high) == (40.0, LATEST - EARLIEST - DAY)


@pytest.mark.parametrize(
    ("gap", "span"),
    [
        (38.0, (40.0, 40.0, 40.0)),
        (37.5, (40.0, 40.0, math.inf)),
        (41.0, (41.0, 41.0, 41.0)),
        (14 * DAY, (14 * DAY, 14 * DAY, 14 * DAY)),
        (14 * DAY + 1, (40.0, 40.0, 14 * DAY + 1)),
    ],
)
def test_a_gap_is_believed_from_the_time_since_the_start_to_a_fortnight(
    gap: float, span: tuple[float, float, float]
) -> None:
    since, now = look(0, 5000), look(gap, 40, "b")
    assert ends(since, now, line_of(since, now)) == span


@pytest.mark.parametrize("step", [2.0, -1.5])
def test_a_small_step_before_a_restart_widens_nothing(step: float) -> None:
    line = line_of(look(0, 5000), look(100 + step, 5100), look(700 + step, 40, "b"))
    assert ends(look(0, 5000), look(700 + step, 40, "b"), line) == (700.0, 700.0, 700.0)


def test_a_gap_across_the_first_believed_day_is_not_believed() -> None:
    since, now = at(NEW_YEAR_2025 - DAY, 5000.0, "a"), at(NEW_YEAR_2025 + DAY)
    assert ends(since, now, line_of(since, now))[2] == math.inf
