"""What the numbers of a set of cores are worked from, and how they are written down."""

from dataclasses import field

from shopassist.core.bath import BathPlan
from shopassist.core.chamber import Chamber
from shopassist.core.drying import Rule, best_rule, rule
from shopassist.core.figures import Figure, Origin
from shopassist.core.frozen import frozen
from shopassist.core.messages import Text, say
from shopassist.core.quantities import (
    CubicMetre,
    Kelvin,
    Kilogram,
    KilogramPerCubicMetre,
    Metre,
    PascalAbsolute,
    Ratio,
    Second,
    UtcSecond,
)
from shopassist.core.solids import cylinder_volume
from shopassist.core.species import Species, species
from shopassist.core.stabilising import Terms, dry_mass
from shopassist.core.wood_set import WoodSet
from shopassist.core.wood_shelf import BathRecord, VacuumPump
from shopassist.services.said import Said

RESIN = KilogramPerCubicMetre(1030.0)
"""Liquid stabilising resin where no density is typed; ours."""
FILL = Ratio(0.7)
"""Share of the voids expected to fill; ours."""
STEP = Kilogram(0.001)
"""A kitchen scale, where none is typed; ours."""
BATH_AT = Kelvin(293.15)
"""The bath is taken to be at 20 °C where nobody says; ours."""
SQUARE = "square"
Density = tuple[KilogramPerCubicMetre, Origin]


@frozen
class WoodFacts:
    """A set as it stands, with the records that belong to it."""

    said: Said
    state: WoodSet
    now: UtcSecond = UtcSecond(0.0)
    ambient: PascalAbsolute | None = None
    """Air pressure here; None where neither elevation nor barometer is known."""
    by_height: PascalAbsolute | None = None
    """The same by the shop's elevation alone."""
    chamber: Chamber | None = None
    pump: VacuumPump | None = None
    pump_hours: Second = Second(0.0)
    """Since its oil was changed."""
    bath: BathRecord | None = None
    bath_left: Kilogram | None = None
    woods: tuple[str, ...] = ()
    """What this bath has treated before."""
    offset: float | None = None
    """How far this oven ran above its dial last time, [K]."""


@frozen
class Findings:
    """Filled by one topic after another."""

    figures: dict[str, Figure] = field(default_factory=dict)
    problems: dict[str, Text] = field(default_factory=dict)
    notes: dict[str, list[Text]] = field(default_factory=dict)
    """What is to be said at which step."""

    def note(self, step: str, text: Text | None) -> None:
        """Say something at a step."""
        if text is not None:
            self.notes.setdefault(step, []).append(text)

    def put(
        self, name: str, label: str, value: float, quantity: str, formula: str,
        inputs: "dict[str, Figure | Origin]", *omits: str,
    ) -> None:  # fmt: skip
        """Keep one number with the way it was found; no formula where nothing is worked out."""
        self.figures[name] = Figure(
            f"stabilise.{name}", value, quantity, formula, inputs, label=say(label),
            omits=tuple(say(each) for each in omits),
        )  # fmt: skip


@frozen
class WoodFigures:
    """Everything that the pane shows of a set, and what is wrong with which entry."""

    terms: Terms
    figures: dict[str, Figure] = field(default_factory=dict)
    bath: BathPlan | None = None
    problems: dict[str, Text] = field(default_factory=dict)
    notes: dict[str, list[Text]] = field(default_factory=dict)


def typed(value: float | str, quantity: str = "") -> Origin:
    """An input that somebody typed."""
    return Origin(value, quantity, "typed")


def ours(value: float, quantity: str) -> Origin:
    """An input that is our own default."""
    return Origin(value, quantity, "default")


def seconds(said: Said, name: str) -> Second | None:
    """A length of time; None where nobody said it."""
    value = said.get(name)
    return None if value is None else Second(value)


def pieces_of(said: Said) -> int:
    """How many pieces the set has."""
    return round(said.get("pieces") or 1.0)


def sides_of(said: Said) -> tuple[Metre, ...]:
    """Both sides of a square piece; empty for a round one."""
    across = said.get("diameter")
    if said.word("shape") != SQUARE or across is None:
        return ()
    return Metre(across), Metre(said.get("width") or across)


def volume_of(said: Said) -> CubicMetre | None:
    """Bulk volume of the whole set: typed, or from pieces and sizes."""
    given = said.get("volume")
    if given is not None:
        return CubicMetre(given)
    across, length = said.get("diameter"), said.get("length")
    if across is None or length is None:
        return None
    sides = sides_of(said)
    if sides:
        return CubicMetre(pieces_of(said) * sides[0] * sides[1] * length)
    return CubicMetre(pieces_of(said) * cylinder_volume(Metre(across), Metre(length)))


def rule_of(said: Said, mass: Kilogram | None) -> Rule:
    """The chosen constant-weight rule, else the strictest that this scale resolves."""
    chosen = said.word("rule")
    if chosen:
        return rule(chosen)
    step = Kilogram(said.get("scale_step") or STEP)
    return best_rule(mass, step) if mass else rule("shop")


def species_of(said: Said) -> Species | None:
    """The wood by its name, where one was chosen."""
    name = said.word("species")
    return species(name) if name else None


def density_of(said: Said, state: WoodSet) -> Density | None:
    """Oven-dry density: own mass and volume before a species' mean."""
    dry, volume = dry_mass(state), volume_of(said)
    if dry is not None and volume:
        value = KilogramPerCubicMetre(dry / volume)
        return value, Origin(value, "KilogramPerCubicMetre", "measured", say("Own mass and size."))
    wood = species_of(said)
    if wood is None:
        return None
    note = say("Mean of {name}; pieces differ by a tenth.", name=wood.name)
    return wood.dry_density, Origin(
        wood.dry_density, "KilogramPerCubicMetre", "standard", note, source=wood.source
    )


def dial_of(said: Said, state: WoodSet) -> Kelvin | None:
    """Where the oven's dial stood at its newest reading; what is typed now where nobody knows."""
    if state.oven_dial is not None:
        return state.oven_dial
    dial = said.get("oven_dial")
    return None if dial is None else Kelvin(dial)


def over_dial(said: Said, state: WoodSet) -> float | None:
    """How far the oven ran above its dial at the newest reading, [K]."""
    dial, temps = dial_of(said, state), state.oven_temps
    return None if dial is None or not temps else temps[-1][1] - dial


def resin_of(said: Said) -> KilogramPerCubicMetre:
    """Density of the resin, typed or ours."""
    return KilogramPerCubicMetre(said.get("resin_density") or RESIN)
