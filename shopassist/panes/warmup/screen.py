"""What the warm-up pane shows, as plain data."""

from typing import Literal

from shopassist.core.frozen import frozen
from shopassist.panes.warmup.drafts import FieldName, Standing
from shopassist.widgets.shown import FigureShown, Tick

SeriesKind = Literal["contents", "pot", "air"]


@frozen
class Series:
    """One curve of the picture: x is an instant, y ready in the shown unit."""

    kind: SeriesKind
    label: str
    points: tuple[tuple[float, float], ...]


@frozen
class Mark:
    """A moment of the picture with its word."""

    at: float
    label: str


@frozen
class PictureShown:
    """Temperatures over the coming hours."""

    caption: str
    start: float = 0.0
    end: float = 1.0
    low: float = 0.0
    high: float = 1.0
    across: tuple[Tick, ...] = ()
    up: tuple[Tick, ...] = ()
    series: tuple[Series, ...] = ()
    band: tuple[tuple[float, float, float], ...] = ()
    """Likely range of what is in the pot: x, lower, upper."""
    goal: float | None = None
    goal_label: str = ""
    marks: tuple[Mark, ...] = ()
    now: float | None = None
    empty: str = ""
    """What is missing before there is anything to draw."""
    spoken: str = ""


@frozen
class LearnShown:
    """The sheet on which a logged warm-up is typed."""

    is_open: bool = False
    hint: str = ""
    message: str = ""
    """What is wrong with the log."""
    result: tuple[tuple[str, str], ...] = ()
    can_keep: bool = False
    keep_reason: str = ""
    """Why it cannot be kept."""


@frozen
class WarmupScreen:
    """The pane as it stands."""

    right: str
    cabinets: tuple[tuple[str, str], ...]
    cabinet: str
    is_typed: bool
    summary: tuple[str, str]
    fields: tuple[tuple[FieldName, Standing], ...]
    inside: str
    shares: bool
    """Whether it matters how many moulds share the resin."""
    refused: str
    """Why what is in it may not be warmed; beside that choice."""
    pour_text: str
    pour_error: str
    pour_is_typed: bool
    lead: FigureShown
    figures: tuple[FigureShown, ...]
    notes: tuple[tuple[str, str], ...]
    picture: PictureShown
    cautions: str
    what_if: str
    """Heading of the cure's lines; empty where there is nothing to say."""
    cure_lines: tuple[tuple[str, str], ...]
    tell_pot: str
    """Words of the button that tells the pot's record; empty where it need not be told."""
    learn: LearnShown
