"""Alarms in the running window: band, takeover, keys, sound that fails, a sleep, a restart."""

import tomllib
from collections.abc import Iterator
from pathlib import Path
from threading import Event

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtWidgets import QApplication, QPushButton
from pytestqt.qtbot import QtBot

from shopassist.core.batch import Typed
from shopassist.core.errors import StoreError
from shopassist.core.pot.events import Press
from shopassist.core.pot.words import Act
from shopassist.core.quantities import Kelvin, Kilogram, Second
from shopassist.services.means import Battery
from shopassist.store.resources import resource
from shopassist.store.sheet_files import folder_of
from tests.app.driver import Person

MINUTE, HOUR = 60.0, 3600.0


class Shop(Person):
    """A person with a sheet, a pot and a batch that was just poured."""

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        made = self.program.services
        for mapping in folder_of(resource("demo", "sheets")):
            made.sheets.save(mapping)
        for mapping in folder_of(resource("demo", "pots")):
            made.plates.save(mapping)
        self.press("limits.read")

    def mixed(self, sheet: str = "slow-clear") -> str:
        made = self.program.services
        batch = made.batches.open("Knobs 12")
        made.hand.take_batch(batch)
        made.batches.use_sheet(batch, sheet, 1)
        made.batches.enter(batch, "amount", Typed("200 g", 0.2, "Kilogram"))
        made.batches.add_temperature(batch, Kelvin(296.15), Kelvin(296.15), "resin")
        made.batches.weigh(batch, 1, "a", Kilogram(0.15))
        made.batches.weigh(batch, 1, "b", Kilogram(0.045))
        made.batches.hardener_in(batch, 1)
        made.batches.poured(batch)
        return batch

    def gate(self, batch: str) -> float:
        view = self.program.services.cure.view(batch)
        assert view is not None
        stage = view.stage("pressurise")
        assert stage is not None
        return float(stage.gate or 0.0)

    @property
    def now(self) -> float:
        return float(self.clock.read().utc)

    def live(self, seconds: int) -> None:
        for _ in range(seconds):
            self.clock.advance(1)
            self.program.tick()
        self.look()

    def asleep(self, seconds: float) -> None:
        self.clock.suspend(seconds)
        self.live(1)

    @property
    def band(self) -> str:
        shown = self.program.window.alarm_band.shown
        return "" if shown is None else f"{shown.priority}: {shown.words} | {shown.detail}"


@pytest.fixture
def shop(tmp_path: Path, qapp: QApplication) -> Iterator[Shop]:
    made = Shop(tmp_path)
    made.until(lambda: made.program.late.desk is not None, "the alarms are not there")
    yield made
    made.close()


def urgent(shop: Shop) -> str:
    """A batch two minutes before its gate."""
    batch = shop.mixed()
    shop.asleep(shop.gate(batch) - 2 * MINUTE - shop.now)
    return batch


def test_the_band_calls_and_one_key_answers(shop: Shop) -> None:
    urgent(shop)
    assert shop.band.startswith("high: Knobs 12: pressurise now, by ")
    assert shop.visible("alarm")
    shop.sequence("F2")
    assert shop.program.window.alarm_band.shown is not None
    assert shop.program.window.alarm_band.shown.steady
    assert not shop.visible("alarm.acknowledge")


def test_silence_is_shown_running_out_and_is_no_answer(shop: Shop) -> None:
    urgent(shop)
    shop.sequence("F3")
    shop.live(1)
    shown = shop.program.window.alarm_band.shown
    assert shown is not None
    assert shown.silence == "Silent 1:59"
    assert shown.acknowledge == "Acknowledge"
    shop.live(120)
    shown = shop.program.window.alarm_band.shown
    assert shown is not None
    assert not shown.silence.startswith("Silent ")


def test_unanswered_it_fills_the_window_and_enter_answers(shop: Shop) -> None:
    urgent(shop)
    shop.live(58)
    assert not shop.visible("alarm.view")
    shop.live(4)
    assert shop.visible("alarm.view")
    assert shop.visible("pot_line")
    assert not shop.program.panes["mix"].isVisible()
    shop.key(Qt.Key.Key_Return)
    assert not shop.visible("alarm.view")
    assert shop.program.panes["mix"].isVisible()


def test_escape_leaves_the_filled_window_and_the_band_stays(shop: Shop) -> None:
    urgent(shop)
    shop.live(62)
    shop.key(Qt.Key.Key_Escape)
    assert not shop.visible("alarm.view")
    assert shop.visible("alarm")
    shop.live(5)
    assert not shop.visible("alarm.view")


