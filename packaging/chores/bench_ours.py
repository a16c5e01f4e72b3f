"""Our side of the bench: the program itself, built as for a person and watched by the probe.

``python -m chores.bench_ours JOB DATA_DIR [CENSUS or NUMBER]``. What fills a folder, and what else
the program itself does not load, is brought in by the jobs that want it, not before a first paint.
"""

import chores.bench_begin  # noqa: F401 - first, as the program itself begins

# isort: split
import gc
import sys
from collections.abc import Callable
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QLineEdit, QPushButton, QWidget

from chores.bench_probe import (
    Painted,
    census,
    idle_cpu,
    keystrokes,
    press,
    report_first_paint,
    settle,
)
from shopassist.app import application
from shopassist.clock.manual import ManualClock
from shopassist.clock.system import SystemClock

if TYPE_CHECKING:
    from shopassist.widgets.chart import Chart

ROOMY = (1900, 1040)
"""Large enough that both charts stand side by side."""
CURVE, CHARTS = "cure.page.2", ("cure.chart.age", "cure.chart.temperature")

LEAST_SCREEN = 1366, 768
"""The screen that the panes are laid out for; without a display Qt has a smaller one."""


@dataclass(frozen=True)
class Desk:
    """What stands in a pane, and the entry whose keystroke moves every number of it."""

    pane: str
    before: tuple[tuple[str, str], ...]
    entry: str
    typed: str


DESKS = {
    "mix": Desk("mix", (("mix.ratio_a", "100"), ("mix.ratio_b", "30")), "mix.amount", "214"),
    "blank": Desk(
        "blank",
        (
            ("blank.mould_depth", "60"),
            ("blank.stations", "0: 28; 12: 20; 40: 34; 60: 26"),
            (
                "blank.grooves",
                "square 8 x 4 at 20; round 3 at 40; vee 4 x 2 at 30 along 20 times 4",
            ),
            ("blank.drill", "9"),
        ),
        "blank.mould_diameter",
        "50",
    ),
}
"""Grams, stops and depth; resin, walls and the drawing."""


def build(data: str, clock: ManualClock | None = None) -> Any:
    """Build the program on a data folder, as ``python -m shopassist --data-dir`` does."""
    return import_module("shopassist.app").build(["--data-dir", data], clock)


def _fill(how: str, data: str, *more: int) -> None:
    getattr(import_module("chores.bench_data"), how)(Path(data), *more)


def first_paint(data: str, begun_ns: str) -> None:
    """Print the seconds from the start of this process to the first paint.

    The folder is taken first, as the program itself does it.
    """
    app = application()
    only = import_module("shopassist.app.running").SingleInstance(Path(data))
    if not only.take():
        raise LookupError(f"{data} is in use")
    joined = build(data)
    report_first_paint(joined.window, int(begun_ns))
    joined.close()  # what began after the paint ends in order, or it meets a window that is gone
    only.release()
    del joined, app


def window_census(data: str, path: str) -> None:
    """Write down what the window shows."""
    app = application()
    joined = build(data)
    joined.window.show()
    settle(0.5)
    census(joined.window, set()).save(Path(path))
    del joined, app


def _entry(window: QWidget, name: str) -> QLineEdit:
    found: QLineEdit | None = window.findChild(QLineEdit, name)
    if found is None:
        raise LookupError(f"there is no entry {name}")
    return found


def keystroke_stage(data: str, desk: Desk) -> tuple[Any, QLineEdit, set[QWidget], Painted]:
    """Open a pane, type what it asks and find out what one more digit repaints."""
    painted = Painted(application())
    joined = build(data)
    joined.window.resize(*LEAST_SCREEN)
    joined.window.show()
    settle(0.5)
    joined.window.show_pane(desk.pane)
    settle(0.5)
    for name, text in desk.before:
        entry = _entry(joined.window, name)
        entry.setFocus()
        entry.selectAll()  # the folder may have been used before
        for letter in text:
            press(entry, letter)
        entry.editingFinished.emit()
    found = _entry(joined.window, desk.entry)
    found.setFocus()
    found.selectAll()
    for letter in desk.typed:
        press(found, letter)
    settle(1.0)
    touched: set[QWidget] | None = None
    for letter in ("1", "\b"):
        painted.widgets.clear()
        press(found, letter)
        settle(0.5)
        touched = set(painted.widgets) if touched is None else touched & painted.widgets
    return joined, found, touched or set(), painted


