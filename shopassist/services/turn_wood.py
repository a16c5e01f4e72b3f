"""Cards for spinning work: the speed band, and how to drill."""

from collections.abc import Mapping

from shopassist.core.figures import Figure, Origin
from shopassist.core.frozen import frozen
from shopassist.core.lathe import (
    CAUTION,
    FAULTS,
    FINE,
    ROUGH,
    THIN_WALL,
    Drilling,
    SpeedBand,
    drilling,
    rim_speed,
    speed_band,
    spin_energy,
)
from shopassist.core.messages import Amount, Text, say
from shopassist.core.quantities import Kilogram, KilogramPerCubicMetre, Metre, PerSecond
from shopassist.core.solids import cylinder_volume
from shopassist.services.said import Said
from shopassist.services.turn import Borrowed, CardPlan, Line, default, part, typed

DENSITY = KilogramPerCubicMetre(1100.0)
"""A blank of resin and wood; ours."""
MATERIAL = "stabilised or resin"
FIELDS = {"diameter": "diameter", "drill": "drill", "depth": "depth", "stock": "stock"}
RULE = (
    say(
        "A rule of thumb of the trade, called cautious by some; the lathe's own limit comes first."
    ),
    say("How far out of true the piece is, and how it is held."),
)


@frozen
class LatheCard:
    """Speeds for one piece."""

    plan: CardPlan
    band: SpeedBand | None = None
    knob: PerSecond | None = None
    """What the lathe is said to turn at."""


@frozen
class DrillCard:
    """One bore."""

    plan: CardPlan
    drilling: Drilling | None = None
    both_ends: bool = False


def lathe_card(said: Said, faults: frozenset[str]) -> LatheCard:
    """The band of speeds, and what it does at the rim."""
    diameter = said.get("diameter")
    if diameter is None:
        return LatheCard(CardPlan(missing=say("Type the greatest diameter.")))
    problems: dict[str, Text] = {}
    across = Metre(diameter)
    band = part(lambda: speed_band(across, faults), problems, FIELDS)
    if band is None:
        return LatheCard(CardPlan(problems=problems))
    typed_knob = said.get("knob")
    knob = None if typed_knob is None else PerSecond(typed_knob)
    turns = knob if knob is not None else band.high
    figures = _speed_figures(across, band, faults)
    figures["rim"] = Figure(
        "turn.rim", rim_speed(turns, across), "MetrePerSecond", "lathe.rim_speed",
        {"turns": _turns(turns, knob), "diameter": typed(across, "Metre")},
        label=say("At the rim"),
    )  # fmt: skip
    _energy(said, across, turns, knob, figures)
    return LatheCard(CardPlan(figures, _fast(knob, band), _lathe_lines(band), problems), band, knob)


def _turns(turns: PerSecond, knob: PerSecond | None) -> Origin:
    if knob is not None:
        return typed(turns, "PerSecond")
    return Origin(turns, "PerSecond", "computed", say("The upper end of the band."))


def _speed_figures(across: Metre, band: SpeedBand, faults: frozenset[str]) -> dict[str, Figure]:
    inputs = {
        "diameter": typed(across, "Metre"),
        "product": Origin(f"{ROUGH:.0f} … {FINE:.0f}", "", "common practice"),
    }
    if faults:
        inputs["share left for faults"] = default(CAUTION, "Ratio")
    return {
        "fastest": Figure("turn.fastest", band.high, "PerSecond", "lathe.rule_speed", inputs,
                          omits=RULE, label=say("Not faster than")),
        "slowest": Figure("turn.slowest", band.low, "PerSecond", "lathe.rule_speed", inputs,
                          omits=RULE, label=say("Begin at")),
    }  # fmt: skip


def _energy(
    said: Said, across: Metre, turns: PerSecond, knob: PerSecond | None, figures: dict[str, Figure]
) -> None:
    length = said.get("length")
    if length is None:
        return
    density = said.get("piece_density")
    mass = Kilogram(cylinder_volume(across, Metre(length)) * (density or DENSITY))
    figures["energy"] = Figure(
        "turn.energy", spin_energy(mass, across, turns), "Joule", "lathe.spin_energy",
        {"mass": Origin(mass, "Kilogram", "computed", say("A full cylinder of this density.")),
         "diameter": typed(across, "Metre"), "turns": _turns(turns, knob),
         "density": typed(density, "KilogramPerCubicMetre") if density is not None
         else default(DENSITY, "KilogramPerCubicMetre")},
        label=say("Energy in it"),
    )  # fmt: skip


