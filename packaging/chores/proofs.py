"""The long proofs at full count: resumable, seeded, their figures kept in ``tests/PROOFS.md``."""

import hashlib
import json
import os
import platform
import secrets
import subprocess
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, field
from datetime import UTC, datetime
from pathlib import Path

from chores.ground import ROOT, clean_environment, say, scratch

FOLDER = ROOT / "tests" / "proofs"
PAGE = ROOT / "tests" / "PROOFS.md"
HEAD = """# Proofs

The last figures of the long proofs (`python3 packaging/bootstrap.py prove [names] [--count N]
[--seed S]`). The everyday check runs a sample of each. The same name, count, seed and code repeat a
run. *Code* is a digest over the package and the proof: when it differs from the checkout's, the
figures belong to older code.

| proof | trials | seed | failures | figures | time | date | code | on |
|---|--:|--:|--:|---|--:|---|---|---|
"""


@dataclass
class Progress:
    """How far one proof has come; the part that survives an interruption."""

    name: str
    count: int
    seed: int
    code: str
    done: int = 0
    seconds: float = 0.0
    failures: list[str] = field(default_factory=list)
    figures: dict[str, float] = field(default_factory=dict)

    def take(self, part: Mapping[str, object]) -> None:
        """Add what one stretch of trials brought."""
        self.done += int(str(part["count"]))
        self.seconds += float(str(part["seconds"]))
        self.failures += [str(line) for line in _listed(part["failures"])]
        figures = part["figures"]
        if isinstance(figures, dict):
            self.figures = merged(self.figures, figures)


def merged(before: Mapping[str, float], part: Mapping[str, float]) -> dict[str, float]:
    """Add counts up; a figure whose name begins with *most* or *least* keeps its extreme."""
    out = dict(before)
    for name, value in part.items():
        if name not in out:
            out[name] = value
        elif name.startswith("most"):
            out[name] = max(out[name], value)
        elif name.startswith("least"):
            out[name] = min(out[name], value)
        else:
            out[name] = out[name] + value
    return out


def names_in(folder: Path) -> tuple[str, ...]:
    """List the proof modules: those that offer ``run``."""
    modules = sorted(folder.glob("*.py"))
    return tuple(p.stem for p in modules if "\ndef run(" in p.read_text("utf-8"))


def start(python: Path, names: Sequence[str], count: int | None, seed: int | None) -> int:
    """Run the proofs one after the other; the result is an exit status."""
    known = names_in(FOLDER)
    unknown = sorted(set(names) - set(known))
    if unknown or not known:
        strange = f"Unknown: {', '.join(unknown)}. " if unknown else ""
        say(f"{strange}Known proofs: {', '.join(known) or 'none'}.")
        return 2
    failed = [name for name in names or known if not _prove(python, name, count, seed)]
    say(f"Failed: {', '.join(failed)}." if failed else "Every proof held.")
    return int(bool(failed))


def _prove(python: Path, name: str, count: int | None, seed: int | None) -> bool:
    facts = _ask(python, name, "facts")
    full = count or int(str(facts["full"]))
    store = Path(str(facts["cache"])) / f"{name}.json"
    progress = resumed(store, name, full, seed, code_digest(ROOT, name))
    say(f"{name}: {progress.done} of {full} done, seed {progress.seed}")
    while progress.done < full:
        size = min(int(str(facts["stretch"])), full - progress.done)
        if not _stretch(python, progress, size):
            break
        keep(store, progress)
        say(
            f"{name}: {progress.done} of {full}, {len(progress.failures)} failures, "
            f"{progress.seconds:.0f} s"
        )
    store.unlink(missing_ok=True)
    text = PAGE.read_text("utf-8") if PAGE.exists() else HEAD
    PAGE.write_text(with_row(text, progress, datetime.now(UTC)), "utf-8")
    for line in progress.failures:
        print(line)
    return not progress.failures


def _stretch(python: Path, progress: Progress, size: int) -> bool:
    """Run some trials; tells whether it makes sense to go on."""
    at = progress.seed + progress.done
    try:
        part = _ask(python, progress.name, str(size), str(at))
    except subprocess.CalledProcessError as death:
        progress.failures.append(f"{size} trials from seed {at}: {death}")
        return False
    progress.take(part)
    if not int(str(part["count"])):
        progress.failures.append(f"seed {at} ran no trial")
        return False
    return True


def keep(store: Path, progress: Progress) -> None:
    """Put the progress down as a whole, so that an interruption cannot halve it."""
    store.parent.mkdir(parents=True, exist_ok=True)
    fresh = store.with_suffix(".new")
    fresh.write_text(json.dumps(asdict(progress)), "utf-8")
    fresh.replace(store)


def resumed(store: Path, name: str, count: int, seed: int | None, code: str) -> Progress:
    """Go on where the same proof of the same code stopped, else begin anew."""
    fresh = Progress(name, count, secrets.randbelow(2**31) if seed is None else seed, code)
    try:
        kept = Progress(**json.loads(store.read_text("utf-8")))
    except (OSError, ValueError, TypeError):
        return fresh
    same = (kept.name, kept.count, kept.code) == (name, count, code)
    return kept if same and seed in {None, kept.seed} else fresh


def code_digest(root: Path, name: str) -> str:
    """Name the code that a proof judged."""
    paths = [
        *sorted((root / "shopassist").rglob("*.py")),
        *sorted((root / "tests/proofs").glob("*.py")),
    ]
    whole = hashlib.sha256(name.encode())
    for path in paths:
        whole.update(path.read_bytes())
    return whole.hexdigest()[:10]


def with_row(page: str, done: Progress, when: datetime) -> str:
    """Put a proof's figures into the page, in place of its older ones."""
    rows = [line for line in page.splitlines() if line.startswith("| ") and not _head(line)]
    others = [row for row in rows if row.split("|")[1].strip() != done.name]
    return HEAD + "\n".join(sorted([*others, _row(done, when)])) + "\n"


def _head(line: str) -> bool:
    return line in HEAD.splitlines()


def _row(done: Progress, when: datetime) -> str:
    figures = ", ".join(f"{name} {value:g}" for name, value in sorted(done.figures.items()))
    machine = f"Python {platform.python_version()}, {platform.system()} {platform.machine()}"
    cells = (done.name, str(done.done), str(done.seed), str(len(done.failures)), figures or "–",
             f"{done.seconds:.0f} s", f"{when:%Y-%m-%d}", done.code, machine)  # fmt: skip
    return f"| {' | '.join(cells)} |"


def _ask(python: Path, name: str, *words: str) -> Mapping[str, object]:
    """Talk to a fresh process that holds the proof; progress of its own goes to standard error."""
    paths = os.pathsep.join((str(ROOT), str(ROOT / "packaging")))
    done = subprocess.run(
        [python, "-m", "chores.proof_process", name, *words],
        check=True,
        cwd=ROOT,
        stdout=subprocess.PIPE,
        text=True,
        env=clean_environment(PYTHONPATH=paths, QT_QPA_PLATFORM="offscreen", **scratch()),
    )
    answer = json.loads(done.stdout.splitlines()[-1])
    if not isinstance(answer, dict):
        raise TypeError(answer)
    return answer


def _listed(value: object) -> list[object]:
    return list(value) if isinstance(value, list | tuple) else [value]
