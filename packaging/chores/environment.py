"""The environment beside the checkout: made once, reused while the requirements stay the same."""

import hashlib
import importlib.util
import json
import re
import subprocess
import sys
import time
import tomllib
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from chores.ground import PYPROJECT, ROOT, VENV, SetupError, clean_environment, python_of, say

QT_FREE = VENV / "qt-free"
QT_FREE_PACKAGES = ("pint", "platformdirs", "pytest", "hypothesis", "pytest-timeout",
                    "pytest-randomly", "pytest-xdist")  # fmt: skip
INSTALL_ARGUMENTS = ("-m", "pip", "install", "--quiet", "--disable-pip-version-check")


def stamp(project: Mapping[str, Any], extra: str, root: Path) -> str:
    """Name a state of the requirements; the rest of ``pyproject.toml`` does not matter to it."""
    table = project["project"]
    extras = table.get("optional-dependencies", {})
    facts = {
        "root": str(root),
        "python": table["requires-python"],
        "needs": sorted(table["dependencies"]),
        "extra": sorted(extras.get(extra, ())),
        "scripts": table.get("gui-scripts", {}),
        "build": [project["build-system"], project["tool"]["hatch"]],
    }
    return hashlib.sha256(json.dumps(facts, sort_keys=True).encode()).hexdigest()


def requirements(project: Mapping[str, Any], names: Sequence[str]) -> tuple[str, ...]:
    """Pick the requirement lines of the named packages, so that versions stand in one place."""
    table = project["project"]
    lines = [*table["dependencies"], *table["optional-dependencies"]["dev"]]
    found = {_name(line): line for line in lines}
    return tuple(found[name] for name in names)


def _name(requirement: str) -> str:
    return re.split(r"[^A-Za-z0-9._-]", requirement, maxsplit=1)[0].lower()


def stamps_of(venv: Path) -> dict[str, str]:
    """Read which states an environment has been brought to."""
    try:
        read = json.loads((venv / "stamps.json").read_text("utf-8"))
    except (OSError, ValueError):
        return {}
    return read if isinstance(read, dict) else {}


def made_by(venv: Path) -> str:
    """Read the ``major.minor`` of the Python that an environment belongs to; empty when none."""
    try:
        text = (venv / "pyvenv.cfg").read_text("utf-8")
    except OSError:
        return ""
    found = re.search(r"^version(?:_info)?\s*=\s*(\d+\.\d+)", text, re.MULTILINE)
    return found.group(1) if found else ""


def ensure(extra: str = "") -> Path:
    """Bring ``.venv`` to the state that ``pyproject.toml`` asks for; returns its Python."""
    project = tomllib.loads(PYPROJECT.read_text("utf-8"))
    wanted = f"{ROOT}[{extra}]" if extra else str(ROOT)
    mark = stamp(project, extra, ROOT)
    return _bring(VENV, extra or "run", mark, ("--editable", wanted))


def ensure_qt_free() -> Path:
    """Bring up the second environment, which has no Qt: the proof that the core needs none."""
    lines = requirements(tomllib.loads(PYPROJECT.read_text("utf-8")), QT_FREE_PACKAGES)
    mark = hashlib.sha256("\n".join(lines).encode()).hexdigest()
    return _bring(QT_FREE, "qt-free", mark, lines)


def _bring(venv: Path, level: str, mark: str, packages: Sequence[str]) -> Path:
    python = python_of(venv)
    now = f"{sys.version_info.major}.{sys.version_info.minor}"
    usable = python.exists() and made_by(venv) == now
    if usable and stamps_of(venv).get(level) == mark:
        return python
    begun = time.perf_counter()
    if not usable or _status([str(python), "-m", "pip", "--version"]):
        _make(venv)
    say(f"Installing into {venv.relative_to(ROOT)} (needs the network; once) …")
    if _status([str(python), *INSTALL_ARGUMENTS, *packages], quiet=False):
        raise SetupError(
            "The packages could not be installed; the lines above say why.\n"
            "This step needs the network; once it has gone through, later starts need none."
        )
    marks = stamps_of(venv) | {level: mark}
    (venv / "stamps.json").write_text(json.dumps(marks, indent=1), "utf-8")
    say(f"Installed in {time.perf_counter() - begun:.0f} s, not counted with what follows.")
    return python


def _make(venv: Path) -> None:
    complaint = lacking()
    if complaint:
        raise SetupError(complaint)
    if _status([sys.executable, "-m", "venv", "--clear", str(venv)], quiet=False):
        raise SetupError(f"The environment {venv} could not be made; the lines above say why.")


def lacking(there: Mapping[str, bool] | None = None) -> str:
    """Say which part of Python's own environment maker is missing, and how to get it."""
    if there is None:
        there = {n: importlib.util.find_spec(n) is not None for n in ("venv", "ensurepip")}
    absent = [name for name, present in there.items() if not present]
    if not absent:
        return ""
    version = f"{sys.version_info.major}.{sys.version_info.minor}"
    return (
        f"This Python lacks its standard module{'s'[: len(absent) - 1]} {' and '.join(absent)}.\n"
        f"On Debian or Ubuntu: sudo apt-get install python{version}-venv\n"
        "Elsewhere: install the complete Python package of your system."
    )


def _status(command: list[str], *, quiet: bool = True) -> int:
    out = subprocess.DEVNULL if quiet else sys.stderr
    return subprocess.run(
        command, check=False, stdout=out, stderr=out, cwd=ROOT, env=clean_environment()
    ).returncode
