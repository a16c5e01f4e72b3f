"""Where a journal lives: a copied file or folder is found out, its pots are not believed."""

import hashlib
from pathlib import Path

from shopassist.store.chain import canonical


def place_of(file: Path, path: Path | None = None) -> str:
    """Name machine, path and file entry of a journal, by a digest that tells none of them.

    ``path`` is the name that the file is going to have, where that differs.
    """
    named = str((path or file).resolve())
    entry = file.stat()
    facts = (machine_id(), named, entry.st_dev, entry.st_ino)
    return hashlib.sha256(canonical(facts).encode()).hexdigest()


def machine_id() -> str:
    """Return what sets this machine apart: Linux has a file for it, others a network address."""
    try:
        return Path("/etc/machine-id").read_text("ascii").strip()
    except (OSError, ValueError):
        import uuid

        return f"{uuid.getnode():x}"
