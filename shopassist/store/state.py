"""The window's own state: geometry, last pane, batch in hand. Losing it costs nothing."""

from contextlib import suppress

from shopassist.core.errors import StoreError
from shopassist.store.keeping import KeptFile


class State:
    """Texts by name; a failure to write is passed over."""

    def __init__(self, file: KeptFile) -> None:
        self._file = file
        self._kept = {name: text for name, text in file.load().items() if isinstance(text, str)}

    def get(self, key: str) -> str:
        """What was kept under a name, or an empty text."""
        return self._kept.get(key, "")

    def put(self, key: str, value: str) -> None:
        """Keep a text."""
        if self._kept.get(key, "") == value:
            return
        self._kept[key] = value
        with suppress(StoreError):
            self._file.save(dict(self._kept))
