"""What a chart shows: plain data without Qt, so that presenters can build it."""

from typing import Literal

from shopassist.core.frozen import frozen
from shopassist.widgets.shown import Tick

At = tuple[float, float]
"""A point: x, y."""


@frozen
class Level:
    """A named height across the whole chart."""

    at: float
    label: str
    kind: Literal["named", "limit", "rated"] = "named"
    """A limit is dotted, a rated pressure solid; both in the colour of refusal."""


@frozen
class Target:
    """A band that somebody typed as the aim."""

    low: float
    high: float
    label: str


@frozen
class ChartShown:
    """One chart; x is time, every number comes ready in the unit that its ticks name."""

    caption: str
    start: float
    end: float
    low: float
    high: float
    across: tuple[Tick, ...] = ()
    up: tuple[Tick, ...] = ()
    now: float | None = None
    """Before it a line is solid, after it dashed."""
    line: tuple[At, ...] = ()
    band: tuple[tuple[float, float, float], ...] = ()
    """The likely range: x, lower, upper."""
    ghosts: tuple[tuple[str, tuple[At, ...]], ...] = ()
    """What was forecast earlier, each with its word: drawn faintly."""
    levels: tuple[Level, ...] = ()
    dots: tuple[At, ...] = ()
    """Typed points; what lies between them is dotted."""
    bars: tuple[tuple[float, float, float, float], ...] = ()
    """Typed ranges over a stretch: from, to, lowest, highest."""
    gaps: tuple[tuple[float, float], ...] = ()
    """Stretches of which nothing is known."""
    gap_word: str = ""
    unread: tuple[tuple[float, float], ...] = ()
    """Stretches in which nobody read anything."""
    unread_word: str = ""
    target: Target | None = None
    spoken: str = ""
    """The whole chart in words, for people who cannot see it."""
