"""Rows in a file: appended, chained, never rewritten."""

import sqlite3
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from shopassist.clock.manual import ManualClock
from shopassist.core.errors import RefusedError, StoreError
from shopassist.core.quantities import UtcSecond
from shopassist.core.rows import Draft, Json
from shopassist.store import chain
from shopassist.store.journal import SqliteJournal
from shopassist.store.opening import check, open_journal

REST = "version, utc, since_boot, boot_id, utc_offset, happened, body, hash FROM row WHERE seq = 2"


def test_rows_come_back_as_they_were_committed(journal: SqliteJournal, clock: ManualClock) -> None:
    body: dict[str, Json] = {"text": "½ in – 3,5 kg", "value": 0.1 + 0.2, "more": [1, None, True]}
    committed = journal.append([Draft("batch/1", "entry", body), Draft("batch/1", "note")])
    assert journal.read("batch/1") == committed
    assert [row.stream_seq for row in committed] == [1, 2]
    assert committed[0].body == body
    assert {row.recorded for row in committed} == {clock.read()}
    assert journal.read("batch/1", after=1) == committed[1:]
    assert journal.append([]) == ()


def test_rows_are_the_same_after_opening_again(
    journal: SqliteJournal, path: Path, clock: ManualClock
) -> None:
    committed = journal.append([Draft("batch/1", "opened", {"n": n}) for n in range(100)])
    journal.close()
    again = open_journal(path, clock, manual=True)
    assert again.read("batch/1") == committed
    assert again.tail("batch/1", 3) == committed[-3:]
    assert again.row(committed[7].seq) == committed[7]
    again.close()


def test_streams_are_listed_by_their_beginning_oldest_first(journal: SqliteJournal) -> None:
    for stream in ("batch/2", "pot/1", "batch/1", "batch/2", "bat_h/x", "batch%"):
        journal.append([Draft(stream, "opened")])
    assert journal.streams("batch/") == ("batch/2", "batch/1")
    assert journal.streams("bat_") == ("bat_h/x",)
    assert journal.streams() == ("shop", "batch/2", "pot/1", "batch/1", "bat_h/x", "batch%")
    assert journal.read("nothing") == ()


def test_nothing_happens_after_its_recording(journal: SqliteJournal, clock: ManualClock) -> None:
    now = clock.read().utc
    row = journal.append([Draft("batch/1", "hardener_in", {}, UtcSecond(now - 120))])[0]
    assert row.happened == now - 120
    with pytest.raises(RefusedError):
        journal.append([Draft("batch/1", "poured", {}, UtcSecond(now + 1))])
    assert len(journal.read("batch/1")) == 1


def test_a_pot_row_is_as_of_now(journal: SqliteJournal, clock: ManualClock) -> None:
    now = clock.read().utc
    with pytest.raises(RefusedError):
        journal.append([Draft("pot/1", "zero", {}, UtcSecond(now - 1))])
    assert journal.append([Draft("pot/1", "zero", {}, now)])[0].happened == now


def test_a_refused_draft_keeps_the_others_out(journal: SqliteJournal, clock: ManualClock) -> None:
    later = UtcSecond(clock.read().utc + 1)
    with pytest.raises(RefusedError):
        journal.append([Draft("batch/1", "opened"), Draft("batch/1", "poured", {}, later)])
    assert journal.streams("batch/") == ()


def test_a_body_that_is_not_a_number_is_a_bug_and_writes_nothing(journal: SqliteJournal) -> None:
    with pytest.raises(ValueError, match="JSON"):
        journal.append([Draft("batch/1", "entry", {"value": float("nan")})])
    assert journal.streams("batch/") == ()


@pytest.mark.parametrize(
    "sql",
    ["UPDATE row SET kind = 'x'", "DELETE FROM row WHERE seq = 2",
     f"INSERT OR REPLACE INTO row SELECT seq, stream, stream_seq, 'x', {REST}",
     f"INSERT INTO row SELECT seq + 7, stream, stream_seq + 7, 'x', {REST}",
     "UPDATE sample SET data = x'00'", "DELETE FROM sample"],
)  # fmt: skip
def test_the_file_itself_refuses_to_change_what_is_written(
    journal: SqliteJournal, path: Path, sql: str
) -> None:
    journal.append_block(Draft("batch/1", "log"), [(UtcSecond(1.0), 2.0)])
    other = sqlite3.connect(path, isolation_level=None)
    with pytest.raises(sqlite3.IntegrityError):
        other.execute(sql)
    other.close()
    assert journal.read("batch/1")[0].kind == "log"


