"""How it is measured: what a scale can tell, what cups really hold, what pumps give."""

from math import ceil
from typing import cast

from shopassist.core import amount, mixing, scale, stops
from shopassist.core.errors import ShopError, out_of_range
from shopassist.core.figures import Figure, Origin
from shopassist.core.messages import Amount, Text, say
from shopassist.core.off_ratio import ON
from shopassist.core.quantities import (
    ZERO_CELSIUS,
    CubicMetre,
    Kelvin,
    Kilogram,
    Ratio,
)
from shopassist.core.water import water_density
from shopassist.services.beside import ROUNDED, Beside, Caution, MixFacts
from shopassist.services.mix import MixPlan

ROOM = Kelvin(ZERO_CELSIUS + 20.0)
"""Water of which no temperature is typed; ours."""
NEVER_VOLUME = say("Read its figure as grams; never use a ratio by volume with it.")

FIELDS = {"weighed": "cup_now", "empty": "empty_cup", "temp": "water_temp"}
"""Which entry a refusal of the core belongs to."""


def measure(facts: MixFacts) -> Beside:
    """What the chosen way of measuring can and cannot tell."""
    how = facts.said.word("how")
    try:
        if how == "cups":
            return marked_cups(facts)
        return pumps(facts) if how == "pumps" else on_scale(facts)
    except ShopError as error:
        return Beside(problems={FIELDS.get(error.field, error.field): error.title})


# -- a scale ------------------------------------------------------------------------------------


def least_total(facts: MixFacts) -> Kilogram | None:
    """Smallest batch that this scale keeps within the tolerance, to a whole step upwards."""
    ratio, step = facts.plan.ratio, facts.scale.step
    if ratio is None or facts.plan.quantity != "Kilogram":
        return None
    exact = scale.least_batch(ratio, facts.tolerance or ON, facts.scale.doubt)
    return Kilogram(ceil(exact / step * (1 - 1e-12)) * step)


def too_little(facts: MixFacts) -> Caution | None:
    """Why this batch is too small for this scale."""
    least, total = least_total(facts), facts.plan.total.value
    if least is None or total is None or total >= least * (1 - 1e-9):
        return None
    return (
        say(
            "With your scale, do not mix less than {least}.",
            least=Amount(least, "Kilogram"),
        ),
        say("Use a finer scale or mix more at once."),
    )


def too_heavy(facts: MixFacts) -> Caution | None:
    """Why this cup cannot be weighed on this scale: the last stop, and the cup where it is known.

    Taking the cup's mass off the display does not take it off the scale.
    """
    most, steps = facts.scale_most, facts.plan.steps
    if most is None or not steps or facts.plan.quantity != "Kilogram":
        return None
    cup = facts.said.get("empty_cup") or 0.0
    full = steps[-1].reading + cup
    if full <= most + ROUNDED * facts.scale.step:
        return None
    told = "The scale weighs up to {most}; this comes to {full}"
    return (
        say(f"{told}, cup and all." if cup else f"{told}.",
            most=Amount(most, "Kilogram"), full=Amount(full, "Kilogram")),
        say("Use a larger scale, or mix in more cups: past its most it shows nothing or less."),
    )  # fmt: skip


def on_scale(facts: MixFacts) -> Beside:
    """The ratio at worst, the least batch, and what the display shows on the bottle or the cup."""
    notes: list[Text] = []
    if facts.reads_millilitres or facts.said.word("reads") == "ml":
        notes.append(_millilitres(facts))
    if facts.scale.error is None:
        notes.append(say("No stated error: two steps are taken; ours."))
    if facts.tolerance is None:
        notes.append(say("The sheet gives no tolerance: 2 % are taken; ours."))
    return Beside(
        (*_band(facts), *_least(facts), *_bottle(facts), *_regained(facts)),
        too_heavy(facts) or too_little(facts), tuple(notes),
    )  # fmt: skip


def _masses(plan: MixPlan) -> tuple[Kilogram, Kilogram] | None:
    mass_a, mass_b = plan.part_a.value, plan.part_b.value
    if plan.quantity != "Kilogram" or mass_a is None or mass_b is None:
        return None
    return Kilogram(mass_a), Kilogram(mass_b)


