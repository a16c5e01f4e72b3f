"""Reads typed text the way this shop writes; one object that the whole program shares."""

from dataclasses import dataclass, field

from shopassist.core.entry import Entry, EntrySpec, read_quantity
from shopassist.core.style import METRIC, NumberStyle, UnitChoice
from shopassist.core.units import EARLY, UnitTable


@dataclass(slots=True)
class Reader:
    """Number style, units and unit table in force; exchanged when the user chooses others."""

    style: NumberStyle = field(default_factory=NumberStyle)
    choice: UnitChoice = METRIC
    table: UnitTable = EARLY

    def read(self, text: str, spec: EntrySpec) -> Entry:
        """Read one entry; raises ``EntryError`` and nothing else."""
        return read_quantity(text, spec, self.style, self.table, self.choice)

    def record(self, text: str, quantity: str) -> float:
        """Read an entry of a record: its text outlives a change of units, so it names its own."""
        bare = quantity == "Ratio"
        spec = EntrySpec(quantity, unit_needed=not bare)
        return read_quantity(text, spec, NumberStyle(), self.table, METRIC).value
