"""The cure pane's captions, rules and lines, written for the reader."""

from math import ceil, floor
from typing import Literal

from shopassist.core.batch import WarmthReading
from shopassist.core.messages import Amount, Moment, Text, say
from shopassist.core.quantities import Kelvin
from shopassist.core.sheets import ResinSheet
from shopassist.core.wording import NONE, Wording
from shopassist.panes.cure.screen import Line, Other
from shopassist.services.cure import Aim, CureView, StageView
from shopassist.services.next import Due, Rank
from shopassist.services.pours import fullest
from shopassist.widgets.shown import RuleShown, Tick

PLACES = ("resin", "mould", "pot wall", "cabinet air", "shop")
"""What a thermometer may be measuring."""
ONE_LINE = "Nothing is curing"
WITNESS = (
    "Press a fingernail into the witness cup, not into the casting. A small cup runs cooler than"
    " the casting and lags behind it: once the cup is hard, the casting is."
)
LABELS: dict[Aim, str] = {
    "working": "Working time",
    "pressurise": "Under pressure",
    "gel": "Gel, at the earliest",
    "hold": "Gel",
    "demould": "Demould",
    "hard": "Turn",
    "full": "Full cure",
}
CAPTIONS: dict[Aim, str] = {
    "working": "Working time ends {gate}",
    "pressurise": "Pressurise by {gate}",
    "gel": "May gel from {gate}",
    "hold": "Hold the pressure until {gate}, past a late gel",
    "demould": "May demould {gate}",
    "hard": "Hard enough to turn {gate}",
    "full": "Full cure {gate}",
}
NEXT: dict[Aim, str] = {
    "working": "Pour by {gate}",
    "pressurise": "Pressurise by {gate}",
    "gel": "May gel from {gate}",
    "hold": "Hold until {gate}",
    "demould": "May demould {gate}",
    "hard": "May turn {gate}",
    "full": "Full cure {gate}",
}
RANGE_NAMES: dict[Aim, str] = {
    "working": "working time likely", "pressurise": "likely", "gel": "gel likely",
    "hold": "gel likely", "demould": "demould likely", "hard": "hard likely",
    "full": "cured likely",
}  # fmt: skip
Why = Literal["cold", "hot", "cool"]
STANDS: dict[Why, str] = {
    "cold": "stalled, too cold", "hot": "not counted, too warm", "cool": "stalls when cool",
}  # fmt: skip
NO_TIME: dict[Why, str] = {
    "cold": "no time while it is too cold", "hot": "no time while it is too warm",
    "cool": "no time while it is too cool",
}  # fmt: skip
STEPS = (300, 600, 900, 1800, 3600, 7200, 10800, 21600, 43200, 86400, 172800, 604800)
MOST_LABELS = 6
ROUND = 300.0
"""Range ends are rounded outward to five minutes under twelve hours, [s]."""
ROUND_LONG = 1800.0
LONG = 12 * 3600.0


def gate_text(stage: StageView, templates: dict[Aim, str]) -> Text:
    """A caption with the gate's clock time in it."""
    template = templates[stage.aim]
    if stage.gate is None:
        return say(template.replace(" {gate}", "").replace("{gate}, ", ""))
    return say(template, gate=Moment(_outward(stage)))


def _outward(stage: StageView) -> float:
    """Releases go up to the next minute, hazards down: neither is ever told too kindly."""
    gate = stage.gate or 0.0
    return ceil(gate / 60) * 60 if stage.kind == "release" else floor(gate / 60) * 60


def range_of(stage: StageView, now: float) -> tuple[float, float] | None:
    """Both ends of the likely range, rounded away from each other."""
    if stage.early is None or stage.late is None:
        return None
    step = ROUND if stage.late - now < LONG else ROUND_LONG
    return floor(stage.early / step) * step, ceil(stage.late / step) * step


def why_none(stage: StageView) -> Why:
    """Why a milestone has no time: out of the temperatures of use, or stalled as it hardens."""
    if stage.stopped:
        return stage.stopped
    return "cool" if stage.forecast.stall == "stalls" else "cold"


DORMANT = Kelvin(285.93)
"""55 °F: makers call most of their resins dormant from here down."""


def no_floor(words: Wording, sheet: ResinSheet | None, view: CureView) -> list[str]:
    """A sheet that names no lowest temperature is no leave to count on in the cold."""
    if sheet is None or sheet.temp_lowest is not None or view.ahead.temps[1] >= DORMANT:
        return []
    if not any(stage.kind == "release" and not stage.passed(view.worked_out)
               for stage in view.stages):  # fmt: skip
        return []
    least = words.amount(DORMANT, "Kelvin", 0)
    told = "From about {least} down most resins all but stand still: days longer than this says."
    return [f"The sheet names no lowest temperature. {told.format(least=least)}"]


def full_cup(words: Wording, sheet: ResinSheet | None, view: CureView) -> list[str]:
    """The sheet's working time is for a mass; a fuller cup has less, and no formula says it."""
    working = sheet.stage("working") if sheet is not None else None
    held = fullest(view.batch)
    if working is None or working.mass is None or held <= working.mass * (1 + FULLER):
        return []
    if view.batch.is_poured or view.batch.is_pressed:
        return []
    stated, much = (words.amount(each, "Kilogram") for each in (working.mass, held))
    told = f"The sheet’s working time is for {stated}; a cup of {much} has less."
    return [f"{told} How much less, nobody can say."]


FULLER = 0.01
"""A cup fuller by less than this is as full as the sheet says; rounding to the scale; ours."""