def test_the_chain_covers_every_cell(journal: SqliteJournal) -> None:
    (row,) = journal.append([Draft("batch/1", "entry", {"a": 1})])
    before = journal.row(row.seq - 1).hash
    reading = row.recorded
    cells: tuple[Any, ...] = (
        row.seq, row.stream, row.stream_seq, row.kind, row.version, float(reading.utc),
        float(reading.since_boot), reading.boot_id, float(reading.utc_offset),
        float(row.happened), '{"a":1}',
    )  # fmt: skip
    assert chain.digest(cells, before) == row.hash
    for place, cell in enumerate(cells):
        other = cell + "x" if isinstance(cell, str) else cell + 1
        changed = (*cells[:place], other, *cells[place + 1 :])
        assert chain.digest(changed, before) != row.hash
    assert chain.digest(cells, "0" * 64) != row.hash


def tamper(path: Path, sql: str) -> None:
    db = sqlite3.connect(path, isolation_level=None)
    for name in ("row_never_rewritten", "row_never_removed", "row_only_appended",
                 "sample_never_rewritten", "sample_never_removed"):  # fmt: skip
        db.execute(f"DROP TRIGGER {name}")
    db.execute(sql)
    db.close()


@pytest.mark.parametrize(
    "sql",
    ["UPDATE row SET body = '{\"a\":2}' WHERE seq = 3", "UPDATE row SET utc = utc + 1",
     "UPDATE row SET body = 'no json' WHERE seq = 3", "DELETE FROM row WHERE seq = 3",
     "DELETE FROM row WHERE seq = 2",
     "UPDATE row SET stream_seq = 9 WHERE seq = 3", "DELETE FROM row WHERE seq > 3"],
)  # fmt: skip
def test_a_row_altered_or_taken_away_is_never_accepted(
    journal: SqliteJournal, path: Path, clock: ManualClock, sql: str
) -> None:
    journal.append([Draft("batch/1", "entry", {"a": n}) for n in range(5)])
    journal.beat(clock.read())
    journal.close()
    tamper(path, sql)
    assert check(path)
    with pytest.raises(StoreError):
        open_journal(path, clock, manual=True)


def test_an_old_row_altered_is_found_when_read_and_by_the_full_check(
    journal: SqliteJournal, path: Path, clock: ManualClock
) -> None:
    journal.append([Draft("batch/1", "entry", {"a": n}) for n in range(5)])
    journal.append([Draft("batch/2", "entry", {"a": n}) for n in range(200)])
    journal.close()
    tamper(path, "UPDATE row SET stream_seq = 90 WHERE seq = 4")
    again = open_journal(path, clock, manual=True)
    assert again.read("batch/2")
    with pytest.raises(StoreError):
        again.read("batch/1")
    with pytest.raises(StoreError):
        again.row(9999)
    again.close()
    found = check(path)
    assert any(dict(text.params).get("seq") == 4 for text in found)


def test_a_missing_row_within_a_stream_is_found_when_read(
    journal: SqliteJournal, path: Path, clock: ManualClock
) -> None:
    journal.append([Draft("batch/1", "entry", {"a": n}) for n in range(5)])
    journal.append([Draft("batch/2", "entry", {"a": n}) for n in range(200)])
    journal.close()
    tamper(path, "DELETE FROM row WHERE seq = 4")
    again = open_journal(path, clock, manual=True)
    with pytest.raises(StoreError):
        again.read("batch/1")
    again.close()


def test_a_gap_in_a_stream_with_whole_hashes_is_found_when_read(
    journal: SqliteJournal, path: Path, clock: ManualClock, monkeypatch: pytest.MonkeyPatch
) -> None:
    journal.append([Draft("batch/1", "entry")])
    monkeypatch.setattr(journal, "_newest", lambda _stream: 5)
    journal.append([Draft("batch/1", "entry")])
    with pytest.raises(StoreError):
        journal.read("batch/1")
    assert check(path)


