"""What the log shows, as plain data."""

from typing import Literal

from shopassist.core.frozen import frozen

Page = Literal["facts", "compare", "symptoms", "sheet", "photos"]
PAGES: tuple[tuple[Page, str], ...] = (
    ("facts", "Facts"),
    ("compare", "Compare"),
    ("symptoms", "Symptoms"),
    ("sheet", "Learnt"),
    ("photos", "Photos"),
)
FILTERS: tuple[tuple[str, str], ...] = (
    ("open", "open"),
    ("good", "good"),
    ("usable", "usable"),
    ("spoiled", "spoiled"),
    ("removed", "removed"),
)


@frozen
class Fact:
    """One line of the open batch."""

    label: str
    value: str
    typed: bool = False


@frozen
class CauseShown:
    """One possible reason with what speaks for and against it."""

    title: str
    verdict: str
    """``Points to it``, ``Not on record`` or ``Speaks against it``."""
    evidence: tuple[str, ...]
    """What the record says, for it or against it."""
    lacking: tuple[str, ...]
    """What is not on record and would help to tell."""
    remedy: str


@frozen
class PhotoShown:
    """One photograph of the open batch, by where it lies."""

    path: str
    name: str
    gone: str
    """What is said in its place where the file is not there; empty where it is."""


@frozen
class LogScreen:
    """Everything that the log shows."""

    count: int
    selected: int
    title: str
    facts: tuple[Fact, ...]
    outcome: str
    next_time: str
    name: str
    removed: bool
    error: str
    empty: str
    """Said in place of the table's rows."""
    query: str
    filters: frozenset[str]
    page: Page
    reading: str
    """Said while the log is still being read; empty once it is whole."""
    marked: int
    """How many batches are marked for comparison."""
    verdict: str
    shared: tuple[tuple[str, ...], ...]
    """Rows of the comparison: fact, common to these, how many of the others."""
    unknown: str
    symptom: int
    symptoms: tuple[str, ...]
    causes: tuple[CauseShown, ...]
    missing: tuple[str, ...]
    photos: tuple[PhotoShown, ...]
    learnt: tuple[Fact, ...]
    offer: str
    """Words on the button that saves a new version of the sheet; empty hides it."""
