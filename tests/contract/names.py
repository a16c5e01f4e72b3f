"""Object names of the running window, and the list of them in DEVELOPERS.md.

``python tests/contract/names.py --write`` puts the list that the presenters give into the page.
"""

import re
import sys
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "DEVELOPERS.md"
HEADING = "## Object names"
NUMBER = re.compile(r"\.\d+(?=\.|$)")


def listed() -> set[str]:
    """Names in the page."""
    text = PAGE.read_text("utf-8")
    if HEADING not in text:
        return set()
    part = text.split(HEADING, 1)[1].split("\n## ", 1)[0]
    return set(re.findall(r"`([a-z_]+(?:\.[a-z_<>]+)+)`", part))


def promised() -> dict[str, tuple[str, ...]]:
    """``IDS`` of every presenter, by its pane."""
    sys.path.insert(0, str(ROOT))
    from importlib import import_module

    found: dict[str, tuple[str, ...]] = {}
    for path in sorted((ROOT / "shopassist" / "panes").glob("*/presenter.py")):
        module = import_module(f"shopassist.panes.{path.parent.name}.presenter")
        for value in vars(module).values():
            if isinstance(value, type) and value.__module__ == module.__name__:
                ids = getattr(value, "IDS", None)
                if ids:
                    found[path.parent.name] = tuple(ids)
    return found


def matches(name: str, promise: str) -> bool:
    """Whether an object name is what a promised id stands for; ``<n>`` is any one part."""
    pattern = re.escape(promise).replace(re.escape("<n>"), r"[\w\-]+(?:\.[\w\-]+)?")
    pattern = pattern.replace(re.escape("<id>"), r"[\w\-]+").replace(
        re.escape("<place>"), r"[\w.]+"
    )
    return re.fullmatch(pattern, name) is not None


def section() -> str:
    """The section as it should stand in the page."""
    lines = [
        HEADING,
        (
            "Entries, answers, results and actions, as tests and screen readers' scripts find them;"
            " `<n>` stands for"
        ),
        (
            "a number or an id. Written by `python tests/contract/names.py --write`; a test holds window,"
            " presenters and"
        ),
        "this list equal.",
        "",
    ]
    for pane, ids in promised().items():
        lines.append(f"**{pane}**: " + ", ".join(f"`{each}`" for each in ids))
        lines.append("")
    return "\n".join(lines).rstrip() + "\n"


def write() -> None:
    """Put the section into the page, in its place or at the end."""
    text = PAGE.read_text("utf-8")
    if HEADING in text:
        before, rest = text.split(HEADING, 1)
        after = rest.split("\n## ", 1)
        tail = f"\n## {after[1]}" if len(after) > 1 else ""
        PAGE.write_text(before + section() + tail, "utf-8")
    else:
        PAGE.write_text(text.rstrip() + "\n\n" + section(), "utf-8")


def names_of(window: object) -> Iterator[str]:
    """Object names of all widgets and actions."""
    from PySide6.QtCore import QObject

    assert isinstance(window, QObject)
    for child in window.findChildren(QObject):
        if name := child.objectName():
            yield name


if __name__ == "__main__" and "--write" in sys.argv:
    write()
