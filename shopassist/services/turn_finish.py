"""Cards for what comes after the gouge: putty, papers, coats, and the air of the shop."""

from collections.abc import Sequence
from dataclasses import replace

from shopassist.core.errors import ShopError, out_of_range
from shopassist.core.figures import Figure, Origin
from shopassist.core.finish import (
    DEW_MARGIN,
    SLOWER,
    DewGate,
    Window,
    air_reasons,
    coverage,
    dew_gate,
    finish_volume,
    friction_limit,
    recoat_window,
    thinned_solids,
    turned_area,
    warmth_reason,
    wet_film,
)
from shopassist.core.frozen import frozen
from shopassist.core.gas import pore_growth
from shopassist.core.grits import GRAIN_JUMP, JUMP, Paper, Scale, Step, between, ladder
from shopassist.core.messages import Amount, Text, say
from shopassist.core.putty import (
    PROUD_DEFAULT,
    equal_grams_error,
    equal_part,
    part_mass,
    putty_volume,
)
from shopassist.core.quantities import (
    CubicMetre,
    Kelvin,
    KilogramPerCubicMetre,
    Metre,
    Ratio,
    Second,
    SquareMetre,
)
from shopassist.services.damp import FOAMING
from shopassist.services.said import Said
from shopassist.services.turn import CardPlan, Line, default, part, typed

DRY_FILM = Metre(50e-6)
COATS = Ratio(3.0)
REFERENCE = Kelvin(293.15)
"""Film thickness, number of coats and temperature of a sheet where none is typed; ours."""
MOST_PAPERS = 12
FIELDS = {
    "grooves": "grooves", "proud": "proud", "density": "putty_a", "density_a": "putty_a",
    "density_b": "putty_b", "grit": "papers", "solids": "solids", "thinner": "thinner",
    "bore": "bore", "diameter": "coat_diameter", "length": "coat_length", "dry": "dry_film",
    "time": "recoat", "humidity": "humidity", "coats": "coats", "temp": "air",
}  # fmt: skip


# -- putty -------------------------------------------------------------------------------------


def putty_card(said: Said) -> CardPlan:
    """How much of each part, by volume and by mass."""
    grooves = said.get("grooves")
    if grooves is None:
        return CardPlan(missing=say("Type the grooves' volume, or draw them in Blank."))
    problems: dict[str, Text] = {}
    pieces = said.get("pieces") or 1.0
    proud = said.get("proud")
    share = Ratio(PROUD_DEFAULT if proud is None else proud)
    total = part(lambda: putty_volume(CubicMetre(grooves * pieces), share), problems, FIELDS)
    if total is None:
        return CardPlan(problems=problems)
    inputs = {
        "grooves": Origin(grooves * pieces, "CubicMetre", "computed", say("Of all pieces.")),
        "proud": replace(
            default(share, "Ratio") if proud is None else typed(share, "Ratio"), unit="%"
        ),
    }
    each = equal_part(total)
    found = {
        "part": Figure("turn.part", each, "CubicMetre", "putty.equal_part", {
            "total": Figure("turn.total", total, "CubicMetre", "putty.putty_volume", inputs)},
            label=say("Of each part")),
        "putty": Figure("turn.putty", total, "CubicMetre", "putty.putty_volume", inputs,
                        label=say("Putty in all")),
    }  # fmt: skip
    warnings = _putty_masses(said, each, found)
    lines = (
        Line(say("Equal by volume: two ropes of one thickness, cut to one length.")),
        Line(say("Knead until one even colour, without streaks. Press in from one side so that"
                 " air leaves; leave it proud.")),
    )  # fmt: skip
    return CardPlan(found, warnings, lines, problems)


