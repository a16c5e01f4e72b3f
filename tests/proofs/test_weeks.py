"""A sample of the simulated weeks; the full count belongs to the command for proofs."""

import pytest

from shopassist.services.alarms import AlarmService
from tests.proofs import weeks


def test_no_week_of_faults_calls_a_hazard_later_or_a_release_earlier() -> None:
    report = weeks.run(3, 11)
    assert report.passed, report.failures
    assert report.figures["gates compared"] > 100
    assert report.figures["alarms raised"] > 10
    assert report.figures["most seconds a day off"] <= weeks.A_DAY


def test_a_call_that_comes_late_is_found_out(monkeypatch: pytest.MonkeyPatch) -> None:
    tick, looks = AlarmService.tick, [0]

    def drowsy(self: AlarmService) -> None:
        looks[0] += 1
        if looks[0] % 3 == 0:
            tick(self)

    monkeypatch.setattr(AlarmService, "tick", drowsy)
    assert any("not called" in line for line in weeks.run(2, 11).failures)
