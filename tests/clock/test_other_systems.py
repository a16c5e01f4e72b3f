"""Clocks of systems that we do not have here, by what their documentation says they answer.

What is held is our reading of it: units, the pair of clocks, a text that changes with each start.
"""

import ctypes
import sys
import time
from types import SimpleNamespace
from typing import Any

import pytest

from shopassist.clock import system
from shopassist.clock.system import SystemClock
from shopassist.core.timeline import EARLIEST


class Kernel:
    """Clocks of Windows: 3 h since the start, 1 h of it asleep."""

    def GetTickCount64(self) -> int:
        return 10_800_000

    def QueryUnbiasedInterruptTime(self, into: Any) -> None:
        into._obj.value = 72_000_000_000


@pytest.fixture
def windows(monkeypatch: pytest.MonkeyPatch) -> None:
    kernel = Kernel()
    plain = SimpleNamespace(
        GetTickCount64=lambda: kernel.GetTickCount64(),  # noqa: PLW0108 - takes a restype
        QueryUnbiasedInterruptTime=kernel.QueryUnbiasedInterruptTime,
    )
    monkeypatch.setattr(system, "sys", SimpleNamespace(platform="win32"))
    monkeypatch.setattr(ctypes, "windll", SimpleNamespace(kernel32=plain), raising=False)


class Registry:
    """The key that counts the starts of the machine."""

    HKEY_LOCAL_MACHINE = "machine"

    def __init__(self, starts: int | None) -> None:
        self.starts = starts

    def OpenKey(self, where: str, key: str) -> "Registry":
        assert where == "machine"
        assert key.endswith("PrefetchParameters")
        if self.starts is None:
            raise FileNotFoundError(key)
        return self

    def __enter__(self) -> "Registry":
        return self

    def __exit__(self, *_: object) -> None:
        return None

    def QueryValueEx(self, _: object, name: str) -> tuple[int, int]:
        assert name == "BootId"
        return self.starts or 0, 4


@pytest.mark.usefixtures("windows")
def test_windows_counts_milliseconds_since_boot_and_tenths_of_microseconds_awake(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setitem(sys.modules, "winreg", Registry(117))
    reading = SystemClock().read()
    assert (reading.since_boot, reading.asleep) == (10_800.0, 3_600.0)
    assert reading.boot_id == "boot-117"
    assert reading.utc > EARLIEST


@pytest.mark.usefixtures("windows")
def test_a_registry_without_the_key_leaves_the_boot_without_a_name(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setitem(sys.modules, "winreg", Registry(None))
    assert system.boot_id() == ""


def mac_time() -> Any:
    """Its clocks: 5 h since the start, 4 h of it awake."""
    clocks = {"since": 18_000.0, "awake": 14_400.0}
    return SimpleNamespace(
        CLOCK_MONOTONIC="since", CLOCK_UPTIME_RAW="awake", clock_gettime=clocks.__getitem__,
        time=lambda: 1_790_000_000.0, tzset=time.tzset, localtime=time.localtime,
    )  # fmt: skip


def test_macos_has_a_clock_that_runs_on_in_sleep_and_one_that_does_not(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def answer(name: bytes, into: Any, size: Any, *_: object) -> int:
        assert name == b"kern.bootsessionuuid"
        into.value = b"4D2A"
        return 0

    library = SimpleNamespace(sysctlbyname=answer)
    monkeypatch.setattr(ctypes, "CDLL", lambda _: library)
    monkeypatch.setattr(system, "sys", SimpleNamespace(platform="darwin"))
    monkeypatch.setattr(system, "time", mac_time())
    reading = SystemClock().read()
    assert (reading.since_boot, reading.asleep) == (18_000.0, 3_600.0)
    assert (reading.utc, reading.boot_id) == (1_790_000_000.0, "4D2A")


def test_macos_without_that_answer_leaves_the_boot_without_a_name(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(ctypes, "CDLL", lambda _: SimpleNamespace())
    monkeypatch.setattr(system, "sys", SimpleNamespace(platform="darwin"))
    assert system.boot_id() == ""


def test_any_other_system_counts_from_its_start_and_names_no_boot(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(system, "sys", SimpleNamespace(platform="haiku"))
    reading = SystemClock().read()
    assert reading.boot_id == ""
    assert reading.asleep == 0.0
    assert reading.since_boot > 0


def test_where_local_time_cannot_be_told_it_is_utc(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(_: float) -> None:
        raise OverflowError

    monkeypatch.setattr(system, "time", SimpleNamespace(localtime=refuse))
    assert SystemClock().offset_at(0.0) == 0