def _putty_masses(said: Said, each: CubicMetre, found: dict[str, Figure]) -> tuple[Text, ...]:
    a, b = said.get("putty_a"), said.get("putty_b")
    for name, density, label in (("part_a", a, "Part A weighs"), ("part_b", b, "Part B weighs")):
        if density is not None:
            dense = KilogramPerCubicMetre(density)
            found[name] = Figure(
                f"turn.{name}", part_mass(each, dense), "Kilogram", "putty.part_mass",
                {"volume": Origin(each, "CubicMetre", "computed"),
                 "density": typed(density, "KilogramPerCubicMetre")}, label=say(label),
            )  # fmt: skip
    if a is None or b is None or a == b:
        return ()
    off = equal_grams_error(KilogramPerCubicMetre(a), KilogramPerCubicMetre(b))
    template = "Equal grams would give {off} too much B." if off > 0 else (
        "Equal grams would give {off} too little B.")  # fmt: skip
    return (say(template, off=Amount(abs(off), "Ratio", 0, "%")),)


# -- papers --------------------------------------------------------------------------------------


@frozen
class SandCard:
    """A row of papers, judged."""

    plan: CardPlan
    papers: tuple[Paper, ...] = ()
    steps: tuple[Step, ...] = ()


OPEN = (
    "Nothing here speaks against a film: piece {m} or more above the dew point, air within its"
    " limits."
)
NO_WINDOW = say(
    "No sure window at this warmth: it may shut before it opens. Let it harden, sand, then coat;"
    " or bring air and piece to the sheet's."
)
OPEN_BUT = "Dew is no hindrance: piece {m} or more above its point, air within its limits."
FROST = say("The dew point lies under 0 °C: no dew to fear here.")
BETWEEN = str.maketrans(dict.fromkeys(",;-–→>/#", " "))
"""What guides write between papers, and before a number."""


def read_papers(text: str, scale: Scale) -> tuple[Paper, ...]:
    """Read a row of grits: numbers, each with ``P`` before it or ``CAMI`` behind it, or neither."""
    words = text.translate(BETWEEN).upper().split()
    found: list[Paper] = []
    for word in words:
        if word == "CAMI" and found:
            found[-1] = Paper("CAMI", found[-1].grit)
            continue
        digits = word.removeprefix("P")
        if not digits.isdecimal() or len(digits) > 4:  # noqa: PLR2004 - no finer paper
            raise out_of_range("papers", "{word} is no grit.", word=word)
        found.append(Paper("P" if word != digits else scale, int(digits)))
    if not found:
        raise out_of_range("papers", "Type grits, such as 240 320 400 600.")
    if len(found) > MOST_PAPERS:
        raise out_of_range("papers", "These are more papers than anybody uses.")
    return tuple(found)


def sand_card(said: Said, glass: Kelvin | None, wait: Text | None) -> SandCard:
    """Judge each step of the papers; friction must not soften the resin."""
    text = said.word("papers")
    if not text:
        return SandCard(CardPlan(missing=say("Type your papers, such as 240 320 400 600.")))
    scale: Scale = "CAMI" if said.word("grit_scale") == "CAMI" else "P"
    try:
        papers = read_papers(text, scale)
        steps = ladder(papers)
        finest = papers[-1].grain
    except ShopError as error:
        return SandCard(CardPlan(problems={"papers": error.title}))
    soft = said.get("soft") or glass
    figures = {
        "touch": Figure(
            "turn.touch", friction_limit(None if soft is None else Kelvin(soft)), "Kelvin",
            "finish.friction_limit",
            {"softening": typed(soft, "Kelvin") if soft else Origin("not known", "", "default")},
            label=say("Surface stays under"),
        ),
        "finest": Figure("turn.finest", finest, "Metre", "grits.Paper", {},
                         label=say("Finest grain")),
    }  # fmt: skip
    skipped = tuple(_skip(step) for step in steps if step.too_far)
    warnings = (*((wait,) if wait is not None else ()), *skipped)
    return SandCard(CardPlan(figures, warnings, _sand_lines()), papers, steps)


def _skip(step: Step) -> Text:
    names = ", ".join(each.name for each in between(step))
    return say("{a} to {b} is too far: put {names} between.", a=step.before.name,
               b=step.after.name, names=names)  # fmt: skip


def _sand_lines() -> tuple[Line, ...]:
    return (
        Line(say("From paper to paper the number grows at most {jump} times, the grain shrinks at"
                 " most {grain} times; the first is common practice, the second ours.",
                 jump=Amount(JUMP, "Ratio", 1), grain=Amount(GRAIN_JUMP, "Ratio", 2))),
        Line(say("After each paper: wiped, turned a quarter, looked at.")),
        Line(say("Wet, light passes, rest: a mop held on one place turns resin cloudy.")),
    )  # fmt: skip


