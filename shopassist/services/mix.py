"""From ratio, basis and amount to what the scale must show, as figures that explain themselves."""

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
    basis: Literal["weight", "volume"]
    amount: Origin | None
    waste: Origin
    step: Origin
    density_a: Origin | None = None
    density_b: Origin | None = None
    density_mixed: Origin | None = None
    tolerance: Ratio | None = None
    b_first: bool = False
    colour: Kilogram = Kilogram(0.0)


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


def _value(origin: Origin | None) -> float | None:
    return cast("float", origin.value) if origin is not None else None


def _empty(missing: Text, quantity: str = "Kilogram") -> MixPlan:
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
        return _empty(say("needs the ratio"))
    if inputs.amount is None:
        return _empty(say("needs the amount"))
    try:
        return _plan(inputs, poured_a, poured_b)
    except OutOfRangeError as error:
        return _empty(error.title)


def _plan(inputs: MixInputs, poured_a: Kilogram | None, poured_b: Kilogram | None) -> MixPlan:
    given = Ratio(_value(inputs.ratio_b) / _value(inputs.ratio_a))  # type: ignore[operator]
    density_a, density_b = _value(inputs.density_a), _value(inputs.density_b)
    by_volume = inputs.basis == "volume"
    if by_volume and (density_a is None or density_b is None):
        return _in_cups(inputs, given)
    ratio = given
    if by_volume:
        ratio = mixing.weight_ratio(
            given, KilogramPerCubicMetre(density_a or 0.0), KilogramPerCubicMetre(density_b or 0.0)
        )
    total = _mass_needed(inputs, ratio)
    if total is None:
        return _empty(say("needs the density, to turn a volume into grams"))
    return _on_scale(inputs, ratio, total, poured_a, poured_b)


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
    exact = mixing.part_masses(total, ratio)
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
            label=say("Left by the scale's step"),
        ),
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
    if inputs.basis == "volume" or (inputs.amount and inputs.amount.quantity == "CubicMetre"):
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
        return _empty(say("needs both densities, or an amount as a volume"))
    whole = cast("float", inputs.amount.value) * (1 + cast("float", inputs.waste.value))
    part_a = whole / (1 + ratio)
    made = _inputs(inputs, None, None)

    def part(name: str, label: str, value: float) -> Figure:
        return Figure(
            f"mix.{name}", value, "CubicMetre", "mixing.part_masses", made,
            omits=(*OMITS, say("The marks of the cups: check them once with water.")),
            label=say(label),
        )  # fmt: skip

    return MixPlan(
        "CubicMetre", ratio, part("part_a_target", "Resin, A", part_a),
        part("part_b_target", "Hardener, B", whole - part_a),
        part("total_target", "Together", whole), _steps(inputs, part_a, whole - part_a),
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
