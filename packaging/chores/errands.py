"""From a command to its chore; each is imported when it is asked for."""

import os
import subprocess
import sys
from argparse import Namespace
from collections.abc import Mapping
from pathlib import Path

from chores import environment, libraries
from chores.ground import SetupError, say


def do(wanted: Namespace) -> int:
    """Set up what the command needs, then carry it out; returns the exit status."""
    try:
        libraries.ensure()
        python = environment.ensure("" if wanted.command == "run" else "dev")
        return _CHORES[wanted.command](python, wanted)
    except SetupError as problem:
        say(str(problem))
        return 2
    except KeyboardInterrupt:
        return 130


def no_screen(platform: str, surroundings: Mapping[str, str]) -> str:
    """Say that there is no screen to draw on, before Qt aborts; nothing when there is one."""
    names = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    if not platform.startswith("linux") or any(surroundings.get(name) for name in names):
        return ""
    return (
        "There is no screen here: neither DISPLAY nor WAYLAND_DISPLAY is set.\n"
        "Start this from a desktop session, or through xvfb-run."
    )


def _run(python: Path, wanted: Namespace) -> int:
    complaint = "" if "--help" in wanted.rest else no_screen(sys.platform, os.environ)
    if complaint:
        raise SetupError(complaint)
    return subprocess.run([python, "-P", "-m", "shopassist", *wanted.rest], check=False).returncode


def _test(python: Path, wanted: Namespace) -> int:
    from chores import phases

    return phases.only_pytest(python, wanted.rest) if wanted.rest else phases.everything(python)


def _bench(python: Path, wanted: Namespace) -> int:
    from chores import bench

    return bench.main(python, wanted.only, as_json=wanted.json)


def _prove(python: Path, wanted: Namespace) -> int:
    from chores import proofs

    return proofs.start(python, wanted.names, wanted.count, wanted.seed)


_CHORES = {"run": _run, "test": _test, "bench": _bench, "prove": _prove}
