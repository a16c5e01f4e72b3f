"""Typed text turned into quantities and instants; refuses rather than guesses."""

from shopassist.core.entry.quantity import kept_places, read_quantity
from shopassist.core.entry.spec import Entry, EntrySpec, UnknownUnitError, count
from shopassist.core.entry.times import read_ago, read_clock, read_moment

__all__ = [
    "Entry",
    "EntrySpec",
    "UnknownUnitError",
    "count",
    "kept_places",
    "read_ago",
    "read_clock",
    "read_moment",
    "read_quantity",
]