def clock_change(words: Wording, lead: StageView | None, now: float) -> list[str]:
    """Where the clocks are changed before the next time: which clock it is told by."""
    if lead is None or lead.gate is None or lead.gate <= now:
        return []
    hours = (words.offset(lead.gate) - words.offset(now)) / 3600.0
    if not hours:
        return []
    way = "forward" if hours > 0 else "back"
    when = words.clock(_outward(lead), now)
    return [
        f"The clocks are put {way} before {when}: that is by the new time, the wait is the same."
    ]


def range_text(words: Wording, stage: StageView, now: float) -> str:
    """The likely range in words."""
    ends = range_of(stage, now)
    if ends is None:
        return STANDS[why_none(stage)]
    low, high = ends
    return f"{words.clock(low, now)}\u2009–\u2009{words.clock(high, max(low, now))}"


def gate_time(words: Wording, stage: StageView, now: float) -> str:
    """The time to go by: hazards before it, releases from it on."""
    if stage.gate is None:
        return "no time"
    ahead = "before" if stage.kind == "hazard" else "from"
    return f"{ahead} {words.clock(stage.gate, now, late=stage.kind == 'release')}"


def next_range(stage: StageView, now: float) -> Text | None:
    """The likely range for the next line."""
    ends = range_of(stage, now)
    if ends is None:
        return None
    name = RANGE_NAMES[stage.aim]
    return say(
        "{name} {low}\u2009–\u2009{high}", name=name, low=Moment(ends[0]), high=Moment(ends[1])
    )


def due(view: CureView, lead: StageView, now: float) -> Due:
    """One cure in the next line."""
    rank = Rank.HAZARD if lead.kind == "hazard" else Rank.RELEASE
    return Due(
        gate_text(lead, NEXT), lead.gate, next_range(lead, now),
        Rank.LATER if lead.passed(now) else rank, "cure", view.batch.name, view.batch.id,
    )  # fmt: skip


def rule(words: Wording, view: CureView, stage: StageView, now: float) -> RuleShown | None:
    """Time as a ruled edge: what is gone, the likely range, the gate."""
    ends = range_of(stage, now)
    if stage.gate is None or ends is None or stage.likely is None:
        return None
    far = max(ends[1], stage.gate, now)
    near = min(ends[0], stage.gate, now)
    gone = max(60.0, now - view.contact)
    start = max(view.contact, min(near, now) - min(gone, max(900.0, 0.35 * (far - near))))
    end = far + 0.12 * (far - start)
    ticks = graduations(words, start, end)
    return RuleShown(
        start, end, ticks, past=now, now=now, low=ends[0], middle=stage.likely, high=ends[1],
        range_text=RANGE_NAMES[stage.aim], gate=stage.gate,
        gate_text=words.clock(_outward(stage), now),
        spoken=f"{LABELS[stage.aim]} {range_text(words, stage, now)}",
    )  # fmt: skip


def graduations(
    words: Wording, start: float, end: float, most: int = MOST_LABELS
) -> tuple[Tick, ...]:
    """Graduations on the local clock's own marks; long ones carry their time."""
    step = next((each for each in STEPS if (end - start) / each <= most), STEPS[-1])
    shift = words.offset(start)
    first = ceil((start + shift) / (step / 4))
    last = floor((end + shift) / (step / 4))
    return tuple(
        Tick(n * step / 4 - shift, words.clock(n * step / 4 - shift, start) if n % 4 == 0 else "")
        for n in range(first, last + 1)
    )


def line(words: Wording, stage: StageView, now: float, then: dict[str, StageView]) -> Line:
    """One milestone; beside it the same under the what-if."""
    other = then.get(stage.aim)
    note = words.say(stage.forecast.notes[0], now) if stage.forecast.notes else ""
    return Line(
        f"cure.milestone.{stage.aim}", LABELS[stage.aim], range_text(words, stage, now),
        gate_time(words, stage, now), stage.passed(now), note,
        "" if other is None else gate_time(words, other, now),
    )  # fmt: skip


def warmth(words: Wording, reading: WarmthReading | None) -> tuple[str, str]:
    """The newest temperature and its unit."""
    if reading is None:
        return NONE, words.unit("Kelvin")
    return words.split(reading.middle, "Kelvin")


def warmth_line(words: Wording, view: CureView, now: float) -> str:
    """Where and when it was typed."""
    reading = view.latest
    if reading is None:
        low, high = (Amount(each, "Kelvin", 0) for each in (view.ahead.low, view.ahead.high))
        return words.say(say("no temperature yet: taken as {low} to {high}", low=low, high=high))
    age = words.age(now - reading.at)
    own = any(each.row.seq == reading.row.seq for each in view.batch.warmth)
    ends = f"{words.span(reading.low, reading.high, 'Kelvin')} {words.unit('Kelvin')}, "
    told = f"typed {age}, {reading.where}" + ("" if own else ", for another batch")
    return told if reading.low == reading.high else ends + told


def certainty(words: Wording, view: CureView, now: float) -> str:
    """Why the range is as wide as it is."""
    count = len(view.batch.warmth)
    if view.latest is None:
        return "no reading, so the range is wide"
    if count <= 1:
        return f"from one reading at {words.amount(view.latest.middle, 'Kelvin')}"
    return f"from {count} readings, the last {words.age(now - view.latest.at)}"


def urgency(lead: StageView | None, now: float) -> tuple[int, float]:
    """Hazards ahead first, then releases ahead, then what is reached; the soonest leads."""
    if lead is None or lead.gate is None:
        return 3, 0.0
    if lead.passed(now):
        return 2, -lead.gate
    return (0 if lead.kind == "hazard" else 1), lead.gate


def beside(others: tuple[Other, ...]) -> str:
    """What stands behind the digits of the most urgent other clock."""
    if not others:
        return ""
    first = f"{others[0].name} · {others[0].caption}"
    return first if len(others) == 1 else f"{first} · {len(others) - 1} more"
