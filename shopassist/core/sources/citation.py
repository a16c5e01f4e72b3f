"""What one citation holds."""

from typing import Literal

from shopassist.core.frozen import frozen

Standing = Literal["read", "restated", "from memory", "own computation", "common practice"]


@frozen
class Source:
    """One citation and how well it is known to us."""

    text: str
    """Author, title, edition, place: enough to find it."""
    standing: Standing
