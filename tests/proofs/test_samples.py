"""A fair sample of the long proofs; the full counts belong to the command for proofs."""

import pytest

from tests.proofs import entry_fuzz, kill_loop, write_faults


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
