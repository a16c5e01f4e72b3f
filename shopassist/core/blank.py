"""From the mould and the core to the resin that has to be mixed."""

from shopassist.core.bounds import need_not_negative, need_positive, need_share
from shopassist.core.cavity import Cavity, need_level
from shopassist.core.errors import out_of_range
from shopassist.core.fit import need_fit
from shopassist.core.frozen import frozen, replace
from shopassist.core.messages import Amount, Text, say
from shopassist.core.pour import (
    FACING_DEFAULT,
    OVERFILL_DEFAULT,
    WASTE_DEFAULT,
    shrink_overfill,
    sink_depth,
    soak_in_limit,
)
from shopassist.core.profile import LEVEL_STEPS
from shopassist.core.quantities import (
    CubicMetre,
    Kilogram,
    KilogramPerCubicMetre,
    Metre,
    Ratio,
    SquareMetre,
)
from shopassist.core.resin_load import bow_volume
from shopassist.core.span import Span, across, exact
from shopassist.core.workpiece import Core

SOAK_LIKELY = Ratio(0.5)
"""Likely share of the voids that unstabilised wood fills before gel; ours, a guess."""
WIDE = Ratio(1.1)
"""From this spread on the mix goes by the high end; ours."""
NOTHING = CubicMetre(0.0)
NO_LENGTH = Metre(0.0)


@frozen
class Job:
    """What is to be cast; blank entries stand for the defaults named in ``pour``."""

    cavity: Cavity
    core: Core | None = None
    level: Metre | None = None
    """Height wanted after facing off; None: the mould is filled to its rim."""
    base: Metre = NO_LENGTH
    """Where the foot of an upright core stands above the mould's floor."""
    pieces: int = 1
    spares: int = 0
    shrink: Ratio | None = None
    """None where the sheet says nothing: the default overfill is taken."""
    facing: Metre = FACING_DEFAULT
    waste: Ratio = WASTE_DEFAULT
    stabilised: bool = True
    lying: bool = False
    """The core lies in a box mould instead of standing upright."""
    bow: Metre = NO_LENGTH
    """How far each long wall of a soft box mould gives way."""


@frozen
class Need:
    """Volumes for a job; ranges where an input was a range."""

    cavity: Span[CubicMetre]
    """Space up to where the resin is to stand, bulge of the walls included."""
    core: Span[CubicMetre]
    """The part of the core below that level."""
    net: Span[CubicMetre]
    overfill: Span[CubicMetre]
    soak_in: Span[CubicMetre]
    """From none to every void filled."""
    for_one: Span[CubicMetre]
    """One piece, nothing wasted."""
    for_all: Span[CubicMetre]
    """Pieces and spares with waste: what goes to Mix."""
    level: Metre | None
    """Where the resin stands just after the pour, before it soaks in or shrinks."""
    sink: Metre | None
    """How far the face goes down by shrinking."""
    finished: Metre | None
    """Height that is left after facing off."""
    over_rim: CubicMetre
    """What does not fit at once; it is poured as a top-up."""
    proud: Metre
    """How far the core stands out above the resin."""
    cautions: tuple[Text, ...] = ()


def need(job: Job) -> Need:
    """Work out the resin for a job, or say beside which field it cannot be."""
    _refuse_counts(job)
    if job.core is not None:
        need_fit(job.cavity, job.core, job.base, lying=job.lying)
    to = _level_wanted(job)
    cavity, core = _space(job, to), _wood_below(job, to)
    net = _net(cavity, core)
    overfill = across(_overfill, net, exact(job.shrink if job.shrink is not None else -1.0))
    soak_in = _soak_in(job, core)
    for_one = across(_sum, net, overfill, soak_in)
    level, over_rim = _poured(job, net, overfill)
    found = Need(
        cavity=cavity,
        core=core,
        net=net,
        overfill=overfill,
        soak_in=soak_in,
        for_one=for_one,
        for_all=across(_times, for_one, exact((job.pieces + job.spares) * (1 + job.waste))),
        level=level,
        sink=_sink(job.cavity, overfill.mid, to),
        finished=_finished(job),
        over_rim=over_rim,
        proud=_proud(job, to),
    )
    return replace(found, cautions=_cautions(job, found))


def resin_mass(volume: Span[CubicMetre], density: KilogramPerCubicMetre | None) -> Span[Kilogram]:
    """Mass of a volume of mix; millilitres never pass for grams."""
    if density is None:
        raise out_of_range(
            "density.mixed",
            "The sheet gives no density. Weigh a known volume of the mix, or type grams.",
        )
    need_positive(density=density)
    return across(_mass, volume, exact(density))


def _mass(volume: float, density: float) -> Kilogram:
    return Kilogram(volume * density)


def _sum(*volumes: float) -> CubicMetre:
    return CubicMetre(sum(volumes))


def _times(volume: float, times: float) -> CubicMetre:
    return CubicMetre(volume * times)


def _overfill(net: float, shrink: float) -> CubicMetre:
    if shrink < 0:
        return CubicMetre(net * OVERFILL_DEFAULT)
    return shrink_overfill(CubicMetre(net), Ratio(shrink))


