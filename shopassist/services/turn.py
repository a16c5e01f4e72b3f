"""What stands on the cards at the lathe: speed, drill, putty, papers, coats and the air."""

from collections.abc import Callable, Mapping
from dataclasses import field
from typing import TypeVar

from shopassist.core.batch import Batch
from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure, Origin
from shopassist.core.frozen import frozen
from shopassist.core.messages import Text, say
from shopassist.core.outline_text import ReadLength
from shopassist.core.quantities import CubicMetre
from shopassist.services.blank import BlankPlan, work_out
from shopassist.services.said import said_of

T = TypeVar("T")


@frozen
class Line:
    """One line of a card; ``strong`` where it asks for something."""

    text: Text
    strong: bool = False


@frozen
class CardPlan:
    """What one card works out; problems stand beside the entry of their name."""

    figures: Mapping[str, Figure] = field(default_factory=dict)
    """In the order in which they are shown, the leading one first."""
    warnings: tuple[Text, ...] = ()
    lines: tuple[Line, ...] = ()
    problems: Mapping[str, Text] = field(default_factory=dict)
    missing: Text | None = None
    """What has to be typed before anything can be worked out."""


@frozen
class Borrowed:
    """What Blank knows already."""

    numbers: Mapping[str, float] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)
    blank: BlankPlan | None = None


def borrowed(batch: Batch | None, read: ReadLength) -> Borrowed:
    """Sizes of the blank, its bore and its grooves, for the cards' own entries."""
    if batch is None:
        return Borrowed()
    said = said_of(batch, "blank")
    plan = work_out(said, None, read)
    numbers: dict[str, float | None] = {
        "diameter": said.get("mould_diameter"),
        "stock": said.get("mould_diameter"),
        "length": said.get("mould_depth"),
        "drill": said.get("drill"),
        "depth": said.get("bore_depth") or _core_length(plan),
        "grooves": _grooves(plan),
        "pieces": said.get("pieces"),
        "coat_diameter": said.get("mould_diameter"),
        "coat_length": said.get("mould_depth"),
        "bore": said.get("drill"),
    }
    words = {"both_ends": said.word("both_ends")} if said.word("both_ends") else {}
    known = {name: value for name, value in numbers.items() if value}
    return Borrowed(known, words, plan)


def _core_length(plan: BlankPlan) -> float | None:
    core = plan.job.core if plan.job is not None else None
    return core.profile.length if core is not None and core.profile is not None else None


def _grooves(plan: BlankPlan) -> float | None:
    """Volume of the grooves of one core."""
    core = plan.job.core if plan.job is not None else None
    return CubicMetre(sum(core.cuts)) if core is not None and core.cuts else None


def part(make: Callable[[], T], problems: dict[str, Text], fields: Mapping[str, str]) -> T | None:
    """Make one part, or note beside which entry it cannot be."""
    try:
        return make()
    except ShopError as error:
        problems[fields.get(error.field, error.field)] = error.title
        return None


def typed(value: float, quantity: str) -> Origin:
    """A number from an entry."""
    return Origin(value, quantity, "typed")


def default(value: float, quantity: str, note: str = "Ours.") -> Origin:
    """A number of our own."""
    return Origin(value, quantity, "default", say(note))
