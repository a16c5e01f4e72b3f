"""What the pane shows, as plain data."""

from collections.abc import Mapping

from shopassist.core.entry.asked import Answer
from shopassist.core.frozen import frozen
from shopassist.widgets.section_shown import SectionShown
from shopassist.widgets.shown import FigureShown

PAGES: tuple[tuple[str, str], ...] = (
    ("mould", "Mould"),
    ("core", "Core"),
    ("bore", "Bore"),
    ("more", "More"),
)


@frozen
class BlankScreen:
    """Everything that the pane shows."""

    batch_id: str
    right: str
    page: str
    shown: frozenset[str]
    """Entries that matter for the chosen mould and core."""
    answers: Mapping[str, Answer]
    section: SectionShown
    wall: FigureShown
    figures: tuple[FigureShown, ...]
    """Resin for one and for all."""
    notes: tuple[str, ...]
    warns: bool
    """True where the first note asks for care."""
    usable: bool
    """True where there is something to hand over."""
    in_mix: str
    """What goes to Mix, and what it has now."""
    message: str
