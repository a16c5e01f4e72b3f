"""Speed as ratios: our program against bare Qt programs that show the same, in one run.

Each repetition measures ours and the floor in turn, so that a busy moment of the machine meets
both; the medians are compared.
"""

import json
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from statistics import median

from chores.ground import ROOT, SetupError, clean_environment, say

STARTS = 7
KEYS = 60
KEY_RUNS = 3
IDLE_RUNS = 3
IDLE_S = 15.0
CHART_RUNS, MINUTE_S = 2, 60.0
MANY, FEW = 10_000, 35
"""Batches of the log: as many rows as the screen shows, so that both sides paint the same."""
LOG_RUNS = 3


@dataclass(frozen=True)
class Ratio:
    """Seconds of ours and of the floor, or what else they are measured in."""

    ours: float
    floor: float
    unit: str = "s"

    def as_json(self) -> dict[str, float]:
        """Give the three numbers of the interface."""
        return {"ours": self.ours, "floor": self.floor, "ratio": self.ours / self.floor}


class Stage:
    """Runs the measuring programs in a scratch folder."""

    def __init__(self, python: Path, folder: Path) -> None:
        self._python = python
        self.folder = folder

    def ours(self, job: str, *words: object) -> list[float]:
        """Run one job of our side."""
        return self._numbers("bench_ours", job, *words)

    def floor(self, job: str, *words: object) -> list[float]:
        """Run one job of the bare side."""
        return self._numbers("bench_floor", job, *words)

    def _numbers(self, module: str, *words: object) -> list[float]:
        paths = os.pathsep.join((str(ROOT), str(ROOT / "packaging")))
        platform = {} if os.environ.get("DISPLAY") else {"QT_QPA_PLATFORM": "offscreen"}
        done = subprocess.run(
            [self._python, "-m", f"chores.{module}", *map(str, words)],
            cwd=self.folder,
            capture_output=True,
            text=True,
            check=False,
            env=clean_environment(PYTHONPATH=paths, **platform),
        )
        if done.returncode:
            raise SetupError(f"{module} {words[0]} failed:\n{done.stderr}")
        return [float(line) for line in done.stdout.split()]


def first_paint(stage: Stage) -> Ratio:
    """Process start to first paint, against a bare window with as many plain widgets."""
    data, census = stage.folder / "empty", stage.folder / "first.json"
    stage.ours("census", data, census)
    return _in_turn(
        STARTS,
        lambda: stage.ours("first-paint", data, time.monotonic_ns()),
        lambda: stage.floor("first-paint", census, time.monotonic_ns()),
    )


def keystroke(stage: Stage, desk: str = "mix") -> Ratio:
    """Keystroke to the last dependent number, against a line edit, labels and one painter."""
    data, census = stage.folder / f"keys-{desk}", stage.folder / f"keys-{desk}.json"
    stage.ours("keystroke-census", data, census, desk)
    return _in_turn(
        KEY_RUNS,
        lambda: stage.ours("keystroke", data, KEYS, desk),
        lambda: stage.floor("keystroke", census, KEYS),
    )


def blank_keystroke(stage: Stage) -> Ratio:
    """Keystroke in Blank to all numbers and the drawing; the drawing too is but a bare painter."""
    return keystroke(stage, "blank")


def idle(stage: Stage) -> Ratio:
    """Processor time with twelve clocks, against one label that ticks in the same window."""
    return _idle(stage, "twelve", "idle", IDLE_S, IDLE_RUNS)


def idle_charts(stage: Stage) -> Ratio:
    """The same with two charts open, over a whole minute: what is drawn anew each minute counts."""
    return _idle(stage, "charts", "idle-charts", MINUTE_S, CHART_RUNS, warm=False)


