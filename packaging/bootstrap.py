"""Set this checkout up and run it: ``python3 packaging/bootstrap.py run | test | bench | prove``.

Needs nothing but Python. The file itself stays readable to older versions, so that they are told.
"""

from __future__ import annotations

import argparse
import sys

LEAST = (3, 11)


def too_old(version: tuple[int, ...]) -> str:
    """What to tell a Python older than we need; nothing when it is new enough."""
    if version[:2] >= LEAST:
        return ""
    have, need = ".".join(map(str, version[:2])), ".".join(map(str, LEAST))
    return (
        f"Shopassist needs Python {need} or newer; this is Python {have}.\n"
        f"Start it with a newer one, for example: python{need} packaging/bootstrap.py run"
    )


def parser() -> argparse.ArgumentParser:
    """Describe the four commands."""
    top = argparse.ArgumentParser(prog="bootstrap.py", description=__doc__.splitlines()[0])
    commands = top.add_subparsers(dest="command", required=True)
    run = commands.add_parser("run", help="start the program; options go to the program")
    run.add_argument("rest", nargs=argparse.REMAINDER, metavar="[--demo] [--data-dir DIR] …")
    test = commands.add_parser("test", help="every everyday check; with arguments, pytest alone")
    test.add_argument("rest", nargs=argparse.REMAINDER, metavar="pytest arguments")
    bench = commands.add_parser("bench", help="speed against bare Qt programs")
    bench.add_argument("--json", action="store_true", help="the ratios alone, as JSON")
    bench.add_argument("--only", action="append", default=[], metavar="NAME", help="one ratio")
    prove = commands.add_parser("prove", help="the long proofs at full count; resumes")
    prove.add_argument("names", nargs="*", help="proofs to run; all when none is named")
    prove.add_argument("--count", type=int, help="trials of each, instead of the full count")
    prove.add_argument("--seed", type=int, help="instead of a seed from the system")
    return top


def understood(words: list[str]) -> argparse.Namespace:
    """Read the command line; what follows ``run`` or ``test`` is for the program or for pytest."""
    if words[:1] in (["run"], ["test"]) and words[1:2] not in (["-h"], ["--help"]):
        return argparse.Namespace(command=words[0], rest=words[1:])
    return parser().parse_args(words)


def main(words: list[str] | None = None) -> int:
    """Do what the command line asks; the result is the exit status."""
    complaint = too_old(sys.version_info[:3])
    if complaint:
        print(complaint, file=sys.stderr)
        return 2
    wanted = understood(sys.argv[1:] if words is None else words)
    from chores import errands

    return errands.do(wanted)


if __name__ == "__main__":
    sys.exit(main())
