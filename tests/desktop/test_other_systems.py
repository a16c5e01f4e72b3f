"""Battery and wakefulness of systems that we do not have here, by what their documentation says."""

import ctypes
import os
from types import SimpleNamespace
from typing import Any

import pytest

from shopassist.desktop import awake, machine
from shopassist.desktop.awake import Child, Execution, WakeLock
from shopassist.services.means import Battery


def powered(monkeypatch: pytest.MonkeyPatch, *, ac: int, flag: int, percent: int) -> None:
    """A Windows machine that answers this about its power; ``flag`` 255: it refuses."""

    def answer(into: Any) -> int:
        status = into._obj
        status.ac, status.flag, status.percent = ac, flag, percent
        return int(flag != 255)

    kernel = SimpleNamespace(GetSystemPowerStatus=answer)
    monkeypatch.setattr(ctypes, "windll", SimpleNamespace(kernel32=kernel), raising=False)
    monkeypatch.setattr(machine, "sys", SimpleNamespace(platform="win32"))


@pytest.mark.parametrize(
    ("ac", "flag", "percent", "found"),
    [
        (0, 0, 47, Battery(0.47, plugged=False)), (1, 8, 100, Battery(1.0, plugged=True)),
        (1, 128, 255, None), (0, 0, 255, None), (0, 255, 50, None),
    ],
    ids=["on battery", "charging", "no battery", "charge not known", "refused"],
)  # fmt: skip
def test_windows_tells_its_battery_in_one_answer(
    monkeypatch: pytest.MonkeyPatch, ac: int, flag: int, percent: int, found: Battery | None
) -> None:
    powered(monkeypatch, ac=ac, flag=flag, percent=percent)
    assert machine.battery() == found


def test_windows_is_kept_awake_by_its_own_wish(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[int] = []

    def wish(flags: int) -> int:
        asked.append(flags)
        return 1

    kernel = SimpleNamespace(SetThreadExecutionState=wish)
    monkeypatch.setattr(ctypes, "windll", SimpleNamespace(kernel32=kernel), raising=False)
    monkeypatch.setattr(awake, "sys", SimpleNamespace(platform="win32"))
    lock = WakeLock()
    lock.want(awake=True)
    assert lock.trouble is None
    lock.want(awake=False)
    assert asked == [0x80000001, 0x80000000]


def test_windows_may_refuse(monkeypatch: pytest.MonkeyPatch) -> None:
    lock = WakeLock(Execution(lambda _: 0))
    lock.want(awake=True)
    assert lock.trouble is not None


def test_macos_is_kept_awake_by_a_child_that_watches_this_program(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(awake, "sys", SimpleNamespace(platform="darwin"))
    found = awake.for_this_system()
    assert isinstance(found, Child)
    assert found._words == ["caffeinate", "-i", "-w", str(os.getpid())]
