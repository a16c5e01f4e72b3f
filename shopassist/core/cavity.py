"""The empty space of a mould."""

from collections.abc import Iterable

from shopassist.core.bounds import need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.profile import Profile, stepped, straight, tapered
from shopassist.core.quantities import CubicMetre, Kelvin, Kilogram, Metre, SquareMetre
from shopassist.core.solids import box_volume, circle_area
from shopassist.core.span import Span, across, exact
from shopassist.core.water import water_volume


@frozen
class Cavity:
    """A mould's inside, up to its rim or to the mark that the water reached."""

    volume: Span[CubicMetre]
    depth: Metre | None = None
    """From floor to rim, where it is known."""
    open_area: SquareMetre | None = None
    """Area at the rim."""
    profile: Profile | None = None
    """Round moulds: stations from the floor up."""
    plan: tuple[Metre, Metre] | None = None
    """Boxes: the longer and the shorter inside length."""

    def volume_to(self, level: Metre) -> CubicMetre | None:
        """Empty space from the floor up to a level, where the shape is known."""
        if self.profile is not None:
            return self.profile.volume_to(level)
        if self.plan is not None:
            return box_volume(*self.plan, level)
        return None

    def area_at(self, level: Metre) -> SquareMetre | None:
        """Cross-section at a level."""
        if self.profile is not None:
            return circle_area(self.profile.diameter_at(level))
        return self.open_area


def _round(profile: Profile) -> Cavity:
    top = circle_area(profile.stations[-1].diameter)
    return Cavity(exact(profile.volume), profile.length, top, profile)


def round_cavity(diameter: Metre, depth: Metre) -> Cavity:
    """A round mould with an upright wall."""
    need_positive(diameter=diameter, depth=depth)
    return _round(straight(diameter, depth))


def tapered_cavity(diameter_floor: Metre, diameter_rim: Metre, depth: Metre) -> Cavity:
    """A round mould with a slanting wall."""
    need_positive(diameter_rim=diameter_rim, depth=depth)
    return _round(tapered(diameter_floor, diameter_rim, depth))


def stepped_cavity(steps: Iterable[tuple[Metre, Metre]]) -> Cavity:
    """A round mould in steps of diameter and height, from the floor up."""
    return _round(stepped(steps))


def turned_cavity(profile: Profile) -> Cavity:
    """A round mould of any outline, stations from the floor up."""
    return _round(profile.moved(Metre(-profile.start)))


def box_cavity(length: Metre, width: Metre, depth: Metre) -> Cavity:
    """A box mould with upright walls."""
    need_positive(length=length, width=width, depth=depth)
    volume = box_volume(length, width, depth)
    plan = (max(length, width), min(length, width))
    return Cavity(exact(volume), depth, SquareMetre(length * width), plan=plan)


def measured_cavity(
    volume: Span[CubicMetre],
    depth: Metre | None = None,
    open_area: SquareMetre | None = None,
) -> Cavity:
    """A mould by the volume of water, or dry grain, that fills it."""
    need_positive(volume=volume.low)
    return Cavity(volume, depth, open_area)


def weighed_cavity(
    water: Span[Kilogram],
    temp: Kelvin,
    depth: Metre | None = None,
    open_area: SquareMetre | None = None,
) -> Cavity:
    """A mould by the mass of the water that fills it, at the water's temperature."""
    return measured_cavity(across(water_volume, water, exact(temp)), depth, open_area)


def need_level(cavity: Cavity, level: Metre) -> None:
    """Refuse a level that the mould does not reach."""
    need_positive(level=level)
    if cavity.depth is not None and level > cavity.depth * (1 + 1e-9):
        raise out_of_range("level", "The mould is lower than this. Raise it or fill it less.")
