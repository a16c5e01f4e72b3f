"""Which law each step of a resin sheet follows, and where that law came from.

What a sheet says outright goes first: a factor, an energy, or that its times are to be taken as a
table. Else the times that it prints for one step at several temperatures give an energy, held
together with what is usual in the family; else the family's alone. Working time in a cup is not a
thin film's gel: times of one side say nothing of the other, and a step without times of its own
follows the steps of its side. A full cure stalls in the cold and speaks for itself alone.
"""

from functools import reduce
from typing import Literal

from shopassist.core.cure_law import (
    PRIORS,
    EnergyLaw,
    Fit,
    Law,
    TableLaw,
    combined,
    fit,
    law_of,
    limits,
    plausible,
)
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.quantities import Kelvin
from shopassist.core.sheet_pairs import Pair
from shopassist.core.sheets import (
    FACTOR,
    STAGE_LABELS,
    STAGES,
    TABLE,
    CureLawEntry,
    ResinSheet,
    StageName,
)

Origin = Literal["factor", "rule", "energy", "table", "own times", "side", "doubted", "family"]

CUP: tuple[StageName, ...] = ("working", "pressurise")
"""Steps of resin that stands in a cup; the others are those of a thin film."""
ALONE: StageName = "full"
"""A step that speaks for no other."""
FAR_OFF = 2.0
"""Errors of its own time beyond which a time lies off the line."""
PLAIN: dict[Origin, str] = {
    "factor": "The factor that the sheet gives.",
    "rule": "Doubling for 10 degrees, common practice: the sheet gives no factor.",
    "energy": "The energy that the sheet gives.",
}


@frozen
class Finding:
    """What the times of one step say of its energy."""

    stage: StageName
    pairs: tuple[Pair, ...]
    """Coldest first."""
    line: Fit
    believed: bool

    @property
    def law(self) -> EnergyLaw:
        """The energy by these times alone."""
        return EnergyLaw(self.line.energy, self.line.sigma)


@frozen
class Basis:
    """The law of one step and what it rests on."""

    law: Law
    origin: Origin
    prior: EnergyLaw
    """Default of the family."""
    findings: tuple[Finding, ...] = ()
    """Steps whose times it rests on, or for a doubt the one that was not believed."""


def basis_of(sheet: ResinSheet, stage: StageName) -> Basis:
    """The law of one step of a sheet."""
    prior, stated = PRIORS[sheet.family], _stated(sheet.law)
    if stated is not None:
        return Basis(law_of(sheet.law, sheet.family), stated, prior)
    own, side = finding(sheet, stage), _side(sheet, stage)
    if sheet.law.kind == TABLE:
        return _table(own or next(iter(side), None), prior)
    if own is not None and not own.believed:
        return Basis(prior, "doubted", prior, (own,))
    givers = (own,) if own is not None else tuple(each for each in side if each.believed)
    if not givers:
        return Basis(prior, "family", prior)
    law = reduce(combined, (each.law for each in givers), prior)
    return Basis(law, "side" if own is None else "own times", prior, givers)


def finding(sheet: ResinSheet, stage: StageName) -> Finding | None:
    """What the times of one step say; None where it has one temperature or none."""
    time = sheet.stage(stage)
    pairs = sorted(time.pairs, key=lambda pair: pair.temp) if time is not None else []
    if len(pairs) < 2:  # noqa: PLR2004 - one point is no line
        return None
    line = fit(
        tuple((pair.temp, pair.middle) for pair in pairs), tuple(pair.error for pair in pairs)
    )
    return Finding(stage, tuple(pairs), line, plausible(line.energy, sheet.family))


def _stated(entry: CureLawEntry) -> Origin | None:
    if entry.kind == FACTOR:
        return "rule" if entry.factor is None else "factor"
    return "energy" if entry.energy is not None and entry.kind != TABLE else None


def _side(sheet: ResinSheet, stage: StageName) -> tuple[Finding, ...]:
    """What the other steps of its side say."""
    found = (
        finding(sheet, each)
        for each in STAGES
        if each not in (stage, ALONE) and (each in CUP) is (stage in CUP)
    )
    return tuple(each for each in found if each is not None)


