"""A fair sample of the long proofs; the full counts belong to the command for proofs."""

import pytest

from tests.proofs import kill_loop, write_faults


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