def test_a_pot_in_doubt_takes_the_window_at_once_and_let_down_is_one_press_away(
    shop: Shop,
) -> None:
    pots = shop.program.services.pots
    assert pots.act(pots.ids()[0], Press(Act.DOUBT)) is None
    shop.live(1)
    assert shop.visible("alarm.view")
    shop.program.window.pot_line.action.emit()
    shop.look()
    assert not shop.visible("alarm.view")
    assert shop.visible("pot.question")


def test_nothing_covers_the_list_of_a_pot_that_is_let_down(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    urgent(shop)
    monkeypatch.setattr(shop.program.services.pots, "inhibits_sleep", lambda: True)
    shop.live(62)
    assert not shop.visible("alarm.view")
    assert shop.visible("alarm")


def test_after_a_sleep_lateness_is_said(shop: Shop) -> None:
    batch = shop.mixed()
    shop.live(1)
    shop.asleep(shop.gate(batch) + 2 * HOUR - shop.now)
    assert "Told late by 2 h" in shop.band


def test_a_restart_calls_again_for_what_nobody_answered(shop: Shop, qtbot: QtBot) -> None:
    urgent(shop)
    folder, clock = shop.folder, shop.clock
    shop.kill()
    again = Person(folder, clock)
    again.until(lambda: again.program.late.desk is not None, "the alarms are not there")
    again.program.tick()
    again.look()
    shown = again.program.window.alarm_band.shown
    assert shown is not None
    assert shown.priority == "high"
    again.close()
    shop.program = again.program


def test_a_device_that_refuses_raises_its_own_alarm_and_the_band_still_calls(
    shop: Shop, qtbot: QtBot
) -> None:
    class Broken:
        def play(self, samples: bytes, stopped: Event) -> None:
            raise OSError("no sound device")

    desk = shop.program.late.desk
    assert desk is not None
    desk.sounder._device = Broken()
    urgent(shop)
    assert shop.visible("alarm")
    qtbot.waitUntil(lambda: desk.sounder.look() or desk.sounder.trouble is not None)
    shop.live(11)
    assert desk.sounder.trouble is not None
    assert "no_sound/" in desk.service.book.alarms
    shop.program.base.settings.change(sound=False)
    shop.live(11)
    assert "no_sound/" not in desk.service.book.alarms


def test_a_loudspeaker_that_is_gone_is_an_alarm_before_it_is_needed(
    shop: Shop, qtbot: QtBot
) -> None:
    class Gone:
        asked: list[bytes] = []  # noqa: RUF012

        def play(self, samples: bytes, stopped: Event) -> None:
            self.asked.append(samples)
            raise OSError("no sound device")

    desk = shop.program.late.desk
    assert desk is not None
    desk.sounder._device = device = Gone()
    batch = shop.mixed()
    shop.asleep(shop.gate(batch) - 28 * MINUTE - shop.now)
    assert not shop.visible("alarm")
    desk.minute()
    desk.minute()
    qtbot.waitUntil(lambda: desk.sounder.trouble is not None or desk.sounder.look())
    assert device.asked == [b""]
    shop.live(11)
    assert "no_sound/" in desk.service.book.alarms
    assert shop.visible("alarm")


def test_the_sound_is_tried_from_the_list_and_who_hears_nothing_says_so(shop: Shop) -> None:
    shop.sequence("F4")
    assert shop.visible("alarms")
    assert not shop.visible("alarms.heard")
    shop.find(QPushButton, "alarms.test.high").click()
    shop.find(QPushButton, "alarms.not_heard").click()
    desk = shop.program.late.desk
    assert desk is not None
    assert desk.sounder.trouble is not None
    shop.find(QPushButton, "alarms.test.low").click()
    shop.find(QPushButton, "alarms.heard").click()
    assert shop.program.base.state.get("sound_heard")
    shop.find(QPushButton, "alarms.close").click()
    shop.look()
    assert not shop.visible("alarms")


def test_the_list_tells_what_to_do_and_what_follows(shop: Shop) -> None:
    urgent(shop)
    shop.sequence("F4")
    card = shop.program.late.desk._card if shop.program.late.desk else None
    assert card is not None
    assert "high, since" in card.lines[0][0].words
    assert "Else: " in card.lines[0][1].words


def test_a_log_that_cannot_be_written_is_told_within_ten_seconds(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise StoreError("The disk is full.")

    shop.mixed()
    monkeypatch.setattr(shop.program.journal, "append", refuse)
    monkeypatch.setattr(shop.program.journal, "beat", refuse)
    shop.live(10)
    assert shop.band.startswith("high: The log is not being written")
    monkeypatch.undo()


def test_power_running_out_is_told(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    from shopassist.desktop import machine

    shop.mixed()
    monkeypatch.setattr(machine, "battery", lambda: Battery(0.05, plugged=False))
    shop.live(11)
    assert "Battery at 5 %" in shop.band


def test_a_refusal_is_a_message_and_no_alarm(shop: Shop) -> None:
    desk = shop.program.late.desk
    assert desk is not None
    desk.tell("This cannot be done.", "Do the other first.")
    assert shop.band.startswith("low: This cannot be done.")
    shop.sequence("F2")
    assert shop.band == ""


def test_a_logger_on_record_feeds_the_cure_in_hand(shop: Shop, tmp_path: Path) -> None:
    log = tmp_path / "logger.csv"
    log.write_text("temp °C\n", "utf-8")
    made, desk = shop.program.services, shop.program.late.desk
    assert desk is not None
    mapping = {"name": "Probe", "way": "a file that grows", "from": str(log), "measures": "resin"}
    version, problems = made.thermometers.save(mapping)
    assert version is not None, problems
    batch = shop.mixed()
    for _ in range(8):
        shop.clock.advance(60)
        with log.open("a", encoding="utf-8") as file:
            file.write("24,5\n")
        desk._poll()
    warmth = made.batches.get(batch).warmth
    assert warmth[-1].low == pytest.approx(297.65)
    log.unlink()
    desk._poll()
    shop.live(1)
    desk.service.renew()
    shop.live(1)
    assert "thermometer_lost/Probe" in desk.service.book.alarms


def test_a_doubted_clock_is_called_for_and_settled_in_cure(shop: Shop) -> None:
    shop.mixed()
    folder, clock = shop.folder, shop.clock
    shop.kill()
    clock.moved = None
    clock.reboot(3600)
    clock.step(-400 * 86_400.0)
    again = Person(folder, clock)
    again.until(lambda: again.program.late.desk is not None, "the alarms are not there")
    again.program.tick()
    desk, pane = again.program.late.desk, again.program.presenters.cure
    assert desk is not None
    assert any(key.startswith("clock_doubted/") for key in desk.service.book.alarms)
    pane.on_mode("off")
    pane.on_text("off", "1 h")
    pane.on_do()
    assert pane.screen.error == ""
    desk.service.renew()
    again.program.tick()
    assert not any(key.startswith("clock_doubted/") for key in desk.service.book.alarms)
    view = again.program.services.cure.view(again.program.services.batches.ids()[0])
    assert view is not None
    assert not view.elapsed.doubted
    again.close()
    shop.program = again.program


def test_another_card_in_place_of_the_list_is_left_alone_by_the_next_minute(shop: Shop) -> None:
    desk = shop.program.late.desk
    assert desk is not None
    shop.sequence("F4")
    assert shop.visible("alarms")
    shop.sequence("F1")
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    assert desk._card is None
    desk.minute()
    assert shop.visible("limits")


def test_x05_a_minimised_window_calls_within_two_seconds_of_its_time(shop: Shop) -> None:
    batch = shop.mixed()
    shop.program.window.showMinimized()
    shop.asleep(shop.gate(batch) - 11 * MINUTE - shop.now)
    shop.live(58)
    assert shop.band == ""
    shop.live(4)
    assert shop.band.startswith("medium: Knobs 12")
    desk = shop.program.late.desk
    assert desk is not None
    alarm = next(iter(desk.service.book.alarms.values()))
    assert 0.0 <= alarm.row.recorded.utc - alarm.due <= 2.0


def test_x14_a_clock_of_seven_days_calls_within_two_seconds_of_its_time(shop: Shop) -> None:
    due = shop.now + 7 * 86_400
    shop.program.services.waits.start("Full cure", Second(7 * 86_400.0))
    shop.asleep(7 * 86_400 - 20)
    shop.live(18)
    assert shop.band == ""
    shop.live(4)
    assert "Full cure" in shop.band
    desk = shop.program.late.desk
    assert desk is not None
    (alarm,) = desk.service.book.alarms.values()
    assert 0.0 <= alarm.row.recorded.utc - due <= 2.0


def test_c04_a_hot_box_beyond_its_setting_calls_in_the_band(shop: Shop) -> None:
    """Set to 70 °F, and some eight degrees above it by a thermometer of its own."""
    made = shop.program.services
    mapping = tomllib.loads(resource("demo", "cabinets", "warm-box.toml").read_text("utf-8"))
    mapping["thermostat"] = {"set": "70 °F"}
    assert made.cabinets.save(mapping)[0] is not None
    batch = shop.mixed()
    hot = Kelvin(25.6 + 273.15)
    made.batches.add_temperature(batch, hot, hot, "cabinet air")
    shop.asleep(15 * MINUTE - 10)
    assert shop.band == ""
    shop.live(12)
    assert shop.band.startswith("medium: Warm box hotter than its setting: 25.6 °C read")