def test_an_empty_chain_is_never_accepted(
    journal: SqliteJournal, path: Path, clock: ManualClock
) -> None:
    journal.close()
    tamper(path, "DELETE FROM row")
    with pytest.raises(StoreError):
        open_journal(path, clock, manual=True)


def test_the_heartbeat_is_one_row_that_is_overwritten(
    journal: SqliteJournal, clock: ManualClock
) -> None:
    assert journal.heartbeat() is None
    journal.beat(clock.read())
    clock.advance(30)
    journal.beat(clock.read(), running=False)
    beat = journal.heartbeat()
    assert beat is not None
    assert (beat.reading, beat.running, beat.seq) == (clock.read(), False, 1)


def test_a_damaged_heartbeat_is_not_believed_and_is_found(
    journal: SqliteJournal, path: Path, clock: ManualClock
) -> None:
    journal.beat(clock.read())
    journal.connection.execute("UPDATE heartbeat SET utc = utc + 1")
    assert journal.heartbeat() is None
    assert [text.template for text in check(path)] == [
        "The last sign of life in the log is damaged."
    ]


def test_samples_come_back_and_hang_on_one_row(journal: SqliteJournal, path: Path) -> None:
    samples = tuple((UtcSecond(1e9 + n), 293.15 + n / 7) for n in range(1000))
    row = journal.append_block(Draft("batch/1", "log", {"where": "cabinet"}), samples)
    assert journal.block(row) == samples
    assert (row.body["samples"], row.body["where"]) == (1000, "cabinet")
    assert check(path) == ()
    with pytest.raises(StoreError):
        journal.block(replace(row, body={"sha256": "0"}))


@pytest.mark.parametrize("sql", ["UPDATE sample SET data = x'0000'", "DELETE FROM sample"])
def test_samples_altered_or_taken_away_are_found(
    journal: SqliteJournal, path: Path, clock: ManualClock, sql: str
) -> None:
    row = journal.append_block(Draft("batch/1", "log"), [(UtcSecond(1.0), 2.0)])
    journal.close()
    tamper(path, sql)
    again = open_journal(path, clock, manual=True)
    with pytest.raises(StoreError):
        again.block(row)
    again.close()
    assert any("amples" in text.template for text in check(path))


def test_a_kept_fold_is_given_back_for_its_version_alone(journal: SqliteJournal) -> None:
    journal.append([Draft("batch/1", "opened")])
    assert journal.load_folds(["batch/1"], 1) == {}
    journal.save_folds([("batch/1", 1, {"name": "Knobs"})], 1)
    assert journal.load_folds(["batch/1", "batch/2"], 1) == {"batch/1": {"name": "Knobs"}}
    assert journal.load_folds(["batch/1"], 2) == {}
    journal.save_folds([("batch/1", 2, {"name": "ahead of the rows"})], 1)
    assert journal.load_folds(["batch/1"], 1) == {}


def test_a_kept_fold_is_overtaken_by_the_next_row(journal: SqliteJournal) -> None:
    journal.append([Draft("batch/1", "opened")])
    journal.save_folds([], 1)
    journal.save_folds([("batch/1", 1, {"name": "Knobs"})], 1)
    journal.append([Draft("batch/1", "named")])
    assert journal.load_folds(["batch/1"], 1) == {}


def test_an_altered_fold_is_not_believed(journal: SqliteJournal) -> None:
    journal.append([Draft("batch/1", "opened")])
    journal.save_folds([("batch/1", 1, {"name": "Knobs"})], 1)
    journal.connection.execute("UPDATE fold SET result = '{}'")
    assert journal.load_folds(["batch/1"], 1) == {}


def test_a_fold_is_never_kept_of_a_pot(journal: SqliteJournal) -> None:
    with pytest.raises(RefusedError):
        journal.save_folds([("pot/1", 1, {})], 1)


def test_a_fold_that_cannot_be_kept_or_read_costs_nothing(journal: SqliteJournal) -> None:
    journal.connection.execute("DROP TABLE fold")
    journal.save_folds([("batch/1", 1, {})], 1)
    assert journal.load_folds(["batch/1"], 1) == {}