def _band(facts: MixFacts) -> tuple[Figure, ...]:
    found, ratio = _masses(facts.plan), facts.plan.ratio
    if found is None or ratio is None:
        return ()
    doubt = facts.scale.doubt
    label = say("At worst off by")
    if min(found) <= doubt:
        return (Figure("mix.scale_band", None, "Ratio", "scale.ratio_band", label=label,
                       missing=say("less than the scale can tell")),)  # fmt: skip
    band = scale.ratio_band(*found, doubt)
    low, high = Ratio(band.low / ratio - 1), Ratio(band.high / ratio - 1)
    return (Figure(
        "mix.scale_band", max(-low, high), "Ratio", "scale.ratio_band",
        {"mass_a": facts.plan.part_a, "mass_b": facts.plan.part_b,
         "doubt": Origin(doubt, "Kilogram", "computed", say("Stated error and half a step."))},
        low=low, high=high, range_means=say("Both masses at their worst, against each other."),
        label=label, unit="%",
    ),)  # fmt: skip


def _least(facts: MixFacts) -> tuple[Figure, ...]:
    least = least_total(facts)
    if least is None:
        return ()
    tolerance = facts.tolerance
    return (Figure(
        "mix.least_batch", least, "Kilogram", "scale.least_batch",
        {"ratio": Origin(cast("Ratio", facts.plan.ratio), "Ratio", "computed"),
         "tolerance": Origin(tolerance or ON, "Ratio", "sheet" if tolerance else "default",
                             unit="%"),
         "doubt": Origin(facts.scale.doubt, "Kilogram", "computed")},
        rounding=say("Up to a whole step of the scale."), label=say("Mix at least"),
    ),)  # fmt: skip


def _millilitres(facts: MixFacts) -> Text:
    """What a ratio by volume comes to on a scale that takes everything for water."""
    weight, volume = facts.plan.ratio, facts.plan.volume_ratio
    told = say("A scale in millilitres shows grams of water.")
    if weight is None or volume is None:
        return say("{told} {never}", told=told, never=NEVER_VOLUME)
    off = Amount(100 * (volume / weight - 1), "Ratio", 1)
    return say(
        "{told} The ratio by volume on it would put {off} % too much hardener in. {never}"
        if volume >= weight
        else "{told} The ratio by volume on it would be off by {off} % of hardener. {never}",
        told=told, off=off, never=NEVER_VOLUME,
    )  # fmt: skip


def _bottle(facts: MixFacts) -> tuple[Figure, ...]:
    """The thick part poured by what its bottle loses."""
    before, found = facts.said.get("bottle"), _masses(facts.plan)
    if before is None or found is None:
        return ()
    if found[0] > before:
        raise out_of_range("bottle", "The bottle does not hold that much.")
    shows = stops.bottle_reading(Kilogram(before), found[0])
    return (Figure(
        "mix.bottle_stop", shows, "Kilogram", "stops.bottle_reading",
        {"bottle before": Origin(before, "Kilogram", "typed"), "A to pour": facts.plan.part_a},
        label=say("Until it shows"), omits=(say("Two readings, so twice the doubt."),),
    ),)  # fmt: skip


def _regained(facts: MixFacts) -> tuple[Figure, ...]:
    """Stops anew after the scale lost its zero: the cup is weighed on an empty scale."""
    empty, now = facts.said.get("empty_cup"), facts.said.get("cup_now")
    found = _masses(facts.plan)
    if empty is None or now is None or found is None:
        return ()
    weighed = {step.part: facts.said.get(f"weighed_{step.part}") for step in facts.plan.steps}
    done = sum(each is not None for each in weighed.values())
    parts = tuple(
        stops.Portion(step.part, Kilogram(weighed[step.part] or step.amount))
        for step in facts.plan.steps
    )
    again = stops.regain(parts, done, Kilogram(empty), Kilogram(now))
    inputs = {"empty cup": Origin(empty, "Kilogram", "typed"),
              "cup now": Origin(now, "Kilogram", "typed")}  # fmt: skip
    shows = [(say("{part} until it shows", part=NAMES[stop.part]), stop.reading)
             for stop in again.stops]  # fmt: skip
    for part in ("a", "b"):
        if more := facts.said.get(f"mend_{part}"):
            label = say("More {part} until it shows", part=NAMES[part].lower())
            shows.append((label, Kilogram(now + more)))
    return tuple(
        Figure(f"mix.regained.{number}", reading, "Kilogram", "stops.regain", dict(inputs),
               label=label)
        for number, (label, reading) in enumerate(shows, 1)
    )  # fmt: skip


