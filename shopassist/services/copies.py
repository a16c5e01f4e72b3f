"""Backups as a person sees them: when, how much, and which one comes back at the next start."""

from typing import Protocol

from shopassist.core.frozen import frozen
from shopassist.core.quantities import UtcSecond


@frozen
class Copy:
    """One backup of the whole log."""

    name: str
    made: UtcSecond
    rows: int
    """Rows of the log that are in it."""
    bytes: int


class CopyKeeper(Protocol):
    """Where backups are made, kept and put back."""

    def listed(self) -> tuple[Copy, ...]:
        """Every backup, the newest first."""
        ...

    def make(self) -> Copy:
        """Make one now and read it back; raises ``StoreError``."""
        ...

    def ask(self, name: str) -> None:
        """Have one put in the log's place at the next start; an empty name takes it back."""
        ...

    def asked(self) -> str:
        """Which one was asked for; empty for none."""
        ...
