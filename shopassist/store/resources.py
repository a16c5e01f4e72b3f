"""Files that come with the program: in the wheel, or in the checkout beside the package."""

from pathlib import Path

PACKAGE = Path(__file__).resolve().parents[1]


def resource(*names: str) -> Path:
    """Return the path of a file or folder that came with the program."""
    installed = PACKAGE / "_resources"
    root = installed if installed.is_dir() else PACKAGE.parent / "resources"
    return root.joinpath(*names)
