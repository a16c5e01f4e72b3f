"""Readings, what happened between them, and elapsed time."""

import math
from dataclasses import replace

import pytest

from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Body, Reading, Row
from shopassist.core.timeline import (
    Timeline,
    elapsed,
    fold,
    fold_all,
    note,
    reading_body,
    reading_of,
    reconcile,
    same_boot,
)

DAY = 86_400.0
BEGIN = 1_790_000_000.0


def look(utc: float, since_boot: float, boot: str = "a", offset: float = 0) -> Reading:
    return Reading(UtcSecond(BEGIN + utc), Second(since_boot), boot, Second(offset))


def line_of(*readings: Reading) -> Timeline:
    line = Timeline()
    for reading in readings:
        line = note(line, reading)
    return line


def row(seq: int, kind: str, recorded: Reading, body: Body | None = None) -> Row:
    return Row(seq, "shop", seq, kind, 1, recorded, recorded.utc, body or {}, "")


def kinds(before: Reading, now: Reading, *, running: bool = True) -> list[str]:
    return [one.kind for one in reconcile(before, now, running=running)]


def test_nothing_is_found_between_two_beats() -> None:
    assert kinds(look(0, 100), look(30, 130)) == []


def test_x02_a_long_silence_of_a_running_program_is_a_suspend() -> None:
    (found,) = reconcile(look(0, 100), look(1008, 1108), running=True)
    assert (found.kind, found.length, found.told) == ("suspended", 1008.0, True)


def test_a_short_sleep_that_the_clocks_can_see_is_found_and_not_told() -> None:
    awake, slept = look(0, 100), replace(look(90, 190), asleep=Second(85.0))
    (found,) = reconcile(awake, slept, running=True)
    assert (found.kind, found.length, found.told) == ("suspended", 85.0, False)
    assert kinds(slept, replace(look(95, 195), asleep=Second(85.0))) == []
    assert kinds(awake, replace(look(5, 105), asleep=Second(1.0))) == []
    assert kinds(awake, slept, running=False) == []


def test_x02_two_minutes_of_silence_are_not_yet_a_suspend() -> None:
    assert kinds(look(0, 100), look(120, 220)) == []
    assert kinds(look(0, 100), look(120.5, 220.5)) == ["suspended"]


def test_a_silence_while_the_program_was_closed_is_no_suspend() -> None:
    assert kinds(look(0, 100), look(1008, 1108), running=False) == []


def test_a_moved_wall_clock_is_found_and_told_from_half_a_minute_on() -> None:
    (small,) = reconcile(look(0, 100), look(40, 130), running=True)
    (large,) = reconcile(look(0, 100), look(-3570, 130), running=True)
    assert (small.kind, small.length, small.told) == ("clock_stepped", 10.0, False)
    assert (large.kind, large.length, large.told) == ("clock_stepped", -3600.0, True)


def test_a_steered_wall_clock_is_not_found() -> None:
    assert kinds(look(0, 100), look(31.9, 130)) == []
    day_later = look(DAY + 17, DAY + 100)
    assert kinds(look(0, 100), day_later, running=False) == []
    assert len(line_of(look(0, 100), day_later).boots[0].walls) == 1


def test_a_time_since_boot_that_runs_back_is_a_doubt() -> None:
    found = reconcile(look(0, 100), look(-50, 50), running=True)
    assert [(one.kind, one.reason) for one in found] == [("clock_doubted", "since boot went back")]


def test_a_year_that_cannot_be_is_a_doubt_in_one_boot_and_across_two() -> None:
    lost = Reading(UtcSecond(0.0), Second(130.0), "a", Second(0))
    assert kinds(look(0, 100), lost) == ["clock_stepped", "clock_doubted"]
    again = replace(lost, boot_id="b")
    assert kinds(look(0, 100), again) == ["rebooted", "clock_doubted"]
    assert kinds(replace(lost, boot_id="c"), look(0, 100)) == ["rebooted", "clock_doubted"]


