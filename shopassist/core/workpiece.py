"""The wooden core of a cast piece: its outline, its grooves, its volume and mass."""

from collections.abc import Iterable
from itertools import pairwise
from math import pi
from typing import Literal

from shopassist.core.bounds import need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.grooves import (
    round_flute_area,
    round_ring_volume,
    square_flute_area,
    square_ring_volume,
    vee_flute_area,
    vee_ring_volume,
)
from shopassist.core.profile import Profile, share_under
from shopassist.core.quantities import (
    CubicMetre,
    Kelvin,
    Kilogram,
    KilogramPerCubicMetre,
    Metre,
    SquareMetre,
)
from shopassist.core.span import Span, across, exact
from shopassist.core.water import water_volume

GrooveKind = Literal["square", "vee", "round"]
GROOVE_KINDS: tuple[GrooveKind, ...] = ("square", "vee", "round")


@frozen
class Groove:
    """A groove round the body, or some alike along it.

    Grooves along count with square ends; where one crosses a ring the crossing counts twice.
    """

    kind: GrooveKind
    depth: Metre
    width: Metre
    """A half round is always twice as wide as deep, whatever stands here."""
    at: Metre
    """Middle of the groove, from the start of the core."""
    length: Metre | None = None
    """None: turned round the body; otherwise its length along the axis."""
    count: int = 1
    """How many alike round the body; only for grooves along it."""

    @property
    def across(self) -> Metre:
        """Width at the surface."""
        return Metre(2 * self.depth) if self.kind == "round" else self.width

    @property
    def first(self) -> Metre:
        """Where it begins along the axis."""
        return Metre(self.at - self._reach)

    @property
    def last(self) -> Metre:
        """Where it ends along the axis."""
        return Metre(self.at + self._reach)

    @property
    def _reach(self) -> float:
        return (self.across if self.length is None else self.length) / 2


def groove_volume(groove: Groove, diameter: Metre) -> CubicMetre:
    """Volume cut away on a body of this diameter."""
    if groove.length is None:
        return _ring(groove, diameter)
    if groove.count < 1:
        raise out_of_range("count", "Give at least one groove, or take it out.")
    if groove.count * groove.across > pi * diameter:
        raise out_of_range("count", "So many do not fit round this diameter.")
    return CubicMetre(groove.count * groove.length * _flute(groove, diameter))


def _ring(groove: Groove, diameter: Metre) -> CubicMetre:
    if groove.kind == "round":
        return round_ring_volume(diameter, groove.depth)
    ring = square_ring_volume if groove.kind == "square" else vee_ring_volume
    return ring(diameter, groove.width, groove.depth)


def _flute(groove: Groove, diameter: Metre) -> SquareMetre:
    if groove.kind == "round":
        return round_flute_area(diameter, groove.depth)
    flute = square_flute_area if groove.kind == "square" else vee_flute_area
    return flute(diameter, groove.width, groove.depth)


@frozen
class Core:
    """A core as far as it is known; make it with one of the functions below."""

    volume: Span[CubicMetre]
    """The wood alone, grooves taken away."""
    mass: Kilogram | None = None
    profile: Profile | None = None
    grooves: tuple[Groove, ...] = ()
    cuts: tuple[CubicMetre, ...] = ()
    """Volume of each groove."""

    @property
    def density(self) -> Span[KilogramPerCubicMetre] | None:
        """Mass over volume, where both are known."""
        if self.mass is None:
            return None
        return across(_density, exact(self.mass), self.volume)

    def volume_to(self, height: Metre) -> CubicMetre:
        """Wood from the start of the outline up to one place; grooves count by their middle."""
        if self.profile is None:
            return self.volume.mid
        whole = self.profile.volume_to(Metre(self.profile.start + height))
        cut = sum(
            volume
            for groove, volume in zip(self.grooves, self.cuts, strict=True)
            if groove.at <= height
        )
        return CubicMetre(max(whole - cut, 0.0))

    def volume_under(self, level: Metre) -> CubicMetre:
        """Wood below a level above the lowest point of a core that lies; of grooves their share."""
        if self.profile is None:
            return self.volume.mid
        over_axis = level - self.profile.greatest / 2
        cut = sum(
            volume * share_under(_body(self.profile, groove), over_axis)
            for groove, volume in zip(self.grooves, self.cuts, strict=True)
        )
        return CubicMetre(max(self.profile.volume_under(level) - cut, 0.0))


