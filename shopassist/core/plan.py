"""Lays the stages of batches into the hours of a real week."""

from bisect import bisect_right
from collections.abc import Callable, Mapping, Sequence
from dataclasses import field
from functools import lru_cache
from math import inf

from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen, replace
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.stages import Guess, Stage, need_order, network

GRAIN = Second(900.0)
"""Starts found backward from a due day are rounded to this; ours."""


@frozen
class Hours:
    """A stretch in which somebody is there."""

    start: UtcSecond
    end: UtcSecond


@frozen
class Done:
    """What really happened with a stage."""

    start: UtcSecond
    end: UtcSecond | None = None
    """None while it runs."""


@frozen
class Planned:
    """Where a stage lies in the calendar."""

    key: str
    start: UtcSecond
    hands_end: UtcSecond
    """When the person is free again."""
    end: UtcSecond
    kind: str = "planned"
    """``planned``, ``running`` or ``done``."""


@frozen
class Job:
    """One batch to be laid out."""

    batch_id: str
    stages: tuple[Stage, ...]
    not_before: UtcSecond
    done: Mapping[str, Done] = field(default_factory=dict)
    held: Mapping[str, UtcSecond] = field(default_factory=dict)
    """Stages that are put off until then."""


@frozen
class Rules:
    """How this shop works."""

    attended: bool = False
    """True where ovens and pumps never run with nobody there."""


class Calendar:
    """The hours of the shop, sorted, with what is already taken."""

    def __init__(self, hours: Sequence[Hours]) -> None:
        self._hours = sorted(hours, key=lambda each: each.start)
        if any(a.end > b.start for a, b in zip(self._hours, self._hours[1:], strict=False)):
            raise out_of_range("hours", "Two stretches of working hours overlap.")
        self._starts = [each.start for each in self._hours]
        self._taken: dict[str, list[tuple[float, float]]] = {}

    def take(self, what: str, start: float, end: float) -> None:
        """Mark a stretch as taken: the person's hands, or a place."""
        if what and end > start:
            self._taken.setdefault(what, []).append((start, end))

    def free(self, what: str, start: float, end: float) -> float:
        """Give the given start, or the end of what stands in its way."""
        blocked = [b for a, b in self._taken.get(what, ()) if a < end and b > start]
        return max(blocked, default=start)

    def open_from(self, at: float, lasts: float) -> float:
        """First moment from ``at`` on from which ``lasts`` fits into one stretch of hours."""
        place = max(bisect_right(self._starts, at) - 1, 0)
        for each in self._hours[place:]:
            start = max(at, each.start)
            if start + lasts <= each.end and start < each.end:
                return start
        raise out_of_range("hours", "No working hours are long enough for this stage.")

    def open_until(self, at: float, lasts: float) -> float:
        """Last moment up to ``at`` from which ``lasts`` fits into one stretch; else ``-inf``."""
        for each in reversed(self._hours[: bisect_right(self._starts, at)]):
            start = min(at, each.end - lasts)
            if start >= each.start:
                return start
        return -inf

    def begun_inside(self, end: float, lasts: float) -> float:
        """Start of a wait that counts only while somebody is there; ``-inf`` before all hours."""
        left = lasts
        for each in reversed(self._hours[: bisect_right(self._starts, end)]):
            close = min(end, each.end)
            if close - left >= each.start:
                return close - left
            left -= close - each.start
        return -inf

    def run_inside(self, start: float, lasts: float) -> float:
        """End of a wait from a moment within the hours that counts only while somebody is there."""
        left = lasts
        place = max(bisect_right(self._starts, start) - 1, 0)
        for each in self._hours[place:]:
            begin = max(start, each.start)
            if begin + left <= each.end:
                return begin + left
            left -= each.end - begin
        raise out_of_range("hours", "There are not enough working hours for this stage.")


def lay_out(
    job: Job,
    calendar: Calendar,
    now: UtcSecond,
    guess: Guess = "likely",
    rules: Rules | None = None,
) -> tuple[Planned, ...]:
    """Place one batch as early as it goes; its hands and places are then taken.

    What is done stays where it was; what runs ends no earlier than now.
    """
    rules = rules or Rules()
    found: dict[str, Planned] = {}
    for stage in _by_urgency(job.stages, guess):
        done = job.done.get(stage.key)
        at = max((found[key].end for key in stage.after), default=job.not_before)
        placed = (
            _as_done(stage, done, now, _runs(stage, calendar, guess, rules))
            if done is not None
            else _as_planned(
                stage,
                max(at, now, job.not_before, job.held.get(stage.key, now)),
                calendar,
                guess,
                rules,
            )
        )
        calendar.take("hands", placed.start, placed.hands_end)
        calendar.take(stage.place, placed.start, placed.end)
        found[stage.key] = placed
    return tuple(found[stage.key] for stage in job.stages)


@lru_cache(maxsize=64)
def _by_urgency(stages: tuple[Stage, ...], guess: Guess) -> tuple[Stage, ...]:
    """What has to begin first takes hands and places first; order of need stays kept."""
    slots = network(stages, guess).slots
    late = {key: slot.start + slot.float for key, slot in slots.items()}
    return tuple(sorted(need_order(stages), key=lambda each: late[each.key]))


Runs = Callable[[float], tuple[float, float]]
"""From a start to the end of the hands-on share and the end of the stage."""


