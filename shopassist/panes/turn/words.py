"""The cards' figures, rules, ladder and cautions, written for the reader."""

from math import log

from shopassist.core import finish, lathe
from shopassist.core.figures import Figure
from shopassist.core.grits import Paper, between
from shopassist.core.messages import Text, say
from shopassist.core.wording import DASH, Wording
from shopassist.panes.turn.screen import Gap, LadderShown, Line, Rung, WaitShown
from shopassist.services.turn import CardPlan
from shopassist.services.turn_desk import KNEADING, PuttyWait
from shopassist.services.turn_finish import SandCard
from shopassist.services.turn_wood import DrillCard, LatheCard
from shopassist.widgets.shown import BracketShown, DeviationShown, FigureShown, RuleShown, Tick

MICRON = 1e-6
MINUTE = 60.0
MOST_LABELS = 6
FAULT_WORDS = {
    "joint": "resin and wood", "voids": "voids", "cracks": "cracks", "off centre": "not round yet",
    "hollow": "bored",
}  # fmt: skip
CAUTIONS: dict[str, tuple[Text, ...]] = {
    "lathe": lathe.CAUTIONS,
    "drill": (
        say("Hold the blank in a vice or between centres, never in the hand; no gloves near the"
            " drill."),
        say("Withdraw, clear, let it cool. Smoke or stringy chips: stop."),
    ),
    "putty": (
        say("Unset putty sensitises the skin: gloves, and none of it on the face. Wash, no"
            " solvent."),
        say("The maker's sheet comes first; kneading and setting times here are common practice."),
    ),
    "sand": (
        say("Half-cured dust sensitises, hardwood dust harms the lungs: extract, mask, or sand"
            " wet. Look up your local limits."),
        say("Paper in the fingers, never wrapped round the hand or the work; tool rest out of the"
            " way."),
    ),
    "coats": finish.CAUTIONS,
    "air": (
        say("The sheet of the finish or the resin comes first, then local rules."),
        say("A heater near solvents: no flame, no glowing wire."),
    ),
}  # fmt: skip
MICRONS = frozenset({"finest", "wet"})


def figure(write: Wording, name: str, found: Figure) -> FigureShown:
    """One number of a card; what it begins with is large."""
    label = write.say(found.label) if found.label is not None else name
    value = found.value or 0.0
    number, unit = _split(write, name, found, value)
    bracket = None
    if found.low is not None and found.high is not None and found.high > found.low:
        low, high = (_split(write, name, found, end)[0] for end in (found.low, found.high))
        words = f"{low}{DASH}{high}"
        bracket = BracketShown(found.low, found.high, value, words)
    return FigureShown(label, number, unit, bracket=bracket, lead=False)


def _split(write: Wording, name: str, found: Figure, value: float) -> tuple[str, str]:
    if name in MICRONS:
        return write.significant(value / MICRON, 3), "µm"
    if found.quantity == "Second":
        return write.split(value, "Second", 1, "h")
    if name == "pecks":
        return write.number(value, 0), ""
    if found.quantity == "Ratio":
        return write.number(value * 100, 1), "%"
    if found.quantity == "Joule":
        return write.significant(value, 2), "J"
    if found.quantity == "PerSecond":
        return write.number(round(value * MINUTE, -1), 0), "/min"
    return write.split(value, found.quantity)


def note(write: Wording, plan: CardPlan, now: float) -> tuple[str, str]:
    """The warnings of a card: what the first one says is bold, what to do about it is not."""
    if not plan.warnings:
        return "", ""
    first, *others = (write.say(each, now) for each in plan.warnings)
    what, dot, then = first.partition(". ")
    return what + dot.strip(), " ".join(filter(None, (then, *others)))


def lines(write: Wording, plan: CardPlan) -> tuple[Line, ...]:
    """Everything else that the card says."""
    return tuple(
        ("bold" if each.strong else "body", "ink" if each.strong else "graphite",
         write.say(each.text))
        for each in plan.lines
    )  # fmt: skip


