"""Every small wrong change of the pot's procedure, of time and of rounding fails some test.

A mutant of a function takes the place of the function in a forked copy of a test session that has
brought everything in; one of a table is brought in anew. It runs the tests that called the function,
quickest first, until one fails. Mutants that no test can tell from the program are argued, by name,
in ``mutants_argued.toml``; a survivor that is not argued there fails the proof. Needs ``fork``.
"""

import ast
import gc
import importlib.abc
import importlib.util
import json
import os
import resource
import signal
import subprocess
import sys
import time
import tomllib
import traceback
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from importlib.machinery import ModuleSpec
from pathlib import Path
from types import CodeType, FrameType, FunctionType, ModuleType
from typing import Any

import pytest
from hypothesis import HealthCheck, settings

from tests.proofs.mutation import ROOT, Mutant, mutants_of, mutated, source_of
from tests.proofs.report import Report

POT = tuple(
    f"shopassist.core.pot.{path.stem}"
    for path in sorted((ROOT / "shopassist/core/pot").glob("*.py")) if path.stem != "__init__"
)  # fmt: skip
TIME = ("shopassist.core.timeline", "shopassist.core.waits", "shopassist.services.session",
        "shopassist.clock.manual")  # fmt: skip
ROUNDING = ("shopassist.core.span", "shopassist.core.bounds", "shopassist.core.scale",
            "shopassist.core.stops", "shopassist.core.wording")  # fmt: skip
TESTS = (
    "tests/core/pot", "tests/services/test_pot.py", "tests/services/test_pot_numbers.py",
    "tests/core/test_timeline.py", "tests/core/test_timeline_edges.py", "tests/clock",
    "tests/services/test_session.py", "tests/services/test_session_edges.py",
    "tests/services/test_waits.py", *(f"tests/core/test_{name}.py" for name in (
        "span", "bounds", "scale", "stops", "mixing", "wording", "wall", "corner",
    )),
)  # fmt: skip
LEFT_OUT = "tests/core/pot/test_proofs.py"  # samples of long proofs
FULL, STRETCH = 6_000, 500  # more than there are mutants, which a test holds; and some of them
ARGUED = Path(__file__).with_name("mutants_argued.toml")
ROOM = 3.0
"""A run that takes this much more processor time than the tests took before is endless."""
KILLED, ENDLESS, ALIVE, BROKEN = 1, 2, 0, 70
SAID_AT = os.dup(2)  # where the judge tells of its own mistakes
Verdict = tuple[str, int]


def everything() -> tuple[Mutant, ...]:
    """All mutants, in a fixed order."""
    return tuple(mutant for module in (*POT, *TIME, *ROUNDING) for mutant in mutants_of(module))


def argued() -> dict[str, str]:
    """Names of mutants that no test can tell from the program, with the reason."""
    entries = tomllib.loads(ARGUED.read_text("utf-8"))["argument"]
    return {name: entry["why"] for entry in entries for name in entry["mutants"]}


def run(count: int, seed: int, tests: Sequence[str] = TESTS) -> Report:
    """Judge ``count`` mutants by ``tests``, going round from the one that the seed names."""
    command = [sys.executable, "-m", "tests.proofs.mutants", str(count), str(seed), *tests]
    surroundings = {**os.environ, "PYTHONPATH": f"{ROOT}{os.pathsep}{ROOT / 'packaging'}"}
    done = subprocess.run(
        command, check=True, cwd=ROOT, stdout=subprocess.PIPE, text=True, env=surroundings
    )
    verdicts = json.loads(done.stdout.splitlines()[-1])
    reasons = argued()
    alive = [name for name, outcome in verdicts if outcome == ALIVE]
    failures = [f"survived: {name}" for name in alive if name not in reasons]
    failures += [f"argued, yet killed: {n}" for n, out in verdicts if out != ALIVE and n in reasons]
    figures = {
        "made": len(verdicts), "killed": len(verdicts) - len(alive),
        "of these endless": sum(outcome == ENDLESS for _, outcome in verdicts),
        "survived": len(alive), "survivors argued": len(alive) - len(failures),
    }  # fmt: skip
    return Report(count, seed, tuple(failures), figures)


# -- the process that judges -------------------------------------------------------------------


