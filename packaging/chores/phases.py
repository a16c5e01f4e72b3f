"""The everyday check, in order; a failed phase does not hide the ones after it."""

import os
import re
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from chores import environment, wheel
from chores.gates import GATES, gate_arguments
from chores.ground import ROOT, clean_environment, scratch

QT_FREE_FOLDERS = ("core", "clock", "checks", "services", "store")
CLOSING_LINE = re.compile(r"^=* ?\d+ (passed|failed|error)[^=]* in [\d.]+s.*$")
LINT_IMPORTS = "from importlinter.cli import lint_imports_command as c; c()"


@dataclass(frozen=True)
class Phase:
    """A named step; ``act`` returns its exit status."""

    name: str
    act: Callable[[], int]


@dataclass(frozen=True)
class Outcome:
    """How a phase went."""

    name: str
    status: int
    seconds: float


def everything(python: Path) -> int:
    """Run all phases, then report; pytest's own closing line is the last line."""
    closing: list[str] = []
    qt_free = environment.ensure_qt_free()
    outcomes = [_timed(phase) for phase in _phases(python, qt_free, closing)]
    print(summary(outcomes), flush=True)
    if closing:
        print(closing[-1], flush=True)
    return int(any(outcome.status for outcome in outcomes))


def only_pytest(python: Path, words: Sequence[str]) -> int:
    """Run pytest alone with somebody's own arguments; paths are those of the checkout."""
    command = [str(python), "-m", "pytest", *words]
    return subprocess.run(command, check=False, cwd=ROOT, env=_surroundings()).returncode


def summary(outcomes: Sequence[Outcome]) -> str:
    """Write the table of phases and times."""
    width = max(len(outcome.name) for outcome in outcomes)
    lines = [
        f"  {o.name:<{width}}  {'ok' if o.status == 0 else 'FAILED':<6} {o.seconds:7.1f} s"
        for o in outcomes
    ]
    failed = [outcome.name for outcome in outcomes if outcome.status]
    total = sum(outcome.seconds for outcome in outcomes)
    verdict = f"Failed: {', '.join(failed)}." if failed else "Every phase passed."
    return "\n".join(["", "Phases:", *lines, f"{verdict} {total:.0f} s after installing."])


def closing_line(line: str) -> bool:
    """Tell whether this is the line in which pytest counts its tests."""
    return bool(CLOSING_LINE.match(re.sub(r"\x1b\[[0-9;]*m", "", line.strip())))


def _phases(python: Path, qt_free: Path, closing: list[str]) -> list[Phase]:
    def module(*words: str) -> Callable[[], int]:
        return lambda: _quiet([str(python), *words])

    gates = [
        Phase(f"coverage of {gate.name}", module("-m", "coverage", *gate_arguments(gate)))
        for gate in GATES
    ]
    return [
        Phase("format", module("-m", "ruff", "format", "--check", ".")),
        Phase("lint", module("-m", "ruff", "check", ".")),
        Phase("layers", module("-c", LINT_IMPORTS)),
        Phase("types", module("-m", "mypy")),
        Phase("core without Qt", lambda: _qt_free(qt_free)),
        Phase("all tests", lambda: _all_tests(python, closing)),
        *gates,
        Phase("wheel", lambda: wheel.check(python)),
    ]


def _qt_free(python: Path) -> int:
    folders = [f"tests/{name}" for name in QT_FREE_FOLDERS if (ROOT / "tests" / name).is_dir()]
    ini = ["-c", "packaging/qt_free.ini", "--rootdir", ".", "-q", "-p", "no:cacheprovider"]
    ini += ["-m", "not proof", "-n", "2"]
    return _quiet([str(python), "-m", "pytest", *ini, *folders], show_tail=True)


def _all_tests(python: Path, closing: list[str]) -> int:
    command = [str(python), "-m", "pytest", "-n", "2", "--cov", "--cov-report="]
    command += ["--color=yes"] if sys.stdout.isatty() else []
    with subprocess.Popen(
        command, cwd=ROOT, env=_surroundings(), text=True, stdout=subprocess.PIPE, encoding="utf-8"
    ) as running:
        for line in running.stdout or ():
            print(line, end="", flush=True)
            if closing_line(line):
                closing.append(line.rstrip("\n"))
    return running.returncode


def _timed(phase: Phase) -> Outcome:
    print(f"── {phase.name} …", flush=True)
    begun = time.perf_counter()
    status = phase.act()
    outcome = Outcome(phase.name, status, time.perf_counter() - begun)
    print(f"   {'ok' if status == 0 else 'FAILED'}, {outcome.seconds:.1f} s", flush=True)
    return outcome


def _quiet(command: list[str], *, show_tail: bool = False) -> int:
    """Run a command and show its output when it failed."""
    done = subprocess.run(
        command,
        check=False,
        cwd=ROOT,
        env=_surroundings(),
        text=True,
        encoding="utf-8",
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
    )
    if done.returncode:
        print(done.stdout, flush=True)
    elif show_tail:
        print(f"   {done.stdout.strip().splitlines()[-1]}", flush=True)
    return done.returncode


def _surroundings() -> dict[str, str]:
    platform = os.environ.get("QT_QPA_PLATFORM", "offscreen")
    return clean_environment(QT_QPA_PLATFORM=platform, **scratch())
