"""What a field takes, and what was read from it."""

from shopassist.core.errors import EntryError
from shopassist.core.frozen import frozen
from shopassist.core.messages import Text


@frozen
class EntrySpec:
    """What one field takes. Limits are in SI and belong to ``quantity``."""

    quantity: str
    """Type name in ``core.quantities``."""
    unit: str = ""
    """Unit printed at the field, which a bare number takes; empty: the shop's usual one."""
    field: str = ""
    """Name of the field, for the error that stands beside it."""
    also: tuple[str, ...] = ()
    """Further quantities it takes: an amount may be a weight or a volume."""
    lowest: float | None = None
    """Below this it is impossible."""
    highest: float | None = None
    unlikely_below: float | None = None
    """Below this it is asked whether it is right."""
    unlikely_above: float | None = None
    signed: bool = False
    """Numbers below zero make sense; temperatures need not say so."""
    whole: bool = False
    """A count: a part of one is refused."""
    unit_needed: bool = False
    """A bare number is refused: for records, whose texts outlive a change of the units."""

    @property
    def accepted(self) -> tuple[str, ...]:
        """All quantities it takes."""
        return (self.quantity, *self.also)


@frozen
class Entry:
    """A quantity that was typed."""

    value: float
    """In SI."""
    quantity: str
    unit: str
    """Symbol of the typed unit, the last one of "2 lb 8 oz"; the field's own for a bare number."""
    decimals: int | None
    """Places typed; None for a fraction."""
    plain: str
    """The same with decimal points and every unit named; this is what may be stored."""
    echo: Text
    """How it was read."""
    unlikely: Text | None = None
    """A question to be answered before it is used."""


class UnknownUnitError(EntryError):
    """No unit of that name is known yet; a larger table may have it."""


def count(field: str = "", low: float | None = None, high: float | None = None) -> EntrySpec:
    """What a field takes that counts something."""
    return EntrySpec("Ratio", "", field, lowest=low, highest=high, whole=True)
