"""A turned outline as stations along its axis; straight tapers between neighbours."""

from collections.abc import Iterable, Iterator
from itertools import pairwise
from math import acos, pi, sqrt

from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen, replace
from shopassist.core.quantities import CubicMetre, Metre, Ratio, SquareMetre
from shopassist.core.solids import circle_area, frustum_side_area, frustum_volume

LEVEL_STEPS = 34
"""Halvings when a level is searched: finer than a micrometre in any mould."""


@frozen
class Station:
    """A diameter measured at one place along the axis."""

    at: Metre
    diameter: Metre


@frozen
class Profile:
    """A solid of revolution; build it with ``turned`` or one of the named shapes.

    Two stations at one place make a square shoulder. A curve is as true as its stations are
    close: straight tapers lie inside a bulge and outside a hollow.
    """

    stations: tuple[Station, ...]

    @property
    def start(self) -> Metre:
        """Where the first station stands."""
        return self.stations[0].at

    @property
    def end(self) -> Metre:
        """Where the last station stands."""
        return self.stations[-1].at

    @property
    def length(self) -> Metre:
        """From the first station to the last."""
        return Metre(self.end - self.start)

    @property
    def greatest(self) -> Metre:
        """Greatest diameter."""
        return max(station.diameter for station in self.stations)

    @property
    def least(self) -> Metre:
        """Least diameter."""
        return min(station.diameter for station in self.stations)

    @property
    def volume(self) -> CubicMetre:
        """Volume of the whole."""
        return CubicMetre(
            sum(frustum_volume(a.diameter, b.diameter, Metre(b.at - a.at)) for a, b in self._parts)
        )

    @property
    def side_area(self) -> SquareMetre:
        """Area of the turned surface with its shoulders, without the two end faces."""
        return SquareMetre(
            sum(
                frustum_side_area(a.diameter, b.diameter, Metre(b.at - a.at))
                for a, b in self._parts
            )
        )

    @property
    def surface(self) -> SquareMetre:
        """Area of the turned surface and both end faces."""
        ends = circle_area(self.stations[0].diameter) + circle_area(self.stations[-1].diameter)
        return SquareMetre(self.side_area + ends)

    @property
    def _parts(self) -> Iterator[tuple[Station, Station]]:
        return pairwise(self.stations)

    def diameter_at(self, at: Metre) -> Metre:
        """Diameter at one place; at a shoulder the lesser one."""
        found = [_between(a, b, at) for a, b in self._parts if a.at <= at <= b.at]
        if not found:
            raise out_of_range("at", "This place is beyond the end of the piece.")
        return min(found)

    def cut(self, start: Metre, end: Metre) -> "Profile | None":
        """The part between two places, or nothing where they miss the piece."""
        low, high = max(start, self.start), min(end, self.end)
        if not low < high:
            return None
        kept: list[Station] = []
        for a, b in self._parts:
            if b.at > low and a.at < high:
                first, last = Metre(max(a.at, low)), Metre(min(b.at, high))
                kept.append(Station(first, _between(a, b, first)))
                kept.append(Station(last, _between(a, b, last)))
        return Profile(_without_repeats(kept))

    def volume_to(self, at: Metre) -> CubicMetre:
        """Volume from the first station up to one place."""
        part = self.cut(self.start, at)
        return part.volume if part is not None else CubicMetre(0.0)

    def volume_under(self, level: Metre) -> CubicMetre:
        """Lying on its side: volume below a level above the lowest point of all of it."""
        if level <= 0:
            return CubicMetre(0.0)
        if level >= self.greatest:
            return self.volume
        over_axis = level - self.greatest / 2
        return CubicMetre(sum(_part_under(a, b, over_axis) for a, b in self._parts))

    def moved(self, by: Metre) -> "Profile":
        """The same outline further along the axis."""
        return Profile(tuple(replace(s, at=Metre(s.at + by)) for s in self.stations))


def share_under(diameter: Metre, over_axis: float) -> Ratio:
    """Share of a round section that lies below a level so far above its axis."""
    up = min(max(2 * over_axis / diameter, -1.0), 1.0)
    return Ratio((acos(-up) + up * sqrt(1 - up * up)) / pi)


def _part_under(a: Station, b: Station, over_axis: float) -> float:
    """Between two stations, by Gauss's rule of eight points: sections grow and shrink evenly."""
    middle, half = (a.at + b.at) / 2, (b.at - a.at) / 2
    total = 0.0
    for place, weight in GAUSS:
        for side in (-place, place):
            across = _between(a, b, middle + side * half)
            total += weight * circle_area(across) * share_under(across, over_axis)
    return total * half


GAUSS = (
    (0.1834346424956498, 0.3626837833783620), (0.5255324099163290, 0.3137066458778873),
    (0.7966664774136267, 0.2223810344533745), (0.9602898564975363, 0.1012285362903763),
)  # fmt: skip
"""Places and weights of Gauss and Legendre's rule of eight points, one side of the middle."""


def _between(a: Station, b: Station, at: float) -> Metre:
    if b.at == a.at:
        return min(a.diameter, b.diameter)
    return Metre(a.diameter + (b.diameter - a.diameter) * (at - a.at) / (b.at - a.at))


def _without_repeats(stations: list[Station]) -> tuple[Station, ...]:
    return (*(a for a, b in pairwise(stations) if a != b), stations[-1])


def turned(stations: Iterable[Station]) -> Profile:
    """Make a profile of measured stations, or say which station cannot be right."""
    listed = tuple(stations)
    if len(listed) < 2:  # noqa: PLR2004 - a body has two ends
        raise out_of_range("stations", "Give a diameter at both ends, at least.")
    for number, station in enumerate(listed, 1):
        if not 0.0 <= station.diameter < float("inf"):
            raise out_of_range(f"stations.{number}.diameter", "A diameter cannot be negative.")
    for number, (a, b) in enumerate(pairwise(listed), 2):
        if not a.at <= b.at < float("inf"):
            raise out_of_range(
                f"stations.{number}.at", "This station lies before the one above it: sort them."
            )
    if not any(a.at < b.at and a.diameter + b.diameter > 0 for a, b in pairwise(listed)):
        raise out_of_range("stations", "These stations enclose nothing. Measure them again.")
    return Profile(listed)


def straight(diameter: Metre, length: Metre) -> Profile:
    """A cylinder."""
    return tapered(diameter, diameter, length)


def tapered(diameter_a: Metre, diameter_b: Metre, length: Metre) -> Profile:
    """A straight taper."""
    return turned((Station(Metre(0.0), diameter_a), Station(length, diameter_b)))


def stepped(steps: Iterable[tuple[Metre, Metre]]) -> Profile:
    """Cylinders on one axis, each given by its diameter and length, first one at the bottom."""
    stations: list[Station] = []
    at = 0.0
    for number, (diameter, length) in enumerate(steps, 1):
        if not length > 0:
            raise out_of_range(f"steps.{number}.length", "Each step needs a length.")
        stations += [Station(Metre(at), diameter), Station(Metre(at + length), diameter)]
        at += length
    return turned(stations)
