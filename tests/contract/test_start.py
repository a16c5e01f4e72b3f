"""What may be loaded, and how fast, before somebody sees the window."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

import shopassist.app

ROOT = Path(__file__).parents[2]
CORE_BUDGET_S = 0.500  # owed: a tenth; the whole core has grown to some seventy modules
HEAVY_FOR_CORE = {"pint", "numpy", "pyqtgraph", "platformdirs", "sqlite3", "PySide6", "datetime"}
HEAVY_FOR_PAINT = {"pint", "numpy", "pyqtgraph", "scipy"}
LATER = tuple(
    f"shopassist.{each}"
    for each in (
        "app.alarm_desk", "app.demo", "core.compare", "core.heatflow", "core.places", "core.plan",
        "core.symptoms", "desktop.paper", "desktop.printing", "desktop.sound", "panes.blank",
        "panes.log", "panes.out", "panes.plan", "panes.records", "panes.stabilise", "panes.turn",
        "panes.warmup", "services.alarms", "services.blank", "services.hindsight",
        "services.log_index", "services.log_line", "services.log_words", "services.plan",
        "services.stabilise", "services.turn", "services.warmup",
    )
)  # fmt: skip
"""Each is brought in when its pane, or what follows the first paint, wants it."""

IMPORT_CORE = """
import json, pkgutil, sys, time
before = time.process_time()
import shopassist.core
names = [m.name for m in pkgutil.walk_packages(shopassist.core.__path__, "shopassist.core.")]
for name in names:
    __import__(name)
print(json.dumps([time.process_time() - before, len(names), sorted(sys.modules)]))
"""

PAINT_ONCE = """
import json, sys
from pathlib import Path
from PySide6.QtCore import QCoreApplication
from chores.bench_probe import FirstPaint
from shopassist.app import build
from shopassist.app.running import SingleInstance
from PySide6.QtWidgets import QApplication
qt = QApplication.instance() or QApplication([])
only = SingleInstance(Path(sys.argv[1]))
assert only.take()
app = build(["--data-dir", sys.argv[1]])
loaded = []
probe = FirstPaint(app.window, lambda: (loaded.extend(sys.modules), QCoreApplication.exit(0)))
app.window.show()
QApplication.exec()
app.close()  # what began after the paint ends in order
only.release()
print(json.dumps(sorted(loaded)))
"""

SOURCES_READ = """
import builtins, inspect, json
import shopassist.app
own, read = builtins.__import__, []
shopassist.app.bring_in_qt()
inspect.getsource = lambda module: read.append(module.__name__) or ""
import shopassist.widgets.figure_view, shopassist.app.joined
print(json.dumps([read, builtins.__import__ is own]))
"""


def ask(code: str, *words: str) -> list[object]:
    paths = os.pathsep.join((str(ROOT), str(ROOT / "packaging")))
    done = subprocess.run(
        [sys.executable, "-c", code, *words],
        cwd=ROOT,
        check=False,
        capture_output=True,
        text=True,
        timeout=120,
        env={**os.environ, "PYTHONPATH": paths, "QT_QPA_PLATFORM": "offscreen"},
    )
    assert done.returncode == 0, (done.returncode, done.stderr)
    answer = json.loads(done.stdout.splitlines()[-1])
    assert isinstance(answer, list)
    return answer


def top_level(names: object) -> set[str]:
    assert isinstance(names, list)
    return {str(name).split(".")[0] for name in names}


def test_the_whole_core_imports_in_half_a_second_and_draws_in_nothing_heavy() -> None:
    ask(IMPORT_CORE)  # the first start compiles
    answers = [ask(IMPORT_CORE) for _ in range(3)]
    for _, count, modules in answers:
        assert isinstance(count, int)
        assert count > 10
        assert not top_level(modules) & HEAVY_FOR_CORE
    assert min(float(str(seconds)) for seconds, _, _ in answers) < CORE_BUDGET_S


@pytest.mark.skipif(not hasattr(shopassist.app, "build"), reason="the program is not joined yet")
def test_nothing_heavy_is_loaded_before_the_first_paint(tmp_path: Path) -> None:
    names = ask(PAINT_ONCE, str(tmp_path / "data"))
    loaded = top_level(names)
    assert {"PySide6", "shopassist"} <= loaded
    assert not loaded & HEAVY_FOR_PAINT
    assert not {"PySide6.QtPrintSupport", "PySide6.QtNetwork"} & set(names)
    assert not [name for name in names if str(name).startswith(LATER)]


def test_no_source_is_read_for_what_is_imported_after_qt() -> None:
    read, own = ask(SOURCES_READ)
    assert own
    assert read == []
