"""Where along the core the wall beside a bore is thinnest, and whether it will do."""

from typing import Literal

from shopassist.core.bore import (
    drift_likely,
    drift_worst,
    greatest_drill,
    thickening,
    wall_left,
)
from shopassist.core.bounds import need_positive
from shopassist.core.errors import OutOfRangeError, out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.profile import Profile
from shopassist.core.quantities import Metre, Ratio
from shopassist.core.workpiece import Core

WALL_STABILISED = Metre(0.003)
"""Least wall to ask for in stabilised hardwood; ours."""
WALL_OTHER = Metre(0.004)
"""Least wall to ask for otherwise; ours, and the least of the drilling case T02."""
PAST_INSERT = Metre(0.0015875)
"""Drill this much deeper than the insert: 1/16 in, common practice."""

ECCENTRICITY = Metre(0.001)
START_OFFSET = Metre(0.0003)
RUNOUT = Metre(0.0002)
WANDER = Ratio(0.010)
"""Of these four nobody is asked; they are ours, and guesses."""

WallVerdict = Literal["enough", "may be thin", "too thin", "breaks out"]


@frozen
class DrillErrors:
    """Where a drill may go instead of down the axis; the defaults are ours, and guesses."""

    eccentricity: Metre = ECCENTRICITY
    """Of the core in the blank; nearly nothing when drilled on the core's own centres."""
    start_offset: Metre = START_OFFSET
    runout: Metre = RUNOUT
    """Total reading of a dial against the drill in one turn."""
    wander: Ratio = WANDER
    """Sideways over depth."""


@frozen
class Bore:
    """A hole down the axis from the start of the core."""

    drill: Metre
    depth: Metre | None = None
    """At full diameter; None: right through."""
    both_ends: bool = False
    """Drilled right through, half from each end, so that the drill wanders half as far."""


@frozen
class WallCheck:
    """The thinnest place beside a bore."""

    at: Metre
    """From the start of the core."""
    floor_diameter: Metre
    nominal: Metre
    """With a bore dead on the axis."""
    likely: Metre
    worst: Metre
    drift_likely: Metre
    drift_worst: Metre
    asked: Metre
    verdict: WallVerdict
    greatest_drill: Metre | None
    """Greatest drill that leaves the asked wall at the worst; None where none does."""
    thicker: Metre
    """How much more diameter the place needs at the worst."""
    beyond: Metre | None
    """Wood past the end of a blind bore at full diameter; None for a hole right through."""


def wall_asked(*, stabilised: bool) -> Metre:
    """Least wall to ask for, where nobody said another; ours."""
    return WALL_STABILISED if stabilised else WALL_OTHER


def travel(bore: Bore, length: Metre, at: Metre) -> Metre:
    """How deep the drill is in the wood at one place along the axis."""
    return min(at, Metre(length - at)) if bore.both_ends else at


def drift_at(errors: DrillErrors, depth: Metre) -> tuple[Metre, Metre]:
    """Likely and worst sideways error at one depth: half the width of the wander cone."""
    stack = (errors.eccentricity, errors.start_offset, errors.runout, errors.wander, depth)
    return drift_likely(*stack), drift_worst(*stack)


def floor_diameter_at(core: Core, profile: Profile, at: Metre) -> Metre:
    """Diameter left at one place: the outline, or the floor of the deepest groove over it.

    Every groove counts with its full depth over its whole width, also V and half round.
    """
    body = profile.diameter_at(Metre(profile.start + at))
    deepest = max((g.depth for g in core.grooves if g.first <= at <= g.last), default=0.0)
    return Metre(body - 2 * deepest)


def check_wall(
    core: Core, bore: Bore, errors: DrillErrors, asked: Metre = WALL_STABILISED
) -> WallCheck:
    """Find the thinnest wall beside a bore; the worst case decides the place."""
    profile = core.profile
    if profile is None:
        raise out_of_range("core", "Give the core's outline: mass alone does not show its walls.")
    end = _bore_end(bore, profile)
    need_positive(drill=bore.drill)

    def worst(at: Metre) -> Metre:
        drift = drift_at(errors, travel(bore, profile.length, at))[1]
        return wall_left(floor_diameter_at(core, profile, at), bore.drill, drift)

    at = min(_places(core, profile, bore, end), key=worst)
    floor = floor_diameter_at(core, profile, at)
    likely, most = drift_at(errors, travel(bore, profile.length, at))
    left = wall_left(floor, bore.drill, most)
    return WallCheck(
        at=at,
        floor_diameter=floor,
        nominal=wall_left(floor, bore.drill, Metre(0.0)),
        likely=wall_left(floor, bore.drill, likely),
        worst=left,
        drift_likely=likely,
        drift_worst=most,
        asked=asked,
        verdict=_verdict(left, wall_left(floor, bore.drill, likely), asked),
        greatest_drill=_greatest(floor, asked, most),
        thicker=thickening(floor, bore.drill, asked, most),
        beyond=None if end == profile.length else Metre(profile.length - end),
    )


def _bore_end(bore: Bore, profile: Profile) -> Metre:
    if bore.depth is None or bore.both_ends:
        return profile.length
    need_positive(depth=bore.depth)
    if bore.depth > profile.length * (1 + 1e-9):
        raise out_of_range("depth", "The bore is deeper than the core is long. Drill less deep.")
    return min(bore.depth, profile.length)


def _places(core: Core, profile: Profile, bore: Bore, end: Metre) -> list[Metre]:
    """Everywhere the wall can be thinnest: it changes evenly between these places."""
    stations = [Metre(station.at - profile.start) for station in profile.stations]
    edges = [edge for g in core.grooves for edge in (g.first, g.at, g.last)]
    middle = [Metre(profile.length / 2)] if bore.both_ends else []
    # Rounding may put an edge a hair outside; the outline has no diameter there.
    listed = (Metre(min(max(at, 0.0), end)) for at in (*stations, *edges, *middle, end))
    return sorted(set(listed))


def _verdict(worst: float, likely: float, asked: float) -> WallVerdict:
    if worst >= asked:
        return "enough"
    if likely >= asked:
        return "may be thin"
    return "too thin" if worst > 0 else "breaks out"


def _greatest(floor: Metre, asked: Metre, drift: Metre) -> Metre | None:
    try:
        return greatest_drill(floor, asked, drift)
    except OutOfRangeError:
        return None
