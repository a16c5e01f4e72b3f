"""The mix pane's figures, stops and lines, written for the reader."""

from collections.abc import Mapping
from math import ceil, log10

from shopassist.core.batch import Batch, Cup
from shopassist.core.figures import Figure
from shopassist.core.leftover import HEAT_CARD_FROM
from shopassist.core.off_ratio import Rescue, Verdict, rescue, serves
from shopassist.core.quantities import Kilogram
from shopassist.core.sheets import ResinSheet
from shopassist.core.wording import NONE, Wording
from shopassist.panes.mix.drafts import FieldName, Standing
from shopassist.panes.mix.screen import ButtonShown
from shopassist.services.cure import StageView
from shopassist.services.mix import MixPlan
from shopassist.services.versions import Version
from shopassist.widgets.shown import DeviationShown, FigureShown, StopShown, Tick

PART_NAMES = {"a": "Resin", "b": "Hardener", "colour": "Colour"}
ADDED = "added, to mend the ratio"
"""Why a part is weighed once more, in the log."""
OFF_SCALE = 2.0
"""The rule of the tolerance runs to so many times its limit at least."""
SMALL = 1e-9
TELLS = 5e-4
"""A ratio may be shown off by so much, no more; ours."""
MOST_PLACES = 4


def summary(
    say: Wording,
    version: Version[ResinSheet] | None,
    basis: str,
    found: Mapping[FieldName, Standing],
) -> tuple[str, str, str, str]:
    """Resin and ratio, amount and waste: the inputs in two lines."""
    name = version.name if version is not None else "Just a ratio"
    unit = "in strokes" if basis == "strokes" else f"by {basis}"
    parts = [found[each].value for each in ("ratio_a", "ratio_b")]
    ratio = " : ".join(NONE if each is None else _plain(say, each) for each in parts)
    amount = found["amount"]
    needed = NONE if amount.value is None else amount.text
    if amount.value is not None and amount.origin == "from Blank":
        needed = f"{say.amount(amount.value, amount.quantity)}, from Blank"
    waste = _share(say, found["waste"].value or 0.0)
    return name, f"{ratio} {unit}", needed, f"waste {waste}"


def _share(say: Wording, share: float, *, signed: bool = False) -> str:
    """A limit or a share in whole per cent, where it is one."""
    whole = abs(100 * share - round(100 * share)) < SMALL
    return say.percent(share, 0 if whole else 1, signed=signed)


def _plain(say: Wording, value: float) -> str:
    """With as many places as tell it: 1 : 0.44 is not 1 : 0.4."""
    near = (n for n in range(MOST_PLACES) if abs(value - round(value, n)) <= TELLS * value)
    return say.number(value, next(near, MOST_PLACES))


def figures(say: Wording, made: MixPlan) -> tuple[FigureShown, ...]:
    """Both parts and the total; a dash and what is missing where they are not known."""
    decimals = step_places(say, made)
    return tuple(
        _figure(say, each, decimals, lead=lead)
        for each, lead in ((made.part_a, True), (made.part_b, True), (made.total, False))
    )


def step_places(say: Wording, made: MixPlan) -> int | None:
    """As many places as the scale shows, in the unit of the shop."""
    if made.step_error is None:
        return None
    step = made.step_error.inputs["step"]
    unit = say.table.find(say.units.unit("Kilogram"), "Kilogram")
    shown = float(step.value or 0.0) / (unit.factor if unit is not None else 1e-3)
    for places in range(MOST_PLACES + 1):
        if abs(shown - round(shown, places)) <= SMALL:
            return places
    # A step of grams is no round number of ounces: as many places as still tell it apart.
    return min(MOST_PLACES, ceil(-log10(shown)))


