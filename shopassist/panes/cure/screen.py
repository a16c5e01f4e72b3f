"""What the cure pane shows: plain data, every word ready."""

from typing import Literal

from shopassist.core.frozen import frozen
from shopassist.widgets.chart_shown import ChartShown
from shopassist.widgets.shown import WaitShown

Page = Literal["times", "curve", "table", "readings", "witness", "waits"]
PAGES: tuple[tuple[Page, str], ...] = (
    ("times", "Times"), ("curve", "Curve"), ("readings", "Readings"), ("witness", "Witness"),
)  # fmt: skip
"""Pages that have a button of their own; *waits* opens from the line of the other cures."""
Mode = Literal[
    "reading",
    "extremes",
    "unknown",
    "correct",
    "what_if",
    "nights",
    "cabinet",
    "clock",
    "hardener",
    "off",
]
Field = Literal[
    "temp", "low", "high", "since", "when", "reading", "reason", "what", "after", "before", "off"
]


@frozen
class Line:
    """One milestone: its name, likely range, and the time to go by."""

    id: str
    label: str
    range: str
    gate: str
    passed: bool
    note: str
    what_if: str = ""
    """The same time if it stayed at the temperature asked about."""


@frozen
class Other:
    """Another running cure, beside the one in front."""

    batch_id: str
    """Or ``wait.<n>`` for a clock of one's own."""
    name: str
    caption: str

    @property
    def own(self) -> bool:
        """Whether it is a clock of one's own, which somebody ends."""
        return self.batch_id.startswith(OWN)


OWN = "wait."


@frozen
class FormShown:
    """How a temperature, a range, an unknown stretch, a correction or a what-if is typed."""

    mode: Mode
    modes: tuple[tuple[Mode, str], ...]
    fields: tuple[Field, ...]
    readings: tuple[tuple[int, str], ...]
    """Number of the row and its words, newest first, for corrections."""
    echoes: tuple[tuple[Field, str], ...]
    """How typed times are understood."""
    hint: str
    act: str
    """Words of the button."""
    can_clear: bool
    """A what-if is shown and can be taken away."""
    serial: int
    """Counts what was taken: the fields are emptied when it moves."""


@frozen
class TableShown:
    """The charts as a table."""

    head: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    words: tuple[int, ...] = ()
    """Columns of words; the others are numbers."""
    saved: str = ""
    """Where it was written to."""


@frozen
class CureScreen:
    """Everything that the cure pane shows; digits are asked for apart, each second."""

    batch_id: str
    right: str
    wait: WaitShown
    temperature: tuple[str, str]
    temperature_line: str
    places: tuple[str, ...]
    place: str
    page: Page
    lines: tuple[Line, ...]
    what_if: str
    """What the what-if asks about, a temperature or the cabinet; empty for none."""
    form: FormShown
    charts: tuple[ChartShown, ...]
    """Age and temperature; empty unless their page is open."""
    others: tuple[Other, ...]
    beside: str
    """Words behind the digits of the most urgent other cure; empty without one."""
    notes: tuple[str, ...]
    seen: tuple[tuple[str, str], ...]
    """Marks of the witness cup, and when each was seen."""
    witness: str
    error: str
    empty: str
    table: TableShown = TableShown()
