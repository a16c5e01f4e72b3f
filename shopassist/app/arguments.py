"""The command line."""

from argparse import ArgumentParser
from collections.abc import Sequence
from pathlib import Path

from shopassist.core.frozen import frozen


@frozen
class Arguments:
    """What was asked for on the command line."""

    data_dir: Path | None
    demo: bool
    manual: bool


def arguments(words: Sequence[str]) -> Arguments:
    """Read the command line; a wrong word ends the program with a line of help."""
    parser = ArgumentParser(prog="shopassist", description="Shop assistant for wood and resin.")
    parser.add_argument(
        "--data-dir", type=Path, metavar="DIR", help="keep everything in this folder"
    )
    parser.add_argument(
        "--demo", action="store_true", help="fill an empty folder with an invented shop"
    )
    parser.add_argument(
        "--clock", choices=("system", "manual"), default="system",
        help="manual: a clock moved by lines on standard input; for tests",
    )  # fmt: skip
    found = parser.parse_args(list(words))
    return Arguments(found.data_dir, found.demo, found.clock == "manual")
