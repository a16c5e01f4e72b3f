"""The day's list: what to do now, what can wait, what runs while nobody is there."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Literal

from shopassist.core.frozen import frozen, replace
from shopassist.core.plan import GRAIN, Calendar, Hours, Job, Planned, Rules, can_wait, floats
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.stages import Stage

Kind = Literal["look", "now", "can wait", "later", "off", "night", "next"]
KINDS: tuple[Kind, ...] = ("look", "now", "can wait", "later", "off", "night", "next")


@frozen
class Todo:
    """One line of the list."""

    kind: Kind
    batch_id: str
    stage: Stage
    start: UtcSecond
    end: UtcSecond
    room: Second
    """How long it can wait before something else must move."""

    @property
    def latest(self) -> UtcSecond:
        """When it must be begun at the latest."""
        return UtcSecond(self.start + self.room)


@frozen
class Today:
    """The rest of this local day."""

    now: UtcSecond
    midnight: UtcSecond
    closing: UtcSecond
    """When the last one leaves today; now where nobody is there any more."""
    opening: UtcSecond
    """When somebody is there again after that."""


def today(now: UtcSecond, midnight: UtcSecond, hours: Sequence[Hours]) -> Today:
    """Find closing and the next opening in the hours of the shop."""
    left = [each.end for each in hours if each.start < midnight and each.end > now]
    closing = max(left, default=now)
    opening = min((each.start for each in hours if each.start >= closing), default=closing)
    return Today(now, midnight, closing, opening)


def day_list(
    jobs: Sequence[Job], placed: Mapping[str, Sequence[Planned]], day: Today,
    hours: Sequence[Hours], rules: Rules | None = None,
) -> tuple[Todo, ...]:  # fmt: skip
    """Everything that matters until somebody is there again, the most pressing first."""
    rules, calendar, found = rules or Rules(), Calendar(hours), list[Todo]()
    for job in jobs:
        rooms = floats(placed[job.batch_id], job.stages, calendar, "likely", rules)
        for each, stage in zip(placed[job.batch_id], job.stages, strict=True):
            todo = Todo("now", job.batch_id, stage, each.start, each.end, rooms[each.key])
            if each.kind == "planned" and each.start <= day.now + GRAIN:
                whose = (job.batch_id, each.key)
                room = can_wait(jobs, hours, day.now, whose, todo.room, rules)
                todo = replace(todo, room=room)
            found += [replace(todo, kind=kind) for kind in _kinds(each, todo, day, rules)]
    ahead = _ahead(jobs, placed, day)
    if ahead is not None and not any(each.kind in ("now", "can wait", "later") for each in found):
        found.append(ahead)
    return tuple(sorted(found, key=lambda each: (KINDS.index(each.kind), each.start)))


def _kinds(each: Planned, todo: Todo, day: Today, rules: Rules) -> Iterator[Kind]:
    if each.kind == "running" and each.end <= day.now:
        yield "look"
    elif each.kind == "planned" and each.start <= day.now + GRAIN:
        # What need not be done today can wait.
        yield "can wait" if todo.latest >= day.closing else "now"
    elif each.kind == "planned" and each.start < day.midnight:
        yield "later"
    if each.kind != "done" and each.start < day.closing < each.end and day.closing > day.now:
        yield "off" if rules.attended and todo.stage.attended else "night"
    elif each.kind == "running" and day.closing <= day.now < each.end:
        yield "night"


def _ahead(jobs: Sequence[Job], placed: Mapping[str, Sequence[Planned]], day: Today) -> Todo | None:
    """The first thing to do on another day."""
    coming = [
        Todo("next", job.batch_id, stage, each.start, each.end, Second(0.0))
        for job in jobs
        for each, stage in zip(placed[job.batch_id], job.stages, strict=True)
        if each.kind == "planned" and each.start >= day.midnight
    ]
    return min(coming, key=lambda each: each.start, default=None)
