"""What a session holds to: the range between two rows, unwritten findings, its own end."""

from contextlib import nullcontext
from dataclasses import replace

import pytest

from shopassist.clock.manual import ManualClock
from shopassist.core.errors import RefusedError, StoreError
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Reading, Row
from shopassist.core.timeline import EARLIEST, LATEST, Elapsed
from shopassist.services import session as module
from shopassist.services.session import Session
from shopassist.store.journal import SqliteJournal
from tests.services.session_bench import Refusing, kinds, started, wait

LIFETIME = LATEST - EARLIEST


def before_the_tail(
    journal: SqliteJournal, clock: ManualClock, monkeypatch: pytest.MonkeyPatch
) -> Row:
    """A wait that the next start does not read any more: two starts of the machine lie between."""
    started(journal, clock).end()
    row = wait(journal)
    monkeypatch.setattr(module, "TAIL", 1)
    clock.moved = None
    clock.reboot(600)
    Session(journal, clock).start()
    clock.reboot(600)
    return row


def test_a_machine_left_on_without_the_program_slept_through_nothing(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    started(journal, clock).end()
    clock.moved = None
    clock.advance(3600)
    assert Session(journal, clock).start() == ()


def test_without_a_heartbeat_the_last_row_says_how_the_clocks_stood(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    started(journal, clock)
    clock.advance(300)
    clock.step(-3600)
    last = journal.read("shop")[-1].recorded
    journal.connection.execute("DELETE FROM heartbeat")
    clock.moved = None
    clock.reboot(600)
    (found,) = Session(journal, clock).start()
    assert (found.kind, found.before, found.length) == ("rebooted", last, 600.0)


def test_an_end_marks_the_moment_and_nothing_after_it(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    session = started(journal, clock)
    clock.moved = None
    clock.advance(5)
    ended = clock.read()
    session.end()
    clock.advance(5)
    session.beat()
    session.end()
    beat = journal.heartbeat()
    assert beat is not None
    assert (beat.running, beat.reading) == (False, ended)


def test_an_end_whose_mark_alone_cannot_be_written_is_told(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    refusing = Refusing(journal)
    session = Session(refusing, clock)
    session.start()
    troubles: list[StoreError] = []
    session.trouble.connect(troubles.append)

    def full_at_the_end(reading: Reading, *, running: bool = True) -> None:
        if not running:
            raise StoreError("The disk is full.")

    refusing.beat = full_at_the_end  # type: ignore[method-assign]
    session.end()
    assert len(troubles) == 1


def test_a_session_is_well_while_it_can_write(journal: SqliteJournal, clock: ManualClock) -> None:
    refusing = Refusing(journal)
    session = Session(refusing, clock)
    assert session.well
    session.start()
    for full in (False, True, False):
        refusing.full = full
        session.beat()
        assert session.well is not full


def test_a_moved_clock_counts_even_where_it_could_not_be_written(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    started(journal, clock)
    row = wait(journal)
    clock.moved = None
    clock.reboot(600)
    refusing = Refusing(journal)
    session = Session(refusing, clock)
    session.start()
    clock.advance(60)
    refusing.full = True
    clock.step(3600)
    session.beat()
    span = session.elapsed(row)
    assert (span.low, span.high) == (660.0, 4260.0)


def test_a_session_that_has_not_begun_measures_within_one_run_of_the_machine(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    row = wait(journal)
    clock.advance(60)
    assert Session(journal, clock).elapsed(row).likely == 60.0


def test_what_is_said_to_happen_after_its_record_counts_from_its_record(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    session = started(journal, clock)
    row = wait(journal)
    ahead = replace(row, happened=UtcSecond(row.recorded.utc + 5000))
    clock.advance(60)
    assert session.elapsed(ahead).likely == 60.0


@pytest.mark.parametrize(("off", "taken"), [(0.0, True), (LIFETIME - 1, True), (LIFETIME, False)])
def test_a_gap_may_be_nothing_and_must_be_less_than_the_believed_years(
    journal: SqliteJournal, clock: ManualClock, off: float, taken: bool
) -> None:
    session = started(journal, clock)
    with nullcontext() if taken else pytest.raises(RefusedError):
        session.settle(Second(off))
    assert ("clock_settled" in kinds(journal)) is taken


# -- apart ------------------------------------------------------------------------------------------


def ends(span: Elapsed) -> tuple[float, float, float]:
    return span.low, span.likely, span.high


def test_two_rows_are_as_far_apart_as_they_happened_whichever_was_written_first(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    session = started(journal, clock)
    first = wait(journal, UtcSecond(clock.read().utc - 100))
    clock.advance(600)
    second = wait(journal, UtcSecond(clock.read().utc - 30))
    assert ends(session.apart(first, second)) == (670.0, 670.0, 670.0)
    assert ends(session.apart(second, first)) == (-670.0, -670.0, -670.0)
    before = wait(journal, UtcSecond(clock.read().utc - 900))
    assert ends(session.apart(first, before)) == (-200.0, -200.0, -200.0)
    assert ends(session.apart(first, first)) == (0.0, 0.0, 0.0)


def test_a_clock_moved_between_two_rows_moves_neither(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    session = started(journal, clock)
    first = wait(journal)
    clock.advance(600)
    clock.step(-3600)
    second = wait(journal, UtcSecond(clock.read().utc - 30))
    assert session.apart(first, second).likely == 570.0
    assert session.apart(second, first).likely == -570.0


def test_two_rows_with_a_doubt_between_them_are_apart_by_a_range(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    session = started(journal, clock)
    first = wait(journal)
    clock.moved = None
    clock.reboot(600 + 7200)
    session = started(journal, clock)
    clock.advance(10)
    clock.step(-7200)
    second = wait(journal, UtcSecond(clock.read().utc - 5))
    assert ends(session.apart(first, second)) == (605.0, 7805.0, 7805.0)
    assert ends(session.apart(second, first)) == (-7805.0, -7805.0, -605.0)


# -- waits from before the rows that are read at the start -----------------------------------------


def test_a_clock_that_was_moved_long_ago_is_found_in_the_rows_before_the_tail(
    journal: SqliteJournal, clock: ManualClock, monkeypatch: pytest.MonkeyPatch
) -> None:
    session = started(journal, clock)
    row = wait(journal)
    clock.advance(60)
    clock.step(-3600)  # as far as the wall clock alone can tell an hour less went by
    monkeypatch.setattr(module, "TAIL", 4)
    for _ in range(6):
        session.end()
        clock.moved = None
        clock.reboot(600)
        session = started(journal, clock)
    reads: list[str] = []
    read = journal.read

    def counted(stream: str, after: int = 0) -> tuple[Row, ...]:
        reads.append(stream)
        return read(stream, after)

    monkeypatch.setattr(journal, "read", counted)
    off = 60 + 6 * 600
    assert ends(session.elapsed(row)) == (off, off, off)
    assert ends(session.between(row, wait(journal))) == (off, off, off)
    assert reads == ["shop"], "all is read once, and kept"


def test_a_wait_from_before_the_tail_counts_a_step_that_could_not_be_written(
    journal: SqliteJournal, clock: ManualClock, monkeypatch: pytest.MonkeyPatch
) -> None:
    row = before_the_tail(journal, clock, monkeypatch)
    refusing = Refusing(journal)
    session = Session(refusing, clock)
    session.start()
    refusing.full = True
    clock.step(3600)
    session.beat()
    assert ends(session.elapsed(row)) == (1200.0, 1200.0, 4800.0)


def test_a_session_that_ended_still_reads_what_lies_before_its_tail(
    journal: SqliteJournal, clock: ManualClock, monkeypatch: pytest.MonkeyPatch
) -> None:
    row = before_the_tail(journal, clock, monkeypatch)
    session = started(journal, clock)
    session.end()
    assert session.elapsed(row).likely == 1200.0


def test_what_lies_within_the_tail_is_measured_without_reading_on(
    journal: SqliteJournal, clock: ManualClock, monkeypatch: pytest.MonkeyPatch
) -> None:
    session = started(journal, clock)
    row = wait(journal)
    for _ in range(2):
        session.end()
        clock.moved = None
        clock.reboot(600)
        session = started(journal, clock)
    monkeypatch.setattr(journal, "read", None)
    assert session.elapsed(row).likely == 1200.0
