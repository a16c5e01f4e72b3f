"""A milestone as a figure that explains itself."""

from shopassist.core.cure_law import EnergyLaw, FactorLaw, Law
from shopassist.core.figures import Figure, Origin
from shopassist.core.messages import say
from shopassist.core.milestones import SHEET_ERROR, THERMOMETER
from shopassist.core.sheets import STAGE_LABELS
from shopassist.services.cure import CureView, StageView

RANGE = say("Likely: two times out of three it falls within.")
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
    label = STAGE_LABELS[milestone.stage]
    inputs: dict[str, Figure | Origin] = {
        "time at the sheet's temperature": Origin(milestone.required, "Second", "sheet"),
        "the sheet's temperature": Origin(milestone.course.reference, "Kelvin", "sheet"),
        "since hardener": Origin(view.elapsed.likely, "Second", "measured", when=view.contact),
        **_law(milestone.course.law),
        "error of the sheet's time": Origin(SHEET_ERROR, "Ratio", "default", say("Ours.")),
        "error of the thermometer": Origin(THERMOMETER, "KelvinDelta", "default", say("Ours.")),
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
    )  # fmt: skip


def _law(law: Law) -> dict[str, Figure | Origin]:
    if isinstance(law, EnergyLaw):
        note = say("Of the family, unless the sheet says.")
        return {
            "activation energy": Origin(law.energy, "JoulePerMole", "default", note),
            "its uncertainty": Origin(law.sigma, "JoulePerMole", "default"),
        }  # fmt: skip
    if isinstance(law, FactorLaw):
        return {"factor per 10 degrees": Origin(law.factor, "Ratio", "sheet")}
    return {"table of times": Origin(f"{len(law.points)} points", "", "sheet")}
