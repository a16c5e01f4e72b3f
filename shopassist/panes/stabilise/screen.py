"""What the pane shows, as plain data."""

from collections.abc import Mapping
from typing import Literal

from shopassist.core.entry.asked import Answer
from shopassist.core.frozen import frozen
from shopassist.widgets.shown import FigureShown, Reported

PAGES: tuple[tuple[str, str], ...] = (
    ("facts", "So far"),
    ("set", "Wood"),
    ("dry", "Oven"),
    ("bath", "Bath"),
    ("vacuum", "Pump"),
    ("bake", "Bake"),
    ("compare", "Sets"),
    ("cautions", "Care"),
)
PAGE_OF: dict[str, str] = {
    "weigh": "set", "dry": "dry", "cool": "dry", "cover": "bath", "pull": "vacuum",
    "soak": "vacuum", "wrap": "bath", "heat_up": "bake", "hold": "bake", "after": "compare",
    "done": "compare",
}  # fmt: skip
"""Which page belongs to the present step."""


Told = tuple[Literal["body", "bold"], str, str]
"""How large, in which ink, and the words."""


@frozen
class ActShown:
    """Something that may be reported now."""

    event: str
    words: str
    primary: bool = False


@frozen
class StabiliseScreen:
    """Everything that the pane shows."""

    batch_id: str
    right: str
    steps: tuple[str, ...]
    present: int | None
    what: str
    why: str
    wait: str
    """Caption of the wait; empty where nothing is waited for."""
    until: str
    """When it is over, in words."""
    digits: str
    mass_label: str
    """What is to be weighed now; empty hides the entry."""
    asks_dial: bool
    asks_oven: bool
    asks_probe: bool
    asks_meter: bool
    acts: tuple[ActShown, ...]
    figures: tuple[FigureShown, ...]
    figure_names: tuple[str, ...]
    note: str
    """What else is to be known at this step."""
    beware: str
    """The caution of this step."""
    facts: tuple[Reported, ...]
    compared: tuple[Told, ...]
    """Other sets with their uptakes."""
    can_correct: bool
    """True where the last weight may be typed again."""
    take_back: str
    """What the last report was, where it may be taken back; empty where it may not."""
    cautions: tuple[str, ...]
    page: str
    answers: Mapping[str, Answer]
    choices: Mapping[str, tuple[tuple[str, str], ...]]
    """Records that can be chosen now."""
    message: str
