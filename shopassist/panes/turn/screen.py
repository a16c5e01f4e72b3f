"""What the Turn pane shows, as plain data."""

from collections.abc import Mapping
from typing import Literal

from shopassist.core.entry.asked import Answer
from shopassist.core.frozen import frozen
from shopassist.widgets.shown import DeviationShown, FigureShown, RuleShown

Line = tuple[Literal["body", "bold"], Literal["ink", "graphite"], str]
"""Role of the font, name of the ink, words."""


@frozen
class Rung:
    """One paper on the ladder."""

    at: float
    """Grain on a logarithmic scale, coarse at the left."""
    label: str
    grain: str
    lent: bool = False
    """True for a paper that is missing here and would bridge a step."""


@frozen
class Gap:
    """From one paper to the next."""

    start: float
    end: float
    words: str
    too_far: bool


@frozen
class LadderShown:
    """A row of papers to scale."""

    rungs: tuple[Rung, ...] = ()
    gaps: tuple[Gap, ...] = ()
    spoken: str = ""


@frozen
class WaitShown:
    """What the putty is waiting for; the digits are set apart."""

    caption: str
    acts: tuple[str, ...]
    """Words of what may be reported now, the likeliest first."""
    counts: bool


@frozen
class TurnScreen:
    """Everything that the pane shows."""

    right: str
    page: str
    answers: Mapping[str, Answer]
    figures: tuple[FigureShown, ...]
    figure_names: tuple[str, ...]
    missing: str
    note: tuple[str, str]
    """The first warning, and the others."""
    lines: tuple[Line, ...]
    faults: tuple[tuple[str, str, bool], ...]
    """Key, words, and whether it is so."""
    speed: DeviationShown | None
    pecks: RuleShown | None
    ladder: LadderShown | None
    wait: WaitShown | None
    cautions: str
    message: str
