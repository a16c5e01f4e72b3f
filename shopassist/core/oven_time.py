"""Hours that an oven was really on: one that switches itself off, or loses its power, counts less.

What the appliance cut off and nobody started again is a gap; a gap counts nothing and moves the
end of the step. A bake that had a gap has cooled: its way to the heat begins anew.
"""

from collections.abc import Sequence

from shopassist.core.frozen import frozen
from shopassist.core.quantities import Second, UtcSecond


@frozen
class OvenRun:
    """From one start of the oven to its end, as far as anybody reported one."""

    start: UtcSecond
    end: UtcSecond | None = None


def _ends(
    runs: Sequence[OvenRun], cut_off: Second | None, until: UtcSecond
) -> tuple[tuple[float, float], ...]:
    """Start and end of each run up to an instant, the appliance's own cut-off heeded."""
    found = []
    for run in runs:
        end = until if run.end is None else min(run.end, until)
        if cut_off is not None:
            end = UtcSecond(min(end, run.start + cut_off))
        if end >= run.start:
            found.append((float(run.start), float(end)))
    return tuple(found)


def hot_time(runs: Sequence[OvenRun], cut_off: Second | None, until: UtcSecond) -> Second:
    """How long the oven has been on, gaps left out."""
    return Second(sum(end - start for start, end in _ends(runs, cut_off, until)))


def gap_time(runs: Sequence[OvenRun], cut_off: Second | None, until: UtcSecond) -> Second:
    """How long it stood there off, between its first start and an instant."""
    if not runs:
        return Second(0.0)
    whole = max(0.0, until - runs[0].start)
    return Second(max(0.0, whole - hot_time(runs, cut_off, until)))


def hot_since(
    runs: Sequence[OvenRun], cut_off: Second | None, until: UtcSecond, bridged: Second
) -> UtcSecond | None:
    """Since when it has been on without a gap longer than ``bridged``; None: it is off."""
    began: float | None = None
    last = 0.0
    for start, end in _ends(runs, cut_off, until):
        if began is None or start - last > bridged:
            began = start
        last = end
    return UtcSecond(began) if began is not None and until - last <= bridged else None


def is_off(runs: Sequence[OvenRun], cut_off: Second | None, now: UtcSecond) -> bool:
    """True where it was started once and is not on now, by the clock or by a report."""
    if not runs:
        return False
    last = runs[-1]
    return last.end is not None or (cut_off is not None and now >= last.start + cut_off)
