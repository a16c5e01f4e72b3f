"""The form of a record: its fields under headings, with what stands in them."""

from collections.abc import Mapping

from shopassist.core.frozen import frozen
from shopassist.core.records import Field

HEADINGS: dict[str, str] = {
    "": "",
    "ratio": "Ratio",
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
REST = "Also"
"""Heading of single fields that stand after the first heading."""


@frozen
class Cell:
    """One field of the form: what stands in it and what is wrong with it."""

    field: Field
    label: str
    text: str
    problem: str

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


def groups_of(
    fields: tuple[Field, ...], draft: Mapping[str, str], problems: Mapping[str, str]
) -> tuple[Group, ...]:
    """Group the fields in the order of the table; single ones share the next plain group."""
    found: dict[str, list[Cell]] = {}
    for field in fields:
        title = heading_of(field) or (REST if set(found) - {""} else "")
        label = short_label(field.label, title)
        cell = Cell(field, label, draft.get(field.place, ""), problems.get(field.place, ""))
        found.setdefault(title, []).append(cell)
    return tuple(Group(title, tuple(cells)) for title, cells in found.items())


def heading_of(field: Field) -> str:
    """The heading a field stands under."""
    return HEADINGS.get(field.group, field.group.replace("_", " ").capitalize())


def short_label(label: str, heading: str) -> str:
    """A label without the words that its heading already says."""
    for start in (f"{heading}: ", f"{heading}, "):
        if heading and label.startswith(start):
            return label.removeprefix(start).capitalize()
    return "Time" if heading and label == heading else label
