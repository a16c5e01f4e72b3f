"""The last thing made, kept for as long as it is made of the same."""

from collections.abc import Callable, Hashable
from typing import Generic, TypeVar

T = TypeVar("T")


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