def cautions(write: Wording, page: str) -> str:
    """What to beware of, where the hand is."""
    return "\n".join(write.say(each) for each in CAUTIONS[page])


# -- rules ---------------------------------------------------------------------------------------


def speed_rule(write: Wording, card: LatheCard) -> DeviationShown | None:
    """The band of speeds, with the knob as a plumb mark."""
    if card.band is None:
        return None
    low, high = card.band.low * MINUTE, card.band.high * MINUTE
    knob = None if card.knob is None else card.knob * MINUTE
    ticks = tuple(
        Tick(at, write.number(round(at, -1), 0)) for at in (0.0, low, high)
    )  # fmt: skip
    ends = f"{write.number(round(low, -1), 0)} to {write.number(round(high, -1), 0)}"
    told = f"Band {ends} revolutions a minute"
    if knob is not None:
        told += f", the lathe turns at {write.number(knob, 0)}"
    return DeviationShown(0.0, 1.5 * high, low, high, knob, ticks, told)


def peck_rule(write: Wording, card: DrillCard) -> RuleShown | None:
    """Depths at which the drill is withdrawn, and where it stops."""
    made = card.drilling
    if made is None:
        return None
    each = max(1, -(-made.pecks // MOST_LABELS))
    ticks = tuple(
        Tick(n * made.peck, write.split(n * made.peck, "Metre")[0] if n % each == 0 else "")
        for n in range(made.pecks + 1) if n * made.peck < made.stop
    )  # fmt: skip
    stop = write.amount(made.stop, "Metre")
    ends = " from each end" if card.both_ends else ""
    return RuleShown(
        0.0, made.stop * 1.06, ticks, gate=made.stop, gate_text=f"stop {stop}{ends}",
        spoken=f"Withdraw every {write.amount(made.peck, 'Metre')}, stop at {stop}{ends}",
    )  # fmt: skip


def ladder(write: Wording, card: SandCard) -> LadderShown | None:
    """The papers to scale, and what is missing between them."""
    if not card.papers:
        return None
    rungs = [_rung(write, each) for each in card.papers]
    gaps = []
    for step in card.steps:
        words = f"×{write.number(step.ratio, 2)}"
        gaps.append(Gap(_at(step.before), _at(step.after), words, step.too_far))
        if step.too_far:
            rungs += [_rung(write, each, lent=True) for each in between(step)]
    told = ", ".join(f"{each.label} {each.grain}" for each in rungs)
    return LadderShown(tuple(sorted(rungs, key=lambda each: each.at)), tuple(gaps), told)


def _at(paper: Paper) -> float:
    return -log(paper.grain)


def _rung(write: Wording, paper: Paper, *, lent: bool = False) -> Rung:
    grain = write.significant(paper.grain / MICRON, 3)
    return Rung(_at(paper), paper.name, f"{grain} µm", lent)


# -- putty ----------------------------------------------------------------------------------------


def wait(write: Wording, state: PuttyWait, now: float) -> WaitShown:
    """What the putty is waiting for, and what may be reported."""
    if not state.stage:
        return WaitShown("", ("Start kneading",), counts=False)
    if state.stage == KNEADING:
        kneads = now < state.until
        caption = "Knead until one even colour" if kneads else "Press it in; since kneading began"
        return WaitShown(caption, ("Last one pressed in",), counts=True)
    if state.done:
        return WaitShown("It has set. Turn and sand.", (), counts=False)
    if now < state.until:
        gate = write.clock(state.until, now, late=True)
        return WaitShown(f"It sets: not before {gate}", ("It has set",), counts=True)
    return WaitShown("Try it with a thumbnail", ("It has set",), counts=False)


def wait_digits(write: Wording, state: PuttyWait, now: float) -> str:
    """What is left, or how long it has been."""
    if state.stage == KNEADING and now >= state.until:
        return write.digits(now - state.since)
    return write.digits(max(state.until - now, 0.0))
