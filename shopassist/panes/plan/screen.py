"""What the Plan pane shows, as plain data."""

from collections.abc import Mapping
from typing import Literal

from shopassist.core.entry.asked import Answer
from shopassist.core.frozen import frozen
from shopassist.core.plan import Planned
from shopassist.widgets.shown import FigureShown, Tick

PAGES: tuple[tuple[str, str], ...] = (("today", "Today"), ("stage", "Stage"), ("shop", "Shop"))
SPANS: tuple[tuple[str, str], ...] = (("near", "Two days"), ("week", "Week"), ("all", "All"))
Line = tuple[Literal["body", "bold"], Literal["ink", "graphite"], str]
"""Role of the font, name of the ink, words."""


@frozen
class BarRow:
    """One stage on the time axis; every place is an instant."""

    key: str
    name: str
    kind: str
    """``planned``, ``running`` or ``done``."""
    start: float
    free: float
    """When the person is free again."""
    end: float
    early: float
    late: float
    """Where it ends at its shortest and at its longest."""
    room: float
    """Until when it may drag on before something else must move."""
    critical: bool
    selected: bool
    words: str
    """The whole row, for people who cannot see it."""


@frozen
class Thread:
    """Another batch under the same hands."""

    name: str
    places: tuple[Planned, ...]


@frozen
class BarsShown:
    """Bars to scale."""

    start: float = 0.0
    end: float = 1.0
    now: float = 0.0
    rows: tuple[BarRow, ...] = ()
    ticks: tuple[Tick, ...] = ()
    """Those with a label begin a day."""
    shut: tuple[tuple[float, float], ...] = ()
    """When nobody is there."""
    threads: tuple[Thread, ...] = ()
    caption: str = ""
    empty: str = ""
    """What is missing before there is anything to draw."""


@frozen
class DoShown:
    """Something that may be reported now, and what is to be known about it."""

    words: str
    note: str
    primary: bool = False


@frozen
class OrderShown:
    """What a stage comes after, or what it occupies, in words that can be edited."""

    text: str
    typed: bool = False
    error: str = ""


@frozen
class StageShown:
    """The stage that is looked at more closely."""

    key: str
    title: str
    lines: tuple[Line, ...]
    answers: Mapping[str, Answer]
    order: Mapping[str, OrderShown]
    start: str
    """Words of the button; empty hides it."""
    end: str
    take_back: str
    leave_out: str


@frozen
class ShopShown:
    """Hours and rules of the shop, and the day on which this batch is due."""

    hours: str
    hours_is_typed: bool
    hours_error: str
    attended: bool
    due: str
    due_error: str
    due_hint: str
    """How the typed day was understood."""


@frozen
class PlanScreen:
    """Everything that the pane shows."""

    right: str
    bars: BarsShown
    lead: FigureShown
    figures: tuple[FigureShown, ...]
    span: str
    page: str
    dos: tuple[DoShown, ...]
    when: str
    when_error: str
    today: tuple[Line, ...]
    stage: StageShown
    shop: ShopShown
    cautions: str
    message: str