# -- coats ---------------------------------------------------------------------------------------


@frozen
class CoatCard:
    """Coats of a finish, and when the next may go on."""

    plan: CardPlan
    window: Window | None = None


def coat_card(said: Said) -> CoatCard:
    """Volume, wet film and the window for the next coat."""
    problems: dict[str, Text] = {}
    found: dict[str, Figure] = {}
    lines: list[Line] = []
    window = part(lambda: _window(said, found, lines), problems, FIELDS)
    part(lambda: _film(said, found), problems, FIELDS)
    if not found and not problems and not lines:
        return CoatCard(CardPlan(missing=say("Type size and solids, or the recoat time.")))
    cold = warmth_reason(Kelvin(said.get("air") or REFERENCE)) if window is not None else None
    warnings = () if cold is None else (cold,)
    return CoatCard(CardPlan(found, warnings, tuple(lines), problems), window)


def _film(said: Said, found: dict[str, Figure]) -> None:
    across, length, solids = said.get("coat_diameter"), said.get("coat_length"), said.get("solids")
    if across is None or length is None:
        return
    area = turned_area(Metre(across), Metre(length), Metre(said.get("bore") or 0.0))
    pieces, coats = said.get("pieces") or 1.0, said.get("coats") or COATS
    sized = {"diameter": typed(across, "Metre"), "length": typed(length, "Metre"),
             "bore": typed(said.get("bore") or 0.0, "Metre")}  # fmt: skip
    surface = Figure("turn.area", area, "SquareMetre", "finish.turned_area", sized,
                     label=say("Area of one piece"))  # fmt: skip
    found["area"] = surface
    if solids is None:
        return
    thin = thinned_solids(Ratio(solids), Ratio(said.get("thinner") or 0.0))
    film = said.get("dry_film")
    dry = Metre(DRY_FILM if film is None else film)
    base: dict[str, Figure | Origin] = {
        "dry": default(dry, "Metre") if film is None else typed(dry, "Metre"),
        "solids": Figure("turn.solids_left", thin, "Ratio", "finish.thinned_solids", {
            "solids": typed(solids, "Ratio"), "thinner": typed(said.get("thinner") or 0.0, "Ratio"),
        }),
    }  # fmt: skip
    covers = coverage(dry, thin)
    found["finish"] = Figure(
        "turn.finish", finish_volume(SquareMetre(area * pieces), covers, Ratio(coats)),
        "CubicMetre", "finish.finish_volume",
        {"area": surface, "coats": typed(coats, "Ratio"), "pieces": typed(pieces, "Ratio"),
         "covers": Figure("turn.covers", covers, "SquareMetrePerCubicMetre", "finish.coverage",
                          base)},
        label=say("Thinned finish, all coats"), omits=(say("Brush, gun and cup."),),
    )  # fmt: skip
    found["wet"] = Figure("turn.wet", wet_film(dry, thin), "Metre", "finish.wet_film", base,
                          label=say("Wet film, each coat"))  # fmt: skip


def _window(said: Said, found: dict[str, Figure], lines: list[Line]) -> Window | None:
    opens, air = said.get("recoat"), said.get("air")
    if opens is not None and air is None:
        lines.append(Line(say("Type the air's temperature on the card Air."), strong=True))
    if opens is None or air is None:
        return None
    reference = said.get("recoat_at")
    at = Kelvin(REFERENCE if reference is None else reference)
    stays = said.get("recoat_within")
    window = recoat_window(Second(opens), None if stays is None else Second(stays), at, Kelvin(air))
    inputs = {
        "time": typed(opens, "Second"), "air": typed(air, "Kelvin"),
        "reference": default(at, "Kelvin") if reference is None else typed(at, "Kelvin"),
        "factor": Origin(SLOWER[1], "Ratio", "common practice"),
    }  # fmt: skip
    found["opens"] = Figure(
        "turn.opens", window.opens_late, "Second", "finish.recoat_time", inputs,
        window.opens, window.opens_late, say("From doubling every ten kelvin to the slower end."),
        label=say("Next coat after"),
    )  # fmt: skip
    if window.shuts is not None and window.shuts_early is not None:
        found["shuts"] = Figure(
            "turn.shuts", window.shuts_early, "Second", "finish.recoat_time", inputs,
            window.shuts_early, window.shuts, say("From the quicker end to doubling."),
            label=say("And before"),
        )  # fmt: skip
        if window.opens_late >= window.shuts_early:
            lines.append(Line(NO_WINDOW, strong=True))
        lines.append(Line(say("After that: sand, then coat. The same two times hold for a seal coat"
                              " before a pour.")))  # fmt: skip
    lines.append(Line(say("Humid air makes films that dry by water slower still; nothing is added"
                          " for it here: try a hidden place.")))  # fmt: skip
    return window


