"""A small JSON file of names and values, with its last good copy."""

import json
from collections.abc import Mapping
from pathlib import Path

from shopassist.core.errors import StoreError
from shopassist.core.messages import Text, say
from shopassist.core.rows import Json
from shopassist.store.atomic import previous_of, set_aside, write_atomic


class KeptFile:
    """Reads and writes one JSON object; what it cannot read it never writes over."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.problems: tuple[Text, ...] = ()
        """What was wrong at the last loading, in plain words."""
        self._unreadable = False

    def load(self) -> dict[str, Json]:
        """Return the object; from the last good copy where the file cannot be read."""
        self.problems, self._unreadable = (), False
        if not self.path.exists():
            return {}
        found = _object_in(self.path)
        if found is not None:
            return found
        self._unreadable = True
        earlier = _object_in(previous_of(self.path))
        used = "Defaults are used." if earlier is None else "Its last good copy is used."
        self.problems = (say("{file} cannot be read. {used}", file=self.path.name, used=used),)
        return earlier or {}

    def save(self, values: Mapping[str, Json]) -> None:
        """Write the object; an unreadable file is set aside first, never lost."""
        text = json.dumps(dict(values), indent=2, sort_keys=True, ensure_ascii=False) + "\n"
        try:
            if self._unreadable and self.path.exists():
                set_aside(self.path)
            write_atomic(self.path, text)
        except OSError as error:
            raise StoreError(
                say("{file} could not be written.", file=self.path.name),
                say("The system says: {said}", said=str(error)),
            ) from error
        self._unreadable = False


def _object_in(path: Path) -> dict[str, Json] | None:
    try:
        found = json.loads(path.read_text("utf-8"))
    except (OSError, ValueError, RecursionError):
        return None
    return found if isinstance(found, dict) else None
