"""The entries of a pane as numbers and words, committed ones or drafts."""

from collections.abc import Mapping
from dataclasses import field

from shopassist.core.batch import Batch
from shopassist.core.frozen import frozen


@frozen
class Said:
    """What was said about a thing, in SI; None: not said."""

    numbers: Mapping[str, float | None] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)

    def get(self, name: str) -> float | None:
        """One number."""
        return self.numbers.get(name)

    def word(self, name: str) -> str:
        """One choice or line; empty where nothing was said."""
        return self.words.get(name, "")


def said_of(batch: Batch, pane: str) -> Said:
    """The committed entries of one pane."""
    start = f"{pane}."
    own = {
        name.removeprefix(start): typed
        for name, typed in batch.entries.items()
        if name.startswith(start)
    }
    return Said(
        {name: each.value for name, each in own.items()},
        {name: each.text for name, each in own.items()},
    )
