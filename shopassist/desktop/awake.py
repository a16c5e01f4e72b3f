"""Keeps the machine from falling asleep by itself, in its windows only; a refusal is told.

A child process holds the lock, so that it ends with this program, however that ends.
"""

import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Sequence
from typing import Protocol

from shopassist.core.messages import Text, say

WHY = "An alarm of a cure or a pot is near"
REFUSED = say("the system refused to stay awake")


class Holder(Protocol):
    """One way of holding the machine awake."""

    def begin(self) -> bool:
        """Hold; False where the system refuses."""
        ...

    def holds(self) -> bool:
        """Whether it still holds."""
        ...

    def end(self) -> None:
        """Let go."""
        ...


class WakeLock:
    """Held or not, and why not."""

    def __init__(self, holder: "Holder | None" = None) -> None:
        self.trouble: Text | None = None
        self._holder = holder if holder is not None else for_this_system()
        self._held = False

    def want(self, *, awake: bool) -> None:
        """Hold or let go; asking for what is so already only looks whether it still is."""
        if not awake:
            if self._held and self._holder is not None:
                self._holder.end()
            self._held, self.trouble = False, None
            return
        if self._held and self._holder is not None and self._holder.holds():
            self.trouble = None
        elif self._held or self._holder is None or not self._holder.begin():
            self._held, self.trouble = False, REFUSED
        else:
            self._held = True


class Child:
    """A program that holds while it runs; its input closes with ours."""

    def __init__(self, words: Sequence[str]) -> None:
        self._words = list(words)
        self._process: subprocess.Popen[bytes] | None = None

    def begin(self) -> bool:
        """Start it; one that is gone at once counts as a refusal at the next look."""
        quiet = subprocess.DEVNULL
        try:
            self._process = subprocess.Popen(  # noqa: S603 - words of our own
                self._words, stdin=subprocess.PIPE, stdout=quiet, stderr=quiet
            )
        except OSError:
            self._process = None
        return self._process is not None

    def holds(self) -> bool:
        """Whether it runs."""
        return self._process is not None and self._process.poll() is None

    def end(self) -> None:
        """Close its input and have it end."""
        process, self._process = self._process, None
        if process is not None:
            if process.stdin is not None:
                process.stdin.close()
            process.terminate()
            process.wait(timeout=5)


class Execution:
    """The thread's own wish on Windows; written from its documentation, not tried there."""

    CONTINUOUS, SYSTEM = 0x80000000, 0x00000001

    def __init__(self, set_state: Callable[[int], int]) -> None:
        self._set_state = set_state
        self._held = False

    def begin(self) -> bool:
        """Wish to stay awake."""
        self._held = self._set_state(self.CONTINUOUS | self.SYSTEM) != 0
        return self._held

    def holds(self) -> bool:
        """Whether the wish stands."""
        return self._held

    def end(self) -> None:
        """Take it back."""
        self._set_state(self.CONTINUOUS)
        self._held = False


def for_this_system() -> "Holder | None":
    """The way of this system; None where there is none."""
    if sys.platform == "win32":
        import ctypes

        return Execution(ctypes.windll.kernel32.SetThreadExecutionState)
    if sys.platform == "darwin":
        return Child(("caffeinate", "-i", "-w", str(os.getpid())))
    return linux(shutil.which)


def linux(which: Callable[[str], str | None]) -> "Holder | None":
    """The login manager's inhibitor, held by a program that ends when its input does.

    Against idleness alone: a lid that somebody closes is obeyed.
    """
    found = which("systemd-inhibit")
    if found is None:
        return None
    return Child((
        found, "--what=idle", "--mode=block", "--who=Shopassist", f"--why={WHY}", "cat",
    ))  # fmt: skip