def _table(giver: Finding | None, prior: EnergyLaw) -> Basis:
    if giver is None:
        return Basis(prior, "family", prior)
    points = tuple((pair.temp, pair.middle) for pair in giver.pairs)
    return Basis(TableLaw(points), "table", prior, (giver,))


# -- in words ------------------------------------------------------------------------------------


def energy_text(law: EnergyLaw) -> Text:
    """An energy and its uncertainty."""
    energy, sigma = (Amount(each / 1e3, "Ratio", 1) for each in (law.energy, law.sigma))
    return say("{energy} ± {sigma} kJ/mol", energy=energy, sigma=sigma)


def doubts(sheet: ResinSheet, found: Finding) -> tuple[Text, ...]:
    """What speaks against the times of one step as they stand."""
    told = [] if found.believed else [_not_believed(found, sheet)]
    if found.line.worst > FAR_OFF:
        told.append(say("One of these times lies far off the line through them. Is it right?"))
    if sheet.glass is not None and found.pairs[0].temp < sheet.glass < found.pairs[-1].temp:
        both = say(
            "These times lie on both sides of the glass transition, {glass}: one energy hardly"
            " fits both.", glass=Amount(sheet.glass, "Kelvin", 0),
        )  # fmt: skip
        told.append(both)
    return tuple(told)


def _not_believed(found: Finding, sheet: ResinSheet) -> Text:
    low, high = (Amount(each / 1e3, "Ratio", 0) for each in limits(sheet.family))
    doubt = say(
        "{energy} by these times is hard to believe: {low} to {high} is usual. A slip, two"
        " different steps, or a cure that stalled?",
        energy=energy_text(found.law), low=low, high=high,
    )  # fmt: skip
    if sheet.law.kind == TABLE:
        return say("{doubt} The table goes by them as they stand.", doubt=doubt)
    return say(
        "{doubt} Not used: the default of the family is, {prior}. If it is right, enter it as the"
        " activation energy.",
        doubt=doubt, prior=energy_text(PRIORS[sheet.family]),
    )  # fmt: skip


def basis_text(basis: Basis) -> Text:
    """Where a law came from, in one sentence."""
    if basis.origin in PLAIN:
        return say(PLAIN[basis.origin])
    prior, steps = energy_text(basis.prior), _steps(basis.findings)
    if basis.origin == "family":
        return say("Default of the family, {prior}.", prior=prior)
    if basis.origin == "table":
        return say("Straight between the sheet's own times of {steps}.", steps=steps)
    if basis.origin == "doubted":
        return say(
            "Default of the family, {prior}: the {energy} of the sheet's times is not believed.",
            prior=prior, energy=energy_text(basis.findings[0].law),
        )  # fmt: skip
    laws = [each.law for each in basis.findings]
    return say(
        "From the sheet's {count} times of {steps}, {own}, and the default of the family, {prior};"
        " both together: {energy}.",
        count=sum(len(each.pairs) for each in basis.findings), steps=steps,
        own=energy_text(reduce(combined, laws)), prior=prior,
        energy=energy_text(reduce(combined, laws, basis.prior)),
    )  # fmt: skip


def _steps(findings: tuple[Finding, ...]) -> str:
    return " and ".join(STAGE_LABELS[each.stage].lower() for each in findings)


def sheet_doubts(sheet: ResinSheet) -> tuple[Text, ...]:
    """Every step whose own times are doubted, for whoever goes by its forecasts."""
    found = (finding(sheet, stage) for stage in STAGES)
    return tuple(
        say("{stage}: {doubt}", stage=STAGE_LABELS[each.stage], doubt=doubt)
        for each in found
        if each is not None and _stated(sheet.law) is None
        for doubt in doubts(sheet, each)
    )


def outside_use(sheet: ResinSheet, temp: Kelvin) -> Text | None:
    """A temperature that the sheet does not allow may still tell how times change."""
    low, high = sheet.temp_lowest, sheet.temp_highest
    if low is not None and temp < low:
        return say("Under its lowest of use, {limit}: good for the law alone.",
                   limit=Amount(low, "Kelvin", 0))  # fmt: skip
    if high is not None and temp > high:
        return say("Above its highest of use, {limit}: good for the law alone.",
                   limit=Amount(high, "Kelvin", 0))  # fmt: skip
    return None
