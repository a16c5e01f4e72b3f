"""A vent that is quicker than this pot's own vent can be: it only ever adds a block.

The area of the vent is learnt from earlier runs of the same pot. An unlikely speed is a reason to
doubt; a likely one is evidence of nothing.
"""

from collections.abc import Iterable

from shopassist.core.pot.course import Course
from shopassist.core.pot.plate import Plate
from shopassist.core.quantities import (
    CubicMetre,
    Kelvin,
    PascalAbsolute,
    PascalGauge,
    Second,
    SquareMetre,
)
from shopassist.core.venting import hole_area, vent_time_quick

TOO_QUICK = 0.3
"""Share of the quickest ideal time below which a fall is not believed; own choice."""
TEMP = Kelvin(293.15)


def fell_in(course: Course) -> tuple[PascalGauge, PascalGauge, Second] | None:
    """Start, end and time of the fall that was seen in one run; None where it was not."""
    start, end, vented = course.before_vent, course.fall, course.vented
    if start is None or end is None or vented is None:
        return None
    if not 0 < end.pressure < start.pressure or end.at <= vented:
        return None
    return PascalGauge(start.pressure), PascalGauge(end.pressure), Second(end.at - vented)


def learnt_area(
    runs: Iterable[Course], plate: Plate | None, ambient: PascalAbsolute
) -> SquareMetre | None:
    """Area of the vent, as earlier runs of this pot show it; None before the first."""
    if plate is None or not plate.volume:
        return None
    volume = CubicMetre(plate.volume)
    found: list[SquareMetre] = [
        hole_area(volume, fall[0], fall[1], fall[2], TEMP, ambient)
        for run in runs
        if run.ended is not None and (fall := fell_in(run)) is not None
    ]
    return sorted(found)[len(found) // 2] if found else None


def too_quick(
    now: Course | None, plate: Plate | None, area: SquareMetre | None, ambient: PascalAbsolute
) -> bool:
    """Whether the fall of this run was quicker than the vent allows."""
    fall = None if now is None else fell_in(now)
    if fall is None or area is None or plate is None or not plate.volume:
        return False
    quickest = vent_time_quick(CubicMetre(plate.volume), fall[0], fall[1], area, TEMP, ambient)
    return fall[2] < TOO_QUICK * quickest
