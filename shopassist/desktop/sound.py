"""Sound: bursts played on a thread of their own; where that fails, the system's beep."""

import sys
from collections.abc import Callable, Generator
from pathlib import Path
from queue import Queue, SimpleQueue
from threading import Event, Thread
from types import ModuleType
from typing import Protocol

from PySide6.QtWidgets import QApplication

from shopassist.core.alarms.calling import Sound
from shopassist.core.alarms.tones import RATE, burst
from shopassist.core.messages import Text, say

WIDTH = 2
"""Bytes of one sample."""
ENDING = 0.3
"""What a device may still be playing when the last sample was fetched, [s]."""
HEARD = 0.5
"""A device that fetched less of a burst in its time is gone, pulled out perhaps; ours."""


class Device(Protocol):
    """Something that plays samples."""

    def play(self, samples: bytes, stopped: Event) -> None:
        """Play to the end or until stopped; raises ``OSError`` where nothing can be heard.

        No samples: only see whether something could be.
        """
        ...


class Speaker:
    """The system's own output, through miniaudio; loaded when the first sound is due."""

    def play(self, samples: bytes, stopped: Event) -> None:
        """Open, play, close."""
        if no_card():
            raise OSError("no sound device")
        import miniaudio

        try:
            self._through(miniaudio, samples, stopped)
        except miniaudio.MiniaudioError as error:
            raise OSError(str(error)) from error

    @staticmethod
    def _through(miniaudio: ModuleType, samples: bytes, stopped: Event) -> None:
        device = miniaudio.PlaybackDevice(
            output_format=miniaudio.SampleFormat.SIGNED16, nchannels=1, sample_rate=RATE
        )
        try:
            if device.backend.lower() == "null":
                raise OSError("no sound device")
            if not samples:
                return
            feed = Feed(samples)
            pieces = feed.pieces()
            next(pieces)
            device.start(pieces)
            length = len(samples) / WIDTH / RATE
            # The wait is on the thread of the sound alone; the window never waits.
            cut_short = stopped.wait(length + ENDING)
            if not cut_short and feed.share < HEARD:
                raise OSError("the sound device stopped")
        finally:
            device.close()


class Feed:
    """Hands out as many frames as the device asks for, then silence."""

    def __init__(self, samples: bytes) -> None:
        self._samples, self._at = samples, 0

    @property
    def share(self) -> float:
        """How much of it was fetched."""
        return self._at / len(self._samples)

    def pieces(self) -> Generator[bytes, int, None]:
        """Give a piece for each number of frames that is sent."""
        wanted = yield b""
        while True:
            piece = self._samples[self._at : self._at + WIDTH * wanted]
            self._at += len(piece)
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
        self._failures: SimpleQueue[tuple[str, bool]] = SimpleQueue()

    def play(self, sound: Sound) -> None:
        """Sound a burst; one that still plays is let end first, and none are hoarded."""
        if self._ready():
            self._jobs.put(burst(sound.priority, loud=sound.loud))

    def probe(self) -> None:
        """Open what sounds go through and play nothing: its loss is told before it is needed."""
        if self._ready():
            self._jobs.put(b"")

    def _ready(self) -> bool:
        if self._stopped.is_set() or self._jobs.qsize() > 1:
            return False
        if self._thread is None:
            self._thread = Thread(target=self._run, name="sound", daemon=True)
            self._thread.start()
        return True

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
            except Exception as error:  # noqa: BLE001 - a thread that dies of it is a silence untold
                self._failures.put((str(error) or type(error).__name__, bool(samples)))

    def look(self) -> bool:
        """Fetch what went wrong on the thread; the system's beep stands in. True: it is new."""
        fresh = False
        while not self._failures.empty():
            fresh = fresh or self.trouble is None
            why, due = self._failures.get()
            self.trouble = say("{why}", why=why)
            if due:
                self._beep()
        return fresh
