"""A milestone as a figure that explains itself."""

from shopassist.core.cure_law import EnergyLaw, FactorLaw, TableLaw
from shopassist.core.figures import Figure, Origin, OriginKind
from shopassist.core.messages import Amount, say
from shopassist.core.milestones import THERMOMETER, Milestone
from shopassist.core.sheet_law import Basis, Finding, basis_text
from shopassist.core.sheet_pairs import FIGURE_ERROR, WORDS
from shopassist.core.sheets import STAGE_LABELS
from shopassist.services.cure import CureView, StageView

OURS = ("rule", "family", "doubted")
"""Laws that the sheet does not give."""
TWO = 2
"""So many times have formulas of their own; more are a line."""
RANGE = say("Likely: two times out of three it falls within.")
PAST = "Past a late gel"
GATES = {
    "hazard": say("Shown early: only one time in forty it comes sooner."),
    "release": say("Shown late: only one time in forty it comes later."),
}
OMITS = (
    say("The warmth that the resin makes itself."),
    say("Damp, and a ratio that is off."),
    say("How air differs from resin: a thermometer in air leads or lags."),
)


def figure_of(view: CureView, stage: StageView) -> Figure:
    """The gate of one milestone with everything that went into it."""
    milestone = stage.forecast.milestone
    label = PAST if stage.aim == "hold" else STAGE_LABELS[milestone.stage]
    inputs: dict[str, Figure | Origin] = {
        "since hardener": Origin(view.elapsed.likely, "Second", "measured", when=view.contact),
        **milestone_inputs(milestone),
        "error of the thermometer": Origin(THERMOMETER, "KelvinDelta", "default"),
    }
    if view.latest is not None:
        note = say("Measured: {where}.", where=view.latest.where)
        inputs["temperature"] = Origin(
            view.latest.middle, "Kelvin", "typed", note, when=view.latest.at
        )
    else:
        guess = say("Nothing was read: 15 to 25 °C is taken; ours.")
        inputs["temperature"] = Origin(view.ahead.temps[1], "Kelvin", "default", guess)
    return Figure(
        f"cure.milestone.{stage.aim}", stage.gate, "UtcSecond", "cure_age.equivalent_age", inputs,
        stage.early, stage.late, RANGE, GATES[stage.kind], OMITS,
        missing=None if stage.gate is not None else say("no time can be given"), label=say(label),
        late=stage.kind == "release",
    )  # fmt: skip


def milestone_inputs(milestone: Milestone) -> dict[str, Figure | Origin]:
    """What the sheet gives for a step, and the law that it follows."""
    return {
        "time at the sheet's temperature": Origin(milestone.required, "Second", "sheet"),
        "the sheet's temperature": Origin(milestone.course.reference, "Kelvin", "sheet"),
        **_printed(milestone),
        **_law(milestone),
        "error of the sheet's time": Origin(FIGURE_ERROR, "Ratio", "default", unit="%"),
    }


def _printed(milestone: Milestone) -> dict[str, Figure | Origin]:
    """Further times of the sheet for the step: what it is held to where it is as warm as there."""
    template = {
        "release": "at {temp}: never earlier than that while it was no warmer",
        "hazard": "at {temp}: never later than that where it was as warm",
    }[milestone.kind]
    return {
        f"the sheet's {word} time": Origin(
            time, "Second", "sheet", say(template, temp=Amount(temp, "Kelvin"))
        )
        for word, (temp, time) in zip(WORDS.values(), milestone.printed, strict=False)
    }  # fmt: skip


def _law(milestone: Milestone) -> dict[str, Figure | Origin]:
    """The law of the step, where it came from, and its numbers."""
    law, basis = milestone.course.law, milestone.basis
    if basis is None:
        return {}
    kind: OriginKind = "default" if basis.origin in OURS else "sheet"
    if isinstance(law, FactorLaw):
        return {"factor per 10 degrees": Origin(law.factor, "Ratio", kind, basis_text(basis))}
    if isinstance(law, TableLaw):
        count = str(len(law.points))
        return {"table of so many times": Origin(count, "", kind, basis_text(basis))}
    if basis.origin in ("own times", "side"):
        energy: Figure | Origin = _together(basis, law)
        origin = Origin("activation energy", "", kind, basis_text(basis))
        return {"the law": origin, "activation energy": energy, **_sigma(law)}
    return {
        "activation energy": Origin(law.energy, "JoulePerMole", kind, basis_text(basis)),
        **_sigma(law),
    }


def _sigma(law: EnergyLaw) -> dict[str, Figure | Origin]:
    return {"its uncertainty": Origin(law.sigma, "JoulePerMole", "computed")}


def _together(basis: Basis, law: EnergyLaw) -> Figure:
    """What the sheet's times give, held together with the default of the family."""
    inputs: dict[str, Figure | Origin] = {}
    for each in basis.findings:
        name = f"by the sheet's times of {STAGE_LABELS[each.stage].lower()}"
        inputs[name] = _by_times(each)
        inputs[f"{name}, uncertainty"] = _sigma_of_times(each)
    inputs["default of the family"] = Origin(basis.prior.energy, "JoulePerMole", "default")
    inputs["default of the family, uncertainty"] = Origin(
        basis.prior.sigma, "JoulePerMole", "default"
    )
    return Figure("cure.law", law.energy, "JoulePerMole", "cure_law.combined", inputs)


def _by_times(found: Finding) -> Figure:
    """The energy of the times of one step."""
    times: dict[str, Figure | Origin] = {}
    for number, pair in enumerate(found.pairs):
        note = say("at {temp}; error {error}", temp=Amount(pair.temp, "Kelvin"),
                   error=Amount(pair.error, "Ratio", 2))  # fmt: skip
        times[f"time {number + 1}"] = Origin(pair.middle, "Second", "sheet", note)
    formula = "arrhenius.two_pair_energy" if len(found.pairs) == TWO else "cure_law.fit"
    return Figure("cure.law.times", found.line.energy, "JoulePerMole", formula, times)


def _sigma_of_times(found: Finding) -> Figure:
    """How sure that energy is."""
    errors: dict[str, Figure | Origin] = {}
    for number, pair in enumerate(found.pairs):
        note = say("of the time at {temp}; ours", temp=Amount(pair.temp, "Kelvin"))
        errors[f"error {number + 1}"] = Origin(pair.error, "Ratio", "default", note)
    formula = "arrhenius.two_pair_sigma" if len(found.pairs) == TWO else "cure_law.fit"
    return Figure("cure.law.sigma", found.line.sigma, "JoulePerMole", formula, errors)
