"""Sound, wakefulness, disk and battery, with everything that may refuse."""

import sys
from pathlib import Path
from threading import Event

import pytest
from pytestqt.qtbot import QtBot

from shopassist.core.alarms.calling import Sound
from shopassist.desktop import awake, machine, sound
from shopassist.desktop.awake import Child, Execution, WakeLock, linux
from shopassist.desktop.sound import Sounder, Speaker, no_card
from shopassist.services.means import Battery


class Device:
    """Plays nothing, and may refuse."""

    def __init__(self, refuses: bool = False) -> None:
        self.refuses, self.played = refuses, list[bytes]()
        self.done = Event()

    def play(self, samples: bytes, stopped: Event) -> None:
        self.done.set()
        if self.refuses:
            raise OSError("no sound device")
        self.played.append(samples)


def troubles(sounder: Sounder) -> list[str]:
    return [] if sounder.trouble is None else [str(value) for _, value in sounder.trouble.params]


def test_a_burst_goes_to_the_device(qtbot: QtBot) -> None:
    device = Device()
    sounder = Sounder(device, lambda: None)
    sounder.play(Sound("low"))
    qtbot.waitUntil(lambda: bool(device.played))
    assert len(device.played[0]) > 1000
    assert sounder.trouble is None
    sounder.close()
    sounder.play(Sound("low"))
    assert len(device.played) == 1


def test_a_device_that_refuses_is_told_and_the_system_beeps(qtbot: QtBot) -> None:
    beeps: list[int] = []
    sounder = Sounder(Device(refuses=True), lambda: beeps.append(1))
    sounder.play(Sound("high"))
    qtbot.waitUntil(lambda: not sounder._failures.empty())
    sounder.look()
    assert beeps == [1]
    assert troubles(sounder) == ["no sound device"]
    sounder.heard(yes=True)
    assert troubles(sounder) == []
    sounder.close()


def test_who_did_not_hear_the_test_has_no_sound(qtbot: QtBot) -> None:
    sounder = Sounder(Device(), lambda: None)
    sounder.heard(yes=False)
    assert sounder.trouble is not None
    sounder.close()


def test_bursts_are_not_hoarded(qtbot: QtBot) -> None:
    gate = Event()

    class Slow(Device):
        def play(self, samples: bytes, stopped: Event) -> None:
            super().play(samples, stopped)
            gate.wait(5)

    device = Slow()
    sounder = Sounder(device, lambda: None)
    for _ in range(20):
        sounder.play(Sound("low"))
    gate.set()
    sounder.close()
    assert len(device.played) <= 4


@pytest.mark.skipif(sys.platform != "linux", reason="looks at Linux folders")
def test_a_machine_without_card_and_sound_server_is_known(tmp_path: Path) -> None:
    cards = tmp_path / "cards"
    assert no_card(cards, tmp_path)
    cards.write_text("--- no soundcards ---\n")
    assert no_card(cards, tmp_path)
    cards.write_text(" 0 [PCH]: HDA-Intel\n")
    assert not no_card(cards, tmp_path)
    cards.unlink()
    (tmp_path / "pipewire-0").touch()
    assert not no_card(cards, tmp_path)


def test_the_real_speaker_plays_or_says_why_not(monkeypatch: pytest.MonkeyPatch) -> None:
    stopped = Event()
    stopped.set()
    monkeypatch.setattr(sound, "no_card", lambda: True)
    with pytest.raises(OSError, match="no sound device"):
        Speaker().play(b"\0\0", stopped)


# -- staying awake -------------------------------------------------------------------------


class Holder:
    def __init__(self, begins: bool = True, holds: bool = True) -> None:
        self.begins, self.stays, self.ended = begins, holds, 0

    def begin(self) -> bool:
        return self.begins

    def holds(self) -> bool:
        return self.stays

    def end(self) -> None:
        self.ended += 1


def test_the_machine_is_held_awake_only_while_it_is_asked() -> None:
    holder = Holder()
    lock = WakeLock(holder)
    lock.want(awake=False)
    assert holder.ended == 0
    lock.want(awake=True)
    lock.want(awake=True)
    assert lock.trouble is None
    lock.want(awake=False)
    assert holder.ended == 1


@pytest.mark.parametrize("holder", [Holder(begins=False), Holder(holds=False)])
def test_a_refusal_is_told_until_it_is_held(holder: Holder) -> None:
    lock = WakeLock(holder)
    told = []
    for works in (False, False, True, True):
        if works:
            holder.begins = holder.stays = True
        lock.want(awake=True)
        told.append(lock.trouble is not None)
    assert told[1]
    assert not told[3]
    lock.want(awake=False)
    assert lock.trouble is None


def test_a_system_without_a_way_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(awake, "for_this_system", lambda: None)
    lock = WakeLock()
    lock.want(awake=True)
    assert lock.trouble is not None


def test_a_child_holds_as_long_as_it_runs() -> None:
    child = Child((sys.executable, "-c", "import sys; sys.stdin.read()"))
    assert not child.holds()
    assert child.begin()
    assert child.holds()
    child.end()
    assert not child.holds()
    child.end()
    assert not Child(("/nowhere/to/be/found",)).begin()


def test_linux_holds_by_the_login_manager_where_it_is() -> None:
    assert linux(lambda _: None) is None
    assert isinstance(linux(lambda name: f"/usr/bin/{name}"), Child)


def test_windows_is_asked_by_two_flags() -> None:
    asked: list[int] = []

    def set_state(flags: int) -> int:
        asked.append(flags)
        return 1

    held = Execution(set_state)
    assert held.begin()
    assert held.holds()
    held.end()
    assert not held.holds()
    assert asked == [0x80000001, 0x80000000]


# -- disk and battery -----------------------------------------------------------------------


def supply(folder: Path, name: str, **files: str) -> None:
    (folder / name).mkdir()
    for key, text in files.items():
        (folder / name / key).write_text(text + "\n")


@pytest.mark.parametrize(
    ("status", "plugged"), [("Discharging", False), ("Charging", True), ("Full", True)]
)
def test_the_battery_is_read_where_there_is_one(tmp_path: Path, status: str, plugged: bool) -> None:
    supply(tmp_path, "AC", type="Mains")
    supply(tmp_path, "mouse", type="Battery", scope="Device", capacity="3", status="Discharging")
    supply(tmp_path, "BAT0", type="Battery", capacity="47", status=status)
    assert machine.battery(tmp_path) == Battery(0.47, plugged=plugged)


def test_a_machine_without_battery_or_with_a_broken_one_says_nothing(tmp_path: Path) -> None:
    assert machine.battery(tmp_path / "none") is None
    assert machine.battery(tmp_path) is None
    supply(tmp_path, "BAT0", type="Battery", capacity="full", status="Discharging")
    assert machine.battery(tmp_path) is None


def test_the_room_on_the_disk_is_told(tmp_path: Path) -> None:
    here = machine.ThisMachine(tmp_path, lambda: None, lambda: None)
    assert (here.free_bytes() or 0) > 0
    assert machine.ThisMachine(tmp_path / "none", lambda: None, lambda: None).free_bytes() is None
    assert here.battery() is None or isinstance(here.battery(), Battery)
