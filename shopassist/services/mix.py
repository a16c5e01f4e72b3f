"""From ratio, basis and amount to what the scale must show, as figures that explain themselves."""

from dataclasses import replace
from itertools import accumulate
from typing import Literal, cast

from shopassist.core import amount, mixing, scale
from shopassist.core.errors import OutOfRangeError
from shopassist.core.figures import Figure, Origin
from shopassist.core.frozen import frozen
from shopassist.core.messages import Text, say
from shopassist.core.mixing import PartMasses
from shopassist.core.off_ratio import Verdict, judge
from shopassist.core.quantities import CubicMetre, Kilogram, KilogramPerCubicMetre, Ratio

Part = Literal["a", "b", "colour"]
Basis = Literal["weight", "volume", "strokes"]
ROUNDED = say("To the step of the scale: the larger part up, the smaller to the nearest that fits.")
OMITS = (
    say("What stays on the stirrer and in the bottle's neck."),
    say("How well it is stirred."),
)


@frozen
class MixInputs:
    """What is known about a mix; every value with its origin, None where it is not known."""

    ratio_a: Origin | None
    ratio_b: Origin | None
    basis: Basis
    amount: Origin | None
    waste: Origin
    step: Origin
    density_a: Origin | None = None
    density_b: Origin | None = None
    density_mixed: Origin | None = None
    tolerance: Ratio | None = None
    b_first: bool = False
    colour: Kilogram = Kilogram(0.0)
    other: Origin | None = None
    """B per A by the other basis, where the label gives two ratios."""
    stroke_a: Origin | None = None
    stroke_b: Origin | None = None
    """What one stroke of each pump gives."""
    cups: int = 1
    """Equal cups that the amount is mixed in."""


@frozen
class Step:
    """One stop: pour this much, until the scale or the cup shows the running total."""

    part: Part
    amount: float
    reading: float


@frozen
class MixPlan:
    """What to pour, or what is still missing."""

    quantity: str
    """``Kilogram`` on a scale; ``CubicMetre`` in marked cups, where no density is known."""
    ratio: Ratio | None
    """Masses of B per mass of A; volumes where only marked cups can be used."""
    part_a: Figure
    part_b: Figure
    total: Figure
    steps: tuple[Step, ...] = ()
    step_error: Figure | None = None
    missing: Text | None = None
    volume_ratio: Ratio | None = None
    """Volumes of B per volume of A, where it is known."""
    whole: float | None = None
    """All cups together, unrounded, in the plan's own quantity."""
    cups: int = 1
    """Equal cups; parts, total and steps are those of one."""


@frozen
class Ratios:
    """B per A both ways; None where it cannot be told."""

    weight: Ratio | None
    volume: Ratio | None


def _value(origin: Origin | None) -> float | None:
    return cast("float", origin.value) if origin is not None else None


def empty_plan(missing: Text, quantity: str = "Kilogram") -> MixPlan:
    """A plan without numbers that says what keeps them away."""

    def none(name: str, label: str) -> Figure:
        return Figure(
            f"mix.{name}", None, quantity, "mixing.part_masses", missing=missing, label=say(label)
        )

    return MixPlan(
        quantity, None, none("part_a_target", "Resin, A"), none("part_b_target", "Hardener, B"),
        none("total_target", "Together"), missing=missing,
    )  # fmt: skip


def plan(
    inputs: MixInputs, poured_a: Kilogram | None = None, poured_b: Kilogram | None = None
) -> MixPlan:
    """Work out both parts; what was really poured of one part decides the other."""
    if inputs.ratio_a is None or inputs.ratio_b is None:
        return empty_plan(say("needs the ratio"))
    if inputs.amount is None:
        return empty_plan(say("needs the amount"))
    try:
        return _plan(inputs, poured_a, poured_b)
    except OutOfRangeError as error:
        return empty_plan(error.title)


def _plan(inputs: MixInputs, poured_a: Kilogram | None, poured_b: Kilogram | None) -> MixPlan:
    found = ratios(inputs)
    if found is None:
        return empty_plan(say("needs what one stroke of each pump gives"))
    if found.weight is None:
        return _in_cups(inputs, cast("Ratio", found.volume))
    total = _mass_needed(inputs, found.weight)
    if total is None:
        return empty_plan(say("needs the density, to turn a volume into grams"))
    made = _on_scale(inputs, found.weight, total, poured_a, poured_b)
    return replace(made, volume_ratio=found.volume, whole=float(total))