def _idle(
    stage: Stage, name: str, job: str, seconds: float, runs: int, *, warm: bool = True
) -> Ratio:
    data, census = stage.folder / name, stage.folder / f"{name}.json"
    stage.ours(f"{name}-census", data, census)
    return _in_turn(
        runs,
        lambda: stage.ours(job, data, seconds),
        lambda: stage.floor("idle", census, seconds),
        warm=warm,
    )


def memory(stage: Stage) -> Ratio:
    """What the process holds after an hour with twelve clocks and two charts, against before.

    The most that it ever held, by the system's count; the clock is moved by hand.
    """
    data = stage.folder / "memory"
    stage.ours("charts-census", data, stage.folder / "memory.json")
    before, after = stage.ours("memory", data)
    return Ratio(after, before, "MB")


def ten_years(stage: Stage) -> Ratio:
    """Start with a ten-year journal, against the start with an empty one."""
    full, empty = stage.folder / "ten-years", stage.folder / "none"
    stage.ours("ten-years", full)
    stage.ours("first-paint", empty, time.monotonic_ns())
    return _in_turn(
        STARTS,
        lambda: stage.ours("first-paint", full, time.monotonic_ns()),
        lambda: stage.ours("first-paint", empty, time.monotonic_ns()),
    )


def log_act(name: str, stage: Stage) -> Ratio:
    """One act in a log of ten thousand batches, against one that holds a screenful."""
    full, empty = stage.folder / "many", stage.folder / "few"
    for data, count in ((full, MANY), (empty, FEW)):
        if not data.exists():
            stage.ours("many-batches", data, count)
    return _in_turn(
        LOG_RUNS, lambda: stage.ours("log", full, name), lambda: stage.ours("log", empty, name)
    )


RATIOS: dict[str, Callable[[Stage], Ratio]] = {
    "first_paint": first_paint,
    "keystroke": keystroke,
    "blank_keystroke": blank_keystroke,
    "idle_cpu": idle,
    "idle_charts": idle_charts,
    "memory": memory,
    "ten_years": ten_years,
    **{f"log_{name}": partial(log_act, name) for name in ("search", "compare", "open")},
}


def main(python: Path, only: Sequence[str], *, as_json: bool) -> int:
    """Measure the ratios and print them."""
    unknown = sorted(set(only) - set(RATIOS))
    if unknown:
        raise SetupError(f"Unknown: {', '.join(unknown)}. Known: {', '.join(RATIOS)}.")
    results: dict[str, Ratio] = {}
    with tempfile.TemporaryDirectory(prefix="shopassist-bench-") as folder:
        stage = Stage(python, Path(folder))
        for name in only or RATIOS:
            say(f"Measuring {name} …")
            results[name] = RATIOS[name](stage)
    print(written(results, as_json=as_json))
    return 0


def written(results: dict[str, Ratio], *, as_json: bool) -> str:
    """Write the ratios for a program or for a person."""
    if as_json:
        return json.dumps({"ratios": {name: r.as_json() for name, r in results.items()}})
    lines = [
        f"{name:<15} {_shown(r.ours, r.unit)}  floor {_shown(r.floor, r.unit)}  ratio "
        f"{r.ours / r.floor:6.2f}"
        for name, r in results.items()
    ]
    screen = "real screen" if os.environ.get("DISPLAY") else "offscreen"
    return "\n".join([f"Medians, {screen}, Python {sys.version.split()[0]}", *lines])


def _shown(value: float, unit: str) -> str:
    return f"{value * 1000:9.1f} ms" if unit == "s" else f"{value:9.1f} {unit}"


def _in_turn(
    rounds: int, ours: Callable[[], list[float]], floor: Callable[[], list[float]], *,
    warm: bool = True,
) -> Ratio:  # fmt: skip
    """Measure both sides alternately, after one unmeasured round where they need it."""
    if warm:
        ours()
        floor()
    pairs = [(ours(), floor()) for _ in range(rounds)]
    return Ratio(
        median(second for pair in pairs for second in pair[0]),
        median(second for pair in pairs for second in pair[1]),
    )