@pytest.mark.parametrize(
    ("gap", "reason"),
    [(-60.0, "wall clock went back"), (10.0, "wall clock went back"), (3600.0, None),
     (14 * DAY + 1, "off too long")],
)  # fmt: skip
def test_a_restart_doubts_a_gap_that_cannot_be(gap: float, reason: str | None) -> None:
    found = reconcile(look(0, 5000), look(gap, 40, "b"), running=False)
    assert found[0].kind == "rebooted"
    assert [one.reason for one in found[1:]] == ([reason] if reason else [])


def test_x13_another_zone_is_found_and_moves_no_instant() -> None:
    since = look(0, 100, offset=-25_200)
    now = look(30, 130, offset=-21_600)
    (found,) = reconcile(since, now, running=True)
    assert (found.kind, found.length) == ("zone_changed", 3600.0)
    assert elapsed(since, now, Timeline()).likely == 30.0


def test_without_boot_ids_clocks_that_agree_are_one_boot() -> None:
    assert same_boot(look(0, 100, ""), look(60, 160, ""))
    assert not same_boot(look(0, 100, ""), look(60, 5, ""))
    assert not same_boot(look(0, 100, ""), look(900, 160, ""))
    assert not same_boot(look(0, 100, "a"), look(60, 160, ""))


def test_x01_a_wait_goes_on_while_the_machine_sleeps() -> None:
    assert 600 - elapsed(look(0, 100), look(480, 580), Timeline()).likely == 120.0


def test_a_moved_wall_clock_does_not_touch_a_wait_in_one_boot() -> None:
    span = elapsed(look(0, 100), look(3600 - 7200, 3700), Timeline())
    assert (span.low, span.likely, span.high, span.doubted) == (3600.0, 3600.0, 3600.0, False)


def test_elapsed_time_is_never_negative() -> None:
    assert elapsed(look(0, 100), look(-50, 50), Timeline()).likely == 0.0


def test_x06_across_a_restart_heartbeats_and_wall_time_bridge_the_gap() -> None:
    line = line_of(look(0, 5000), look(100, 5100), look(700, 40, "b"))
    span = elapsed(look(50, 5050), look(760, 100, "b"), line)
    assert (span.low, span.likely, span.high) == (710.0, 710.0, 710.0)


def test_a_start_later_than_the_last_heartbeat_counts_from_itself() -> None:
    line = line_of(look(0, 5000), look(700, 40, "b"))
    assert elapsed(look(20, 5020), look(700, 40, "b"), line).likely == 680.0


def test_boots_in_between_are_added_up() -> None:
    line = line_of(look(0, 5000), look(700, 40, "b"), look(900, 240, "b"), look(2000, 10, "c"))
    assert elapsed(look(0, 5000), look(2060, 70, "c"), line).likely == 2060.0
    assert elapsed(look(800, 140, "b"), look(2060, 70, "c"), line).likely == 1260.0


def test_a_boot_that_nobody_noted_is_bridged_by_wall_time() -> None:
    assert elapsed(look(0, 5000), look(700, 40, "b"), Timeline()).likely == 700.0
    line = line_of(look(0, 5000))
    assert elapsed(look(0, 5000), look(700, 40, "b"), line).likely == 700.0
    assert elapsed(look(0, 1, "x"), look(700, 40, "b"), line).likely == 700.0


def test_a_wall_clock_that_went_back_while_off_leaves_a_doubt_without_upper_end() -> None:
    line = line_of(look(0, 5000), look(-DAY * 365, 40, "b"))
    span = elapsed(look(0, 5000), look(-DAY * 365 + 60, 100, "b"), line)
    assert (span.low, span.likely, span.high) == (100.0, 100.0, math.inf)
    assert span.doubted


def test_a_machine_off_too_long_gives_two_answers() -> None:
    line = line_of(look(0, 5000), look(DAY * 21, 40, "b"))
    span = elapsed(look(0, 5000), look(DAY * 21 + 60, 100, "b"), line)
    assert (span.low, span.high) == (100.0, DAY * 21 + 60)


def test_a_year_that_cannot_be_gives_no_upper_end() -> None:
    lost = Reading(UtcSecond(0.0), Second(40.0), "b", Second(0))
    span = elapsed(look(0, 5000), lost, line_of(look(0, 5000), lost))
    assert (span.low, span.high) == (40.0, math.inf)


