"""What the machine says of its disk and its battery; asked seldom, never waited for."""

import shutil
import sys
from collections.abc import Callable
from pathlib import Path

from shopassist.core.messages import Text
from shopassist.services.means import Battery

SUPPLIES = Path("/sys/class/power_supply")
FULL, NO_BATTERY = 100, 128


class ThisMachine:
    """Answers what the alarms depend on."""

    def __init__(
        self,
        folder: Path,
        sound: Callable[[], Text | None],
        awake: Callable[[], Text | None],
    ) -> None:
        self._folder = folder
        self.sound_trouble = sound
        self.awake_trouble = awake

    def free_bytes(self) -> int | None:
        """Room left where the log is."""
        try:
            return shutil.disk_usage(self._folder).free
        except OSError:
            return None

    def battery(self) -> Battery | None:
        """The battery, where there is one."""
        return battery()


def battery(supplies: Path = SUPPLIES) -> Battery | None:
    """Read the battery; None where there is none, or the system does not tell."""
    if sys.platform == "win32":
        return _windows()
    return _linux(supplies)


def _linux(supplies: Path) -> Battery | None:
    try:
        found = [entry for entry in supplies.iterdir() if _read(entry / "type") == "Battery"]
        for entry in found:
            if _read(entry / "scope") == "Device":
                continue
            charge = float(_read(entry / "capacity")) / FULL
            return Battery(charge, plugged=_read(entry / "status") != "Discharging")
    except (OSError, ValueError):
        return None
    return None


def _read(path: Path) -> str:
    try:
        return path.read_text("ascii").strip()
    except FileNotFoundError:
        return ""


def _windows() -> Battery | None:
    """Ask the system; written from its documentation, not tried there."""
    if sys.platform == "win32":
        import ctypes

        class Status(ctypes.Structure):
            _fields_ = (
                ("ac", ctypes.c_ubyte), ("flag", ctypes.c_ubyte), ("percent", ctypes.c_ubyte),
                ("system", ctypes.c_ubyte), ("life", ctypes.c_ulong), ("full", ctypes.c_ulong),
            )  # fmt: skip

        status = Status()
        if not ctypes.windll.kernel32.GetSystemPowerStatus(ctypes.byref(status)):
            return None
        if status.flag & NO_BATTERY or status.percent > FULL:
            return None
        return Battery(status.percent / FULL, plugged=status.ac == 1)
    return None
