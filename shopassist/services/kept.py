"""The last thing made, kept for as long as it is made of the same."""

from collections.abc import Callable, Hashable
from typing import Generic, TypeVar

from shopassist.core.rows import Reading

T = TypeVar("T")
SMALL = 1.0
"""A wall clock that moved by more than this has instants worked out anew, [s]; ours."""


def still_holds(before: Reading, now: Reading, longest: float) -> bool:
    """Tell whether instants worked out then are right by the wall clock as it stands now.

    A step too small to be reconciled moves the clock all the same, and several add up.
    """
    apart = now.since_boot - before.since_boot
    return 0 <= apart < longest and abs(now.utc - before.utc - apart) <= SMALL


class Kept(Generic[T]):
    """One thing and what it was made of; a key pressed elsewhere does not make it anew."""

    def __init__(self) -> None:
        self._last: tuple[Hashable, T] | None = None

    def of(self, made_of: Hashable, make: Callable[[], T]) -> T:
        """Give it as it was, or make it; what cannot be made is not kept."""
        if self._last is None or self._last[0] != made_of:
            self._last = None
            self._last = made_of, make()
        return self._last[1]