def _refuse_counts(job: Job) -> None:
    if job.pieces < 1:
        raise out_of_range("pieces", "Give at least one piece.")
    if job.spares < 0:
        raise out_of_range("spares", "Spares cannot be fewer than none.")
    need_share(waste=job.waste)
    need_not_negative(facing=job.facing, bow=job.bow, base=job.base)
    if job.bow > 0 and job.cavity.plan is None:
        raise out_of_range("bow", "A bow is worked out for box moulds only. Leave it blank.")
    if job.facing >= (job.cavity.depth or job.facing + 1):
        raise out_of_range("facing", "Facing off would take the whole piece. Take off less.")


def _level_wanted(job: Job) -> Metre | None:
    """Height to which resin is to stand; None where the mould's depth is not known."""
    if job.level is None:
        return job.cavity.depth
    to = Metre(job.level + job.facing)
    need_level(job.cavity, to)
    return to


def _space(job: Job, to: Metre | None) -> Span[CubicMetre]:
    if job.level is None or to is None:
        return across(_sum, job.cavity.volume, exact(_bulge(job, job.cavity.depth)))
    room = job.cavity.volume_to(to)
    if room is None:
        raise out_of_range("level", "The mould's shape is not known: measure water to that level.")
    return exact(CubicMetre(room + _bulge(job, to)))


def _bulge(job: Job, height: Metre | None) -> CubicMetre:
    if job.cavity.plan is None or height is None:
        return NOTHING
    return CubicMetre(2 * bow_volume(job.bow, job.cavity.plan[0], height))


def _wood_below(job: Job, to: Metre | None) -> Span[CubicMetre]:
    if job.core is None:
        return exact(NOTHING)
    if job.core.profile is None or to is None:
        return job.core.volume
    if job.lying:
        return exact(job.core.volume_under(Metre(to - job.base)))
    return exact(job.core.volume_to(Metre(to - job.base)))


def _net(cavity: Span[CubicMetre], core: Span[CubicMetre]) -> Span[CubicMetre]:
    if core.mid >= cavity.mid:
        raise out_of_range(
            "core",
            "The core takes up {core}, the cavity holds {cavity}. Check both or give a larger"
            " mould.",
            core=Amount(core.mid, "CubicMetre"),
            cavity=Amount(cavity.mid, "CubicMetre"),
        )
    return Span(
        CubicMetre(max(cavity.low - core.high, 0.0)),
        CubicMetre(cavity.mid - core.mid),
        CubicMetre(cavity.high - core.low),
    )


def _soak_in(job: Job, core: Span[CubicMetre]) -> Span[CubicMetre]:
    density = job.core.density if job.core is not None else None
    if job.stabilised or density is None:
        return exact(NOTHING)
    likely = soak_in_limit(core.mid, density.mid) * SOAK_LIKELY
    return Span(NOTHING, CubicMetre(likely), soak_in_limit(core.high, density.low))


def _poured(
    job: Job, net: Span[CubicMetre], overfill: Span[CubicMetre]
) -> tuple[Metre | None, CubicMetre]:
    liquid, depth = CubicMetre(net.mid + overfill.mid), job.cavity.depth
    if depth is None or job.cavity.volume_to(depth) is None:
        return None, overfill.mid
    room = _free(job, depth)
    if liquid >= room:
        return depth, CubicMetre(liquid - room)
    low, high = 0.0, float(depth)
    for _ in range(LEVEL_STEPS):
        middle = (low + high) / 2
        low, high = (middle, high) if _free(job, Metre(middle)) < liquid else (low, middle)
    return Metre(high), NOTHING


def _free(job: Job, level: Metre) -> float:
    """Room for resin below a level."""
    room = job.cavity.volume_to(level) or 0.0
    return room + _bulge(job, level) - _wood_below(job, level).mid


def _sink(cavity: Cavity, lost: CubicMetre, to: Metre | None) -> Metre | None:
    area: SquareMetre | None = cavity.open_area if to is None else cavity.area_at(to)
    return sink_depth(lost, area) if area else None


def _finished(job: Job) -> Metre | None:
    if job.level is not None or job.cavity.depth is None:
        return job.level
    return Metre(job.cavity.depth - job.facing)


def _proud(job: Job, to: Metre | None) -> Metre:
    if to is None or job.core is None or job.core.profile is None:
        return NO_LENGTH
    profile = job.core.profile
    top = job.base + (profile.greatest if job.lying else profile.length)
    return Metre(max(top - to, 0.0))


def _cautions(job: Job, found: Need) -> tuple[Text, ...]:
    said: list[Text] = []
    if found.over_rim > 0:
        said.append(
            say(
                "{volume} does not fit at once: pour it as a top-up before gel, or raise the rim.",
                volume=Amount(found.over_rim, "CubicMetre"),
            )
        )
    if found.proud > HARDLY:
        said.append(say("The core stands {proud} out of the resin.",
                        proud=Amount(found.proud, "Metre")))  # fmt: skip
    if found.net.low <= 0:
        said.append(say("At its largest the core would fill the cavity. Measure it better."))
    if found.for_one.high > WIDE * found.for_one.low:
        said.append(say("Mix for the high end and keep a spare mould ready for what is left."))
    if job.core is not None and not job.stabilised:
        weighed = job.core.density is not None
        said.append(say(_SOAKS if weighed else _SOAKS_UNKNOWN))
    return tuple(said)


HARDLY = Metre(5e-5)
"""Less than what is shown of a length is rounding."""
_SOAKS = "Wood that is not stabilised drinks resin and breathes out air: seal it first."
_SOAKS_UNKNOWN = "Weigh the core: without its mass the soak-in cannot be worked out."
