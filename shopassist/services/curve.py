"""The course of a cure as curves: its age with a range, the levels to reach, what was read."""

from collections.abc import Sequence
from typing import Literal

from shopassist.core.batch import WarmthReading
from shopassist.core.cure import GAP
from shopassist.core.frozen import frozen
from shopassist.core.milestones import Milestone, aged, level
from shopassist.core.quantities import Kelvin, Second, UtcSecond
from shopassist.services.cure import Standing
from shopassist.services.warmth import follow, lags, reach

Step = Literal["gel", "demould", "hard", "full"]
PIECES = 96
"""Points of a curve; ours."""
SHORTEST = 600.0
"""A curve never spans less than ten minutes; ours, [s]."""
LONGEST = 45 * 86_400.0
"""Nor more than so long, where a cure hardly moves; ours, [s]."""
BEYOND = 1.06
"""So much of the time to the last gate is shown; ours."""


@frozen
class Point:
    """Age at one moment, [s at the sheet's temperature]: one sigma slow, likely, one sigma fast."""

    at: UtcSecond
    slow: Second
    likely: Second
    fast: Second


@frozen
class Ghost:
    """What was forecast at an earlier reading."""

    at: UtcSecond
    """When it was forecast."""
    likely: tuple[Second | None, ...]
    """Age at each point of the curve; None before it was forecast."""
    gate: UtcSecond | None
    """When the step aimed at was to be reached at the latest, by that forecast."""


@frozen
class AgeCurve:
    """How old the cure was and will be, counted at one temperature."""

    now: UtcSecond
    reference: Kelvin
    target: Step
    points: tuple[Point, ...]
    levels: tuple[tuple[Step, Second], ...]
    """Milestones by the age that they need, in rising order."""
    gate: UtcSecond | None = None
    """When the step aimed at is reached at the latest."""
    earlier: tuple[Ghost, ...] = ()
    """What was forecast before, the first one first."""


@frozen
class Read:
    """A temperature that was typed; an interval begins earlier than it ends."""

    since: UtcSecond
    at: UtcSecond
    low: Kelvin
    high: Kelvin
    widest: tuple[Kelvin, Kelvin]
    """With what is added for air, and its lag."""
    where: str = ""
    """What the thermometer measured."""


@frozen
class WarmthCurve:
    """What was read of the temperature, what nobody knows, and the limits of the sheet."""

    now: UtcSecond
    begun: UtcSecond
    read: tuple[Read, ...]
    unknown: tuple[tuple[UtcSecond, UtcSecond], ...]
    unread: tuple[tuple[UtcSecond, UtcSecond], ...]
    """Stretches without a reading, so long that the range is widened there."""
    lowest: Kelvin | None
    highest: Kelvin | None


def age_curve(standing: Standing, earlier: Sequence[Standing] = ()) -> AgeCurve | None:
    """The curve up to the next release that lies ahead, and as it was forecast earlier.

    None where the sheet gives no release.
    """
    found = _target(standing)
    if found is None:
        return None
    milestone, until = found
    past, ahead, span = standing.trail(milestone), standing.ahead, standing.spans["release"]
    begun = UtcSecond(standing.now - span.low)
    points = []
    for number in range(PIECES + 1):
        at = Second(until * number / PIECES)
        slow, likely, fast = aged(milestone, past, ahead, at)
        points.append(Point(UtcSecond(begun + at), slow, likely, fast))
    levels = _levels(standing, milestone)
    step: Step = milestone.stage  # type: ignore[assignment]
    ghosts = (_ghost(each, milestone, tuple(point.at for point in points)) for each in earlier)
    return AgeCurve(
        standing.now, milestone.course.reference, step, tuple(points), levels,
        _gate(standing, milestone), tuple(each for each in ghosts if each is not None),
    )  # fmt: skip


