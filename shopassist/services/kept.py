"""Things made, kept for as long as they hold: the last one, or the few asked for last."""

from collections.abc import Callable, Hashable
from typing import Generic, TypeVar

from shopassist.core.rows import Reading

T = TypeVar("T")
K = TypeVar("K", bound=Hashable)
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


class Newest(Generic[K, T]):
    """The things asked for last, each by its key; what nobody asked for longest goes first."""

    def __init__(self, most: int) -> None:
        self.most = most
        self._kept: dict[K, T] = {}

    def __len__(self) -> int:
        """How many are kept."""
        return len(self._kept)

    def take(self, key: K) -> T | None:
        """Give one out; it is no longer kept."""
        return self._kept.pop(key, None)

    def put(self, key: K, made: T) -> None:
        """Keep one as the newest."""
        self._kept.pop(key, None)
        self._kept[key] = made
        while len(self._kept) > self.most:
            del self._kept[next(iter(self._kept))]

    def of(self, key: K, make: Callable[[], T]) -> T:
        """Give it as it was, or make it."""
        found = self.take(key)
        made = make() if found is None else found
        self.put(key, made)
        return made

    def clear(self) -> None:
        """Keep nothing."""
        self._kept.clear()
