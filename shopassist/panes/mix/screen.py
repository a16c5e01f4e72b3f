"""Everything that the mix pane shows, ready to draw."""

from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from shopassist.core.entry.asked import Answer
from shopassist.core.frozen import frozen
from shopassist.panes.mix.asks import NAMES, PAGES
from shopassist.panes.mix.drafts import FieldName, Standing
from shopassist.widgets.shown import DeviationShown, FigureShown, StopShown

IDS = (
    "mix.sheet",
    *(f"mix.basis.{basis}" for basis in ("weight", "volume", "strokes")),
    "mix.ratio_a",
    "mix.ratio_b",
    "mix.amount",
    "mix.use_blank",
    "mix.waste",
    "mix.scale_step",
    "mix.summary",
    "mix.weigh_out",
    "mix.part_a_target",
    "mix.part_b_target",
    "mix.total_target",
    "mix.stops",
    "mix.cup.<n>.actual_a",
    "mix.cup.<n>.actual_b",
    "mix.deviation",
    "mix.tolerance",
    "mix.note",
    "mix.reason",
    "mix.when",
    "mix.hardener_in",
    "mix.poured",
    "mix.not_poured",
    "mix.another_cup",
    "mix.correct_weight",
    "mix.message",
    "mix.page.<n>",
    *NAMES,
    *(f"mix.{page}.{part}" for page, _, _ in PAGES[1:] for part in ("caution", "notes")),
    "mix.cup.act",
    "mix.steps.act",
    "mix.steps.digits",
)
"""Everything in the pane that has a name."""


@frozen
class ButtonShown:
    """A button, and in one line why it cannot be pressed."""

    words: str
    enabled: bool = True
    reason: str = ""


Choices = tuple[tuple[str, str], ...]
Card = tuple[str, tuple[str, ...]]
"""Heading and lines of a card that is read in need."""


@frozen
class PageShown:
    """One page beside the grams."""

    key: str
    shown: frozenset[str] = frozenset()
    """Entries that matter now."""
    answers: Mapping[str, Answer] = field(default_factory=dict)
    offers: Mapping[str, Choices] = field(default_factory=dict)
    """Choices that come from the records."""
    figures: tuple[FigureShown, ...] = ()
    figure_ids: tuple[str, ...] = ()
    caution: tuple[str, str] = ("", "")
    rows: tuple[tuple[str, str], ...] = ()
    notes: tuple[str, ...] = ()
    cards: tuple[Card, ...] = ()
    act: ButtonShown | None = None
    digits: tuple[str, str] = ("", "")
    """Caption, and digits that are set each second."""


@frozen
class MixScreen:
    """The pane at one moment."""

    batch_id: str
    batch_name: str
    cup: int
    heading: tuple[str, str]
    """Which cup, and where its running total is read."""
    folded: bool
    """The inputs stand as two lines: grams are there and somebody has begun to weigh."""
    quiet: bool
    """Weighing has begun: the stops say what the large figures said."""
    begun: bool
    """Something has been weighed into this cup."""
    summary: tuple[str, str, str, str]
    """Resin, ratio; amount, waste: the folded inputs."""
    sheets: tuple[tuple[str, str], ...]
    sheet: str
    basis: Literal["weight", "volume", "strokes"]
    bases: tuple[str, ...]
    """Those that may be chosen."""
    ratio_locked: bool
    use_blank: str
    """Words on the offer to use Blank's amount again; empty where it counts already."""
    page: PageShown | None
    """What stands in place of the ratio's entries; None: those themselves."""
    fields: tuple[tuple[FieldName, Standing], ...]
    figures: tuple[FigureShown, ...]
    """Both parts and their total."""
    stops: tuple[StopShown, ...]
    weighing: Literal["a", "b", "colour", ""]
    """The part whose reading is asked for now."""
    deviation: FigureShown | None
    rule: DeviationShown | None
    note: tuple[str, str]
    ahead: tuple[tuple[str, str], ...]
    """Before hardener: what would follow, as label and time."""
    facts: tuple[tuple[str, str], ...]
    """After hardener: what happened, as label and time."""
    hardener: ButtonShown | None
    needs_reason: bool
    poured: ButtonShown | None
    not_poured: ButtonShown | None
    another: ButtonShown | None
    message: str