def keystroke_census(data: str, path: str, desk: str = "mix") -> None:
    """Write down what a keystroke repaints."""
    joined, _, touched, _ = keystroke_stage(data, DESKS[desk])
    census(joined.window, touched).save(Path(path))


def keystroke(data: str, count: str, desk: str = "mix") -> None:
    """Print the seconds of single keystrokes, each until everything that depends is painted."""
    joined, entry, touched, painted = keystroke_stage(data, DESKS[desk])
    print(*keystrokes(entry, touched, painted, int(count)), sep="\n")
    del joined


def twelve_census(data: str, path: str) -> None:
    """Fill a folder with twelve cures and write down what their window shows."""
    _fill("twelve_waits", data)
    window_census(data, path)


def idle(data: str, seconds: str) -> None:
    """Print the processor time of the program with twelve clocks."""
    app = application()
    joined = build(data)
    joined.window.show()
    app.processEvents()
    print(idle_cpu(float(seconds)))
    del joined


def _charts(data: str, clock: ManualClock | None = None) -> Any:
    """Build the program with twelve clocks and both charts of a cure open and drawn."""
    kind = import_module("shopassist.widgets.chart").Chart
    joined = build(data, clock)
    window = joined.window
    window.resize(*ROOMY)
    window.show()
    settle(0.5)
    window.show_pane("cure")
    settle(0.3)
    # As a mouse would: the button is pressed and has the keyboard, and no entry blinks.
    button = window.findChild(QPushButton, CURVE)
    button.setFocus()
    button.click()
    for _ in range(40):
        settle(0.5)
        charts: list[Chart] = [window.findChild(kind, name) for name in CHARTS]
        if all(chart.isVisible() and chart.plot is not None for chart in charts):
            return joined
    raise LookupError("both charts are not open")


def charts_census(data: str, path: str) -> None:
    """Fill a folder with twelve cures and write down what their window shows beside two charts."""
    app = application()
    _fill("twelve_waits", data)
    joined = _charts(data)
    census(joined.window, set()).save(Path(path))
    del joined, app


def idle_charts(data: str, seconds: str) -> None:
    """Print the processor time of the program with twelve clocks and two charts."""
    app = application()
    joined = _charts(data)
    print(idle_cpu(float(seconds)))
    del joined, app


def memory(data: str) -> None:
    """Print the megabytes that the process held at most before an hour of seconds, and after it.

    The quarter of an hour before counts for neither: what is drawn and said is kept in places that
    have an end, and fill.
    """
    import resource

    app = application()
    joined = _charts(data, ManualClock(SystemClock().read().utc))
    for minutes in (15, 60):
        for second in range(minutes * 60):
            joined.clock.advance(1)
            joined.tick()
            app.processEvents()
            if second % 60 == 59:  # noqa: PLR2004 - the last second of a minute
                joined.minute()
        gc.collect()
        print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
    del joined, app


def ten_years(data: str) -> None:
    """Fill a folder with ten years."""
    _fill("ten_years", data)


def many_batches(data: str, count: str) -> None:
    """Fill a folder with so many batches."""
    _fill("many_batches", data, int(count))


def log_act(data: str, name: str) -> None:
    """Print the seconds of one act of the log."""
    painted = Painted(application())
    joined = build(data)
    acts = import_module("chores.bench_log")
    print(*acts.seconds(joined, painted, name), sep="\n")
    del joined


JOBS: dict[str, Callable[..., None]] = {
    "first-paint": first_paint,
    "census": window_census,
    "keystroke": keystroke,
    "keystroke-census": keystroke_census,
    "twelve-census": twelve_census,
    "idle": idle,
    "charts-census": charts_census,
    "idle-charts": idle_charts,
    "memory": memory,
    "ten-years": ten_years,
    "many-batches": many_batches,
    "log": log_act,
}

if __name__ == "__main__":
    JOBS[sys.argv[1]](*sys.argv[2:])
