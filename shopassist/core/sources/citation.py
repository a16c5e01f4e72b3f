"""What one citation holds."""

from dataclasses import dataclass
from typing import Literal

Standing = Literal["read", "restated", "from memory", "own computation", "common practice"]


@dataclass(frozen=True, slots=True)
class Source:
    """One citation and how well it is known to us."""

    text: str
    """Author, title, edition, place: enough to find it."""
    standing: Standing