def _ghost(then: Standing, milestone: Milestone, moments: tuple[UtcSecond, ...]) -> Ghost | None:
    """The same step by what was known then; None where the sheet said otherwise then."""
    own = next(
        (each for each in then.milestones
         if (each.stage, each.kind, each.course) == (milestone.stage, "release", milestone.course)),
        None,
    )  # fmt: skip
    if own is None:
        return None
    past, ahead, begun = then.trail(own), then.ahead, then.now - then.spans["release"].low
    likely = tuple(
        None if at < then.now else aged(own, past, ahead, Second(at - begun))[1] for at in moments
    )
    return Ghost(then.now, likely, _gate(then, own))


def _gate(standing: Standing, milestone: Milestone) -> UtcSecond | None:
    found = standing.stages(standing.ahead)
    return next(each.gate for each in found if each.forecast.milestone == milestone)


def _target(standing: Standing) -> tuple[Milestone, Second] | None:
    """The release to aim at, and how far the curve reaches, counted from hardener-in."""
    gone = float(standing.spans["release"].low)
    coming = [
        (stage.forecast.milestone, stage.forecast.gate)
        for stage in standing.stages(standing.ahead)
        if stage.kind == "release" and stage.aim != "hold"
    ]
    timed = [(each, float(gate)) for each, gate in coming if gate is not None]
    best = next((pair for pair in timed if pair[1] > gone), timed[-1] if timed else None)
    if best is None:
        # Too cold for any time: what is behind us is all there is to show.
        return (coming[0][0], Second(max(gone * 2, SHORTEST))) if coming else None
    return best[0], Second(min(max(best[1], gone, SHORTEST) * BEYOND, max(LONGEST, gone)))


def _levels(standing: Standing, milestone: Milestone) -> tuple[tuple[Step, Second], ...]:
    """Steps on the way; one with a law of its own stands where the curve is when it is likely."""
    found: list[tuple[Step, Second]] = []
    for stage in standing.stages(standing.ahead):
        each = stage.forecast.milestone
        if each.kind != "release" or each.required > milestone.required:
            continue
        age = level(each, milestone.course)
        if age is None and stage.forecast.likely is not None:
            at = stage.forecast.likely
            age = aged(milestone, standing.trail(milestone), standing.ahead, at)[1]
        if age is not None:
            found.append((each.stage, age))  # type: ignore[arg-type]
    return tuple(sorted(found, key=lambda pair: pair[1]))


def warmth_curve(standing: Standing) -> WarmthCurve:
    """What was read since a little before hardener-in."""
    batch, sheet = standing.batch, standing.sheet
    read = _read(batch.warmth)
    unknown = tuple((each.since, each.until) for each in batch.unknowns)
    return WarmthCurve(
        standing.now, standing.contact, read, unknown, _unread(standing, read, unknown),
        None if sheet is None else sheet.temp_lowest,
        None if sheet is None else sheet.temp_highest,
    )  # fmt: skip


def _read(readings: Sequence[WarmthReading]) -> tuple[Read, ...]:
    """Each with how cold and how warm the resin may have been, as far as it can have followed."""
    found: list[Read] = []
    for each in readings:
        since = each.at if each.since is None else each.since
        ends = reach(each)
        if found and lags(each.where):
            ends = follow(found[-1].widest, each, each.at - found[-1].at)
        found.append(Read(since, each.at, each.low, each.high, ends, each.where))
    return tuple(found)


def _unread(
    standing: Standing, read: tuple[Read, ...], unknown: tuple[tuple[UtcSecond, UtcSecond], ...]
) -> tuple[tuple[UtcSecond, UtcSecond], ...]:
    """Between two readings too far apart all of it, after the last one what is beyond its time."""
    ends = sorted([*((each.since, each.at) for each in read), *unknown])
    found: list[tuple[UtcSecond, UtcSecond]] = []
    last: UtcSecond | None = None
    for since, at in ends:
        if last is not None and since - last > GAP:
            found.append((last, since))
        last = at if last is None else max(last, at)
    if last is not None and standing.now - last > GAP:
        found.append((UtcSecond(last + GAP), standing.now))
    return tuple(found)