NAMES = {"a": "Resin", "b": "Hardener", "colour": "Colour"}


# -- marked cups -----------------------------------------------------------------------------------


def marked_cups(facts: MixFacts) -> Beside:
    """What the lines of a cup really hold, by weighing water to each of them."""
    said, volume = facts.said, facts.plan.volume_ratio
    first, both = said.get("line_first"), said.get("line_both")
    advice = say("Fill to each line with water and weigh it; a true 30 ml line weighs 29.9 g.")
    to = _to_lines(facts)
    if first is None or both is None:
        return Beside(notes=(*to, advice, say("Better still: weigh the parts.")))
    if both <= first:
        return Beside(problems={"line_both": say("Both parts together must weigh more than one.")})
    density = water_density(Kelvin(said.get("water_temp") or ROOM))
    lines = [amount.line_volume(Kilogram(each), density) for each in (first, both)]
    part_a, part_b = lines[0], CubicMetre(lines[1] - lines[0])
    figures = tuple(
        Figure(f"mix.line_{name}", value, "CubicMetre", "amount.line_volume",
               {"water": Origin(mass, "Kilogram", "typed"),
                "density": Origin(density, "KilogramPerCubicMetre", "computed")}, label=say(label))
        for name, value, mass, label in (("a", part_a, first, "1st line holds"),
                                         ("b", part_b, both - first, "On to the 2nd"))
    )  # fmt: skip
    if volume is None:
        return Beside(figures, notes=(*to, say("Needs the ratio by volume to judge the lines.")))
    off = Ratio(part_b / part_a / volume - 1)
    shown = Figure("mix.line_error", off, "Ratio", "mixing.deviation",
                   {"A, by the first line": figures[0], "B, on to the second": figures[1],
                    "B per A by volume": Origin(volume, "Ratio", "typed")},
                   label=say("Hardener by them"), unit="%")  # fmt: skip
    caution = None
    if abs(off) > ON:
        caution = (say("These lines are off the ratio."), say("Weigh the parts instead."))
    return Beside((*figures, shown), caution, to)


def _to_lines(facts: MixFacts) -> tuple[Text, ...]:
    """Grams as a cup shows them, where both densities are known."""
    found, sheet = _masses(facts.plan), facts.sheet
    if found is None or sheet is None or sheet.density_a is None or sheet.density_b is None:
        return ()
    parts = [("resin", found[0] / sheet.density_a), ("hardener", found[1] / sheet.density_b)]
    if facts.plan.steps[0].part == "b":
        parts.reverse()
    (first, low), (second, high) = parts
    return (
        say("By both densities: {first} to {low}, then {second} to {both}.",
            first=first, low=Amount(low, "CubicMetre"), second=second,
            both=Amount(low + high, "CubicMetre")),
    )  # fmt: skip


# -- pumps ----------------------------------------------------------------------------------------


def pumps(facts: MixFacts) -> Beside:
    """Strokes for the amount, and the ratio that strokes already given come to."""
    gives = [facts.said.get(name) for name in ("stroke_a", "stroke_b")]
    if facts.sheet is not None:
        sheet = (facts.sheet.stroke_a, facts.sheet.stroke_b)
        gives = [
            typed if typed is not None else own for typed, own in zip(gives, sheet, strict=True)
        ]
    if gives[0] is None or gives[1] is None:
        return Beside(
            notes=(say("Type what one full stroke of each pump gives; weigh one of each."),)
        )
    first, second = CubicMetre(gives[0]), CubicMetre(gives[1])
    one = mixing.stroke_ratio(Ratio(1.0), Ratio(1.0), first, second)
    inputs = {"stroke_a": Origin(first, "CubicMetre", "typed"),
              "stroke_b": Origin(second, "CubicMetre", "typed")}  # fmt: skip
    figures = [Figure("mix.stroke_pair", one, "Ratio", "mixing.stroke_ratio", dict(inputs),
                      label=say("B per A, one each"))]  # fmt: skip
    volume = facts.plan.volume_ratio
    needed = _strokes_needed(facts, first, second)
    figures += needed
    given = _given(facts, first, second, inputs)
    figures += given
    notes = [say("Prime both pumps: a stroke with air in it is no stroke.")]
    whole = _whole_strokes(needed, first, second)
    if whole is not None:
        notes.insert(0, whole)
    if volume is None:
        notes.insert(0, say("Needs the ratio by volume, or both densities, to judge the pumps."))
    off = given[-1].value if given and volume is not None else None
    if off is None and volume is not None:
        off = one / volume - 1
    caution = None
    if off is not None and abs(off) > ON:
        caution = _off_strokes(given=bool(given), counted=bool(needed))
    return Beside(tuple(figures), caution, tuple(notes))


