"""Whether a core goes into a cavity."""

from shopassist.core.cavity import Cavity
from shopassist.core.errors import OutOfRangeError, out_of_range
from shopassist.core.messages import Amount
from shopassist.core.profile import Profile
from shopassist.core.quantities import Metre
from shopassist.core.workpiece import Core

SLACK = 1e-9
"""Part of a length that is rounding, not size."""


def need_fit(cavity: Cavity, core: Core, base: Metre, *, lying: bool) -> None:
    """Refuse a core whose outline does not go into the mould; a proud end is allowed."""
    if lying and cavity.plan is None:
        raise out_of_range("lying", "A core can lie only in a box mould.")
    if core.profile is None:
        return
    if cavity.depth is not None and base >= cavity.depth:
        raise out_of_range("base", "The core would stand above the mould. Lower it.")
    if cavity.plan is not None:
        _need_fit_box(cavity, core.profile, cavity.plan, lying=lying)
    elif cavity.profile is not None:
        _need_fit_round(cavity.profile, core.profile, base)


def _too_large(core: float, room: float) -> OutOfRangeError:
    return out_of_range(
        "core",
        "The core measures {core} where the mould has {room}. Give a larger mould or a"
        " smaller core.",
        core=Amount(core, "Metre"),
        room=Amount(room, "Metre"),
    )


def _need_fit_box(cavity: Cavity, core: Profile, plan: tuple[Metre, Metre], *, lying: bool) -> None:
    longer, shorter = plan
    asked = [(core.greatest, shorter)]
    if lying:
        asked += [(core.length, longer), (core.greatest, cavity.depth or core.greatest)]
    for size, room in asked:
        if size > room * (1 + SLACK):
            raise _too_large(size, room)


def _need_fit_round(cavity: Profile, core: Profile, base: Metre) -> None:
    standing = core.moved(Metre(base - core.start))
    within = [s for s in standing.stations if s.at <= cavity.end]
    asked = [(s.diameter, cavity.diameter_at(s.at)) for s in within]
    asked += [
        (standing.diameter_at(s.at), s.diameter)
        for s in cavity.stations
        if standing.start <= s.at <= standing.end
    ]
    for size, room in asked:
        if size > room * (1 + SLACK):
            raise _too_large(size, room)
