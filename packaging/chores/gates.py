"""How much of the code the tests must have run, branches counted."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Gate:
    """A part of the program and the least share of it that tests run, in percent."""

    name: str
    include: str
    least: int


DESKTOP = "shopassist/desktop"
GATES = (
    Gate("core", "shopassist/core/*", 100),
    Gate("services", "shopassist/services/*", 95),
    Gate("presenters", "shopassist/panes/*/presenter.py", 95),
    Gate("store", "shopassist/store/*", 95),
    Gate("clocks", "shopassist/clock/*", 95),
    Gate("means", f"{DESKTOP}/awake.py,{DESKTOP}/machine.py,{DESKTOP}/sound.py", 95),
    Gate("everything", "shopassist/*", 95),
)


def gate_arguments(gate: Gate) -> tuple[str, ...]:
    """Give the arguments with which coverage judges one gate."""
    return (
        "report",
        f"--include={gate.include}",
        f"--fail-under={gate.least}",
        "--skip-covered",
        "--show-missing",
    )
