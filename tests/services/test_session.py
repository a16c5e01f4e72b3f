"""The session on the real journal and a hand-moved clock."""

import math

import pytest

from shopassist.clock.manual import ManualClock
from shopassist.core.errors import RefusedError, StoreError
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.timeline import Finding
from shopassist.services import session as module
from shopassist.services.session import Session
from shopassist.store.journal import SqliteJournal
from tests.services.session_bench import Refusing, kinds, started, wait


def test_the_first_start_is_journalled_and_finds_nothing(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    session = Session(journal, clock)
    assert session.start() == ()
    assert (session.after, kinds(journal)) == ("first", ["born", "started"])


def test_a_start_tells_an_orderly_end_from_a_crash(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    first = started(journal, clock)
    second = started(journal, clock)
    assert second.after == "crash"
    first.end()
    third = started(journal, clock)
    assert third.after == "quit"


def test_a_lost_heartbeat_is_a_crash_and_the_rows_stand_in(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    started(journal, clock)
    row = wait(journal)
    journal.connection.execute("DELETE FROM heartbeat")
    clock.moved = None
    clock.reboot(600)
    session = started(journal, clock)
    assert session.after == "crash"
    assert session.elapsed(row).likely == 600.0


def test_only_findings_are_journalled(journal: SqliteJournal, clock: ManualClock) -> None:
    started(journal, clock)
    before = kinds(journal)
    clock.advance(7200)
    assert kinds(journal) == before
    beat = journal.heartbeat()
    assert beat is not None and beat.reading == clock.read()


def test_suspend_step_zone_and_restart_are_journalled_then_told(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    session = started(journal, clock)
    told: list[Finding] = []
    rows_when_told: list[int] = []

    def listen(found: tuple[Finding, ...]) -> None:
        told.extend(found)
        rows_when_told.append(len(kinds(journal)))

    session.findings.connect(listen)
    clock.suspend(900)
    clock.step(-3600)
    clock.set_zone(3600)
    assert [one.kind for one in told] == ["suspended", "clock_stepped", "zone_changed"]
    assert kinds(journal)[2:] == ["suspended", "clock_stepped", "zone_changed"]
    assert rows_when_told == [3, 4, 5]


def test_a_restart_of_the_machine_is_found_at_the_start(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    session = started(journal, clock)
    row = wait(journal)
    clock.advance(100)
    session.end()
    clock.moved = None
    clock.reboot(3600)
    again = Session(journal, clock)
    found = again.start()
    assert [one.kind for one in found] == ["rebooted"]
    assert kinds(journal)[-2:] == ["started", "rebooted"]
    clock.advance(60)
    assert again.elapsed(row).likely == 3760.0


def test_a_doubted_clock_is_found_and_the_users_word_settles_it(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    session = started(journal, clock)
    row = wait(journal)
    session.end()
    clock.moved = None
    clock.reboot(-5000)
    again = Session(journal, clock)
    assert [one.kind for one in again.start()] == ["rebooted", "clock_doubted"]
    clock.advance(60)
    assert (again.elapsed(row).low, again.elapsed(row).high) == (60.0, math.inf)
    again.settle(Second(1800.0))
    assert again.elapsed(row).likely == 1860.0
    third = Session(journal, clock)
    third.start()
    assert third.elapsed(row).likely == 1860.0


@pytest.mark.parametrize("off", [-1.0, math.inf, math.nan])
def test_what_is_no_length_of_time_settles_nothing(
    journal: SqliteJournal, clock: ManualClock, off: float
) -> None:
    session = started(journal, clock)
    with pytest.raises(RefusedError):
        session.settle(Second(off))
    assert "clock_settled" not in kinds(journal)


def test_sticky_hands_back_date_a_start_and_it_counts(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    session = started(journal, clock)
    row = wait(journal, UtcSecond(clock.read().utc - 120))
    clock.advance(60)
    assert session.elapsed(row).likely == 180.0


def test_between_two_rows_counts_from_happening_to_happening(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    session = started(journal, clock)
    first = wait(journal)
    clock.advance(600)
    second = wait(journal, UtcSecond(clock.read().utc - 300))
    assert session.between(first, second).likely == 300.0
    early = wait(journal, UtcSecond(clock.read().utc - 5000))
    assert session.between(first, early).likely == 0.0


def test_a_wait_older_than_the_tail_is_measured_over_all_restarts(
    journal: SqliteJournal, clock: ManualClock, monkeypatch: pytest.MonkeyPatch
) -> None:
    session = started(journal, clock)
    row = wait(journal)
    begun = clock.read().utc
    monkeypatch.setattr(module, "TAIL", 4)
    for _ in range(6):
        clock.advance(60)
        session.end()
        clock.moved = None
        clock.reboot(600)
        session = started(journal, clock)
    assert session.elapsed(row).likely == clock.read().utc - begun
    assert session.elapsed(row, clock.read()).doubted is False


def test_a_finding_that_cannot_be_written_is_told_at_once_and_written_later(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    refusing = Refusing(journal)
    session = Session(refusing, clock)
    session.start()
    clock.moved = session.beat
    told: list[str] = []
    troubles: list[StoreError] = []
    session.findings.connect(lambda found: told.extend(one.kind for one in found))
    session.trouble.connect(troubles.append)
    refusing.full = True
    clock.suspend(900)
    assert told == ["suspended"] and len(troubles) == 1
    assert "suspended" not in kinds(journal)
    refusing.full = False
    clock.advance(30)
    assert kinds(journal)[-1] == "suspended" and told == ["suspended"]


def test_an_end_that_cannot_be_written_is_told(journal: SqliteJournal, clock: ManualClock) -> None:
    refusing = Refusing(journal)
    session = Session(refusing, clock)
    session.end()
    session.start()
    troubles: list[StoreError] = []
    session.trouble.connect(troubles.append)
    refusing.full = True
    session.end()
    assert troubles
    session.beat()
    beat = journal.heartbeat()
    assert beat is not None and beat.running


@pytest.mark.parametrize("moved", [1.5, -1.5, 0.4])
def test_a_small_step_before_a_restart_is_not_taken_for_time_off(
    journal: SqliteJournal, clock: ManualClock, moved: float
) -> None:
    """Known before the next start: the heartbeat saw how the wall clock stood last."""
    started(journal, clock)
    begun = wait(journal)
    clock.advance(600.0)
    clock.step(moved)
    clock.moved = None
    clock.reboot(3600.0)
    second = started(journal, clock)
    assert second.elapsed(begun).likely == pytest.approx(4200.0, abs=1e-3)
    clock.moved = None
    clock.reboot(3600.0)
    assert started(journal, clock).elapsed(begun).likely == pytest.approx(7800.0, abs=1e-3)
