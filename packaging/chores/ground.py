"""Where things lie in a checkout, and how the chores speak."""

import os
import shutil
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
VENV = ROOT / ".venv"
PYPROJECT = ROOT / "pyproject.toml"


class SetupError(Exception):
    """Setting up cannot go on; the text says what to do, in plain words."""


def say(text: str) -> None:
    """Tell the person something, beside the output that others may parse."""
    print(text, file=sys.stderr, flush=True)


def python_of(venv: Path, *, windows: bool = os.name == "nt") -> Path:
    """Find the interpreter of an environment. The Windows path is written, not tried there."""
    return venv / "Scripts" / "python.exe" if windows else venv / "bin" / "python"


FORGOTTEN = frozenset(
    {"PYTHONPATH", "PYTHONHOME", "PYTHONDONTWRITEBYTECODE", "PYTHONOPTIMIZE", "VIRTUAL_ENV"}
)


def clean_environment(**extra: str) -> dict[str, str]:
    """Pass on the surroundings without what would change Python's or Qt's behaviour."""
    kept = {
        name: value
        for name, value in os.environ.items()
        if not name.startswith("QT_") and name not in FORGOTTEN
    }
    return kept | extra


MEMORY = Path("/dev/shm")  # noqa: S108
ENOUGH = 1_000_000_000
"""Room in memory for the journals of tests and proofs, [bytes]."""


def scratch(memory: Path = MEMORY, enough: int = ENOUGH) -> dict[str, str]:
    """Name the folder for passing files of tests and proofs: in memory, where a system offers that.

    A journal waits for its disk at every row; simulated weeks wait for nothing else. What a power
    cut leaves on a real disk is tried by neither.
    """
    if "TMPDIR" in os.environ or not os.access(memory, os.W_OK | os.X_OK):
        return {}
    return {"TMPDIR": str(memory)} if shutil.disk_usage(memory).free >= enough else {}