def _figure(say: Wording, figure: Figure, decimals: int | None, *, lead: bool) -> FigureShown:
    label = say.say(figure.label) if figure.label is not None else ""
    if figure.value is None:
        missing = say.say(figure.missing) if figure.missing is not None else ""
        return FigureShown(label, NONE, "", "missing", note=missing, explains=False, lead=lead)
    number, unit = say.split(figure.value, figure.quantity, decimals)
    return FigureShown(label, number, unit, lead=lead)


def cup_heading(number: int, made: MixPlan) -> tuple[str, str]:
    """Which cup, and on what its running total is read."""
    where = "on the scale" if made.quantity == "Kilogram" else "in the cup"
    return f"Cup {number}", f"running total {where}"


def stops(
    say: Wording, made: MixPlan, cup: Cup, weighing: str, colour: str = "",
    more: Rescue | None = None,
) -> tuple[StopShown, ...]:  # fmt: skip
    """The list never moves: done stops keep what was typed, the present one is asked for.

    Under a cup that is off its ratio stands what mends it: the running total after the addition.
    """
    decimals = step_places(say, made)
    shown = []
    reading = 0.0
    for step in made.steps:
        name = (step.part == "colour" and colour) or PART_NAMES[step.part]
        weighed = cup.weighed.get(step.part)
        if weighed is not None:
            reading += weighed.mass
            number, unit = say.split(reading, made.quantity, decimals)
            was = say.amount(step.reading, made.quantity, decimals)
            shown.append(StopShown(name, number, unit, "done", f"stop was {was}"))
            continue
        number, unit = say.split(step.reading, made.quantity, decimals)
        if step.part == weighing:
            until = f"until {say.amount(step.reading, made.quantity, decimals)}"
            shown.append(StopShown(name, number, unit, "present", until))
        else:
            pour = f"pour {say.amount(step.amount, made.quantity, decimals)}"
            shown.append(StopShown(name, number, unit, "later", pour))
    if more is not None and weighing == more.part:
        number, unit = say.split(reading + more.mass, made.quantity, decimals)
        until = f"until {say.amount(reading + more.mass, made.quantity, decimals)}"
        name = f"More {PART_NAMES[more.part].lower()}"
        shown.append(StopShown(name, number, unit, "present", until))
    return tuple(shown)


def deviation(
    say: Wording, judged: Verdict | None, tells: float | None = None
) -> FigureShown | None:
    """How far the cup is off, and what the scale itself may be off by."""
    if judged is None:
        return None
    limits = f"{say.number(judged.on_limit * 100, 0)} and {say.percent(judged.off_limit, 0)}"
    against = "the sheet" if judged.by_sheet else f"its ratio; {limits} are ours"
    note = "" if tells is None else f"this scale tells ± {say.percent(tells, 1)}"
    return FigureShown(
        f"Hardener against {against}", say.percent(judged.deviation, 1, signed=True), "", note=note
    )


def rule(say: Wording, judged: Verdict | None) -> DeviationShown | None:
    """The result on the rule of its tolerance."""
    if judged is None:
        return None
    limit = judged.on_limit
    edge = max(limit, min(abs(judged.deviation) * 1.1, OFF_SCALE * 5 * limit))
    ticks = (
        Tick(-limit, _share(say, -limit)),
        Tick(0.0, "0"),
        Tick(limit, _share(say, limit, signed=True)),
    )
    spoken = f"{say.percent(judged.deviation, 1, signed=True)}, allowed {_share(say, limit)}"
    return DeviationShown(-edge, edge, -limit, limit, judged.deviation, ticks, spoken)


def note(
    say: Wording, judged: Verdict | None, made: MixPlan, cup: Cup, most: Kilogram | None = None
) -> tuple[str, str]:
    """A caution beside the numbers: off its ratio, or a scale too coarse for so little."""
    if judged is not None and judged.band in ("off", "far off"):
        short = "Hardener is short" if judged.deviation < 0 else "Too much hardener"
        size = say.percent(abs(judged.deviation), 1)
        return f"{short} by {size}", _remedy(say, judged, made, cup, most)
    error = made.step_error
    if error is not None and error.value is not None and error.value > COARSE:
        size = say.percent(error.value, 1)
        return f"This scale leaves ± {size}", "Use a finer scale or mix more at once."
    return "", ""


