"""The definition file of the units, for tests; the core itself reads no file."""

from pathlib import Path

LINES = tuple(
    (Path(__file__).parents[2] / "resources" / "units" / "workshop.txt")
    .read_text("utf-8")
    .splitlines()
)