def ratios(inputs: MixInputs) -> Ratios | None:
    """The ratio by weight and by volume, as far as label and densities tell; None: no pumps yet."""
    given = Ratio(cast("float", _value(inputs.ratio_b)) / cast("float", _value(inputs.ratio_a)))
    other = cast("Ratio | None", _value(inputs.other))
    density_a, density_b = _value(inputs.density_a), _value(inputs.density_b)
    known = density_a is not None and density_b is not None
    dense = KilogramPerCubicMetre(density_a or 0.0), KilogramPerCubicMetre(density_b or 0.0)
    if inputs.basis == "weight":
        if other is None and known:
            other = mixing.volume_ratio(given, *dense)
        return Ratios(given, other)
    if inputs.basis == "strokes":
        if inputs.stroke_a is None or inputs.stroke_b is None:
            return None
        given = _pumped(inputs)
    if other is None and known:
        other = mixing.weight_ratio(given, *dense)
    return Ratios(other, given)


def _pumped(inputs: MixInputs) -> Ratio:
    """Volumes that the strokes give."""
    strokes_a, strokes_b, stroke_a, stroke_b = (
        _value(each) or 0.0
        for each in (inputs.ratio_a, inputs.ratio_b, inputs.stroke_a, inputs.stroke_b)
    )
    return mixing.stroke_ratio(
        Ratio(strokes_a), Ratio(strokes_b), CubicMetre(stroke_a), CubicMetre(stroke_b)
    )


def _density(inputs: MixInputs, ratio: Ratio) -> float | None:
    mixed = _value(inputs.density_mixed)
    density_a, density_b = _value(inputs.density_a), _value(inputs.density_b)
    if mixed is None and density_a is not None and density_b is not None:
        return amount.mixed_density(
            ratio, KilogramPerCubicMetre(density_a), KilogramPerCubicMetre(density_b)
        )
    return mixed


def _mass_needed(inputs: MixInputs, ratio: Ratio) -> Kilogram | None:
    assert inputs.amount is not None  # noqa: S101 - plan() has looked
    needed, waste = cast("float", inputs.amount.value), Ratio(cast("float", inputs.waste.value))
    if inputs.amount.quantity == "Kilogram":
        return Kilogram(needed * (1 + waste))
    density = _density(inputs, ratio)
    if density is None:
        return None
    return amount.mass_to_mix(CubicMetre(needed), KilogramPerCubicMetre(density), waste)


def _on_scale(
    inputs: MixInputs, ratio: Ratio, total: Kilogram,
    poured_a: Kilogram | None, poured_b: Kilogram | None,
) -> MixPlan:  # fmt: skip
    step = Kilogram(cast("float", inputs.step.value))
    exact = mixing.part_masses(Kilogram(total / inputs.cups), ratio)
    parts = scale.round_parts(exact, step)
    if poured_a is not None:
        parts = PartMasses(poured_a, scale.nearest(mixing.hardener_for(poured_a, ratio), step))
    elif poured_b is not None:
        parts = PartMasses(scale.nearest(mixing.resin_for(poured_b, ratio), step), poured_b)
    made = _inputs(inputs, poured_a, poured_b)
    smaller = Kilogram(min(parts.a, parts.b))
    error = scale.left_by_step(smaller, step)
    return MixPlan(
        "Kilogram",
        ratio,
        _part("part_a_target", "Resin, A", parts.a, _formula_a(poured_b), made),
        _part("part_b_target", "Hardener, B", parts.b, _formula_b(poured_a), made),
        _part("total_target", "Together", Kilogram(parts.a + parts.b), "mixing.part_masses", made),
        _steps(inputs, parts.a, parts.b),
        Figure(
            "mix.step_error", error, "Ratio", "scale.left_by_step",
            {"step": inputs.step, "smallest": Origin(smaller, "Kilogram", "computed")},
            label=say("Left by the scale's step"), unit="%",
        ),
        cups=inputs.cups,
    )  # fmt: skip


def off_by(mass_a: Kilogram, mass_b: Kilogram, ratio: Ratio, tells: float | None = None) -> Figure:
    """How far a weighed cup is off its ratio; ``tells``: what the scale may be off by."""
    off = mixing.deviation(mass_a, mass_b, ratio)
    band = (None, None) if tells is None else (off - tells, off + tells)
    return Figure(
        "mix.deviation", off, "Ratio", "mixing.deviation",
        {
            "A in the cup": Origin(mass_a, "Kilogram", "typed"),
            "B in the cup": Origin(mass_b, "Kilogram", "typed"),
            "B per A by weight": Origin(ratio, "Ratio", "computed"),
        },
        low=band[0], high=band[1],
        range_means=None if tells is None else say("What this scale may be off by, at worst."),
        rounding=say("To a tenth of a per cent; it is judged unrounded."),
        omits=OMITS, label=say("Hardener against the ratio"), unit="%",
    )  # fmt: skip