def _runs(stage: Stage, calendar: Calendar, guess: Guess, rules: Rules) -> Runs:
    lasts = stage.lasts(guess)
    hands = min(stage.hands, lasts)

    def run(start: float) -> tuple[float, float]:
        watched = stage.attended and rules.attended
        return start + hands, calendar.run_inside(start, lasts) if watched else start + lasts

    return run


def _as_done(stage: Stage, done: Done, now: UtcSecond, runs: Runs) -> Planned:
    if done.end is not None:
        hands = UtcSecond(min(done.start + stage.hands, done.end))
        return Planned(stage.key, done.start, hands, done.end, "done")
    free, over = runs(done.start)
    return Planned(stage.key, done.start, UtcSecond(free), UtcSecond(max(over, now)), "running")


def _as_planned(stage: Stage, at: float, calendar: Calendar, guess: Guess, rules: Rules) -> Planned:
    hands = min(stage.hands, stage.lasts(guess))
    runs = _runs(stage, calendar, guess, rules)
    while True:
        start = calendar.open_from(at, hands) if hands or stage.attended else at
        end = runs(start)[1]
        later = max(
            calendar.free("hands", start, start + hands) if hands else start,
            calendar.free(stage.place, start, end) if stage.place else start,
        )
        if later <= start:
            break
        at = later
    return Planned(stage.key, UtcSecond(start), UtcSecond(start + hands), UtcSecond(end))


def plan(
    jobs: Sequence[Job], hours: Sequence[Hours], now: UtcSecond, guess: Guess = "likely",
    rules: Rules | None = None,
) -> dict[str, tuple[Planned, ...]]:  # fmt: skip
    """Lay out several batches, the first one first: the next is threaded into its waits."""
    calendar = Calendar(hours)
    return {job.batch_id: lay_out(job, calendar, now, guess, rules) for job in jobs}


def can_wait(
    jobs: Sequence[Job], hours: Sequence[Hours], now: UtcSecond, whose: tuple[str, str],
    room: Second, rules: Rules | None = None,
) -> Second:  # fmt: skip
    """How long a stage of a batch can be put off without any batch ending later.

    ``whose`` holds batch and stage, ``room`` what order and hours allow; hands and places that
    another stage needs then are counted too.
    """
    before = plan(jobs, hours, now, "likely", rules)
    batch_id, key = whose
    start = next(each.start for each in before[batch_id] if each.key == key)

    def holds(delay: float) -> bool:
        held = [
            replace(job, held={**job.held, key: UtcSecond(start + delay)})
            if job.batch_id == batch_id else job for job in jobs
        ]  # fmt: skip
        after = plan(held, hours, now, "likely", rules)
        return all(_over(after[name]) <= _over(placed) for name, placed in before.items())

    if room <= 0 or holds(room):
        return Second(max(room, 0.0))
    low, high = 0, int(room // GRAIN)
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if holds(middle * GRAIN) else (low, middle - 1)
    return Second(low * GRAIN)


def _over(placed: Sequence[Planned]) -> float:
    return max((each.end for each in placed), default=0.0)


def start_for(
    job: Job, hours: Sequence[Hours], now: UtcSecond, due: UtcSecond, guess: Guess = "likely",
    rules: Rules | None = None,
) -> UtcSecond:  # fmt: skip
    """Latest start, to a quarter of an hour, with which the batch is done by its due day."""

    def ends(start: float) -> float:
        moved = Job(job.batch_id, job.stages, UtcSecond(start), job.done)
        placed = lay_out(moved, Calendar(hours), now, guess, rules)
        return max((each.end for each in placed), default=start)

    if ends(now) > due:
        raise out_of_range("due", "Even if you start now it will not be done by then.")
    low, high = 0, int((due - now) // GRAIN)
    while low < high:
        middle = (low + high + 1) // 2
        if ends(now + middle * GRAIN) <= due:
            low = middle
        else:
            high = middle - 1
    return UtcSecond(now + low * GRAIN)


def floats(
    placed: Sequence[Planned], stages: Sequence[Stage], calendar: Calendar,
    guess: Guess = "likely", rules: Rules | None = None,
) -> dict[str, Second]:  # fmt: skip
    """How late each stage may be before the end must move, hours of the shop kept.

    Order and hours count; whose hands and which oven another batch needs meanwhile do not.
    """
    rules = rules or Rules()
    by_key = {each.key: each for each in placed}
    end = max((each.end for each in placed), default=UtcSecond(0.0))
    latest: dict[str, float] = {}
    found: dict[str, Second] = {}
    for stage in reversed(need_order(stages)):
        each = by_key[stage.key]
        over = min((latest[other.key] for other in stages if stage.key in other.after),
                   default=float(end))  # fmt: skip
        if each.kind == "planned":
            latest[stage.key] = max(_latest(stage, over, calendar, guess, rules), each.start)
            found[stage.key] = Second(latest[stage.key] - each.start)
        else:
            latest[stage.key] = each.start
            is_running = each.kind == "running"
            found[stage.key] = Second(max(over - each.end, 0.0) if is_running else 0.0)
    return found


def _latest(
    stage: Stage, over: float, calendar: Calendar, guess: Guess, rules: Rules
) -> float:  # fmt: skip
    """Latest start of a stage that has to be over by then."""
    lasts = stage.lasts(guess)
    hands = min(stage.hands, lasts)
    watched = stage.attended and rules.attended
    start = calendar.begun_inside(over, lasts) if watched else over - lasts
    return calendar.open_until(start, hands) if hands or stage.attended else start
