"""A fair sample of the long proofs; the full counts belong to the command for proofs."""

import sys

import pytest

from shopassist.core.pot.events import Event
from shopassist.core.pot.words import Belief
from shopassist.services.pot import PotService
from tests.proofs import entry_fuzz, kill_loop, pot_faults, pot_kills, write_faults


def test_no_acknowledged_row_is_lost_to_a_kill() -> None:
    report = kill_loop.run(25, 11)
    assert report.passed, report.failures
    assert report.figures["rows lost"] == 0
    assert report.figures["rows acknowledged"] > 50


@pytest.mark.parametrize("seed", [0, 60, 120, 180])
def test_whatever_call_to_the_disk_fails_nothing_is_lost(seed: int) -> None:
    report = write_faults.run(20, seed)
    assert report.passed, report.failures


def test_the_full_count_of_faults_meets_every_call_in_every_way() -> None:
    assert write_faults.calls_in_all() * len(write_faults.WAYS) <= write_faults.FULL


def test_whatever_is_typed_is_read_or_refused_and_what_is_shown_reads_back() -> None:
    report = entry_fuzz.run(4_000, 7)
    assert report.passed, report.failures[:5]
    assert report.figures["read"] > 80
    assert report.figures["shown and read back"] > 1_000
    assert report.figures["two meanings refused"] > 200


@pytest.mark.parametrize("seed", [0, 1_100, 2_500, 2_850, 3_000, 3_150])
def test_whatever_goes_wrong_in_a_run_the_pot_is_never_clearer(seed: int) -> None:
    report = pot_faults.run(3, seed)
    assert report.passed, report.failures


def test_the_full_count_meets_every_statement_and_every_answer_of_a_run() -> None:
    calls, answers = pot_faults.extent()
    places = calls * len(pot_faults.WAYS) + answers * len(pot_faults.TURNS)
    assert places <= pot_faults.FULL


def test_a_service_that_shrugs_at_an_unwritten_row_is_found_out(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(PotService, "_forget", lambda *_: None)
    assert any("not written, yet" in line for line in pot_faults.run(4, 300).failures)


def test_a_service_that_takes_a_failed_row_for_written_is_found_out(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    real = PotService._commit

    def careless(self: PotService, pot_id: str, events: list[Event]) -> None:
        real(self, pot_id, events)

    monkeypatch.setattr(PotService, "_commit", careless)
    assert any("is lost" in line for line in pot_faults.run(4, 300).failures)


@pytest.mark.skipif(sys.platform == "win32", reason="SIGKILL is of other systems")
def test_a_kill_in_the_middle_of_a_list_loses_no_answer_and_clears_no_pot() -> None:
    report = pot_kills.run(25, 11)
    assert report.passed, report.failures
    assert report.figures["rows acknowledged"] > 50


@pytest.mark.skipif(sys.platform == "win32", reason="SIGKILL is of other systems")
def test_a_start_that_forgets_to_doubt_is_found_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(PotService, "start", lambda *_: None)
    failures = pot_kills.run(25, 11).failures
    signs = (*(f"still {belief}" for belief in Belief), "lifted with air in the pot")
    assert any(sign in line for line in failures for sign in signs)
