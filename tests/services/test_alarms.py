from collections.abc import Iterator
from pathlib import Path

import pytest

from shopassist.core.alarms.calling import Sound
from shopassist.core.errors import StoreError
from shopassist.core.messages import say
from shopassist.core.pot.events import Press
from shopassist.core.pot.words import Act, Belief
from shopassist.core.rows import Draft, Row
from shopassist.services.alarms import AlarmService
from shopassist.services.means import Battery, Means, NoMachine
from tests.fakes import HandClock, MemoryJournal
from tests.services.alarm_bench import HOUR, MINUTE, Bench, until


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Bench]:
    made = Bench(tmp_path)
    yield made
    made.close()


def test_the_call_for_pressure_comes_within_a_second_of_its_time(bench: Bench) -> None:
    bench.plate()
    batch = bench.mixed()
    bench.batches.poured(batch)
    gate = bench.gate(batch, "pressurise")
    until(bench, gate - 10 * MINUTE - 2)
    assert "pressurise_soon" not in bench.kinds()
    bench.live(4)
    assert bench.kinds() == ["pressurise_soon"]
    raised = bench.rows()[-1]
    assert raised.recorded.utc == pytest.approx(gate - 10 * MINUTE, abs=1.5)
    assert [burst.priority for burst in bench.bursts] == ["medium"]


def test_a_batch_that_went_under_pressure_in_time_is_called_for_at_most_five_times(
    bench: Bench,
) -> None:
    pot = bench.plate()
    batch = bench.mixed()
    bench.live(18 * MINUTE, 5.0)
    bench.batches.poured(batch)
    bench.live(5 * MINUTE, 5.0)
    bench.batches.load(batch, pot)
    for _ in range(50):
        bench.live(MINUTE, 5.0)
        bench.asleep(HOUR)
        if bench.alarms.standing() is not None:
            bench.alarms.acknowledge()
    raised = [row.body["alarm"] for row in bench.rows() if row.kind == "alarm_raised"]
    assert raised
    assert len(bench.bursts) <= 5
    assert all(burst.priority != "high" for burst in bench.bursts)


def test_after_a_sleep_it_is_raised_once_with_its_lateness(bench: Bench) -> None:
    bench.plate()
    batch = bench.mixed()
    bench.batches.poured(batch)
    gate = bench.gate(batch, "pressurise")
    bench.live(2)
    bench.clock.suspend(gate + 2 * HOUR - bench.now)
    woke = bench.now
    bench.live(60)
    standing = bench.alarms.standing()
    assert standing is not None
    assert bench.kinds() == ["pressurise_missed"]
    assert standing.alarm.late == pytest.approx(2 * HOUR, abs=3)
    assert standing.alarm.row.recorded.utc - woke <= 3
    assert bench.bursts == []


def test_a_backlog_makes_one_burst(bench: Bench) -> None:
    pot = bench.plate()
    batch = bench.mixed()
    bench.batches.load(batch, pot)
    bench.live(1)
    bench.asleep(40 * HOUR)
    assert set(bench.kinds()) == {"hold_over", "demould", "reading_old"}
    assert len(bench.bursts) == 1
    standing = bench.alarms.standing()
    assert standing is not None
    assert standing.more == len(bench.kinds()) - 1


def test_a_wall_clock_set_forward_or_back_between_two_looks_delays_nothing(bench: Bench) -> None:
    bench.plate()
    batch = bench.mixed()
    bench.batches.poured(batch)
    left = bench.gate(batch, "pressurise") - 10 * MINUTE - bench.now
    for move in (-3600.0, 30.0, 86_400.0 * 365):
        bench.clock.step(move)
        bench.live(30)
        left -= 30
    assert "pressurise_soon" not in bench.kinds()
    bench.live(left - 1)
    bench.clock.step(-86_400.0)
    bench.live(2)
    assert "pressurise_soon" in bench.kinds()


def test_it_is_answered_in_rows_that_outlive_the_program(bench: Bench) -> None:
    bench.plate()
    batch = bench.mixed()
    bench.batches.poured(batch)
    until(bench, bench.gate(batch, "pressurise") - 2 * MINUTE)
    again = bench.again()
    again.live(1)
    assert "pressurise_now" in again.kinds()
    assert len(again.bursts) == 1
    again.alarms.acknowledge()
    third = again.again()
    third.live(20)
    assert third.bursts == []
    alarm = third.alarms.book.alarms[f"pressurise_now/{batch}"]
    assert alarm.acknowledged
    third.batches.load(batch, "pot")
    third.live(1)
    assert third.kinds() == []
    third.close()


def test_silence_holds_two_minutes_and_a_new_alarm_sounds_meanwhile(bench: Bench) -> None:
    bench.plate()
    first = bench.mixed("first")
    bench.batches.poured(first)
    until(bench, bench.gate(first, "pressurise") - 9 * MINUTE)
    bench.alarms.silence()
    bench.bursts.clear()
    bench.live(119)
    assert bench.bursts == []
    standing = bench.alarms.standing()
    assert standing is not None
    assert 0 < standing.silent <= 1
    bench.live(60)
    assert bench.bursts
    bench.alarms.silence()
    bench.bursts.clear()
    bench.machine.power = Battery(0.05, plugged=False)
    bench.live(12)
    assert [burst.priority for burst in bench.bursts][:1] == ["high"]


def test_unanswered_it_fills_the_window_grows_loud_and_the_log_says_not_seen(bench: Bench) -> None:
    told = []
    bench.alarms.changed.connect(lambda _: told.append(bench.alarms.standing()))
    bench.mixed()
    bench.machine.power = Battery(0.05, plugged=False)
    bench.live(12)
    stages = []
    for seconds in (55, 120, 130):
        bench.live(seconds)
        standing = bench.alarms.standing()
        assert standing is not None
        stages.append(standing.stage)
    assert stages == ["full", "louder", "not seen"]
    assert sum(row.kind == "alarm_not_seen" for row in bench.rows()) == 1
    assert any(burst.loud for burst in bench.bursts)
    assert told


