"""Outlines, steps and grooves as one line of text: what is typed at the bench, read strictly.

``0: 28; 12: 20; 40: 34`` are places along the axis and diameters there; ``60 x 20; 40 x 30`` are
steps, diameter by height; ``square 8 x 6 at 20; vee 8 x 6 at 40; round 5 at 60 along 40 times 4``
are grooves, width by depth and where their middle lies.
"""

import re
from collections.abc import Callable, Iterator

from shopassist.core.errors import ShopError, out_of_range
from shopassist.core.profile import Profile, Station, turned
from shopassist.core.quantities import Metre
from shopassist.core.workpiece import GROOVE_KINDS, Groove, GrooveKind

ReadLength = Callable[[str], float]
"""Reads one length in the shop's unit, or raises ShopError."""
PAIR = re.compile(r"(.+?)\s*(?::|×|x)\s*(.+)", re.IGNORECASE)
GROOVE = re.compile(
    r"(?P<kind>\w+)\s+(?P<size>.+?)\s+at\s+(?P<at>.+?)"
    r"(?:\s+along\s+(?P<along>.+?))?(?:\s+times\s+(?P<times>\d+))?",
    re.IGNORECASE,
)
MOST = 60
"""Parts in one line; ours."""


def _parts(text: str, field: str) -> Iterator[str]:
    parts = [part.strip() for part in text.split(";") if part.strip()]
    if len(parts) > MOST:
        raise out_of_range(field, "This is more than a line can hold: leave some out.")
    return iter(parts)


def _length(text: str, field: str, read: ReadLength) -> Metre:
    try:
        return Metre(read(text.strip()))
    except ShopError:
        raise out_of_range(field, "{part} is no length.", part=text.strip()) from None


def _pair(part: str, field: str, read: ReadLength) -> tuple[Metre, Metre]:
    found = PAIR.fullmatch(part)
    if found is None:
        raise out_of_range(field, "Write pairs with ; between them: {part} is none.", part=part)
    return _length(found[1], field, read), _length(found[2], field, read)


def read_profile(text: str, field: str, read: ReadLength) -> Profile:
    """Read stations along the axis: place and diameter."""
    try:
        return turned(Station(*_pair(part, field, read)) for part in _parts(text, field))
    except ShopError as error:
        raise ShopError(error.title, error.detail, field) from None


def read_steps(text: str, field: str, read: ReadLength) -> tuple[tuple[Metre, Metre], ...]:
    """Read steps from the floor up: diameter and height."""
    found = tuple(_pair(part, field, read) for part in _parts(text, field))
    if not found:
        raise out_of_range(field, "Give one step at least: diameter x height.")
    return found


def read_grooves(text: str, field: str, read: ReadLength) -> tuple[Groove, ...]:
    """Read grooves round the body, or alike along it."""
    return tuple(_groove(part, field, read) for part in _parts(text, field))


def _groove(part: str, field: str, read: ReadLength) -> Groove:
    found = GROOVE.fullmatch(part)
    kind = found["kind"].casefold() if found else ""
    if found is None or kind not in GROOVE_KINDS:
        raise out_of_range(
            field, "Write for instance: square 8 x 6 at 20. {part} is not like that.", part=part
        )
    width, depth = _size(kind, found["size"], field, read)
    along = _length(found["along"], field, read) if found["along"] else None
    times = int(found["times"]) if found["times"] else 1
    if times < 1:
        raise out_of_range(field, "Give how many alike: once at least.")
    return Groove(kind, depth, width, _length(found["at"], field, read), along, times)


def _size(kind: GrooveKind, text: str, field: str, read: ReadLength) -> tuple[Metre, Metre]:
    if kind == "round":
        depth = _length(text, field, read)
        width = Metre(2 * depth)
    else:
        width, depth = _pair(text, field, read)
    if depth <= 0 or width <= 0:
        raise out_of_range(field, "A groove has a width and a depth.")
    return width, depth
