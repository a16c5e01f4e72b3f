"""The minutes from hardener-in to pressure: planned before, kept while they run."""

from collections.abc import Sequence

from shopassist.core.batch import Batch
from shopassist.core.budget import FAST_STEPS, Budget, Progress, budget, progress
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.quantities import Second
from shopassist.services.beside import Beside, Caution
from shopassist.services.said import Said

NOT_ON_SHEET = say("The sheet gives no time for pressure or working: nothing to count back from.")
HOUR = Second(3600.0)
"""A budget counts by minutes; where there is more time than this it says so; ours."""


@frozen
class StepsNow:
    """The budget, and where a running one stands."""

    plan: Budget | None
    now: Progress | None = None


def durations(said: Said) -> tuple[tuple[str, Second], ...]:
    """Each step with what was typed for it, else our usual time."""
    return tuple(
        (name, Second(usual if (typed := said.get(f"step_{n}")) is None else typed))
        for n, (name, usual) in enumerate(FAST_STEPS, 1)
    )


def steps_now(said: Said, by: Second | None, batch: Batch | None, now: float) -> StepsNow:
    """Lay the steps out up to pressurise-by, and judge them once hardener is in."""
    if by is None or by <= 0:
        return StepsNow(None)
    plan = budget(durations(said), by)
    if batch is None or batch.first_contact is None:
        return StepsNow(plan)
    elapsed = max(now - batch.first_contact, 0.0)
    begun = batch.steps[-1] if batch.steps else batch.first_contact
    done = min(len(batch.steps), len(plan.steps))
    into = max(now - begun, 0.0)
    return StepsNow(plan, progress(plan, done, Second(elapsed), Second(into)))


def steps_beside(found: StepsNow) -> Beside:
    """The page of the steps."""
    if found.plan is None:
        return Beside(notes=(NOT_ON_SHEET,))
    return Beside(caution=_caution(found.plan, found.now), notes=_notes(found.plan),
                  rows=tuple(_rows(found.plan, found.now)))  # fmt: skip


def _caution(plan: Budget, now: Progress | None) -> Caution | None:
    if now is not None:
        if not now.late:
            return None
        return (
            say("{late} late: it is not at pressure in time.",
                late=Amount(now.late_by, "Second")),
            say("Leave a step out, or do not press: gelled resin is not pressed."),
        )  # fmt: skip
    if plan.fits:
        return None
    return (
        say("{over} too long for this resin today.", over=Amount(-plan.spare, "Second")),
        say("Do a step beforehand, take less time, or cool the parts."),
    )


def _notes(plan: Budget) -> tuple[Text, ...]:
    told = [say("Mix colour in before the hardener; never scrape the cup into the mould.")]
    if plan.by > HOUR:
        told.insert(0, say("There is more than an hour: no need to count minutes."))
    return tuple(told)


def _rows(plan: Budget, now: Progress | None) -> Sequence[tuple[Text, Text]]:
    """Each step with when it must begin at the latest, counted from hardener-in."""
    rows = []
    for number, step in enumerate(plan.steps):
        begin = step.latest_start
        words = (
            say("begin by {when}", when=Amount(max(begin, 0.0), "Second"))
            if begin >= 0
            else say("before the hardener goes in")
        )
        if now is not None and number < now.number:
            words = say("done")
        rows.append((say(step.name), words))
    rows.append((say("Under pressure by"), say("{by}", by=Amount(plan.by, "Second"))))
    return rows
