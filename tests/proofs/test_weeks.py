"""A sample of the simulated weeks; the full count belongs to the command for proofs."""

from tests.proofs import weeks


def test_no_week_of_faults_calls_a_hazard_later_or_a_release_earlier() -> None:
    report = weeks.run(3, 11)
    assert report.passed, report.failures
    assert report.figures["gates compared"] > 100
    assert report.figures["alarms raised"] > 10
    assert report.figures["most seconds a day off"] <= weeks.A_DAY
