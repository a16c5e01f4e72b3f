"""What the painted pieces show: plain data without Qt, so that presenters can build it.

Positions (``at``, ``low``, ``start`` …) are floats on the piece's own axis; words come ready.
Every piece has ``draw(shown)``, which repaints only when something changed.
"""

from typing import Literal

from shopassist.core.frozen import frozen
from shopassist.widgets.tokens import PotFace

Source = Literal["computed", "typed", "default", "missing"]
"""Where a number comes from: ink, blue, graphite, or a dash."""
Priority = Literal["high", "medium", "low"]
BracketKind = Literal["estimated", "allowed", "target"]
IconName = Literal[
    "mix", "cure", "pot", "blank", "stabilise", "warm-up", "turn", "plan", "log", "out"
]


@frozen
class PotLineShown:
    """The pot line."""

    face: PotFace
    word: str
    report: str = ""
    """For instance "You reported 2.76 bar"."""
    detail: str = ""
    """Age, pot, clamps, *n more*."""
    action: str = ""
    """Words of the button at the right, empty for none."""
    life: float | None = None
    """Share of the permit that is left, 0 … 1."""
    remaining: str = ""
    """Digits of the permit, beside the word."""
    brief: tuple[str, str] = ("", "")
    """Report and detail where the room is short: what was reported comes first, it is not cut."""


@frozen
class NextShown:
    """The next line: one dated event and its range."""

    event: str
    range: str = ""
    caption: str = "Next"


@frozen
class RailShown:
    """One entry of the rail."""

    key: IconName
    word: str
    shown: bool = False
    focused: bool = False
    badge: Priority | None = None


@frozen
class BracketShown:
    """A small bracket and its words; positions on any one axis."""

    low: float
    high: float
    at: float | None
    """True place of the value, not the middle."""
    text: str
    kind: BracketKind = "estimated"


@frozen
class FigureShown:
    """A number with label, unit, range and explain mark."""

    label: str
    value: str
    unit: str = ""
    source: Source = "computed"
    bracket: BracketShown | None = None
    note: str = ""
    """One line under it; says what is missing when the value is a dash."""
    explains: bool = True
    lead: bool = True
    """Large digits; otherwise of the size between body and lead."""


@frozen
class Tick:
    """A graduation."""

    at: float
    label: str = ""


@frozen
class RuleShown:
    """A ruled edge: past, graduations, range, gate, now."""

    start: float
    end: float
    ticks: tuple[Tick, ...] = ()
    """Ticks with a label are long."""
    past: float | None = None
    """The bar of what is gone runs from ``start`` to here."""
    now: float | None = None
    low: float | None = None
    middle: float | None = None
    high: float | None = None
    range_text: str = ""
    gate: float | None = None
    gate_text: str = ""
    spoken: str = ""
    """The whole rule in words, for people who cannot see it."""


@frozen
class WaitShown:
    """Caption, context and rule round a countdown; the digits are set apart, each second."""

    caption: str
    left: str = ""
    right: str = ""
    rule: RuleShown | None = None
    explains: bool = True


@frozen
class StopShown:
    """One running-total stop on the scale."""

    name: str
    number: str
    unit: str
    state: Literal["done", "present", "later"]
    was: str = ""
    """For a done stop: "stop was 179.2"; for the present one, what to pour."""


@frozen
class DeviationShown:
    """A result on the rule of its tolerance."""

    start: float
    end: float
    low: float
    high: float
    at: float | None
    ticks: tuple[Tick, ...] = ()
    spoken: str = ""


@frozen
class AnswerShown:
    """One pot answer."""

    key: str
    """Words on the key cap: "1", "Enter", "Alt 2"."""
    words: str
    second: str = ""
    filled: bool = False
    enabled: bool = True
    shortcut: str = ""
    """Key sequence, where it differs from the cap: "Alt+2". Who owns the answers binds it, or
    ``AnswerGrid.listen`` does."""


@frozen
class Reported:
    """A row of the quiet column."""

    label: str
    answer: str


LidHoleKind = Literal["gauge", "vent", "relief", "inlet", "test valve", "second gauge", "hole"]


@frozen
class LidHole:
    """A hole in the lid; the angle runs clockwise from the top, the radius is a share of it."""

    kind: LidHoleKind
    turn: float
    """0 … 1 of a full turn."""
    radius: float
    label: str = ""
    """What sits on it, in words."""


@frozen
class LidShown:
    """The lid from above; whoever works at it stands at the bottom edge."""

    numbers: tuple[int, ...]
    """Working number of each clamp, clockwise from the first right of the top."""
    snug: frozenset[int] = frozenset()
    """Working numbers that are snug; the others are slack."""
    present: int | None = None
    holes: tuple[LidHole, ...] = ()
    spoken: str = ""
    hooked: bool = True
    """Whether every clamp still reaches over the rim."""
    caption: str = ""
    """Which pass this is."""
    beside: str = ""
    """What does not sit on the lid."""


@frozen
class AlarmShown:
    """The band under the pot line."""

    priority: Priority
    words: str
    detail: str = ""
    acknowledge: str = "Acknowledge"
    """Empty for no button."""
    silence: str = "Silence"
    steady: bool = False
    """Somebody saw it: it stays and flashes no more."""


@frozen
class AlarmsShown:
    """The list of alarms that stand, and what is known of the sound."""

    lines: tuple[tuple[str, str], ...]
    """What is so, and all that the table says of it."""
    sound: str
    asks: bool
    """A test was played: was it heard?"""


@frozen
class CardShown:
    """A narrow card that stands for another pane."""

    icon: IconName
    title: str
    right: str = ""
    caption: str = ""
    value: str = "–"
    unit: str = ""
    source: Source = "computed"
    bracket: BracketShown | None = None
    line: str = ""


@frozen
class SheetSection:
    """A part of an explanation: heading and rows of (label, text)."""

    heading: str
    rows: tuple[tuple[str, str], ...]


@frozen
class ExplainShown:
    """An explanation: title, the number, its formula, and sections."""

    title: str
    value: str
    formula: str = ""
    sections: tuple[SheetSection, ...] = ()


@frozen
class BenchShown:
    """The view for reading from across the bench; digits are set apart."""

    caption: str
    side: str = ""
    rule: RuleShown | None = None
