"""What comes next week, as dated events for a calendar of the user's own."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator

from shopassist.core.frozen import frozen, replace
from shopassist.core.plan import Planned
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.stages import Stage
from shopassist.core.wording import Wording
from shopassist.services.next import Due, Rank

LEAD = Second(600.0)
"""An alarm goes off so long before its event; ours."""


@frozen
class Event:
    """One dated event; instants are in UTC, so that no change of the clocks moves them."""

    key: str
    """Stays the same when the file is written anew."""
    title: str
    at: UtcSecond
    words: str = ""
    lead: Second = LEAD


def events_of_dues(dues: Iterable[Due], say: Wording, now: float) -> tuple[Event, ...]:
    """Gates that are still to come; a hazard is told twice as early."""
    found = []
    for each in dues:
        if each.gate is None or each.gate <= now:
            continue
        words = say.say(each.event, now)
        lead = Second(2 * LEAD) if each.rank in (Rank.URGENT, Rank.HAZARD) else LEAD
        span = say.say(each.range, now) if each.range is not None else ""
        found.append(Event(_key(each, words), f"{words} ({each.subject})", each.gate, span, lead))
    return tuple(_apart(found))


def _key(due: Due, words: str) -> str:
    """The same while the wait is the same, however often its time moves."""
    slug = "".join(letter if letter.isalnum() else "-" for letter in words.casefold())
    return f"{due.pane}-{due.owner}-{slug}"


def _apart(events: Iterable[Event]) -> Iterator[Event]:
    """A number behind a key that stood before: a calendar would take the two for one."""
    seen: Counter[str] = Counter()
    for each in events:
        seen[each.key] += 1
        number = seen[each.key]
        yield each if number == 1 else replace(each, key=f"{each.key}-{number}")


def events_of_plan(
    placed: Iterable[tuple[str, str, Planned, Stage]], now: float, write: Callable[[Stage], str]
) -> tuple[Event, ...]:
    """Starts of the hands-on stages that are planned: id, name, place and stage of each."""
    return tuple(
        Event(f"plan-{batch_id}-{stage.key}", f"{stage.name} ({name})", each.start, write(stage))
        for batch_id, name, each, stage in placed
        if each.kind == "planned" and each.start > now and stage.hands > 0
    )