def _remedy(say: Wording, judged: Verdict, made: MixPlan, cup: Cup, most: Kilogram | None) -> str:
    """The only honest rescue, in grams; nothing goes into what reacts already."""
    hot = f" {HOT}" if abs(judged.deviation) > HEAT_CARD_FROM else ""
    if cup.contact is not None or made.ratio is None:
        return f"Nothing may be added any more. Stirring longer does not mend it.{hot}"
    mass_a, mass_b = (cup.weighed[part].mass for part in ("a", "b"))
    found = rescue(mass_a, mass_b, made.ratio, reacting=False)
    if found is None:
        return ""
    places = step_places(say, made)
    told = [f"Add {say.amount(found.mass, 'Kilogram', places)} of {found.part.upper()}."]
    if found.part == "b":
        served, over = serves(mass_b, mass_a, made.ratio)
        hardener = say.amount(mass_b, "Kilogram", places)
        resin = say.amount(served, "Kilogram", places)
        rest = say.amount(over, "Kilogram", places)
        told.append(f"Or know: {hardener} of hardener serve {resin} of resin, {rest} are too much.")
    else:
        told.append(f"Then {say.amount(found.total, 'Kilogram', places)} are in the cup.")
        told.append("Speed comes from warmth or the grade of hardener, not from the ratio.")
    if most is not None and found.total > most:
        much = say.amount(found.total, "Kilogram", places)
        told.append(f"{much} are more than one cup takes today: out flat at once.")
    return " ".join([*told, f"Stirring longer does not mend it.{hot}"])


HOT = "Heat or fire is possible: spread it thin outdoors, not into a bin."
COARSE = 0.01
"""Half of the narrowest tolerance we assume; above it the step of the scale is told; ours."""


def ahead(say: Wording, stages: tuple[StageView, ...]) -> tuple[tuple[str, str], ...]:
    """What would follow if hardener went in now."""
    lines = []
    for aim, label in (
        ("pressurise", "Pressurise by"),
        ("hold", "Hold until"),
        ("demould", "Demould from"),
    ):
        stage = next((each for each in stages if each.aim == aim), None)
        if stage is not None:
            late = aim != "pressurise"
            when = NONE if stage.gate is None else say.clock(stage.gate, stage.gate, late=late)
            lines.append((label, when))
    return tuple(lines)


def facts(say: Wording, batch: Batch | None, cup: Cup) -> tuple[tuple[str, str], ...]:
    """What happened so far, at what time."""
    if batch is None or cup.contact is None:
        return ()
    found = [("Hardener in", say.clock(cup.contact))]
    if batch.poured is not None and cup.mixed_by(batch.poured_by):
        found.append(("Poured", say.clock(batch.poured)))
    if batch.at_pressure is not None and cup.mixed_by(batch.pressed_by):
        found.append(("At pressure", say.clock(batch.at_pressure)))
    return tuple(found)


def poured(batch: Batch | None) -> ButtonShown | None:
    """The button that tells the resin is in the mould."""
    if batch is None or batch.first_contact is None or batch.is_poured:
        return None
    return ButtonShown(f"Poured – {batch.name}")


def not_poured(batch: Batch | None) -> ButtonShown | None:
    """The button that takes that back, where it was pressed too early."""
    return ButtonShown("Not poured yet") if batch is not None and batch.may_be_unpoured else None


def another(batch: Batch | None, cup: Cup, cups: int) -> ButtonShown | None:
    """The button for the next cup, counted where the amount was divided."""
    if batch is None or cup.contact is None:
        return None
    number = cup.number + 1
    return ButtonShown(f"Cup {number} of {cups}" if number <= cups else "Another cup")