def test_a_high_alarm_whose_cause_has_gone_stays_until_it_is_acknowledged(bench: Bench) -> None:
    bench.mixed()
    bench.machine.power = Battery(0.05, plugged=False)
    bench.live(12)
    bench.machine.power = Battery(0.05, plugged=True)
    bench.live(12)
    standing = bench.alarms.standing()
    assert standing is not None
    assert standing.alarm.gone is not None
    assert standing.cause is None
    bench.alarms.acknowledge(standing.alarm.key)
    assert bench.alarms.standing() is None
    bench.alarms.acknowledge()
    bench.alarms.silence()
    assert bench.alarms.standing() is None


@pytest.mark.parametrize(
    ("charge", "kind"),
    [(0.19, "battery_low"), (0.2, ""), (0.1, "battery_low"), (0.09, "battery_out")],
)
def test_the_battery_calls_in_two_steps(bench: Bench, charge: float, kind: str) -> None:
    bench.mixed()
    bench.machine.power = Battery(charge, plugged=False)
    bench.live(12)
    assert [each for each in bench.kinds() if each.startswith("battery")] == [kind][: bool(kind)]


def test_each_lost_means_is_an_alarm_within_ten_seconds(bench: Bench) -> None:
    bench.mixed()
    bench.live(1)
    bench.machine.free = 100_000_000
    bench.machine.mute = say("no loudspeaker")
    bench.machine.sleepy = say("refused")
    bench.live(10)
    assert {"disk_low", "no_sound", "may_sleep"} <= set(bench.kinds())
    bench.means.log_broken(say("Row 7 is not what it was."))
    bench.live(10)
    assert "log_broken" in bench.kinds()


def test_nothing_is_asked_of_the_machine_while_nothing_runs(bench: Bench) -> None:
    bench.machine.free = 1
    bench.machine.mute = say("no loudspeaker")
    bench.live(20)
    assert bench.kinds() == []


def test_a_pot_in_doubt_takes_the_window_at_once(bench: Bench) -> None:
    pot = bench.plate()
    assert bench.pots.act(pot, Press(Act.DOUBT)) is None
    assert bench.pots.state(pot).belief is Belief.SUSPECT
    bench.live(1)
    standing = bench.alarms.standing()
    assert standing is not None
    assert standing.alarm.kind == "suspect"
    assert standing.stage == "full"


def test_while_a_call_is_near_the_machine_is_kept_awake(bench: Bench) -> None:
    bench.plate()
    batch = bench.mixed()
    bench.batches.poured(batch)
    bench.live(1)
    assert not bench.alarms.soon(30.0)
    until(bench, bench.gate(batch, "pressurise") - 35 * MINUTE)
    assert bench.alarms.soon(30 * MINUTE)
    until(bench, bench.gate(batch, "pressurise") - 5 * MINUTE)
    assert bench.alarms.soon(0.0)


# -- what cannot be written ------------------------------------------------------------------


def test_an_alarm_that_cannot_be_written_calls_all_the_same_and_is_written_later() -> None:
    clock = HandClock()
    journal = MemoryJournal(clock)
    session_well = [True]

    class Log:
        well = True

        def beat(self) -> None:
            self.well = not journal.full
            session_well[0] = self.well

    log = Log()
    means = Means(log, clock, NoMachine(), lambda: True)  # type: ignore[arg-type]

    class Tailed(MemoryJournal):
        pass

    def tail(stream: str, count: int) -> tuple[Row, ...]:
        return journal.read(stream)[-count:]

    journal.tail = tail  # type: ignore[attr-defined]
    alarms = AlarmService(journal, clock, (), None, (means.causes,))  # type: ignore[arg-type]
    lost: list[StoreError] = []
    heard: list[Sound] = []
    alarms.lost.connect(lost.append)
    alarms.lost.connect(means.log_failed)
    alarms.sounded.connect(heard.append)
    alarms.start()
    journal.full = True
    means.log_failed()
    alarms.tick()
    assert lost
    assert [burst.priority for burst in heard] == ["high"]
    clock.advance(1)
    alarms.silence()
    for _ in range(20):
        clock.advance(1)
        alarms.tick()
    assert len(heard) == 1
    assert journal.rows == []
    journal.full = False
    for _ in range(20):
        clock.advance(1)
        alarms.tick()
    standing = alarms.standing()
    assert standing is not None
    assert standing.alarm.gone is not None
    assert [row.kind for row in journal.rows][:2] == ["alarm_raised", "alarm_silenced"]


def test_a_journal_without_room_is_told_within_ten_seconds(bench: Bench) -> None:
    bench.mixed()
    bench.live(1)
    bench.session.well = False
    real = bench.journal.beat

    def refuse(*_: object, **__: object) -> None:
        raise StoreError("The disk is full.")

    bench.journal.beat = refuse  # type: ignore[method-assign]
    bench.live(10)
    assert "log_lost" in bench.kinds()
    bench.journal.beat = real  # type: ignore[method-assign]
    bench.live(12)
    standing = bench.alarms.standing()
    assert standing is not None
    assert standing.alarm.gone is not None


def test_a_draft_of_another_stream_is_no_alarm(bench: Bench) -> None:
    bench.journal.append([Draft("alarms", "something_else", {})])
    again = bench.again()
    assert again.kinds() == []
    assert again.alarms.cause("nothing") is None
    again.close()
