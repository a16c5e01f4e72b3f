"""Sets of batches as whole numbers, a bit for each place: ten thousand are met as fast as ten."""

from collections.abc import Iterable
from itertools import compress

Span = tuple[int, int]
"""A set from its first place on, and a bit for each place from there: what few have is short."""
BITS = bytes.maketrans(b"01", b"\x00\x01")


def joined(span: Span | None, first: int, bits: int) -> Span:
    """The set with the places that ``bits`` has from ``first`` on."""
    if span is None:
        return first, bits
    start, earlier = span
    if first < start:
        return first, earlier << (start - first) | bits
    return start, earlier | bits << (first - start)


def without(span: Span, place: int) -> Span:
    """The set without one of its places."""
    first, bits = span
    return first, bits & ~(1 << (place - first))


def whole(span: Span) -> int:
    """The set as one number."""
    first, bits = span
    return bits << first


def lowest(places: int) -> int:
    """The first place of a set that is not empty."""
    return (places & -places).bit_length() - 1


def set_of(places: Iterable[int]) -> int:
    """A few places as a set."""
    found = 0
    for place in places:
        found |= 1 << place
    return found


def downward(places: int) -> list[int]:
    """The places of a set, the last one first."""
    bits = format(places, "b").encode().translate(BITS)
    return list(compress(range(len(bits) - 1, -1, -1), bits))