def _fast(knob: PerSecond | None, band: SpeedBand) -> tuple[Text, ...]:
    if knob is None or knob <= band.high * (1 + 1e-9):
        return ()
    times = Amount((knob / band.high) ** 2, "Ratio", 1)
    return (say("Above the band: {times} times the energy of its upper end. Slow down first.",
                times=times),)  # fmt: skip


MOST_TURNS = PerSecond(4000.0 / 60)
"""Few wood lathes turn faster, and few chucks may; ours."""
BEYOND = say(
    "The rule does not know the lathe: the most that it and its chuck may turn comes first."
)


def _lathe_lines(band: SpeedBand) -> tuple[Line, ...]:
    slower = say("Half the band for:") if band.reasons else None
    first = (Line(slower, strong=True),) if slower is not None else ()
    beyond = (Line(BEYOND, strong=True),) if band.high > MOST_TURNS else ()
    return (*beyond, *first, *(Line(each) for each in band.reasons))


def drill_card(said: Said, lent: Borrowed) -> DrillCard:
    """Speed, pecks, stop and length for one bore."""
    drill, depth, stock = said.get("drill"), said.get("depth"), said.get("stock")
    if drill is None or depth is None or stock is None:
        return DrillCard(CardPlan(missing=say("Type drill, depth and stock.")))
    problems: dict[str, Text] = {}
    both = said.word("both_ends") == "yes"
    material = said.word("material") or MATERIAL
    made = part(
        lambda: drilling(Metre(drill), Metre(depth), Metre(stock), material, both_ends=both),
        problems, FIELDS,
    )  # fmt: skip
    if made is None:
        return DrillCard(CardPlan(problems=problems), both_ends=both)
    inputs = {
        "drill": typed(drill, "Metre"), "depth": typed(depth, "Metre"),
        "stock": typed(stock, "Metre"), "material": Origin(material, "", "typed"),
    }  # fmt: skip
    return DrillCard(
        CardPlan(_drill_figures(made, inputs, lent), made.warnings, _drill_lines(both), problems),
        made, both,
    )  # fmt: skip


def _drill_figures(
    made: Drilling, inputs: Mapping[str, Figure | Origin], lent: Borrowed
) -> dict[str, Figure]:
    found = {
        "cut": Figure("turn.cut", made.length, "Metre", "lathe.blank_length", inputs,
                      label=say("Cut the blank to")),
        "stop": Figure("turn.stop", made.stop, "Metre", "lathe.drilling", inputs,
                       label=say("Stop the drill at")),
        "peck": Figure("turn.peck", made.peck, "Metre", "lathe.drilling", inputs,
                       label=say("Withdraw every")),
        "pecks": Figure("turn.pecks_count", float(made.pecks), "Ratio", "lathe.drilling", inputs,
                        label=say("Pecks")),
        "drill_speed": Figure("turn.drill_speed", made.turns, "PerSecond", "lathe.revolutions",
                              inputs, label=say("Drill at")),
    }  # fmt: skip
    wall = lent.blank.figures.get("wall") if lent.blank is not None else None
    if wall is not None:
        found["wall"] = wall
    return found


def _drill_lines(both: bool) -> tuple[Line, ...]:  # noqa: FBT001 - one choice of the card
    said = [
        say("Centre start, short stiff drill first, sharp point; backing board behind."),
        say("Under {w} of wall round the drill it tends to split.", w=Amount(THIN_WALL, "Metre")),
    ]
    if both:
        said.append(say("From both ends: turn the blank end for end on the same centres; the"
                        " second hole meets the first past the middle."))  # fmt: skip
    else:
        said.append(say("Stop by the drill's full width: its point goes on into the end that is cut"
                        " off."))  # fmt: skip
        said.append(say("Drilled from both ends it wanders half as far."))
    return tuple(Line(each) for each in said)


ALL_FAULTS = tuple(FAULTS)
USUAL = frozenset({"joint"})
"""What may part where nobody said: resin and wood at their joint."""


def faults_of(text: str) -> frozenset[str]:
    """The faults that were pressed on the card; where none was ever pressed, the usual one."""
    if not text:
        return USUAL
    return frozenset(each for each in text.split(", ") if each in ALL_FAULTS)
