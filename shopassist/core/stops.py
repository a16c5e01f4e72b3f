"""Weighing out: what the display shows at each stop, also after it has lost its zero."""

from math import ceil

from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.mixing import PartMasses
from shopassist.core.quantities import Kilogram

NOTHING = Kilogram(0.0)
SPECK = 1e-9
"""A microgram: rounding of the machine, not mass."""
MOST_CUPS = 200
"""More cups than that are a slip of the keys; ours."""


@frozen
class Portion:
    """Something that goes into the cup: target, or what was really poured."""

    part: str
    """``a``, ``b`` or ``colour``."""
    mass: Kilogram
    name: str = ""


@frozen
class Stop:
    """Pour this until the display shows that."""

    part: str
    name: str
    mass: Kilogram
    """Of this portion alone."""
    reading: Kilogram
    """On the display, in one go without zeroing between."""


@frozen
class Regained:
    """Where a cup stands after its scale lost zero."""

    stops: tuple[Stop, ...]
    """Readings with the cup on a scale that was zeroed empty."""
    begun: Kilogram
    """Already poured of the first of these stops."""
    over: bool
    """More of it is in the cup than its target: work out the other part anew."""


def portions(
    parts: PartMasses, *, b_first: bool = False, colours: tuple[Portion, ...] = ()
) -> tuple[Portion, ...]:
    """Order of pouring; colour stands in the middle and never enters the ratio."""
    first, last = Portion("a", parts.a), Portion("b", parts.b)
    if b_first:
        first, last = last, first
    return (first, *colours, last)


def running_stops(order: tuple[Portion, ...], start: Kilogram = NOTHING) -> tuple[Stop, ...]:
    """Readings in one go; ``start`` is what the display shows before the first portion."""
    need_not_negative(start=start)
    stops: list[Stop] = []
    reading = float(start)
    for portion in order:
        need_not_negative(**{portion.part: portion.mass})
        reading += portion.mass
        stops.append(Stop(portion.part, portion.name, portion.mass, Kilogram(reading)))
    return tuple(stops)


def regain(
    order: tuple[Portion, ...], finished: int, empty: Kilogram, weighed: Kilogram
) -> Regained:
    """Work the stops out anew from the weighed cup; finished portions hold their real masses."""
    need_positive(empty=empty)
    begun = in_cup(weighed, empty) - sum(portion.mass for portion in order[:finished])
    if begun < -SPECK:
        raise out_of_range("weighed", "The cup weighs less than what is in it. Weigh it again.")
    base = Kilogram(empty + sum(portion.mass for portion in order[:finished]))
    rest = running_stops(order[finished:], base)
    over = bool(rest) and begun > rest[0].mass + SPECK
    return Regained(rest, Kilogram(max(begun, 0.0)), over)


def in_cup(weighed: Kilogram, empty: Kilogram) -> Kilogram:
    """What a cup holds by its weight and its empty weight."""
    need_not_negative(weighed=weighed, empty=empty)
    if weighed < empty:
        raise out_of_range("weighed", "The cup weighs less than when it was empty.")
    return Kilogram(weighed - empty)


def bottle_reading(before: Kilogram, mass: Kilogram) -> Kilogram:
    """What the display shows of the bottle when enough was taken out of it."""
    need_not_negative(before=before, mass=mass)
    if mass > before:
        raise out_of_range("mass", "The bottle does not hold that much.")
    return Kilogram(before - mass)


def taken(before: Kilogram, after: Kilogram) -> Kilogram:
    """Mass taken out of a bottle by its weight before and after."""
    need_not_negative(before=before, after=after)
    if after > before:
        raise out_of_range("after", "The bottle has become heavier. Weigh it again.")
    return Kilogram(before - after)


def split_cups(total: Kilogram, most: Kilogram) -> tuple[int, Kilogram]:
    """Least number of equal cups that each stay within the most, and the mass of each."""
    need_positive(total=total, most=most)
    count = ceil(total / most * (1 - 1e-12))
    if count > MOST_CUPS:
        raise out_of_range("most", "That would be {count} cups. Is it right?", count=count)
    return count, Kilogram(total / count)
