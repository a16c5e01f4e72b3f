"""One stage looked at more closely, and the rules of the shop."""

from collections.abc import Mapping

from shopassist.core.batch import Batch, Typed
from shopassist.core.civil import DAY
from shopassist.core.entry import EntrySpec
from shopassist.core.entry.asked import Answer, Ask, Origin
from shopassist.core.hours_text import write_hours
from shopassist.core.stages import JUDGEMENT, STAGES, Stage
from shopassist.core.wording import Wording
from shopassist.panes.plan import words
from shopassist.panes.plan.screen import OrderShown, ShopShown, StageShown
from shopassist.services.plan import (
    AFTER,
    DEFAULTS,
    DUE,
    DURATIONS,
    PANE,
    PLACE,
    PlanService,
    field_of,
)
from shopassist.services.plan_outlook import Outlook

LONGEST = 60.0 * DAY


def _ask(name: str, label: str) -> Ask:
    spec = EntrySpec("Second", "h", f"{PANE}.{name}", lowest=0.0, highest=LONGEST)
    return Ask(name, label, spec, places=1)


ASKS: tuple[Ask, ...] = (
    _ask("low", "Shortest"), _ask("likely", "Likely"), _ask("high", "Longest"),
    _ask("hands", "Of it hands-on"),
)  # fmt: skip


def stage_shown(  # noqa: PLR0913, PLR0917 - everything that one stage is told from
    say: Wording, service: PlanService, found: Outlook, batch: Batch | None, key: str,
    problems: Mapping[str, str], now: float,
) -> StageShown:  # fmt: skip
    """Durations, what is known, and what may be reported of one stage."""
    place = next((each for each in found.own if each.key == key), None)
    room = found.rooms.get(key, 0.0)
    if batch is None:
        stage = DEFAULTS[key]
        lines = words.stage_lines(say, stage, place, room, now, say.say(JUDGEMENT))
        return StageShown(key, stage.name, lines, _answers(stage, {}, problems, "default"),
                          _order(stage, STAGES, frozenset(), problems), "", "", "", "")  # fmt: skip
    stages = service.stages(batch)
    stage = next(each for each in stages if each.key == key)
    typed = {name: entry for name in DURATIONS
             if (entry := batch.entries.get(field_of(key, name))) is not None}  # fmt: skip
    cured = key in service.by_cure(batch)
    whence = "" if typed else (words.CURED if cured else say.say(JUDGEMENT))
    lines = words.stage_lines(say, stage, place, room, now, whence)
    lines += (("body", "graphite", words.beside_words(stages, key)),)
    ours: Origin = "from Cure" if cured else "default"
    ordered = frozenset(n for n in (AFTER, PLACE) if field_of(key, n) in batch.entries)
    return StageShown(
        key, stage.name, lines, _answers(stage, typed, problems, ours),
        _order(stage, stages, ordered, problems), *_acts(service, batch, key),
    )  # fmt: skip


def _acts(service: PlanService, batch: Batch, key: str) -> tuple[str, str, str, str]:
    """Words of the four buttons; empty for what cannot be done."""
    done, marks = service.done(batch).get(key), service.own(batch.id)
    out, own = key in service.left_out(batch), key in marks.started or key in marks.ended
    can = not out and not service.reported_in(batch, key) and not batch.outcome
    leave = "" if done is not None else ("Bring it back" if out else "Leave it out")
    return (
        "Start" if can and done is None else "",
        "Done" if can and done is not None and done.end is None else "",
        "Take the report back" if own else "",
        leave,
    )


def _order(
    stage: Stage, stages: tuple[Stage, ...], typed: frozenset[str], problems: Mapping[str, str]
) -> dict[str, OrderShown]:
    return {
        name: OrderShown(text, name in typed, problems.get(name, ""))
        for name, text in words.order_words(stage, stages).items()
    }


def _answers(
    stage: Stage, typed: Mapping[str, Typed], problems: Mapping[str, str], ours: Origin
) -> dict[str, Answer]:
    found: dict[str, Answer] = {}
    for name in DURATIONS:
        problem = problems.get(name, "")
        entry = typed.get(name)
        if entry is None:
            whence = "default" if name == "hands" else ours
            found[name] = Answer("", float(getattr(stage, name)), "Second", whence, problem)
            continue
        origin: Origin = "job card" if entry.origin == "job card" else "typed"
        found[name] = Answer(entry.text, entry.value, "Second", origin, problem)
    return found


def shop_shown(  # noqa: PLR0913, PLR0917 - two drafts' problems beside what stands
    say: Wording, service: PlanService, found: Outlook, batch: Batch | None, now: float,
    hours_error: str, due_error: str,
) -> ShopShown:  # fmt: skip
    """Hours and rules of the shop, and the day on which the batch is due."""
    shop, due = service.shop, batch.entries.get(DUE) if batch is not None else None
    if not due_error and found.due_problem is not None:
        due_error = say.say(found.due_problem, now)
    return ShopShown(
        write_hours(shop.week), not shop.is_default, hours_error, shop.attended,
        due.text if due is not None else "", due_error, _due_hint(say, due),
    )  # fmt: skip


def _due_hint(say: Wording, due: Typed | None) -> str:
    """How the typed day was understood."""
    if due is None or due.value is None:
        return ""
    return f"{say.day(due.value).split()[0]} {say.date(due.value)}, {say.clock(due.value)}"
