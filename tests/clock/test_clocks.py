"""The hand-moved clock and the machine's own."""

import io
import sys
from pathlib import Path

import pytest

from shopassist.clock import system
from shopassist.clock.manual import BEGIN, STRIDE, ManualClock, read_commands
from shopassist.clock.system import SystemClock
from shopassist.core.civil import civil


def test_a_new_hand_moved_clock_stands_ten_minutes_after_a_first_start() -> None:
    now = ManualClock().read()
    assert civil(now.utc) == civil(BEGIN)
    begun = civil(BEGIN)
    assert (begun.year, begun.month, begun.day) == (2026, 9, 21)
    assert (begun.hour, begun.minute, BEGIN % 60) == (14, 13, 20)
    assert (now.since_boot, now.utc_offset, now.asleep) == (600.0, 0.0, 0.0)
    assert now.boot_id == ManualClock(boot=1).read().boot_id


def test_less_than_a_second_goes_by_too() -> None:
    clock = ManualClock()
    clock.advance(0.5)
    assert clock.read().since_boot == 600.5


def test_an_advance_moves_both_clocks_and_lets_the_program_look_every_stride() -> None:
    clock = ManualClock()
    before = clock.read()
    looks: list[float] = []
    clock.moved = lambda: looks.append(clock.read().since_boot)
    clock.advance(2 * STRIDE + 5)
    now = clock.read()
    assert (now.utc - before.utc, now.since_boot - before.since_boot) == (65.0, 65.0)
    assert [look - before.since_boot for look in looks] == [30.0, 60.0, 65.0]


def test_a_suspend_moves_both_clocks_and_nobody_looks_meanwhile() -> None:
    clock = ManualClock()
    before = clock.read()
    looks: list[float] = []
    clock.moved = lambda: looks.append(clock.read().since_boot)
    clock.suspend(900)
    assert [look - before.since_boot for look in looks] == [900.0]
    assert clock.read().boot_id == before.boot_id
    assert (before.asleep, clock.read().asleep) == (0.0, 900.0)
    clock.reboot(1)
    assert clock.read().asleep == 0.0


def test_a_step_moves_the_wall_clock_alone() -> None:
    clock = ManualClock()
    before = clock.read()
    clock.step(-3600)
    now = clock.read()
    assert (now.utc - before.utc, now.since_boot) == (-3600.0, before.since_boot)


def test_a_reboot_starts_the_time_since_boot_anew_under_another_id() -> None:
    clock = ManualClock()
    before = clock.read()
    looks: list[str] = []
    clock.moved = lambda: looks.append(clock.read().boot_id)
    clock.reboot(30)
    now = clock.read()
    assert looks == [now.boot_id]
    assert (now.utc - before.utc, now.since_boot) == (30.0, 0.0)
    assert now.boot_id != before.boot_id


def test_a_named_zone_has_its_summer_time_and_a_fixed_one_has_none() -> None:
    clock = ManualClock(offset="Europe/Berlin")
    summer, winter = 1_790_000_000.0, 1_800_000_000.0
    assert (clock.offset_at(summer), clock.offset_at(winter)) == (7200, 3600)
    clock.set_zone("Asia/Kolkata")
    assert float(clock.read().utc_offset) == 19_800
    clock.set_zone(-3600)
    assert (clock.offset_at(summer), clock.offset_at(winter)) == (-3600, -3600)


def test_commands_are_read_line_by_line_and_obeyed() -> None:
    clock = ManualClock()
    before = clock.read()
    text = "advance 60\n\nstep -3600\nsuspend 900\nreboot 30\n"
    for command in read_commands(io.StringIO(text)):
        clock.obey(command)
    now = clock.read()
    assert now.utc - before.utc == 60 - 3600 + 900 + 30
    assert now.since_boot == 0.0


@pytest.mark.parametrize("seconds", ["0", "0.5"])
def test_no_time_and_half_a_second_may_go_by(seconds: str) -> None:
    assert list(read_commands([f"advance {seconds}"])) == [("advance", float(seconds))]


@pytest.mark.parametrize("line", ["go 5", "advance", "advance x", "suspend -1", "advance nan",
                                  "reboot 5 6"])  # fmt: skip
def test_what_is_no_command_is_refused(line: str) -> None:
    with pytest.raises(ValueError, match=r".+"):
        list(read_commands([line]))


def test_the_system_clock_moves_on_and_keeps_its_boot_id() -> None:
    clock = SystemClock()
    first, second = clock.read(), clock.read()
    assert second.since_boot >= first.since_boot > 0
    assert first.boot_id == second.boot_id == system.boot_id()


@pytest.mark.skipif(sys.platform != "linux", reason="the figure comes from Linux")
def test_on_linux_the_time_since_boot_is_the_kernels_uptime() -> None:
    uptime = float(Path("/proc/uptime").read_text("ascii").split()[0])
    assert abs(SystemClock().read().since_boot - uptime) < 5.0


def test_sleep_is_what_the_two_clocks_of_the_system_differ_by(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    clock = SystemClock()
    before = clock.read().asleep
    awake = system.time_awake
    monkeypatch.setattr(system, "time_awake", lambda: awake() - 75.0)
    assert 74.0 < clock.read().asleep - before < 76.0
    monkeypatch.setattr(system, "time_awake", lambda: awake() + 1e9)
    assert clock.read().asleep == 0.0


def test_a_new_zone_of_the_system_is_seen_while_running(monkeypatch: pytest.MonkeyPatch) -> None:
    clock, later = SystemClock(), system.time_since_boot()
    monkeypatch.setattr(system, "time_since_boot", lambda: later)
    monkeypatch.setenv("TZ", "XXX-05:30")
    assert float(clock.read().utc_offset) == 19_800
    monkeypatch.setenv("TZ", "YYY+03")
    later += system.ZONE_EVERY / 2
    assert float(clock.read().utc_offset) == 19_800  # the machine is not asked at every look
    later += system.ZONE_EVERY / 2
    assert float(clock.read().utc_offset) == -10_800
    monkeypatch.undo()
    SystemClock().read()


def test_an_instant_beyond_the_systems_reach_has_no_offset() -> None:
    assert SystemClock().offset_at(1e300) == 0


def test_a_kernel_without_a_boot_id_gives_none(monkeypatch: pytest.MonkeyPatch) -> None:
    def fail() -> str:
        raise OSError

    monkeypatch.setattr(system, "_boot_id", fail)
    assert system.boot_id() == ""
