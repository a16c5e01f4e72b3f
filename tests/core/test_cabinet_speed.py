"""A sample of the proof: six hours of one cabinet; the ratio of times is the proof's own."""

import pytest

from tests.proofs import cabinet_speed

pytestmark = pytest.mark.proof


def test_a_general_solver_comes_to_the_same_temperatures(monkeypatch: pytest.MonkeyPatch) -> None:
    pytest.importorskip("scipy")
    monkeypatch.setattr(cabinet_speed, "LENGTH", 6 * 3600.0)
    monkeypatch.setattr(cabinet_speed, "FASTER", 0.0)
    report = cabinet_speed.run(1, 3)
    assert report.passed, report.failures
    assert 0 < report.figures["most kelvin between them"] < 1e-3


def test_the_proof_fails_where_the_temperatures_differ(monkeypatch: pytest.MonkeyPatch) -> None:
    pytest.importorskip("scipy")
    monkeypatch.setattr(cabinet_speed, "LENGTH", 3600.0)
    monkeypatch.setattr(cabinet_speed, "TOLERANCE", 1e-2)
    monkeypatch.setattr(cabinet_speed, "NEAR", 1e-5)
    assert not cabinet_speed.run(1, 3).passed
