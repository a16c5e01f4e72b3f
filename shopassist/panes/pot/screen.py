"""What the pot pane shows: plain data, made by the presenter, drawn by the view."""

from typing import Literal

from shopassist.core.frozen import frozen
from shopassist.core.pot.cards import AskKind
from shopassist.core.pot.words import Belief
from shopassist.widgets.chart_shown import ChartShown
from shopassist.widgets.shown import AnswerShown, FigureShown, LidShown, Reported

Page = Literal["list", "vessel", "air", "readings", "vacuum"]
PAGES: tuple[tuple[Page, str], ...] = (
    ("list", "List"), ("vessel", "Vessel"), ("air", "Air"), ("readings", "Gauge"),
    ("vacuum", "Vacuum"),
)  # fmt: skip
ANSWER, OFFER = "pot.answer.", "pot.offer."
RECORD, MORE = "pot.answer.record", "pot.more"


@frozen
class Answer:
    """A button: its object name, and how it looks."""

    name: str
    shown: AnswerShown

    @property
    def id(self) -> str:
        """What it stands for, without the prefix of its name."""
        return self.name.removeprefix(ANSWER).removeprefix(OFFER)


@frozen
class Row:
    """A number of a page: where it is found, what it is called, and what to know about it."""

    id: str
    label: str
    value: str
    range: str = ""
    note: str = ""
    explains: bool = True


@frozen
class Numbers:
    """A page beside the list."""

    rows: tuple[Row, ...] = ()
    notes: tuple[str, ...] = ()
    charts: tuple[ChartShown, ...] = ()
    table: tuple[tuple[str, ...], ...] = ()
    """When, reading, temperature, what it was; the newest first."""


@frozen
class PotScreen:
    """Everything that the pot pane shows."""

    pot_id: str
    right: str
    walk: tuple[tuple[str, str], ...]
    """Words of the four cards, each done, present or later; empty outside the walk."""
    belief: Belief
    question: str
    kind: AskKind | None = None
    field: str = ""
    """Which item a typed value is for; a change of it empties the field."""
    quantity: str = ""
    unit: str = ""
    with_temperature: bool = False
    warmth_unit: str = ""
    hints: tuple[str, ...] = ()
    answers: tuple[Answer, ...] = ()
    """The answers; what may be reported freely, where nothing is asked; or all odd things."""
    odd: bool = False
    """Whether the answers are the odd things that may have happened."""
    offers: tuple[Answer, ...] = ()
    """Let down and Vent now, where the pot may hold air, and the way to the odd things."""
    reported: tuple[Reported, ...] = ()
    refusal: str = ""
    wait_caption: str = ""
    wait_digits: str = ""
    branch: tuple[str, ...] = ()
    branch_key: str = ""
    """Which odd thing it is; each has a look of its own."""
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    stop: str = ""
    """Words on *Stop*; empty where there is nothing to stop."""
    expires: str = ""
    lid: LidShown | None = None
    last: FigureShown | None = None
    """The last reading, while nothing is asked."""
    asks: bool = False
    """Whether a list is under way, so that the pane needs room for its questions."""
    pots: tuple[tuple[str, str], ...] = ()
    examine: bool = False
    """Whether the pot waits for a note of who examined it."""
    page: Page = "list"
    pages: tuple[tuple[Page, str], ...] = ()
    """Pages to choose from; none in the walk, so that nothing leads away from it."""
    numbers: Numbers | None = None
    said: str = ""
    """Where the printed list went."""
    who: str = ""
    """Who is at the bench, as they said."""
