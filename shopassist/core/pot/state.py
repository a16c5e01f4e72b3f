"""What is on record about one pot: the belief, and every piece of evidence as data."""

from shopassist.core.frozen import frozen, replace
from shopassist.core.messages import Text
from shopassist.core.pot.plate import STANDARD_AMBIENT, Plate
from shopassist.core.pot.words import Belief, Branch, Item, Run
from shopassist.core.quantities import PascalAbsolute


@frozen
class Now:
    """An instant on the two scales that the procedure needs."""

    age: float
    """Seconds on a scale that runs on through suspend and restart; only differences count."""
    utc: float = 0.0
    """Wall time, for dates on the plate and for showing; no evidence hangs on it."""

    @property
    def day(self) -> int:
        """Days since 1970."""
        return int(self.utc // 86400)


@frozen
class Evidence:
    """One thing that was reported: what, where, when, and its value."""

    item: Item
    value: str
    """The choice, or the text as typed."""
    number: float | None
    """The typed value in SI, None for a choice."""
    about: str
    """Which sign or which hole was asked about."""
    hole: str
    age: float
    awake: float
    """The same instant less all suspends known by then: dwells are counted on it."""
    utc: float
    unit: str = ""
    temperature: float | None = None


@frozen
class Grant:
    """The word that the lid may be cracked, and until when it holds."""

    at: float
    expires: float


@frozen
class PotState:
    """The whole record of one pot, folded."""

    belief: Belief = Belief.UNKNOWN
    plate: Plate | None = None
    plate_version: int = 0
    ambient: PascalAbsolute = STANDARD_AMBIENT
    evidence: tuple[Evidence, ...] = ()
    """In the order it came; what no longer counts is not in here."""

    # kept through a restart
    baseline: float | None = None
    highest: float | None = None
    """Highest reading of this run."""
    last: Evidence | None = None
    """Last typed gauge reading."""
    vent_hissed: bool = False
    silent_holes: frozenset[str] = frozenset()
    """Holes that let no air be heard while the gauge stood above zero, until air is heard there."""
    fall_recorded: bool = False
    passes: int = 0
    clamp_reached: int = 0
    air: bool = True
    """Air may be in: anything but a recorded *no air yet*."""
    locked: bool = False
    """Over the rating once: no Close until an examination note."""
    lift_owed: bool = False
    gauge_failed: str = ""
    """``below`` its zero band, ``stuck``, or empty."""
    lifted_day: int | None = None
    """Day of a live lift recorded by a test run."""
    unseen_forced: bool = False
    """The fall counts as not seen until air is let in again or the lid is off."""
    hold: float | None = None
    run: Run | None = None
    marks: tuple[str, ...] = ()
    branch: Branch = Branch.NONE
    suspect_why: Text | None = None
    doubted: bool = False
    reported: Evidence | None = None
    """The last answer of any kind."""

    # of this sitting only
    filling: bool = False
    """Air on was pressed and its list is not finished."""
    may_stay: bool = False
    """*Let down* was pressed from pressurised and the vent was not opened since."""
    fall_from: float | None = None
    """The reading from which the fall is judged, [Pa gauge]."""
    rises: int = 0
    """How often the gauge rose in a minute with the vent shut."""
    fall_missed: bool = False
    """A recorded fall cannot be had any more in this let-down."""
    reseat: bool = False
    reading_owed: bool = False
    """Something about the supply changed: the gauge is asked for."""
    aftercare: bool = False
    over_limit: int = 0
    rock_failures: int = 0
    disagreed: int = 0
    """How often in this let-down a sign showed air while the gauge read zero."""
    sign_asked: str = ""
    dwell_done: bool = False
    grant: Grant | None = None
    crack_expires: float | None = None
    answered: float = 0.0
    slept: float = 0.0
    """Suspended time so far on the age scale."""
    seen_at: float = 0.0
    """The newest instant this record has seen."""
    since: float = 0.0
    """When the belief last changed, on the age scale."""

    def find(self, item: Item, hole: str | None = None) -> Evidence | None:
        """The newest evidence of one kind."""
        for piece in reversed(self.evidence):
            if piece.item is item and hole in (None, piece.hole):
                return piece
        return None

    def value(self, item: Item, hole: str | None = None) -> str:
        """The newest choice of one kind; empty where nothing was reported."""
        piece = self.find(item, hole)
        return "" if piece is None else piece.value

    def all(self, item: Item) -> tuple[Evidence, ...]:
        """All evidence of one kind."""
        return tuple(piece for piece in self.evidence if piece.item is item)

    def without(self, *items: Item) -> "PotState":
        """Drop evidence of these kinds."""
        kept = tuple(piece for piece in self.evidence if piece.item not in items)
        return replace(self, evidence=kept)

    def awake(self, now: Now) -> float:
        """The instant less all suspends known by now."""
        return now.age - self.slept


@frozen
class Refusal:
    """Nothing moved, and why."""

    reason: Text
    guard: str = ""
