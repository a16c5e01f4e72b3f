"""What a group of entries asks for, and what stands in each."""

from typing import Literal

from shopassist.core.entry.spec import EntrySpec
from shopassist.core.frozen import frozen

Origin = Literal[
    "typed", "sheet", "default", "job card", "from Blank", "from the plan", "from Cure",
    "from Stabilise", "",
]  # fmt: skip


@frozen
class Ask:
    """One entry: a quantity to type, words to choose from, or a free line."""

    name: str
    label: str
    spec: EntrySpec | None = None
    choices: tuple[tuple[str, str], ...] = ()
    """Key and words of each; the first one stands for *not said*."""
    default: float | None = None
    """Our own value where nothing is typed; shown as ours."""
    places: int | None = None
    """Decimals of a default."""
    note: str = ""
    """What it is for, or what happens when it is left blank."""


@frozen
class Answer:
    """What stands in one entry."""

    text: str = ""
    value: float | None = None
    quantity: str = ""
    origin: Origin = ""
    problem: str = ""
    """What to change; shown beside the field."""
