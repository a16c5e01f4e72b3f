"""The minutes from hardener-in to pressure: planned before, kept while they run."""

from collections.abc import Sequence

from shopassist.core.batch import Batch
from shopassist.core.budget import FAST_STEPS, Budget, Progress, budget, progress
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Moment, Text, say
from shopassist.core.quantities import Second, UtcSecond
from shopassist.services.beside import Beside, Caution
from shopassist.services.said import Said

NOT_ON_SHEET = say("The sheet gives no time for pressure or working: nothing to count back from.")
OVER = say("The pot is at pressure: these minutes are over.")
HOUR = Second(3600.0)
"""A budget counts by minutes; where there is more time than this it says so; ours."""
POURED = 1 + [name for name, _ in FAST_STEPS].index("Pour")
"""So many steps are behind a batch that was reported poured."""


@frozen
class StepsNow:
    """The budget, and where a running one stands."""

    plan: Budget | None
    now: Progress | None = None
    from_: UtcSecond | None = None
    """Hardener in: the minutes count from here."""
    over: UtcSecond | None = None
    """At pressure: no step is left to do."""


def durations(said: Said) -> tuple[tuple[str, Second], ...]:
    """Each step with what was typed for it, else our usual time."""
    return tuple(
        (name, Second(usual if (typed := said.get(f"step_{n}")) is None else typed))
        for n, (name, usual) in enumerate(FAST_STEPS, 1)
    )


def steps_now(
    said: Said, by: Second | None, batch: Batch | None, now: float, since: UtcSecond | None = None
) -> StepsNow:
    """Lay the steps out up to pressurise-by, and judge them once hardener is in.

    ``since``: the contact that they count from, where an earlier pour is over.
    """
    if by is None or by <= 0:
        return StepsNow(None)
    plan = budget(durations(said), by)
    if batch is None or batch.first_contact is None:
        return StepsNow(plan)
    begin = since or batch.first_contact
    if batch.at_pressure is not None and batch.is_pressed:
        return StepsNow(plan, None, begin, batch.at_pressure)
    done, begun = _behind(batch, begin)
    elapsed, into = Second(max(now - begin, 0.0)), Second(max(now - begun, 0.0))
    return StepsNow(plan, progress(plan, min(done, len(plan.steps)), elapsed, into), begin)


def _behind(batch: Batch, begin: UtcSecond) -> tuple[int, UtcSecond]:
    """Steps that are done, and when the last of them was."""
    own = [each for each in batch.steps if each >= begin]
    done, begun = len(own), own[-1] if own else begin
    if batch.poured is not None and batch.is_poured and done < POURED:
        return POURED, max(begun, batch.poured)
    return done, begun


def steps_beside(found: StepsNow) -> Beside:
    """The page of the steps."""
    if found.plan is None:
        return Beside(notes=(NOT_ON_SHEET,))
    if found.over is not None:
        return Beside(notes=(OVER,), rows=tuple(_afterwards(found)))
    return Beside(caution=_caution(found.plan, found.now), notes=_notes(found.plan, found.from_),
                  rows=tuple(_rows(found, found.plan)))  # fmt: skip


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


def _afterwards(found: StepsNow) -> Sequence[tuple[Text, Text]]:
    """What was asked of the minutes, and what became of it."""
    rows = [(say("At pressure"), say("{when}", when=Moment(found.over or 0.0)))]
    if found.plan is not None and found.from_ is not None:
        by = Moment(found.from_ + found.plan.by)
        rows.insert(0, (say("Under pressure by"), say("{when}", when=by)))
    return rows


def _notes(plan: Budget, begin: UtcSecond | None) -> tuple[Text, ...]:
    told = [say("Mix colour in before the hardener; never scrape the cup into the mould.")]
    if begin is None:
        told.insert(0, say("Minutes count from hardener in."))
    if plan.by > HOUR:
        told.insert(0, say("There is more than an hour: no need to count minutes."))
    return tuple(told)


def _rows(found: StepsNow, plan: Budget) -> Sequence[tuple[Text, Text]]:
    """Each step with when it must begin at the latest: minutes in a plan, the clock in a run."""
    rows = []
    for number, step in enumerate(plan.steps):
        begin = step.latest_start
        words = (
            say("begin by {when}", when=_instant(found, begin))
            if begin >= 0
            else say("before the hardener goes in")
        )
        if found.now is not None and number < found.now.number:
            words = say("done")
        rows.append((say(step.name), words))
    rows.append((say("Under pressure by"), say("{by}", by=_instant(found, plan.by))))
    return rows


def _instant(found: StepsNow, minutes: Second) -> Amount | Moment:
    if found.from_ is None:
        return Amount(max(minutes, 0.0), "Second")
    return Moment(found.from_ + max(minutes, 0.0))
