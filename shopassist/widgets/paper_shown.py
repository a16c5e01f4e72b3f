"""What a printed sheet shows: plain data without Qt, every word ready."""

from shopassist.core.frozen import frozen


@frozen
class PaperLine:
    """One item of a printed list."""

    number: str
    question: str
    answer: str
    """Words to ring, or the unit beside the line to write on."""
    write: bool = False


@frozen
class PaperShown:
    """A sheet for the bench: filled in by hand, never read back."""

    title: str
    revision: str
    facts: tuple[str, ...]
    parts: tuple[tuple[str, tuple[PaperLine, ...]], ...]
    odd: tuple[tuple[str, str], ...]
    foot: tuple[str, ...]
    overleaf: int = 0
    """So many parts stand on the first side."""
    letter: bool = False
    """Letter instead of A4."""
