"""Reads the outside checks that come with the program, or a further folder of the same form."""

import tomllib
from pathlib import Path

from shopassist.core.checks import Check, checks_from_mapping
from shopassist.core.errors import StoreError
from shopassist.core.messages import say
from shopassist.store.resources import resource


def load_checks(folder: Path) -> tuple[Check, ...]:
    """Every check of every file of a folder, in the order of the files' names."""
    if not folder.is_dir():
        raise StoreError(say("There is no folder {name}.", name=folder.name))
    files = sorted(folder.glob("*.toml"))
    return tuple(check for path in files for check in read_check_file(path))


def read_check_file(path: Path) -> tuple[Check, ...]:
    """Every check of one file."""
    try:
        mapping = tomllib.loads(path.read_text("utf-8"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        title = say("The check file {name} cannot be read.", name=path.name)
        raise StoreError(title, str(error)) from error
    return checks_from_mapping(mapping)


def shipped_checks() -> tuple[Check, ...]:
    """Return the checks that come with the program."""
    return load_checks(resource("checks"))
