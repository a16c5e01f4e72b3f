"""The minutes from hardener-in to pressure: what each step takes and when it must begin."""

from collections.abc import Sequence

from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.quantities import Ratio, Second

StepName = str
FAST_STEPS: tuple[tuple[StepName, Second], ...] = (
    ("Stir", Second(60.0)),
    ("Second cup, stir", Second(30.0)),
    ("Pour", Second(120.0)),
    ("Load", Second(60.0)),
    ("Clamp", Second(60.0)),
    ("Fill the pot", Second(60.0)),
)
"""Usual steps and durations to start from; ours after the polyurethane case C17."""


@frozen
class Step:
    """A step with its place in time, counted from hardener-in."""

    name: StepName
    duration: Second
    starts: Second
    """When it starts if every step takes its time."""
    ends: Second
    latest_start: Second
    """From here on the pot is not at pressure in time; may lie before hardener-in."""


@frozen
class Budget:
    """All steps up to pressure."""

    steps: tuple[Step, ...]
    by: Second
    """Pressurise by, counted from hardener-in."""
    total: Second

    @property
    def spare(self) -> Second:
        """Time left over; less than nothing: it cannot be done in time."""
        return Second(self.by - self.total)

    @property
    def fits(self) -> bool:
        """True where all steps end in time."""
        return self.spare >= 0


def budget(steps: Sequence[tuple[StepName, Second]], by: Second) -> Budget:
    """Lay the steps out from hardener-in and back from pressurise-by."""
    need_positive(by=by)
    for number, (name, duration) in enumerate(steps, 1):
        if not name.strip():
            raise out_of_range(f"steps.{number}.name", "Name this step.")
        if not 0 <= duration < float("inf"):
            raise out_of_range(f"steps.{number}.duration", "A step cannot take less than no time.")
    if not steps:
        raise out_of_range("steps", "Give at least one step.")
    total = sum(duration for _, duration in steps)
    laid: list[Step] = []
    start = 0.0
    for name, duration in steps:
        latest = by - (total - start)
        laid.append(Step(name, duration, Second(start), Second(start + duration), Second(latest)))
        start += duration
    return Budget(tuple(laid), by, Second(total))


def scaled_by(by: Second, factor: Ratio) -> Second:
    """Pressurise-by at another temperature: the sheet's time times how much longer it lasts."""
    need_positive(by=by, factor=factor)
    return Second(by * factor)


@frozen
class Progress:
    """Where a running budget stands."""

    number: int
    """Index of the step that is due or running; the number of steps when all are done."""
    step: Step | None
    left: Second
    """Until pressurise-by; negative: past it."""
    late: bool
    """True where the rest of the steps no longer fits."""
    late_by: Second


def progress(plan: Budget, done: int, elapsed: Second, into_step: Second) -> Progress:
    """Judge a running budget: steps done, time since hardener-in, time in the present step."""
    need_not_negative(elapsed=elapsed, into_step=into_step)
    if not 0 <= done <= len(plan.steps):
        raise out_of_range("done", "There are not so many steps.")
    left = plan.by - elapsed
    if done == len(plan.steps):
        return Progress(done, None, Second(left), late=False, late_by=Second(0.0))
    step = plan.steps[done]
    here = max(step.duration - into_step, 0.0)
    rest = here + sum(each.duration for each in plan.steps[done + 1 :])
    late_by = max(rest - left, 0.0)
    return Progress(done, step, Second(left), late=late_by > 0, late_by=Second(late_by))