def _off_strokes(*, given: bool, counted: bool) -> Caution:
    """What was pumped is off; or one of each would be, where pumps are not made for the label."""
    if given or not counted:
        return (
            say("These strokes are off the ratio."),
            say("Metered pumps want one stroke of each, whatever the label's ratio."),
        )
    return (
        say("One stroke of each is off the ratio."),
        say("These pumps are not metered for it: give the strokes counted here."),
    )


def _strokes_needed(facts: MixFacts, first: CubicMetre, second: CubicMetre) -> list[Figure]:
    plan, sheet = facts.plan, facts.sheet
    if plan.part_a.value is None or plan.part_b.value is None:
        return []
    needed = [float(plan.part_a.value), float(plan.part_b.value)]
    if plan.quantity == "Kilogram":
        dense = (sheet.density_a, sheet.density_b) if sheet is not None else (None, None)
        if dense[0] is None or dense[1] is None:
            return []
        needed = [mass / density for mass, density in zip(needed, dense, strict=True)
                  if density is not None]  # fmt: skip
    return [
        Figure(f"mix.strokes_{part}", amount.strokes_for(CubicMetre(volume), stroke), "Ratio",
               "amount.strokes_for",
               {"volume": Origin(volume, "CubicMetre", "computed"),
                "stroke": Origin(stroke, "CubicMetre", "typed")},
               label=say("Strokes of {part}", part=part.upper()))
        for part, volume, stroke in zip("ab", needed, (first, second), strict=True)
    ]  # fmt: skip


def _whole_strokes(needed: list[Figure], first: CubicMetre, second: CubicMetre) -> Text | None:
    """The least whole strokes of both pumps that are enough and keep the ratio."""
    counts = [float(each.value or 0.0) for each in needed]
    if not counts or all(abs(count - round(count)) < NEAR_WHOLE for count in counts):
        return None
    wanted, needs = counts[1] / counts[0], counts[0] * first + counts[1] * second
    for of_b in range(ceil(counts[1] - NEAR_WHOLE), ceil(2 * counts[1]) + 1):
        of_a = round(of_b / wanted)
        gives, enough = of_a * first + of_b * second, of_a >= counts[0] - NEAR_WHOLE
        if enough and gives <= MOST_OVER * needs and abs(of_b / of_a / wanted - 1) <= ON:
            return say(
                "In whole strokes: {a} of A and {b} of B, {volume} in all.",
                a=of_a, b=of_b, volume=Amount(gives, "CubicMetre"),
            )  # fmt: skip
    return None


NEAR_WHOLE = 1e-6
"""A count so near a whole one is whole."""
MOST_OVER = 2.0
"""More than so many times what is needed is no help; ours."""


def _given(
    facts: MixFacts, first: CubicMetre, second: CubicMetre, inputs: dict[str, Origin]
) -> list[Figure]:
    """Ratio of strokes already pumped, and how far it is off."""
    strokes = [facts.said.get(name) for name in ("strokes_a", "strokes_b")]
    if strokes[0] is None or strokes[1] is None:
        return []
    count = Ratio(strokes[0]), Ratio(strokes[1])
    ratio = mixing.stroke_ratio(*count, first, second)
    known = inputs | {"strokes_a": Origin(count[0], "Ratio", "typed"),
                      "strokes_b": Origin(count[1], "Ratio", "typed")}  # fmt: skip
    made = [Figure("mix.pumped", ratio, "Ratio", "mixing.stroke_ratio", dict(known),
                   label=say("B per A, as given"))]  # fmt: skip
    volume = facts.plan.volume_ratio
    if volume is not None:
        off = mixing.deviation(Kilogram(1.0), Kilogram(ratio), volume)
        made.append(Figure("mix.pumped_off", off, "Ratio", "mixing.deviation",
                           {"B per A, as given": Origin(ratio, "Ratio", "computed"),
                            "B per A by volume": Origin(volume, "Ratio", "typed")},
                           label=say("Hardener, as given"), unit="%"))  # fmt: skip
    return made
