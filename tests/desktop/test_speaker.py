"""The speaker over miniaudio's own device of nothing: it plays, it is refused, it is pulled out."""

import sys
from collections.abc import Callable, Generator
from threading import Event
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from shopassist.core.alarms.calling import Sound
from shopassist.core.alarms.tones import RATE
from shopassist.desktop import sound
from shopassist.desktop.sound import Feed, Sounder, Speaker

miniaudio = pytest.importorskip("miniaudio")
BRIEF = bytes(range(1, 201)) * 10
"""A twentieth of a second: what is heard of it nobody hears."""


class Nothing(miniaudio.PlaybackDevice):  # type: ignore[misc,name-defined]
    """The device of nothing, which fetches samples in time and drops them."""

    name = "Null"
    open_now: list["Nothing"] = []  # noqa: RUF012 - emptied by the fixture
    closed = Event()

    def __init__(self, **asked: Any) -> None:
        asked["buffersize_msec"] = 10
        super().__init__(backends=[miniaudio.Backend.NULL], **asked)
        self.backend = self.name
        self.open_now.append(self)

    def close(self) -> None:
        super().close()
        if self in self.open_now:
            self.open_now.remove(self)
            self.closed.set()


class Loud(Nothing):
    """The same, taken for a real one."""

    name = "loud"


class PulledOut(Loud):
    """It starts and asks for nothing more."""

    def start(self, callback_generator: Generator[bytes, int, None]) -> None:
        del callback_generator


class Refusing(Loud):
    """It opens and does not start."""

    def start(self, callback_generator: Generator[bytes, int, None]) -> None:
        del callback_generator
        raise miniaudio.MiniaudioError("failed to start audio device", -1)


def refuse(**_: object) -> Nothing:
    raise miniaudio.MiniaudioError("failed to init device", -1)


Use = Callable[[Callable[..., Nothing]], None]


@pytest.fixture
def use(monkeypatch: pytest.MonkeyPatch) -> Use:
    """Have the speaker find a card, and this device behind it."""
    monkeypatch.setattr(sound, "no_card", lambda: False)
    monkeypatch.setattr(sound, "ENDING", 0.05)
    Nothing.open_now.clear()
    Nothing.closed.clear()

    def through(device: Callable[..., Nothing]) -> None:
        monkeypatch.setattr(miniaudio, "PlaybackDevice", device)

    return through


def told(sounder: Sounder, qtbot: QtBot) -> str:
    """What the sounder says once its thread has met something."""
    qtbot.waitUntil(lambda: sounder.look() or sounder.trouble is not None)
    assert sounder.trouble is not None
    return str(dict(sounder.trouble.params)["why"])


def test_every_sample_is_fetched_by_the_device(use: Use, monkeypatch: pytest.MonkeyPatch) -> None:
    fed: list[Feed] = []

    class Watched(Feed):
        def __init__(self, samples: bytes) -> None:
            super().__init__(samples)
            fed.append(self)

    use(Loud)
    monkeypatch.setattr(sound, "Feed", Watched)
    Speaker().play(BRIEF, Event())
    assert [each.share for each in fed] == [1.0]
    assert not Nothing.open_now


def test_a_burst_is_cut_short_when_the_program_ends(use: Use) -> None:
    use(Loud)
    stopped = Event()
    stopped.set()
    Speaker().play(bytes(2 * RATE * 60), stopped)
    assert not Nothing.open_now


@pytest.mark.parametrize(
    ("device", "why"),
    [
        (Nothing, "no sound device"), (refuse, "failed to init"),
        (Refusing, "failed to start"), (PulledOut, "stopped"),
    ],
)  # fmt: skip
def test_what_cannot_be_heard_is_told_and_the_system_beeps(
    use: Use, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch,
    device: Callable[..., Nothing], why: str,
) -> None:  # fmt: skip
    use(device)
    monkeypatch.setattr(sound, "burst", lambda *_, **__: BRIEF)
    beeps: list[int] = []
    sounder = Sounder(beep=lambda: beeps.append(1))
    sounder.play(Sound("high"))
    assert why in told(sounder, qtbot)
    assert beeps == [1]
    sounder.play(Sound("high"))
    qtbot.waitUntil(lambda: not sounder._failures.empty())
    assert not sounder.look()  # it is known already
    sounder.close()
    assert not Nothing.open_now


def test_a_missing_library_is_told(use: Use, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    use(Loud)
    monkeypatch.setitem(sys.modules, "miniaudio", None)
    sounder = Sounder(beep=lambda: None)
    sounder.play(Sound("low"))
    assert "miniaudio" in told(sounder, qtbot)
    sounder.close()


def test_an_odd_failure_is_told_and_the_next_burst_is_tried_all_the_same(qtbot: QtBot) -> None:
    class Odd:
        tried = 0

        def play(self, samples: bytes, stopped: Event) -> None:
            self.tried += 1
            raise ZeroDivisionError

    device = Odd()
    sounder = Sounder(device, lambda: None)
    sounder.play(Sound("low"))
    assert told(sounder, qtbot) == "ZeroDivisionError"
    sounder.play(Sound("low"))
    qtbot.waitUntil(lambda: device.tried == 2)
    sounder.close()


@pytest.mark.parametrize(("device", "mute"), [(Loud, False), (Nothing, True), (refuse, True)])
def test_a_probe_plays_nothing_and_finds_a_device_that_is_gone(
    use: Use, qtbot: QtBot, device: Callable[..., Nothing], mute: bool
) -> None:
    use(device)
    beeps: list[int] = []
    sounder = Sounder(beep=lambda: beeps.append(1))
    sounder.probe()
    qtbot.waitUntil(lambda: Nothing.closed.is_set() or not sounder._failures.empty())
    sounder.close()
    assert sounder.look() is mute
    assert beeps == []
    assert not Nothing.open_now


def test_samples_are_fed_in_the_pieces_that_are_asked_for_then_silence() -> None:
    feed = Feed(bytes(range(1, 11)))
    pieces = feed.pieces()
    next(pieces)
    assert pieces.send(3) == bytes(range(1, 7))
    assert feed.share == 0.6
    assert pieces.send(3) == bytes([7, 8, 9, 10, 0, 0])
    assert pieces.send(2) == bytes(4)
    assert feed.share == 1.0
