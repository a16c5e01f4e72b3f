"""The machine's own clocks; the only place that reads them.

The time since boot counts suspend: ``CLOCK_BOOTTIME`` on Linux, ``CLOCK_MONOTONIC`` on macOS (whose
manual has it run on in sleep), the tick count on Windows. A second clock of each system stops in
sleep; the difference is what the machine slept. Only Linux has been tried.
"""

import sys
import time
from pathlib import Path

from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Reading

ZONE_EVERY = 5.0
"""The machine is asked so often whether its zone was changed, [s]; ours. It reads a file for it."""


class SystemClock:
    """Wall time and time since boot of this machine."""

    def __init__(self) -> None:
        self._boot_id = boot_id()
        self._zone_read = float("-inf")
        """When the zone was asked for last, [s] since boot."""

    def read(self) -> Reading:
        """Look at both clocks, one right after the other."""
        utc = time.time()
        since_boot = time_since_boot()
        if sys.platform != "win32" and since_boot - self._zone_read >= ZONE_EVERY:
            self._zone_read = since_boot
            time.tzset()
        asleep = since_boot - time_awake()
        return Reading(
            UtcSecond(utc), Second(since_boot), self._boot_id, Second(self.offset_at(utc)),
            Second(max(0.0, asleep)),
        )  # fmt: skip

    def offset_at(self, utc: float) -> int:
        """Local time less UTC at an instant, [s]; 0 where the system cannot tell."""
        try:
            return time.localtime(utc).tm_gmtoff
        except (OverflowError, OSError, ValueError):
            return 0


def time_since_boot() -> float:
    """Return the time since the machine started, counting suspend, [s]."""
    if sys.platform == "linux":
        return time.clock_gettime(time.CLOCK_BOOTTIME)
    elif sys.platform == "darwin":  # noqa: RET505
        return time.clock_gettime(time.CLOCK_MONOTONIC)
    elif sys.platform == "win32":
        import ctypes

        ticks = ctypes.windll.kernel32.GetTickCount64
        ticks.restype = ctypes.c_uint64
        return int(ticks()) / 1000
    else:
        return time.monotonic()


def time_awake() -> float:
    """Return the time since the machine started without what it slept, [s]."""
    if sys.platform == "darwin":
        return time.clock_gettime(time.CLOCK_UPTIME_RAW)
    elif sys.platform == "win32":  # noqa: RET505
        import ctypes

        ticks = ctypes.c_ulonglong()
        ctypes.windll.kernel32.QueryUnbiasedInterruptTime(ctypes.byref(ticks))
        return ticks.value / 1e7
    else:
        return time.monotonic()


def boot_id() -> str:
    """Return a text that changes with every start of the machine; empty where there is none."""
    try:
        return _boot_id()
    except (OSError, AttributeError, ValueError):
        return ""


def _boot_id() -> str:
    if sys.platform == "linux":
        return Path("/proc/sys/kernel/random/boot_id").read_text("ascii").strip()
    elif sys.platform == "darwin":  # noqa: RET505
        import ctypes

        text = ctypes.create_string_buffer(64)
        size = ctypes.c_size_t(len(text))
        system = ctypes.CDLL(None)
        system.sysctlbyname(b"kern.bootsessionuuid", text, ctypes.byref(size), None, 0)
        return text.value.decode("ascii")
    elif sys.platform == "win32":
        import winreg

        key = (
            r"SYSTEM\CurrentControlSet\Control\Session Manager"
            r"\Memory Management\PrefetchParameters"
        )
        with winreg.OpenKey(winreg.HKEY_LOCAL_MACHINE, key) as folder:
            return f"boot-{winreg.QueryValueEx(folder, 'BootId')[0]}"
    else:
        return ""
