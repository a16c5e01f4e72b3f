"""TOML files of records: import, export and the demo's seed. The journal alone is the truth."""

from pathlib import Path

from shopassist.core.errors import StoreError
from shopassist.core.messages import say

LARGEST = 1_000_000
"""A record's file is a page of text, not a book, [bytes]."""


def read_toml(path: Path) -> dict[str, object]:
    """Read a record's file into a mapping; raises ``StoreError`` with the line where it breaks."""
    import tomllib  # a start without imports does without it

    try:
        if path.stat().st_size > LARGEST:
            raise StoreError("This file is too large to be a record.", field=str(path))
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except OSError as error:
        raise StoreError(
            "This file cannot be read.", say("{why}", why=error.strerror or "unknown"), str(path)
        ) from error
    except UnicodeDecodeError as error:
        raise StoreError("This is not a text file.", field=str(path)) from error
    except tomllib.TOMLDecodeError as error:
        raise StoreError(
            say("This file is not written as TOML: {why}", why=str(error)), field=str(path)
        ) from error


def folder_of(folder: Path) -> tuple[dict[str, object], ...]:
    """Read every record of a folder, by name of the file."""
    return tuple(read_toml(path) for path in sorted(folder.glob("*.toml")))
