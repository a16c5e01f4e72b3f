"""From the stages of the batches under way to their week, its floats and the day's list."""

from collections.abc import Mapping, Sequence
from dataclasses import field

from shopassist.core.civil import DAY, civil
from shopassist.core.day_list import Today, Todo, day_list, today
from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure, Origin
from shopassist.core.frozen import frozen
from shopassist.core.hours_text import write_hours
from shopassist.core.messages import Moment, Text, say
from shopassist.core.plan import (
    Calendar,
    Done,
    Hours,
    Job,
    Planned,
    Rules,
    floats,
    plan,
    start_for,
)
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.shop_week import ShopWeek
from shopassist.core.stages import JUDGEMENT, Guess, Stage, hands_on, network
from shopassist.core.work_hours import OffsetAt, hours_between, instant

AHEAD = 400
"""Days whose hours are laid out; ours: a slow batch in a shop of few hours still ends."""
Work = tuple[tuple[Stage, ...], Mapping[str, Done]]


@frozen
class Shop:
    """Where and when the plan is made."""

    week: ShopWeek
    now: UtcSecond
    offset_at: OffsetAt


@frozen
class Outlook:
    """The week as it looks now; ``refused`` says why there is none."""

    in_hand: str
    stages: tuple[Stage, ...] = ()
    placed: Mapping[str, tuple[Planned, ...]] = field(default_factory=dict)
    rooms: Mapping[str, Second] = field(default_factory=dict)
    critical: frozenset[str] = frozenset()
    """Stages of which any delay moves the end, by the order alone."""
    todo: tuple[Todo, ...] = ()
    hours: tuple[Hours, ...] = ()
    today: Today | None = None
    figures: Mapping[str, Figure] = field(default_factory=dict)
    refused: Text | None = None
    due_problem: Text | None = None

    @property
    def own(self) -> tuple[Planned, ...]:
        """Places of the batch in hand."""
        return self.placed.get(self.in_hand, ())


def look_ahead(
    works: Mapping[str, Work], in_hand: str, shop: Shop, due: UtcSecond | None
) -> Outlook:
    """Lay everything out; hours that leave no room are told, not guessed round."""
    stages = works[in_hand][0] if in_hand else ()
    try:
        return _laid(works, in_hand, shop, due)
    except ShopError as error:
        return Outlook(in_hand, stages, refused=error.title)


def _laid(works: Mapping[str, Work], in_hand: str, shop: Shop, due: UtcSecond | None) -> Outlook:
    hours, now, rules = _hours(works, shop), shop.now, Rules(shop.week.attended)
    start, problem = _start(works.get(in_hand), hours, shop, due)
    jobs = [
        Job(key, stages, start if key == in_hand else now, done)
        for key, (stages, done) in works.items()
    ]
    by_guess: dict[Guess, dict[str, tuple[Planned, ...]]] = {
        guess: plan(jobs, hours, now, guess, rules) for guess in ("low", "likely", "high")
    }
    placed = by_guess["likely"]
    own = placed.get(in_hand, ())
    stages = works[in_hand][0] if in_hand else ()
    if due is not None and problem is None and own and _end(own) > due:
        problem = say("With the other batches it ends {end}.", end=Moment(_end(own)))
    day = today(now, _midnight(shop), hours)
    ends = {guess: _end(found.get(in_hand, ())) for guess, found in by_guess.items()}
    return Outlook(
        in_hand, stages, placed, floats(own, stages, Calendar(hours), "likely", rules),
        _critical(stages), day_list(jobs, placed, day, hours, rules), hours, day,
        _figures(works.get(in_hand), shop, ends, start if due is not None else None),
        due_problem=problem,
    )  # fmt: skip


def _hours(works: Mapping[str, Work], shop: Shop) -> tuple[Hours, ...]:
    """Hours from the day on which the longest running stage began."""
    running = [each.start for _, done in works.values() for each in done.values()
               if each.end is None]  # fmt: skip
    first = min([shop.now, *running])
    ahead = AHEAD + int((shop.now - first) // DAY)
    return hours_between(shop.week.week, first, ahead, shop.offset_at)


def _start(
    work: Work | None, hours: Sequence[Hours], shop: Shop, due: UtcSecond | None
) -> tuple[UtcSecond, Text | None]:
    """When to begin, and what speaks against the due day."""
    if work is None or due is None:
        return shop.now, None
    stages, done = work
    job = Job("", stages, shop.now, done)
    try:
        found = start_for(job, hours, shop.now, due, "likely", Rules(shop.week.attended))
    except ShopError as error:
        if error.field != "due":
            raise
        return shop.now, error.title
    return (shop.now if done else found), None


def _midnight(shop: Shop) -> UtcSecond:
    here = civil(shop.now + shop.offset_at(shop.now)).day_number
    return instant(here + 1, 0.0, shop.offset_at)


def _end(placed: Sequence[Planned]) -> UtcSecond:
    return max((each.end for each in placed), default=UtcSecond(0.0))


def _critical(stages: tuple[Stage, ...]) -> frozenset[str]:
    return frozenset(network(stages).critical) if stages else frozenset()


def _figures(
    work: Work | None, shop: Shop, ends: Mapping[Guess, UtcSecond], start: UtcSecond | None
) -> dict[str, Figure]:
    if work is None or not work[0]:
        return {}
    stages, done = work
    left = [each for each in stages if (at := done.get(each.key)) is None or at.end is None]
    hours = write_hours(shop.week.week)
    inputs = {
        "stages": Origin(str(len(stages)), "", "default", JUDGEMENT),
        "begun or done": Origin(str(len(done)), "", "record"),
        "working hours": Origin(hours, "", "default" if shop.week.is_default else "typed"),
    }
    found = {
        "done": Figure(
            "plan.done", ends["likely"], "UtcSecond", "plan.lay_out", inputs,
            min(ends["low"], ends["likely"]), max(ends["high"], ends["likely"]),
            say("Every stage at its shortest, every stage at its longest: no likelihood."),
            omits=(say("Illness, holidays, and everything that is done twice."),),
            label=say("Done, likely"),
        ),
        "path": Figure(
            "plan.path", network(stages).length, "Second", "stages.network", inputs,
            network(stages, "low").length, network(stages, "high").length,
            say("Day and night, nobody asleep: the order of the stages alone."),
            label=say("Without a break"),
        ),
        "hands_left": Figure(
            "plan.hands_left", hands_on(left), "Second", "stages.hands_on", inputs,
            label=say("Hands-on, still"),
        ),
    }  # fmt: skip
    if start is not None:
        found["start_by"] = Figure("plan.start_by", start, "UtcSecond", "plan.start_for", inputs,
                                   label=say("Begin by"))  # fmt: skip
    return found
