"""The form of a record: its fields under headings, with what stands in them."""

import re
from collections.abc import Mapping, Sequence

from shopassist.core.frozen import frozen
from shopassist.core.records import Field

HEADINGS: dict[str, str] = {
    "": "",
    "ratio": "Ratio",
    "other": "The other ratio",
    "stroke": "Pumps, by the stroke",
    "density": "Density",
    "temperature": "Temperature",
    "limit": "Limits",
    "working": "Working time",
    "pressurise": "Under pressure within",
    "gel": "Gel",
    "demould": "Demould",
    "hard": "Hard enough to turn",
    "full": "Full cure",
    "law": "How times change with warmth",
    "pressure": "Pressure",
    "rating": "Rating",
    "size": "Size",
    "lid": "Lid",
    "relief": "Relief valve",
    "gauge": "Gauge",
    "holes": "What sits on which hole",
    "inlet": "Inlet",
    "examined": "Examination",
}
CAUTIONS: dict[str, str] = {
    "pot": "Copy the numbers from the maker's plate. A pot without a rating gets no run here.",
    "resin": "Copy the maker's sheet, each time with its own temperature. Blank means: not on it.",
}
"""Said over the form; what else a kind needs to know."""
FIRST_FURTHER = 2
REST = "Also"
"""Heading of single fields that stand after the first heading."""


@frozen
class Cell:
    """One field of the form: what stands in it and what is wrong with it."""

    field: Field
    label: str
    text: str
    problem: str
    remark: str = ""
    """What is to be known of it; nothing is wrong."""
    hidden: bool = False
    """Not asked for until the entry before it stands."""

    @property
    def options(self) -> tuple[str, ...]:
        """What can be chosen; empty where it is typed."""
        if self.field.kind == "flag":
            return ("yes", "no")
        return self.field.choices if self.field.kind == "choice" else ()


@frozen
class Group:
    """Fields under one heading."""

    title: str
    cells: tuple[Cell, ...]
    remarks: tuple[str, ...] = ()
    """What its entries say together."""
    asks: tuple[str, ...] = ()
    """What of that is doubtful."""


@frozen
class Told:
    """What is to be known of an entry or of a group, in words."""

    place: str
    words: str
    asks: bool = False


def groups_of(
    fields: tuple[Field, ...],
    draft: Mapping[str, str],
    problems: Mapping[str, str],
    told: Sequence[Told] = (),
) -> tuple[Group, ...]:
    """Group the fields in the order of the table; single ones share the next plain group."""
    found: dict[str, list[Cell]] = {}
    of_cell = {each.place: each.words for each in told}
    for field in fields:
        place, title = field.place, heading_of(field) or (REST if set(found) - {""} else "")
        cell = Cell(
            field, short_label(field.label, title), draft.get(place, ""), problems.get(place, ""),
            of_cell.get(place, ""), _waits(place, draft, problems),
        )  # fmt: skip
        found.setdefault(title, []).append(cell)
    return tuple(_group(title, cells, told) for title, cells in found.items())


def _group(title: str, cells: Sequence[Cell], told: Sequence[Told]) -> Group:
    places = {cell.field.group for cell in cells} - {""}
    own = [each for each in told if each.place in places]
    plain = tuple(each.words for each in own if not each.asks)
    return Group(title, tuple(cells), plain, tuple(each.words for each in own if each.asks))


_FURTHER = re.compile(r"(.+\.)(?:time|at)_(\d)(?:_high)?")
"""Places of a further time of one step."""


def _waits(place: str, draft: Mapping[str, str], problems: Mapping[str, str]) -> bool:
    """A further time is asked for once the time before it stands."""
    found = _FURTHER.fullmatch(place)
    if found is None:
        return False
    start, number = found[1], int(found[2])
    before = f"{start}time_{number - 1}" if number > FIRST_FURTHER else f"{start}time"
    own = (f"{start}{each.format(number)}" for each in ("time_{}", "time_{}_high", "at_{}"))
    return not any(each in draft or each in problems for each in (before, *own))


def heading_of(field: Field) -> str:
    """The heading a field stands under."""
    return HEADINGS.get(field.group, field.group.replace("_", " ").capitalize())


def short_label(label: str, heading: str) -> str:
    """A label without the words that its heading already says."""
    for start in (f"{heading}: ", f"{heading}, "):
        if heading and label.startswith(start):
            return label.removeprefix(start).capitalize()
    return "Time" if heading and label == heading else label