def judged(chosen: Sequence[Mutant], tests: Sequence[str]) -> Iterator[Verdict]:
    """Fork a test session for mutants of functions, then one session for each of a table."""
    settings.register_profile(
        "mutants", derandomize=True, database=None, deadline=None,
        suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    settings.load_profile("mutants")
    words: list[str] = []
    status = _forked(lambda tell: _session(tests, _Judge(chosen, tell)), words.append)
    assert status == 0, f"the session ended with {status}"
    told: dict[str, dict[str, Any]] = {"called": {}, "brought in": {}, "verdict": {}}
    for kind, name, found in map(json.loads, words):
        told[kind][name] = found
    for mutant in chosen:
        outcome = told["verdict"].get(mutant.name, ALIVE)
        last = mutant.alive and mutant.place in told["called"]
        if outcome != ALIVE or (last and mutant.place not in told["brought in"]):
            yield mutant.name, outcome
        else:
            yield mutant.name, _anew(mutant, _tests_for(mutant, told["called"]))


def _tests_for(mutant: Mutant, called: Mapping[str, Mapping[str, float]]) -> dict[str, float]:
    """Tests of its function; of a table those that run its module, then all others.

    A function that ran while its module was brought in counts as a table.
    """
    of_function = called.get(mutant.place, {})
    if of_function:
        return _by_time(of_function)
    near = _near(mutant, called)
    all_of = {name: took for tests in called.values() for name, took in tests.items()}
    return _by_time(near) | {n: t for n, t in _by_time(all_of).items() if n not in near}


def _near(mutant: Mutant, called: Mapping[str, Mapping[str, float]]) -> dict[str, float]:
    """Tests that call anything of its module."""
    return {
        name: took for place, tests in called.items() if place.startswith(f"{mutant.module} ")
        for name, took in tests.items()
    }  # fmt: skip


def _by_time(tests: Mapping[str, float]) -> dict[str, float]:
    return dict(sorted(tests.items(), key=lambda pair: pair[1]))


def _session(tests: Sequence[str], plugin: object) -> int:
    words = ["-c", "packaging/qt_free.ini", "--rootdir", str(ROOT), "-q", "-p", "pytest_timeout",
             "-p", "no:cacheprovider", "-p", "_hypothesis_pytestplugin",
             "-o", f"pythonpath={ROOT}", "-W", "ignore::pytest.PytestAssertRewriteWarning"]  # fmt: skip
    status = pytest.main([*words, f"--ignore={LEFT_OUT}", *tests], plugins=[plugin])
    return int(status)


def _forked(
    act: Callable[[Callable[[str], None]], int],
    hear: Callable[[str], None] = lambda _: None,
    seconds: float | None = None,
) -> int:
    """Do something in a copy of this process; returns its exit status, negative for a signal."""
    read, write = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(read)
        status = BROKEN
        try:
            _bounded(seconds)
            with os.fdopen(write, "w") as out:
                status = act(lambda line: print(line, file=out, flush=True))
        except BaseException:  # noqa: BLE001
            os.write(SAID_AT, traceback.format_exc().encode())
        finally:
            os._exit(status)
    os.close(write)
    with os.fdopen(read) as lines:
        for line in lines:
            hear(line)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def _bounded(seconds: float | None) -> None:
    """Say nothing, and die of taking too much of the processor or of memory."""
    if seconds is None:
        return
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    os.dup2(nowhere, 2)
    limit = int(time.process_time() + seconds) + 1
    resource.setrlimit(resource.RLIMIT_CPU, (limit, limit + 1))
    resource.setrlimit(resource.RLIMIT_AS, (4 << 30, 4 << 30))


def _outcome(status: int) -> int:
    assert status not in (BROKEN, pytest.ExitCode.NO_TESTS_COLLECTED), "the judge failed"
    if status == 0:
        return ALIVE
    return ENDLESS if status in (-signal.SIGXCPU, -signal.SIGKILL) else KILLED


@dataclass
class _Judge:
    """Stands in the place of the running of the tests, after all of them were brought in."""

    chosen: Sequence[Mutant]
    tell: Callable[[str], None]
    called: dict[str, dict[str, float]] = field(default_factory=dict)
    brought_in: set[CodeType] = field(default_factory=set)
    """What ran while the modules were brought in."""

    def pytest_collection(self) -> None:
        sys.setprofile(_listening(self.brought_in))

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        sys.setprofile(None)
        for place in _places(self.brought_in):
            self.tell(json.dumps(["brought in", place, 1]))
        items = {item.nodeid: item for item in session.items}
        self._look(session, items)
        for place, tests in self.called.items():
            self.tell(json.dumps(["called", place, tests]))
        functions = _functions()
        for mutant in self.chosen:
            change = _swapped(mutant, functions) if mutant.alive else _set(mutant)
            if change is not None:
                outcome = self._judge(session, items, mutant, change)
                self.tell(json.dumps(["verdict", mutant.name, outcome]))
        return True

    def _look(self, session: pytest.Session, items: Mapping[str, pytest.Item]) -> None:
        """Run every test once, as it is, and see whom it calls."""

        def all_of(tell: Callable[[str], None]) -> int:
            for name, item in items.items():
                seen: set[CodeType] = set()
                begun = time.process_time()
                sys.setprofile(_listening(seen))
                _run(session, [item])
                sys.setprofile(None)
                took = time.process_time() - begun
                tell(json.dumps([name, took, _places(seen)]))
            return int(session.testsfailed)

        lines: list[str] = []
        assert _forked(all_of, lines.append) == 0, "the tests fail without any mutant"
        for name, took, places in map(json.loads, lines):
            for place in places or [""]:  # a test of a table may call nothing of ours
                self.called.setdefault(place, {})[name] = took

    def _judge(
        self, session: pytest.Session, items: Mapping[str, pytest.Item], mutant: Mutant,
        change: Callable[[], None],
    ) -> int:  # fmt: skip
        tests = self.called.get(mutant.place, {}) if mutant.alive else _near(mutant, self.called)
        order = [items[name] for name in _by_time(tests)]

        def act(_tell: Callable[[str], None]) -> int:
            try:
                change()
            except Exception:  # noqa: BLE001
                return 1
            _run(session, order)
            return int(session.testsfailed > 0)

        return _outcome(_forked(act, seconds=ROOM * sum(tests.values()) + ROOM)) if order else ALIVE


def _swapped(
    mutant: Mutant, functions: Mapping[tuple[str, str, int], list[FunctionType]]
) -> Callable[[], None]:
    """Put the mutant's text into the functions that are alive."""
    path = str(source_of(mutant.module))

    def change() -> None:
        for code in _codes(compile(mutated(mutant), path, "exec")):
            for function in functions.get((path, code.co_qualname, code.co_firstlineno), ()):
                function.__code__ = code

    return change


def _set(mutant: Mutant) -> Callable[[], None] | None:
    """Give a constant its other value wherever its name stands; None where that cannot be done."""
    statement = mutated(mutant).body[mutant.path[0][1] or 0]
    targets = statement.targets if isinstance(statement, ast.Assign) else []
    if isinstance(statement, ast.AnnAssign):
        targets = [statement.target]
    names = [each.id for each in targets if isinstance(each, ast.Name)]
    if not names:
        return None

    def change() -> None:
        home = sys.modules[mutant.module]
        scope = dict(vars(home))
        exec(compile(ast.Module([statement], []), mutant.module, "exec"), scope)
        for name in names:
            before = vars(home)[name]
            for module in list(sys.modules.values()):
                if getattr(module, "__dict__", {}).get(name) is before:
                    setattr(module, name, scope[name])

    return change


def _listening(seen: set[CodeType]) -> Callable[[FrameType, str, object], None]:
    """Hear what is called."""

    def hear(frame: FrameType, what: str, _: object) -> None:
        if what == "call":
            seen.add(frame.f_code)

    return hear


def _places(seen: set[CodeType]) -> list[str]:
    """Module and outermost function of what was called, where it is ours to change."""
    modules = {str(source_of(name)): name for name in (*POT, *TIME, *ROUNDING)}
    ours = [code for code in seen if code.co_filename in modules]
    return sorted({f"{modules[c.co_filename]} {c.co_qualname.split('.<locals>')[0]}" for c in ours})


def _run(session: pytest.Session, order: Sequence[pytest.Item]) -> None:
    """Run tests until one fails."""
    for item, following in zip(order, [*order[1:], None], strict=True):
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
        if session.testsfailed:
            return


def _functions() -> dict[tuple[str, str, int], list[FunctionType]]:
    """Every function that is alive, by where its text stands."""
    found: dict[tuple[str, str, int], list[FunctionType]] = {}
    gc.unfreeze()  # what the suite has set aside counts too
    for each in gc.get_objects():
        if isinstance(each, FunctionType):
            code = each.__code__
            key = (code.co_filename, code.co_qualname, code.co_firstlineno)
            found.setdefault(key, []).append(each)
    return found


def _codes(code: CodeType) -> Iterator[CodeType]:
    for each in code.co_consts:
        if isinstance(each, CodeType):
            yield each
            yield from _codes(each)


# -- a mutant of a table -----------------------------------------------------------------------


def _anew(mutant: Mutant, tests: Mapping[str, float]) -> int:
    """Bring everything in with the mutant in place of its module, and run the tests."""

    def act(_tell: Callable[[str], None]) -> int:
        sys.meta_path.insert(0, _Finder(mutant))
        return _session(sorted({test.split("::")[0] for test in tests}), _Ordered(list(tests)))

    return _outcome(_forked(act, seconds=ROOM * sum(tests.values()) + 10 * ROOM))


@dataclass
class _Ordered:
    """Runs tests in an order of ours until one fails."""

    order: list[str]

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        if session.testsfailed:
            raise session.Interrupted
        items = {item.nodeid: item for item in session.items}
        _run(session, [items[name] for name in self.order if name in items])
        return True


@dataclass
class _Finder(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Brings the mutant in under its module's name."""

    mutant: Mutant

    def find_spec(self, fullname: str, *_: object) -> ModuleSpec | None:
        if fullname != self.mutant.module:
            return None
        return importlib.util.spec_from_file_location(fullname, source_of(fullname), loader=self)

    def exec_module(self, module: ModuleType) -> None:
        code = compile(mutated(self.mutant), str(source_of(module.__name__)), "exec")
        exec(code, module.__dict__)


def main(words: Sequence[str]) -> None:
    """Judge and print; for the process of its own."""
    assert not any(name.startswith("shopassist") for name in sys.modules)
    os.nice(10)
    os.environ["PYTEST_DISABLE_PLUGIN_AUTOLOAD"] = "1"
    count, seed, whole = int(words[0]), int(words[1]), everything()
    chosen = [whole[(seed + n) % len(whole)] for n in range(min(count, len(whole)))]
    out = os.dup(1)
    os.dup2(2, 1)
    verdicts = list(judged(chosen, words[2:]))
    os.write(out, f"\n{json.dumps(verdicts)}\n".encode())


if __name__ == "__main__":
    main(sys.argv[1:])