def _density(mass: float, volume: float) -> KilogramPerCubicMetre:
    return KilogramPerCubicMetre(mass / volume)


def _body(profile: Profile, groove: Groove) -> Metre:
    return profile.diameter_at(Metre(profile.start + groove.at))


def turned_core(
    profile: Profile, grooves: Iterable[Groove] = (), mass: Kilogram | None = None
) -> Core:
    """A core by its outline and grooves, or the groove that cannot be cut into it."""
    listed = tuple(grooves)
    cuts = _cuts(profile, listed)
    cut = sum(cuts)
    if mass is not None:
        need_positive(mass=mass)
    if cut >= profile.volume:
        raise out_of_range("grooves", "These grooves leave no wood. Take some out.")
    return Core(exact(CubicMetre(profile.volume - cut)), mass, profile, listed, cuts)


def cut_volume(profile: Profile, grooves: tuple[Groove, ...]) -> CubicMetre:
    """Volume of all grooves together: wood to take away, or putty to put in."""
    return CubicMetre(sum(_cuts(profile, grooves)))


def _cuts(profile: Profile, grooves: tuple[Groove, ...]) -> tuple[CubicMetre, ...]:
    volumes = tuple(_checked_volume(n, groove, profile) for n, groove in enumerate(grooves, 1))
    _refuse_overlaps(grooves)
    return volumes


def _checked_volume(number: int, groove: Groove, profile: Profile) -> CubicMetre:
    place = f"grooves.{number}"
    if groove.first < 0 or groove.last > profile.length * (1 + 1e-9):
        raise out_of_range(f"{place}.at", "This groove runs off the end of the core.")
    if groove.depth >= least_diameter(profile, groove) / 2:
        raise out_of_range(
            f"{place}.depth", "This groove is deeper than the core is there. Make it shallower."
        )
    return groove_volume(groove, _body(profile, groove))


def least_diameter(profile: Profile, groove: Groove) -> Metre:
    """Least diameter of the body over the groove's reach."""
    part = profile.cut(Metre(profile.start + groove.first), Metre(profile.start + groove.last))
    return _body(profile, groove) if part is None else part.least


def _refuse_overlaps(grooves: tuple[Groove, ...]) -> None:
    rings = [(g.first, g.last, n) for n, g in enumerate(grooves, 1) if g.length is None]
    for before, after in pairwise(sorted(rings)):
        if before[1] > after[0] + 1e-9:
            raise out_of_range(
                f"grooves.{after[2]}.at", "This groove runs into the one before it. Move it."
            )


def weighed_core(mass: Kilogram, density: Span[KilogramPerCubicMetre]) -> Core:
    """A core by its mass and the density, or least and greatest density, of its wood."""
    need_positive(mass=mass, density=density.low)
    return Core(across(_volume, exact(mass), density), mass)


def _volume(mass: float, density: float) -> CubicMetre:
    return CubicMetre(mass / density)


def displaced_core(volume: Span[CubicMetre], mass: Kilogram | None = None) -> Core:
    """A sealed core by the volume of liquid or grain that it displaces."""
    need_positive(volume=volume.low)
    if mass is not None:
        need_positive(mass=mass)
    return Core(volume, mass)


def core_by_displaced_water(water: Kilogram, temp: Kelvin, mass: Kilogram | None = None) -> Core:
    """A sealed core by the mass of the water that it pushes out."""
    return displaced_core(exact(water_volume(water, temp)), mass)
