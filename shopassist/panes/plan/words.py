"""The plan's bars, figures and the day's list, written for the reader."""

from collections.abc import Callable, Iterator, Mapping
from itertools import pairwise

from shopassist.core.batch import Batch
from shopassist.core.civil import DAY
from shopassist.core.day_list import Kind, Todo
from shopassist.core.figures import Figure
from shopassist.core.plan import Planned
from shopassist.core.stages import NOTHING, Stage, beside
from shopassist.core.wording import DASH, Wording
from shopassist.panes.plan.screen import BarRow, BarsShown, Line, Thread
from shopassist.services.plan_outlook import Outlook
from shopassist.widgets.shown import BracketShown, FigureShown, Tick

HOUR = 3600.0
LABELS = {
    "done": "Done, likely", "hands_left": "Hands-on, still", "path": "Without a break",
    "start_by": "Begin by",
}  # fmt: skip
CAPTION = (
    "stroke: start · block: hands on · line: waits · bracket: shortest to longest · dots: room"
)
CAUTIONS = (
    "An oven or a pump that runs on alone: only where its maker and your insurer allow it, with a"
    " cut-out of its own. A batch under pressure is let down by the Pot pane, never by this plan."
)
HEADINGS: dict[Kind, str] = {
    "look": "Look now", "now": "Now", "can wait": "Can wait", "later": "Later today",
    "off": "Before you leave", "night": "Runs while you are away", "next": "Next",
}  # fmt: skip
CURED = "By this batch's own cure, as Cure forecasts it."
PLACES = {
    "oven": "in the oven", "chamber": "in the chamber", "cabinet": "in the cabinet",
    "pot": "in the pot", "lathe": "on the lathe",
}  # fmt: skip


def figure(say: Wording, name: str, found: Mapping[str, Figure], now: float) -> FigureShown:
    """One number of the plan, or a dash."""
    made = found.get(name)
    lead = name == "done"
    if made is None or made.value is None:
        return FigureShown(LABELS[name], "–", source="missing", explains=False, lead=lead)
    write = _write(say, made.quantity, now)
    bracket = None
    if made.low is not None and made.high is not None and made.high > made.low:
        span = f"{write(made.low)}{DASH}{write(made.high)}"
        bracket = BracketShown(made.low, made.high, made.value, span)
    return FigureShown(LABELS[name], write(made.value), bracket=bracket, lead=lead)


def _write(say: Wording, quantity: str, now: float) -> Callable[[float], str]:
    if quantity == "UtcSecond":
        return lambda value: say.clock(value, now, late=True)
    return say.duration


# -- bars ------------------------------------------------------------------------------------


def bars(say: Wording, found: Outlook, view: tuple[float, float], now: float, selected: str,
         names: Mapping[str, str]) -> BarsShown:  # fmt: skip
    """The bars of the batch in hand that lie in view, and the other batches under them."""
    start, end = view
    if found.refused is not None:
        return BarsShown(empty=say.say(found.refused))
    if not found.own:
        return BarsShown(empty="Take a batch in hand, or begin one.")
    stages = {each.key: each for each in found.stages}
    rows = tuple(
        _row(say, each, stages[each.key], found, now, selected)
        for each in found.own
        if each.end >= start and each.start <= end and not _unreported(each)
    )
    threads = tuple(
        Thread(names.get(batch, batch), placed)
        for batch, placed in found.placed.items()
        if batch != found.in_hand and any(e.end >= start and e.start <= end for e in placed)
    )
    return BarsShown(start, end, now, rows, tuple(ticks(say, start, end)), tuple(shut(found, view)),
                     threads, CAPTION)  # fmt: skip


def _unreported(each: Planned) -> bool:
    """A stage that must have been done, though nobody said when: it has no length to draw."""
    return each.kind == "done" and each.end - each.start < 1.0


def _row(
    say: Wording, each: Planned, stage: Stage, found: Outlook, now: float, selected: str
) -> BarRow:
    is_open = each.kind != "done"
    early = max(each.start + stage.low, each.start) if is_open else each.end
    stretch = max(0.0, each.end - each.start - stage.likely) if is_open else 0.0
    late = each.start + stage.high + stretch if is_open else each.end
    room = each.end + found.rooms[each.key] if is_open else each.end
    return BarRow(
        each.key, stage.name, each.kind, each.start, each.hands_end, each.end,
        min(early, each.end), max(late, each.end), room, stage.key in found.critical,
        stage.key == selected, _row_words(say, each, stage, now),
    )  # fmt: skip


def _row_words(say: Wording, each: Planned, stage: Stage, now: float) -> str:
    start, end = say.clock(each.start, now), say.clock(each.end, now)
    told = {"done": f"done, {start} to {end}", "running": f"running since {start}, until {end}"}
    return f"{stage.name}: {told.get(each.kind, f'{start} to {end}')}"


