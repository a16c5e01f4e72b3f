"""What may not stand in the files: too much, or words that promise or betray something."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
OURS = ("shopassist", "tests", "packaging", "resources", "docs", ".ci")
KINDS = {".py", ".toml", ".md", ".sql", ".ini", ".txt", ".csv", ".json", ""}
MOST_LINES = 400
MACHINE_PATH = re.compile(r"(?<![\w.\-/])/(?:work|tmp|root|home/\w+|Users/\w+)/")
REGISTRY_HOST = re.compile(r"\b(?:pypi|npmjs|pythonhosted|deb|crates)\.\w{2,}\b(?!\()")
PROMISE = re.compile(r"\b(?:un)?safe(?:ly|r|st)?\b", re.IGNORECASE)
PICTURES = re.compile("[\u2600-\u27bf\u2b50\ufe0f\U0001f000-\U0001faff]")


def texts(*folders: str, only_python: bool = False) -> list[Path]:
    found = [p for name in folders for p in (ROOT / name).rglob("*") if p.is_file()]
    found += [] if only_python else [p for p in ROOT.iterdir() if p.is_file()]
    kinds = {".py"} if only_python else KINDS
    return sorted(p for p in found if p.suffix in kinds and not ignored(p))


def ignored(path: Path) -> bool:
    parts = path.relative_to(ROOT).parts
    return "__pycache__" in parts or path.name.startswith(".cover")


def hits(pattern: re.Pattern[str], paths: list[Path]) -> list[str]:
    return [
        f"{path.relative_to(ROOT)}:{number}: {line.strip()[:100]}"
        for path in paths
        for number, line in enumerate(path.read_text("utf-8").splitlines(), 1)
        if pattern.search(line)
    ]


def pot_files() -> list[Path]:
    everything = texts("shopassist", only_python=True)
    return [p for p in everything if "pot" in re.split(r"[/_.]", str(p.relative_to(ROOT)))]


def waits(tree: ast.AST) -> Iterator[int]:
    """Lines of calls that let real time pass."""
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call):
            continue
        words = ast.unparse(node.func).split(".")
        if words[-1] in {"sleep", "qWait", "qSleep"} or words[-2:] == ["qtbot", "wait"]:
            yield node.lineno


def test_no_file_of_ours_is_longer_than_four_hundred_lines() -> None:
    paths = texts("shopassist", "tests", "packaging", only_python=True)
    assert len(paths) > 50
    lengths = {p: len(p.read_text("utf-8").splitlines()) for p in paths}
    assert not [f"{p.relative_to(ROOT)}: {n}" for p, n in lengths.items() if n > MOST_LINES]


def test_no_file_names_a_path_of_somebodys_machine() -> None:
    assert not hits(MACHINE_PATH, texts(*OURS))


def test_no_file_names_the_host_of_a_registry() -> None:
    assert not hits(REGISTRY_HOST, texts(*OURS))


def test_nothing_about_a_pot_is_called_by_the_forbidden_word() -> None:
    assert not hits(PROMISE, pot_files())


def test_no_emoji_and_no_tick_marks_in_the_program() -> None:
    assert not hits(PICTURES, texts("shopassist", only_python=True))


def test_no_test_lets_real_time_pass() -> None:
    found = [
        f"{path.relative_to(ROOT)}:{line}"
        for path in texts("tests", only_python=True)
        for line in waits(ast.parse(path.read_text("utf-8")))
    ]
    assert not found


@pytest.mark.parametrize(
    ("pattern", "caught", "passed"),
    [
        (
            MACHINE_PATH,
            "at " + "/".join(("", "tmp", "x")),
            "/".join(("https:", "", "example.org", "work", "tmp", " and a", "tmp", "b")),
        ),
        (REGISTRY_HOST, "from " + "pypi" + ".org", "deb.install(line)"),
        (PROMISE, "the pot is " + "Safe" + " now", "the relief valve is for safety"),
        (PICTURES, "done " + chr(0x2713), "a → b, 20 °C, ± 2 %, ▲, −3"),
    ],
)
def test_the_patterns_catch_what_they_are_for(
    pattern: re.Pattern[str], caught: str, passed: str
) -> None:
    assert pattern.search(caught)
    assert not pattern.search(passed)


def test_calls_that_wait_are_found() -> None:
    source = "time.sleep(1)\nqtbot.wait(5)\nQTest.qWait(5)\nprocess.wait(5)\nqtbot.waitUntil(f)"
    assert list(waits(ast.parse(source))) == [1, 2, 3]