def _formula_a(poured_b: Kilogram | None) -> str:
    return "mixing.part_masses" if poured_b is None else "mixing.resin_for"


def _formula_b(poured_a: Kilogram | None) -> str:
    return "mixing.part_masses" if poured_a is None else "mixing.hardener_for"


def _part(
    name: str, label: str, mass: Kilogram, formula: str, inputs: dict[str, Figure | Origin]
) -> Figure:
    return Figure(
        f"mix.{name}", mass, "Kilogram", formula, inputs,
        rounding=ROUNDED, omits=OMITS, label=say(label),
    )  # fmt: skip


def _inputs(
    inputs: MixInputs, poured_a: Kilogram | None, poured_b: Kilogram | None
) -> dict[str, Figure | Origin]:
    """Everything that went in, by the words an explanation shows."""
    known: dict[str, Figure | Origin | None] = {
        "parts of A": inputs.ratio_a,
        "parts of B": inputs.ratio_b,
        "ratio by": Origin(inputs.basis, "", cast("Origin", inputs.ratio_a).kind),
        "needed": inputs.amount,
        "waste": inputs.waste,
        "scale step": inputs.step,
    }
    if inputs.basis == "strokes":
        known |= {"stroke of pump A": inputs.stroke_a, "stroke of pump B": inputs.stroke_b}
    if inputs.cups > 1:
        known["equal cups"] = Origin(float(inputs.cups), "Ratio", "typed")
    if inputs.other is not None and inputs.basis == "volume":
        known["B per A by weight"] = inputs.other
    by_density = inputs.basis != "weight" and inputs.other is None
    if by_density or (inputs.amount and inputs.amount.quantity == "CubicMetre"):
        known |= {
            "density of A": inputs.density_a,
            "density of B": inputs.density_b,
            "density, mixed": inputs.density_mixed,
        }
    for words, poured in (("A really poured", poured_a), ("B really poured", poured_b)):
        known[words] = Origin(poured, "Kilogram", "typed") if poured is not None else None
    return {words: origin for words, origin in known.items() if origin is not None}


def _in_cups(inputs: MixInputs, ratio: Ratio) -> MixPlan:
    """Marked cups: all that a ratio by volume allows where no density is known."""
    assert inputs.amount is not None  # noqa: S101 - plan() has looked
    if inputs.amount.quantity == "Kilogram":
        return empty_plan(say("needs both densities, or an amount as a volume"))
    whole = cast("float", inputs.amount.value) * (1 + cast("float", inputs.waste.value))
    each = whole / inputs.cups
    part_a = each / (1 + ratio)
    made = _inputs(inputs, None, None)

    def part(name: str, label: str, value: float) -> Figure:
        return Figure(
            f"mix.{name}", value, "CubicMetre", "mixing.part_masses", made,
            omits=(*OMITS, say("The marks of the cups: check them once with water.")),
            label=say(label),
        )  # fmt: skip

    return MixPlan(
        "CubicMetre", ratio, part("part_a_target", "Resin, A", part_a),
        part("part_b_target", "Hardener, B", each - part_a),
        part("total_target", "Together", each), _steps(inputs, part_a, each - part_a),
        volume_ratio=ratio, whole=whole,
    )  # fmt: skip


def _steps(inputs: MixInputs, part_a: float, part_b: float) -> tuple[Step, ...]:
    """Stops in the order of pouring, with the running total; colour stands in the middle."""
    order: list[tuple[Part, float]] = [("a", part_a), ("b", part_b)]
    if inputs.b_first:
        order.reverse()
    if inputs.colour:
        order.insert(1, ("colour", inputs.colour))
    totals = accumulate(each for _, each in order)
    return tuple(Step(part, each, total) for (part, each), total in zip(order, totals, strict=True))


def verdict(
    mass_a: Kilogram, mass_b: Kilogram, ratio: Ratio, tolerance: Ratio | None
) -> Verdict | None:
    """How far a poured cup is off; None before both parts are weighed."""
    if mass_a <= 0 or ratio <= 0:
        return None
    return judge(mass_a, mass_b, ratio, tolerance)