# -- the air of the shop ---------------------------------------------------------------------------


def air_card(said: Said, family: str, oven_dry: bool | None) -> CardPlan:  # noqa: FBT001
    """Whether a film may go on, what warming does to air in wood, and whether resin will froth."""
    air, humidity = said.get("air"), said.get("humidity")
    if air is None or humidity is None:
        return CardPlan(missing=say("Type the air's temperature and humidity."))
    problems: dict[str, Text] = {}
    surface = said.get("surface")
    piece = Kelvin(air if surface is None else surface)
    gate = part(lambda: dew_gate(Kelvin(air), Ratio(humidity), piece), problems, FIELDS)
    found: dict[str, Figure] = {}
    if gate is not None and gate.dew is not None:
        found["dew"] = Figure(
            "turn.dew", gate.dew, "Kelvin", "humidity.dew_point",
            {"temp": typed(air, "Kelvin"), "humidity": typed(humidity, "Ratio")},
            label=say("Dew settles at"),
        )  # fmt: skip
    _pores(said, found)
    against = gate.reasons if gate is not None else air_reasons(Kelvin(air), Ratio(humidity))
    warnings = (*against, *_froth(humidity, family, oven_dry), *_breathes(said))
    told = _dew_line(gate, OPEN_BUT if warnings else OPEN) if gate is not None else None
    lines = () if told is None else (Line(told, strong=not warnings),)
    return CardPlan(found, warnings, lines, problems)


def _dew_line(gate: DewGate, when_open: str) -> Text | None:
    if gate.dew is None:
        return FROST
    return say(when_open, m=Amount(DEW_MARGIN, "KelvinDelta", 0)) if gate.open else None


def _pores(said: Said, found: dict[str, Figure]) -> None:
    now, later = said.get("surface") or said.get("air"), said.get("later")
    if now is None or later is None:
        return
    found["pores"] = Figure(
        "turn.pores", pore_growth(Kelvin(now), Kelvin(later)), "Ratio", "gas.pore_growth",
        {"temp_before": typed(now, "Kelvin"), "temp_after": typed(later, "Kelvin")},
        label=say("Air in the wood grows by"),
    )  # fmt: skip


def _breathes(said: Said) -> Sequence[Text]:
    now, later = said.get("surface") or said.get("air"), said.get("later")
    if now is None or later is None or later <= now:
        return ()
    return (say("It warms: air comes out of the wood into the film. Warm the wood first, coat or"
                " pour while it cools, seal it before a slow pour."),)  # fmt: skip


def _froth(humidity: float, family: str, oven_dry: bool | None) -> Sequence[Text]:  # noqa: FBT001
    if family != "polyurethane":
        return ()
    told = []
    if humidity > FOAMING:
        told.append(say("Polyurethane froths with water: above {h} wait for drier air. A"
                        " supplier's advice; the sheet comes first.",
                        h=Amount(FOAMING, "Ratio", 0, "%")))  # fmt: skip
    if oven_dry is None:
        told.append(say("Do not pour polyurethane round wood that is not oven-dry by weight:"
                        " nothing is on record for this batch."))  # fmt: skip
    elif not oven_dry:
        told.append(say("Do not pour polyurethane round this wood: its weighings do not show it"
                        " oven-dry."))  # fmt: skip
    return told
