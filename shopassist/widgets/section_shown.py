"""The half section of a blank as plain data; lengths in metres, words ready."""

from shopassist.core.frozen import frozen
from shopassist.core.section import Section


@frozen
class SectionShown:
    """What the drawing shows; empty parts are left out."""

    section: Section | None = None
    finished: float | None = None
    """Height that is left after facing off, from the mould's floor."""
    diameter: str = ""
    """Dimension across, as typed."""
    length: str = ""
    """Dimension along, as typed."""
    thin: bool = False
    """True where the thinnest wall may be under the asked one."""
    core_word: str = "core"
    resin_word: str = "resin"
    missing: str = ""
    """What to type before there is something to draw."""
    spoken: str = ""
