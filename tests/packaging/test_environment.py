import copy
import json
import sys
import tomllib
from pathlib import Path
from typing import Any

import pytest

from chores import environment
from chores.environment import lacking, made_by, requirements, stamp, stamps_of
from chores.ground import PYPROJECT, SetupError, clean_environment, python_of, scratch

HERE = f"{sys.version_info.major}.{sys.version_info.minor}"


@pytest.fixture
def project() -> dict[str, Any]:
    return tomllib.loads(PYPROJECT.read_text("utf-8"))


def test_the_stamp_changes_with_the_requirements_alone(project: dict[str, Any]) -> None:
    root = Path("here")
    before = stamp(project, "dev", root)
    lint = copy.deepcopy(project)
    lint["tool"]["ruff"]["line-length"] = 7
    assert stamp(lint, "dev", root) == before
    more = copy.deepcopy(project)
    more["project"]["optional-dependencies"]["dev"].append("another")
    assert stamp(more, "dev", root) != before
    assert stamp(more, "", root) == stamp(project, "", root)
    assert stamp(project, "dev", Path("moved")) != before


def test_the_qt_free_environment_takes_its_versions_from_the_project(
    project: dict[str, Any],
) -> None:
    lines = requirements(project, environment.QT_FREE_PACKAGES)
    assert len(lines) == len(environment.QT_FREE_PACKAGES)
    assert not [line for line in lines if "qt" in line.lower() or "pyside" in line.lower()]


def test_unreadable_stamps_count_as_none(tmp_path: Path) -> None:
    assert stamps_of(tmp_path) == {}
    (tmp_path / "stamps.json").write_text("{half", "utf-8")
    assert stamps_of(tmp_path) == {}
    (tmp_path / "stamps.json").write_text("[1]", "utf-8")
    assert stamps_of(tmp_path) == {}
    (tmp_path / "stamps.json").write_text('{"dev": "x"}', "utf-8")
    assert stamps_of(tmp_path) == {"dev": "x"}


@pytest.mark.parametrize("line", ["version = 3.11.2", "version_info = 3.11.2.final.0"])
def test_an_environment_knows_its_python(line: str, tmp_path: Path) -> None:
    assert made_by(tmp_path) == ""
    (tmp_path / "pyvenv.cfg").write_text(f"home = somewhere\n{line}\n", "utf-8")
    assert made_by(tmp_path) == "3.11"


def test_a_missing_environment_maker_is_told_with_its_line() -> None:
    assert lacking({"venv": True, "ensurepip": True}) == ""
    one = lacking({"venv": True, "ensurepip": False})
    assert "lacks its standard module ensurepip" in one
    assert f"sudo apt-get install python{HERE}-venv" in one
    assert "modules venv and ensurepip" in lacking({"venv": False, "ensurepip": False})


class Commands:
    """Stands in for the processes: notes them, and makes the interpreter that venv would make."""

    def __init__(self, venv: Path, status: int = 0) -> None:
        self.ran: list[list[str]] = []
        self.status = status
        self.venv = venv

    def __call__(self, command: list[str], *, quiet: bool = True) -> int:
        self.ran.append(command)
        if "venv" in command:
            python_of(self.venv).parent.mkdir(parents=True, exist_ok=True)
            python_of(self.venv).touch()
            (self.venv / "pyvenv.cfg").write_text(f"version = {HERE}.1\n", "utf-8")
        return self.status if "install" in command else 0


@pytest.fixture
def commands(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Commands:
    made = Commands(tmp_path / ".venv")
    monkeypatch.setattr(environment, "ROOT", tmp_path)
    monkeypatch.setattr(environment, "VENV", tmp_path / ".venv")
    monkeypatch.setattr(environment, "_status", made)
    return made


def test_the_second_start_installs_nothing(commands: Commands) -> None:
    python = environment.ensure("dev")
    assert [("venv" in c, "install" in c) for c in commands.ran] == [(True, False), (False, True)]
    commands.ran.clear()
    assert environment.ensure("dev") == python
    assert commands.ran == []


def test_another_extra_is_installed_into_the_same_environment(commands: Commands) -> None:
    environment.ensure()
    commands.ran.clear()
    environment.ensure("dev")
    assert ["install" in c for c in commands.ran] == [False, True]
    assert commands.ran[-1][-1].endswith("[dev]")
    assert set(stamps_of(commands.venv)) == {"run", "dev"}


def test_an_environment_of_another_python_is_made_anew(commands: Commands) -> None:
    environment.ensure()
    (commands.venv / "pyvenv.cfg").write_text("version = 3.7.1\n", "utf-8")
    commands.ran.clear()
    environment.ensure()
    assert "--clear" in commands.ran[0]


def test_a_failed_installation_leaves_no_stamp(commands: Commands) -> None:
    commands.status = 1
    with pytest.raises(SetupError, match="needs the network"):
        environment.ensure()
    assert stamps_of(commands.venv) == {}


def test_without_an_environment_maker_nothing_is_begun(
    commands: Commands, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(environment, "lacking", lambda: "Type this line.")
    with pytest.raises(SetupError, match=r"Type this line\."):
        environment.ensure()
    assert commands.ran == []


def test_surroundings_that_bend_qt_or_python_are_not_passed_on(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv("QT_SCALE_FACTOR", "3")
    monkeypatch.setenv("PYTHONPATH", "elsewhere")
    given = clean_environment(QT_QPA_PLATFORM="offscreen")
    assert "QT_SCALE_FACTOR" not in given
    assert "PYTHONPATH" not in given
    assert given["QT_QPA_PLATFORM"] == "offscreen"


def test_stamps_are_json(commands: Commands) -> None:
    environment.ensure()
    assert json.loads((commands.venv / "stamps.json").read_text("utf-8"))["run"]


def test_passing_files_lie_in_memory_where_there_is_room(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.delenv("TMPDIR", raising=False)
    assert scratch(tmp_path, enough=0) == {"TMPDIR": str(tmp_path)}
    assert scratch(tmp_path, enough=10**18) == {}
    assert scratch(tmp_path / "missing", enough=0) == {}
    monkeypatch.setenv("TMPDIR", str(tmp_path))
    assert scratch(tmp_path, enough=0) == {}
