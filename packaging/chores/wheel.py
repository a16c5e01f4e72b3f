"""Build the wheel and look inside: it carries the program and the resources, nothing else."""

import subprocess
import tempfile
import zipfile
from collections.abc import Iterable
from pathlib import Path

from chores.ground import ROOT, clean_environment


def expected(root: Path) -> set[str]:
    """Name what a wheel of this checkout must carry."""
    source = {path.relative_to(root).as_posix() for path in _files(root / "shopassist")}
    resources = {
        f"shopassist/_resources/{path.relative_to(root / 'resources').as_posix()}"
        for path in _files(root / "resources")
    }
    return source | resources


def problems(carried: Iterable[str], wanted: set[str]) -> list[str]:
    """Compare a wheel's content with what it must hold."""
    have = {name for name in carried if ".dist-info/" not in name}
    lost = [f"missing from the wheel: {name}" for name in sorted(wanted - have)]
    strange = [f"does not belong into the wheel: {name}" for name in sorted(have - wanted)]
    return lost + strange


def build(python: Path, folder: Path) -> Path:
    """Build the wheel with the environment's own build tool, without the network."""
    command = [str(python), "-m", "pip", "wheel", "--quiet", "--no-deps", "--no-build-isolation"]
    subprocess.run(
        [*command, "--wheel-dir", str(folder), str(ROOT)],
        check=True,
        cwd=folder,
        env=clean_environment(PIP_DISABLE_PIP_VERSION_CHECK="1"),
    )
    return next(folder.glob("shopassist-*.whl"))


def check(python: Path) -> int:
    """Build, compare, report; the result is an exit status."""
    with tempfile.TemporaryDirectory() as name:
        try:
            made = build(python, Path(name))
        except subprocess.CalledProcessError:
            return 1
        with zipfile.ZipFile(made) as archive:
            found = problems(archive.namelist(), expected(ROOT))
    for problem in found:
        print(problem)
    return int(bool(found))


def _files(folder: Path) -> list[Path]:
    return [p for p in folder.rglob("*") if p.is_file() and "__pycache__" not in p.parts]
