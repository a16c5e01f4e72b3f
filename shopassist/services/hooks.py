"""A typed list of callbacks: how a service says that something has changed."""

from collections.abc import Callable
from typing import Generic, TypeVar

T = TypeVar("T")


class Hook(Generic[T]):
    """Calls everybody who connected, in order, with one value."""

    def __init__(self) -> None:
        self._listeners: list[Callable[[T], None]] = []

    def connect(self, listener: Callable[[T], None]) -> Callable[[], None]:
        """Add a listener; the returned function removes it again."""
        self._listeners.append(listener)

        def disconnect() -> None:
            if listener in self._listeners:
                self._listeners.remove(listener)

        return disconnect

    def emit(self, value: T) -> None:
        """Tell every listener."""
        for listener in tuple(self._listeners):
            listener(value)

    def __len__(self) -> int:
        return len(self._listeners)
