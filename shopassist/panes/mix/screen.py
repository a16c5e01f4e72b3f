"""Everything that the mix pane shows, ready to draw."""

from typing import Literal

from shopassist.core.frozen import frozen
from shopassist.panes.mix.drafts import FieldName, Standing
from shopassist.widgets.shown import DeviationShown, FigureShown, StopShown


@frozen
class ButtonShown:
    """A button, and in one line why it cannot be pressed."""

    words: str
    enabled: bool = True
    reason: str = ""


@frozen
class MixScreen:
    """The pane at one moment."""

    batch_id: str
    batch_name: str
    cup: int
    folded: bool
    """The inputs stand as two lines: grams are there and somebody has begun to weigh."""
    summary: tuple[str, str, str, str]
    """Resin, ratio; amount, waste: the folded inputs."""
    sheets: tuple[tuple[str, str], ...]
    sheet: str
    basis: Literal["weight", "volume"]
    ratio_locked: bool
    fields: tuple[tuple[FieldName, Standing], ...]
    figures: tuple[FigureShown, ...]
    """Both parts and their total."""
    stops: tuple[StopShown, ...]
    weighing: Literal["a", "b", ""]
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
    another: ButtonShown | None
    message: str
