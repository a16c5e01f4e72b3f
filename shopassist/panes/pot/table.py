"""The readings of one run for a spreadsheet, which runs none of it."""

from collections.abc import Callable
from typing import TypeAlias

from shopassist.core.errors import StoreError
from shopassist.core.pot.notes import NAMES
from shopassist.core.wording import Wording
from shopassist.services.pot import PotService
from shopassist.services.pot_numbers import course_of
from shopassist.services.table import table

Keep: TypeAlias = Callable[[str, str], str]
"""Writes a file where the others go and says where that is."""


def readings_table(pots: PotService, pot_id: str, words: Wording) -> str:
    """When, reading, temperature and what it was, oldest first; empty without a run."""
    run = course_of(pots, pot_id)
    if run is None or not run.points:
        return ""
    head = (
        "Day", "Time", f"Reading, {words.unit('PascalGauge')}",
        f"Temperature, {words.unit('Kelvin')}", "What it was",
    )  # fmt: skip
    rows = (
        (
            words.date(point.at), words.clock(point.at),
            _plain(point.pressure, "PascalGauge", words),
            _plain(point.temperature, "Kelvin", words), NAMES.get(point.item, "Reading"),
        )
        for point in run.points
    )  # fmt: skip
    return table(head, rows, words.style.decimal)


def _plain(value: float | None, quantity: str, words: Wording) -> float | None:
    """The number alone, in the unit of its column."""
    found = words.table.find(words.units.unit(quantity), quantity)
    if value is None or found is None:
        return None
    return (value - found.offset) / found.factor


def saved(pots: PotService, pot_id: str, words: Wording, keep: Keep) -> str:
    """Have the table written; says what came of it."""
    text = readings_table(pots, pot_id, words)
    if not text:
        return "Nothing was typed under pressure yet."
    try:
        return f"Written: {keep(file_name(pots.name(pot_id), pot_id), text)}"
    except StoreError as error:
        return words.say(error.title)


def file_name(pot: str, pot_id: str) -> str:
    """A name that every file system takes."""
    word = "".join(c if c.isalnum() else "-" for c in pot).strip("-") or "pot"
    return f"{word}-{pot_id}-readings.csv"
