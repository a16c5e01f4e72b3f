"""What the log keeps of a batch beside its rows: enough to list, search, compare and table it."""

from collections.abc import Mapping
from dataclasses import field
from typing import Any

from shopassist.core.batch import Batch, PartName
from shopassist.core.compare import Traits
from shopassist.core.frozen import frozen
from shopassist.core.quantities import Kilogram, UtcSecond
from shopassist.core.rows import Json

LINE_VERSION = 3
"""To be raised whenever a line or a trait is worked out otherwise: then all are read anew."""

LOTS = ("Lot of resin", "Lot of hardener")
"""Traits that can be searched too: from a lot to all that was made of it."""


@frozen
class LogLine:
    """One batch."""

    id: str
    name: str = ""
    opened: UtcSecond = UtcSecond(0.0)
    sheet: tuple[str, int] | None = None
    outcome: str = ""
    removed: bool = False
    amount: str = ""
    """As typed."""
    resin: Kilogram | None = None
    """Weighed into all cups; None where nothing was."""
    hardener: Kilogram | None = None
    next_time: str = ""
    notes: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    """Notes, entries, reasons and the line for next time, as typed; and the lots."""
    traits: Traits = field(default_factory=dict)
    """Facts that can be compared."""
    seen: tuple[str, ...] = ()
    """Marks of its witness cup."""
    ages: Mapping[str, float] = field(default_factory=dict)
    """Age by stage of the sheet at which its mark was seen, [s]."""


def line_of(batch: Batch, traits: Traits, ages: Mapping[str, float] | None = None) -> LogLine:
    """Build the line of a folded batch."""
    words = (*batch.notes, *(each.text for each in batch.entries.values()), *batch.reasons,
             batch.next_time, *(traits[lot] for lot in LOTS if lot in traits))  # fmt: skip
    amount = batch.entries.get("amount")
    return LogLine(
        batch.id, batch.name, batch.opened, batch.sheet, batch.outcome, batch.removed,
        amount.text if amount is not None else "", _weighed(batch, "a"), _weighed(batch, "b"),
        batch.next_time, batch.notes, words, dict(traits), tuple(batch.seen), ages or {},
    )  # fmt: skip


def _weighed(batch: Batch, part: PartName) -> Kilogram | None:
    found = [cup.weighed[part].mass for cup in batch.cups if part in cup.weighed]
    return Kilogram(sum(found)) if found else None


def json_of(line: LogLine) -> Json:
    """Lay a line out so that it can be kept."""
    sheet: Json = [*line.sheet] if line.sheet else None
    return {
        "name": line.name, "opened": line.opened, "sheet": sheet, "outcome": line.outcome,
        "removed": line.removed, "amount": line.amount, "resin": line.resin,
        "hardener": line.hardener, "next_time": line.next_time, "notes": [*line.notes],
        "words": [*line.words], "traits": dict(line.traits), "seen": [*line.seen],
        "ages": dict(line.ages),
    }  # fmt: skip


def line_from(batch_id: str, kept: Mapping[str, Any]) -> LogLine:
    """The line as it was kept."""
    sheet, resin, hardener = kept["sheet"], kept["resin"], kept["hardener"]
    return LogLine(
        batch_id, kept["name"], UtcSecond(kept["opened"]),
        (sheet[0], sheet[1]) if sheet else None, kept["outcome"], kept["removed"], kept["amount"],
        None if resin is None else Kilogram(resin),
        None if hardener is None else Kilogram(hardener),
        kept["next_time"], tuple(kept["notes"]), tuple(kept["words"]), kept["traits"],
        tuple(kept["seen"]), kept["ages"],
    )  # fmt: skip
