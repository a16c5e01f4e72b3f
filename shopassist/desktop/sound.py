"""Sound: bursts played on a thread of their own; where that fails, the system's beep."""

import sys
from collections.abc import Callable, Generator
from pathlib import Path
from queue import Queue, SimpleQueue
from threading import Event, Thread
from typing import Protocol

from PySide6.QtWidgets import QApplication

from shopassist.core.alarms.calling import Sound
from shopassist.core.alarms.tones import RATE, burst
from shopassist.core.messages import Text, say

WIDTH = 2
"""Bytes of one sample."""
ENDING = 0.3
"""What a device may still be playing when the last sample was fetched, [s]."""


class Device(Protocol):
    """Something that plays samples."""

    def play(self, samples: bytes, stopped: Event) -> None:
        """Play to the end or until stopped; raises ``OSError`` where nothing can be heard."""
        ...


class Speaker:
    """The system's own output, through miniaudio; loaded when the first sound is due."""

    def play(self, samples: bytes, stopped: Event) -> None:
        """Open, play, close."""
        if no_card():
            raise OSError("no sound device")
        import miniaudio

        try:
            device = miniaudio.PlaybackDevice(
                output_format=miniaudio.SampleFormat.SIGNED16, nchannels=1, sample_rate=RATE
            )
        except miniaudio.MiniaudioError as error:
            raise OSError(str(error)) from error
        try:
            if device.backend.lower() == "null":
                raise OSError("no sound device")
            fed = fed_in_pieces(samples)
            next(fed)
            device.start(fed)
            length = len(samples) / WIDTH / RATE
            # The wait is on the thread of the sound alone; the window never waits.
            stopped.wait(length + ENDING)
        finally:
            device.close()


def fed_in_pieces(samples: bytes) -> Generator[bytes, int, None]:
    """Hand out as many frames as the device asks for, then silence."""
    wanted = yield b""
    at = 0
    while True:
        piece = samples[at : at + WIDTH * wanted]
        at += len(piece)
        wanted = yield piece.ljust(WIDTH * wanted, b"\0")


def no_card(cards: Path = Path("/proc/asound/cards"), run: Path | None = None) -> bool:
    """Whether a Linux machine has neither a sound card nor a sound server."""
    if sys.platform != "linux":
        return False
    folder = run if run is not None else Path(f"/run/user/{_user()}")
    if any((folder / name).exists() for name in ("pulse/native", "pipewire-0")):
        return False
    try:
        return "no soundcards" in cards.read_text("utf-8")
    except OSError:
        return True


def _user() -> int:
    import os

    return os.getuid() if hasattr(os, "getuid") else 0


class Sounder:
    """Plays bursts, and knows why it could not.

    Its thread touches nothing of Qt: what went wrong is fetched by ``look``.
    """

    def __init__(
        self, device: Device | None = None, beep: Callable[[], None] = QApplication.beep
    ) -> None:
        self.trouble: Text | None = None
        """Why nothing can be heard; None while nothing says so."""
        self._device = device or Speaker()
        self._beep = beep
        self._jobs: Queue[bytes | None] = Queue()
        self._stopped = Event()
        self._thread: Thread | None = None
        self._failures: SimpleQueue[str] = SimpleQueue()

    def play(self, sound: Sound) -> None:
        """Sound a burst; one that still plays is let end first, and none are hoarded."""
        if self._stopped.is_set() or self._jobs.qsize() > 1:
            return
        if self._thread is None:
            self._thread = Thread(target=self._run, name="sound", daemon=True)
            self._thread.start()
        self._jobs.put(burst(sound.priority, loud=sound.loud))

    def heard(self, *, yes: bool) -> None:
        """What the person says after a test: a muted loudspeaker is known to nobody else."""
        self.trouble = None if yes else say("you did not hear the test")

    def close(self) -> None:
        """Stop at once."""
        self._stopped.set()
        self._jobs.put(None)
        if self._thread is not None:
            self._thread.join(timeout=2.0)

    def _run(self) -> None:
        while (samples := self._jobs.get()) is not None and not self._stopped.is_set():
            try:
                self._device.play(samples, self._stopped)
            except (OSError, ImportError) as error:
                self._failures.put(str(error))

    def look(self) -> bool:
        """Fetch what went wrong on the thread; the system's beep stands in. True: it is new."""
        fresh = False
        while not self._failures.empty():
            fresh = self.trouble is None
            self.trouble = say("{why}", why=self._failures.get())
            self._beep()
        return fresh