def test_x13_a_clock_set_right_after_the_start_widens_and_never_runs_back() -> None:
    wrong = look(700 + 7200, 40, "b")
    line = line_of(look(0, 5000), wrong)
    before = elapsed(look(0, 5000), wrong, line)
    righted = look(710, 50, "b")
    after = elapsed(look(0, 5000), righted, note(line, righted))
    assert before.likely == 7900.0
    assert (after.low, after.likely, after.high) == (710.0, 7910.0, 7910.0)
    assert after.doubted


def test_a_clock_from_long_ago_that_is_set_right_gives_the_gap() -> None:
    lost = Reading(UtcSecond(3600.0), Second(40.0), "b", Second(0))
    righted = look(710, 50, "b")
    span = elapsed(look(0, 5000), righted, line_of(look(0, 5000), lost, righted))
    assert (span.low, span.likely, span.high) == (710.0, 710.0, 710.0)


def test_a_clock_that_is_moved_into_a_believed_year_afterwards_is_no_better_witness() -> None:
    """Set back by a year and by another; off for 700 s; then an hour and a year on."""
    years = (look(0, 5000), look(-365 * DAY, 5000), look(-2 * 365 * DAY, 5000))
    begun = look(-2 * 365 * DAY + 700, 40, "b")
    line = line_of(*years, begun)
    span = elapsed(look(0, 5000), begun, line)
    assert (span.low, span.likely, span.high) == (40.0, 40.0, math.inf)
    moved = look(-365 * DAY + 700 + 3600, 40, "b")
    span = elapsed(look(0, 5000), moved, note(line, moved))
    assert (span.low, span.likely, span.high) == (700.0, 700.0, 4300.0)
    assert span.doubted


def test_a_clock_moved_before_the_restart_may_have_come_back_right() -> None:
    line = line_of(look(0, 5000), look(100 + 3600, 5100), look(700, 40, "b"))
    span = elapsed(look(0, 5000), look(700, 40, "b"), line)
    assert span.low <= 700.0 <= span.high


def test_a_gap_is_never_shorter_than_the_new_run() -> None:
    line = line_of(look(0, 5000), look(39, 40, "b"))
    assert elapsed(look(0, 5000), look(39, 40, "b"), line).low == 40.0


def test_the_users_word_settles_a_gap() -> None:
    back = look(-600, 40, "b")
    rows = [
        row(1, "started", look(0, 5000)),
        row(2, "started", back, {"before": reading_body(look(0, 5000))}),
        row(3, "clock_settled", back, {"boot_id": "b", "gap": 1800.0}),
    ]
    span = elapsed(look(0, 5000), look(-540, 100, "b"), fold_all(rows))
    assert (span.low, span.likely, span.high) == (1860.0, 1860.0, 1860.0)
    assert fold(fold_all(rows[:2]), rows[2]) == fold_all(rows)


def test_without_boot_ids_a_doubtful_gap_has_no_lower_end() -> None:
    line = line_of(look(0, 100, ""), look(-600, 900, ""))
    assert elapsed(look(0, 100, ""), look(-600, 900, ""), line).low == 0.0


def test_a_reading_comes_back_from_its_row() -> None:
    reading = look(0, 5000, "b", 3600)
    assert reading_of(reading_body(reading)) == reading
    assert reading_of(None) is None


def test_a_reading_that_runs_back_does_not_shorten_a_boot() -> None:
    line = line_of(look(0, 5000), look(-20, 4980))
    assert line.boots[-1].last.since_boot == 5000.0


def test_two_rows_about_one_restart_make_one_restart() -> None:
    before = {"before": reading_body(look(0, 5000))}
    now = look(700, 40, "b")
    rows = [row(1, "started", look(0, 5000)), row(2, "started", now, before),
            row(3, "rebooted", now, before)]  # fmt: skip
    assert [boot.first.boot_id for boot in fold_all(rows).boots] == ["a", "b"]


def test_findings_say_in_their_row_what_was_before() -> None:
    (found,) = reconcile(look(0, 100), look(1008, 1108), running=True)
    assert found.body["before"] == reading_body(look(0, 100))
