"""The half section of a blank as lines to draw: places along the axis and radii, in metres."""

from math import cos, pi, sin

from shopassist.core.blank import Job, Need
from shopassist.core.frozen import frozen
from shopassist.core.profile import Profile
from shopassist.core.quantities import Metre
from shopassist.core.wall import Bore, DrillErrors, WallCheck, drift_at
from shopassist.core.workpiece import Core, Groove

ARC_STEPS = 12
"""Straight pieces in which a half round is drawn."""


@frozen
class Point:
    """A corner of an outline, its place counted from the mould's floor."""

    at: Metre
    radius: Metre


@frozen
class WanderCone:
    """How far the side of the bore may be off, on its likely and its worst day."""

    at: Metre
    likely: Metre
    worst: Metre
    """Greatest radius that the drill may reach there."""


@frozen
class Section:
    """Everything of the drawing that is known; what is not is empty or None."""

    cavity: tuple[Point, ...]
    core: tuple[Point, ...]
    flutes: tuple[tuple[Point, Point], ...]
    """Floors of the grooves along the core."""
    level: Metre | None
    """Where the resin stands; None: not known, or the mould lies."""
    bore: tuple[Point, Point] | None
    cone: tuple[WanderCone, ...]
    thinnest: tuple[Point, Point] | None
    """From the side of the nominal bore to the groove's floor."""


def section(
    job: Job,
    need: Need,
    bore: Bore | None = None,
    errors: DrillErrors | None = None,
    check: WallCheck | None = None,
    lines: tuple[Point, ...] | None = None,
) -> Section:
    """Lay out the half section; ``lines`` is the core's outline where it is known already."""
    core = job.core
    profile = core.profile if core is not None else None
    start = start_of(job)
    flutes: tuple[tuple[Point, Point], ...] = ()
    if core is not None and profile is not None:
        lines = outline(core, profile, start) if lines is None else lines
        flutes = _flutes(core, profile, start)
    drilled = _bore(bore, profile, start)
    return Section(
        cavity=_cavity(job),
        core=lines or (),
        flutes=flutes,
        level=None if job.lying else need.level,
        bore=drilled,
        cone=_cone(bore, errors, profile, start),
        thinnest=_thinnest(bore, check, start),
    )


def start_of(job: Job) -> float:
    """Where the core begins: at its base, or so that it lies in the middle."""
    profile = job.core.profile if job.core is not None else None
    if job.lying and job.cavity.plan is not None and profile is not None:
        return (job.cavity.plan[0] - profile.length) / 2
    return job.base


def _cavity(job: Job) -> tuple[Point, ...]:
    cavity = job.cavity
    if cavity.profile is not None:
        return tuple(Point(s.at, Metre(s.diameter / 2)) for s in cavity.profile.stations)
    if cavity.plan is None or cavity.depth is None:
        return ()
    length, across = (cavity.plan[0], cavity.depth) if job.lying else (cavity.depth, cavity.plan[1])
    return (Point(Metre(0.0), Metre(across / 2)), Point(length, Metre(across / 2)))


def outline(core: Core, profile: Profile, start: float = 0.0) -> tuple[Point, ...]:
    """Outline of a core with the grooves that run round it."""
    rings = sorted((g for g in core.grooves if g.length is None), key=lambda g: g.first)
    points: list[Point] = []
    done = 0.0
    for ring in rings:
        points += _smooth(profile, done, ring.first)
        points += _notch(ring, profile)
        done = ring.last
    points += _smooth(profile, done, profile.length)
    return tuple(Point(Metre(point.at + start), point.radius) for point in points)


def _smooth(profile: Profile, first: float, last: float) -> list[Point]:
    part = profile.cut(Metre(profile.start + first), Metre(profile.start + last))
    if part is None:
        return []
    return [Point(Metre(s.at - profile.start), Metre(s.diameter / 2)) for s in part.stations]


def _radius(profile: Profile, at: float) -> float:
    held = min(max(at, 0.0), profile.length)
    return profile.diameter_at(Metre(profile.start + held)) / 2


def _notch(ring: Groove, profile: Profile) -> list[Point]:
    half, middle = ring.across / 2, _radius(profile, ring.at)
    places: list[tuple[float, float]]
    if ring.kind == "square":
        places = [(-half, ring.depth), (half, ring.depth)]
    elif ring.kind == "vee":
        places = [(0.0, ring.depth)]
    else:
        turns = [pi * n / ARC_STEPS for n in range(1, ARC_STEPS)]
        places = [(-half * cos(turn), ring.depth * sin(turn)) for turn in turns]
    floor = [Point(Metre(ring.at + x), Metre(middle - t)) for x, t in places]
    edges = [Point(Metre(at), Metre(_radius(profile, at))) for at in (ring.first, ring.last)]
    return [edges[0], *floor, edges[1]]


def _flutes(core: Core, profile: Profile, start: float) -> tuple[tuple[Point, Point], ...]:
    return tuple(
        (
            Point(Metre(g.first + start), Metre(_radius(profile, g.first) - g.depth)),
            Point(Metre(g.last + start), Metre(_radius(profile, g.last) - g.depth)),
        )
        for g in core.grooves
        if g.length is not None
    )


def _bore(bore: Bore | None, profile: Profile | None, start: float) -> tuple[Point, Point] | None:
    if bore is None or profile is None:
        return None
    radius = Metre(bore.drill / 2)
    return Point(Metre(start), radius), Point(Metre(start + bore_depth(bore, profile)), radius)


def bore_depth(bore: Bore, profile: Profile) -> Metre:
    """How far the bore reaches from the start of the core."""
    if bore.depth is None or bore.both_ends:
        return profile.length
    return min(bore.depth, profile.length)


def _cone(
    bore: Bore | None, errors: DrillErrors | None, profile: Profile | None, start: float
) -> tuple[WanderCone, ...]:
    if bore is None or errors is None or profile is None:
        return ()
    end = bore_depth(bore, profile)
    travels = [(0.0, 0.0), (end, end)]
    if bore.both_ends:
        travels = [(0.0, 0.0), (end / 2, end / 2), (end, 0.0)]
    found = []
    for at, deep in travels:
        likely, worst = drift_at(errors, Metre(deep))
        radius = bore.drill / 2
        found.append(WanderCone(Metre(at + start), Metre(radius + likely), Metre(radius + worst)))
    return tuple(found)


def _thinnest(
    bore: Bore | None, check: WallCheck | None, start: float
) -> tuple[Point, Point] | None:
    if bore is None or check is None:
        return None
    at = Metre(check.at + start)
    return Point(at, Metre(bore.drill / 2)), Point(at, Metre(check.floor_diameter / 2))
