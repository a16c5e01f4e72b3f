from pathlib import Path

import pytest

from chores import phases
from chores.gates import GATES, gate_arguments
from chores.phases import Outcome, Phase, closing_line, summary
from chores.wheel import expected, problems


@pytest.mark.parametrize(
    "line",
    [
        "============================== 62 passed in 4.76s ==============================",
        "=========== 1 failed, 61 passed, 2 skipped in 64.76s (0:01:04) ===========",
        "\x1b[32m====== \x1b[32m\x1b[1m62 passed\x1b[0m\x1b[32m in 4.76s\x1b[0m\x1b[32m ======\x1b[0m",
        "2 errors in 0.31s",
    ],
)
def test_the_closing_line_of_pytest_is_known(line: str) -> None:
    assert closing_line(line)


@pytest.mark.parametrize("line", ["5 passed the wheel", "collected 3 items", "passed in 3 s", ""])
def test_other_lines_are_not(line: str) -> None:
    assert not closing_line(line)


def test_a_failed_phase_hides_none_after_it_and_makes_the_run_fail(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    ran: list[str] = []

    def fake(python: Path, qt_free: Path, closing: list[str]) -> list[Phase]:
        def act(name: str, status: int) -> int:
            ran.append(name)
            return status

        closing.append("== 3 passed in 1.00s ==")
        return [Phase("lint", lambda: act("lint", 1)), Phase("wheel", lambda: act("wheel", 0))]

    monkeypatch.setattr(phases, "_phases", fake)
    monkeypatch.setattr("chores.phases.environment.ensure_qt_free", lambda: Path("python"))
    assert phases.everything(Path("python")) == 1
    assert ran == ["lint", "wheel"]
    lines = capsys.readouterr().out.splitlines()
    assert lines[-1] == "== 3 passed in 1.00s =="
    assert "Failed: lint. 0 s after installing." in lines


def test_the_summary_names_what_failed_and_the_times() -> None:
    text = summary([Outcome("lint", 0, 1.25), Outcome("types", 2, 10.0)])
    assert "lint   ok         1.2 s" in text
    assert text.endswith("Failed: types. 11 s after installing.")
    assert "Every phase passed." in summary([Outcome("lint", 0, 1.0)])


def test_the_order_is_cheap_first() -> None:
    names = [phase.name for phase in phases._phases(Path("p"), Path("q"), [])]
    assert names[:6] == ["format", "lint", "layers", "types", "core without Qt", "all tests"]
    assert names[-1] == "wheel"


def test_the_core_is_held_to_every_branch() -> None:
    leasts = {gate.name: gate.least for gate in GATES}
    assert leasts == {
        "core": 100, "services": 95, "presenters": 95, "store": 95, "clocks": 95, "means": 95,
        "everything": 95,
    }  # fmt: skip
    assert "--fail-under=100" in gate_arguments(GATES[0])


def test_a_wheel_must_carry_program_and_resources_and_no_tests(tmp_path: Path) -> None:
    for name in ("shopassist/app.py", "shopassist/__pycache__/app.pyc", "resources/units/u.txt"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).touch()
    wanted = expected(tmp_path)
    assert wanted == {"shopassist/app.py", "shopassist/_resources/units/u.txt"}
    assert problems([*wanted, "shopassist-0.1.0.dist-info/METADATA"], wanted) == []
    found = problems(["shopassist/app.py", "tests/test_x.py"], wanted)
    assert found == [
        "missing from the wheel: shopassist/_resources/units/u.txt",
        "does not belong into the wheel: tests/test_x.py",
    ]