def ticks(say: Wording, start: float, end: float) -> Iterator[Tick]:
    """Midnights of the local clock, and the quarters of a day where there is room."""
    step = DAY / 4 if end - start <= 3 * DAY else DAY
    offset = say.offset(start)
    at = ((start + offset) // step + 1) * step - offset
    while at < end:
        # A change of the clocks in between: keep to the local marks.
        here = at + say.offset(at)
        near = round(here / step) * step - say.offset(at)
        is_day = round((near + say.offset(near)) / step) * step % DAY == 0
        label = say.day(near + 1.0) if is_day else ""
        yield Tick(near, label)
        at = near + step


def shut(found: Outlook, view: tuple[float, float]) -> Iterator[tuple[float, float]]:
    """When nobody is there."""
    start, end = view
    edges = [start, *(edge for each in found.hours if each.end > start and each.start < end
                      for edge in (each.start, each.end)), end]  # fmt: skip
    for begin, until in list(pairwise(edges))[::2]:
        if until > begin:
            yield max(begin, start), min(until, end)


# -- the day's list ----------------------------------------------------------------------------


def today(say: Wording, todo: tuple[Todo, ...], names: Mapping[str, str], now: float,
          pressed: frozenset[int]) -> tuple[Line, ...]:  # fmt: skip
    """The list in its groups; what stands on a button is not told twice."""
    lines: list[Line] = []
    last = ""
    for number, each in enumerate(todo):
        if number in pressed:
            continue
        if each.kind != last:
            lines.append(("bold", "ink", HEADINGS[each.kind]))
            last = each.kind
        lines.append(("body", "graphite", todo_words(say, each, names, now)))
    if not lines and not pressed:
        lines.append(("body", "graphite", "Nothing until somebody is there again."))
    return tuple(lines)


def todo_words(say: Wording, each: Todo, names: Mapping[str, str], now: float) -> str:
    """One line: when, what, of which batch."""
    what = f"{each.stage.name} – {names.get(each.batch_id, each.batch_id)}"
    if each.kind in ("later", "next"):
        return f"{say.clock(each.start, now)}  {what}"
    if each.kind == "night":
        return f"{what}, to {say.clock(each.end, now, late=True)}"
    if each.kind == "off":
        return f"{what}: switch off, somebody must be there"
    return what


def do_note(say: Wording, each: Todo, now: float) -> str:
    """What is to be known before pressing."""
    stage = each.stage
    if each.kind == "look":
        return f"running longer than likely; at most {say.duration(stage.high)}"
    parts = []
    if each.kind == "can wait":
        parts.append(f"can wait until {say.clock(each.latest, now)}")
    elif each.room >= HOUR / 2:
        parts.append(f"by {say.clock(each.latest, now)}")
    parts.append(f"{say.duration(stage.hands)} hands-on" if stage.hands else "no hands needed")
    if stage.likely > stage.hands:
        parts.append(f"{say.duration(stage.likely)} in all")
    return ", ".join(parts)


# -- one stage -----------------------------------------------------------------------------------


def stage_lines(say: Wording, stage: Stage, place: Planned | None, room: float, now: float,
                whence: str) -> tuple[Line, ...]:  # fmt: skip
    """Everything about one stage beside its durations."""
    lines: list[Line] = []
    if place is not None:
        lines.append(("body", "ink", _row_words(say, place, stage, now).partition(": ")[2]))
        if place.kind != "done":
            text = f"can be {say.duration(room)} late" if room >= 1 else "any delay moves the next"
            lines.append(("body", "graphite", text))
    if stage.clock:
        lines.append(("body", "graphite", f"Its clock starts: {stage.clock}."))
    if stage.place:
        lines.append(("body", "graphite", f"One batch at a time {PLACES[stage.place]}."))
    if whence:
        lines.append(("body", "graphite", whence))
    return tuple(lines)


def order_words(stage: Stage, stages: tuple[Stage, ...]) -> dict[str, str]:
    """What a stage comes after, and what it occupies, as they may be typed."""
    names = {each.key: each.name for each in stages}
    after = "; ".join(names[key] for key in stage.after)
    return {"after": after or NOTHING[0], "place": stage.place or NOTHING[0]}


def beside_words(stages: tuple[Stage, ...], key: str) -> str:
    """Which stages of the same batch may overlap with one."""
    found = "; ".join(each.name for each in beside(stages, key))
    return f"May overlap with: {found}." if found else "Overlaps with nothing else of this batch."


def names_of(batches: tuple[Batch, ...]) -> dict[str, str]:
    """Names by id."""
    return {each.id: each.name for each in batches}
