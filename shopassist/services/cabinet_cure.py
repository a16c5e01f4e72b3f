"""A cure in the warm cabinet beside the same without it: when, and where its times are from."""

from collections.abc import Sequence

from shopassist.core.figures import Figure, Origin
from shopassist.core.frozen import frozen
from shopassist.core.messages import Text, say
from shopassist.core.milestones import THERMOMETER, Ahead
from shopassist.core.quantities import UtcSecond
from shopassist.core.sheets import STAGE_LABELS
from shopassist.services.cure import CureView, StageView
from shopassist.services.cure_figures import OMITS as CURE_OMITS
from shopassist.services.cure_figures import RANGE, milestone_inputs
from shopassist.services.warmup import OMITS as CABINET_OMITS
from shopassist.services.warmup import Given, Plan

ROUNDING = {
    "hazard": say("Shown early: only one time in forty it comes sooner. Warmth never puts it off."),
    "release": say("Shown late: only one time in forty it comes later."),
}


@frozen
class InCabinet:
    """One milestone with the cabinet, and as it stands without."""

    stage: StageView
    gate: UtcSecond | None
    without: UtcSecond | None


def in_cabinet(
    warm: Sequence[StageView], true: Sequence[StageView], now: float
) -> tuple[InCabinet, ...]:
    """What lies ahead in the cabinet; no hazard later than it stands without."""
    without = {(stage.aim, stage.kind): stage.gate for stage in true}
    found = []
    for stage in warm:
        if stage.gate is not None and stage.gate < now:
            continue
        here, gate = without.get((stage.aim, stage.kind)), stage.gate
        if stage.kind == "hazard" and gate is not None and here is not None:
            gate = min(gate, here)
        found.append(InCabinet(stage, gate, here))
    return tuple(found)


def figure_in_cabinet(
    name: str, each: InCabinet, given: Given, made: Plan, view: CureView | None, kept: Ahead
) -> Figure:
    """The gate in the cabinet with everything that went into it.

    A running cure follows the warm-up that was worked out; a planned one is kept at these.
    """
    milestone = each.stage.forecast.milestone
    inputs = {**milestone_inputs(milestone), **_warmth(given, made, view, kept)}
    if each.without is not None:
        note = say("as the cure stands, without the cabinet")
        inputs["else"] = Origin(each.without, "UtcSecond", "computed", note)
    return Figure(
        name, each.gate, "UtcSecond", "cure_age.equivalent_age", inputs,
        each.stage.early, each.stage.late, RANGE, ROUNDING[milestone.kind],
        tuple(dict.fromkeys((*CURE_OMITS, *CABINET_OMITS))),
        missing=None if each.gate is not None else say("no time can be given"),
        label=_label(each, running=view is not None), late=each.stage.kind == "release",
    )  # fmt: skip


def _label(each: InCabinet, *, running: bool) -> Text:
    template = "{stage}, if it went in now" if running else "{stage}, if it were mixed now"
    return say(template, stage=STAGE_LABELS[each.stage.forecast.milestone.stage])


def _warmth(
    given: Given, made: Plan, view: CureView | None, kept: Ahead
) -> dict[str, Figure | Origin]:
    """How warm the resin is taken to be, and why."""
    set_at = Origin(given.cabinet.set_at, "Kelvin", "record")
    found: dict[str, Figure | Origin] = {
        "error of the thermometer": Origin(THERMOMETER, "KelvinDelta", "default"),
        "thermostat": given.origins.get("thermostat", set_at),
        "shop": given.origins.get("shop", Origin(given.shop, "Kelvin", "typed")),
    }
    if view is None:
        note = say("it stands in a cabinet that is warm already")
        found["coldest of the resin"] = Origin(kept.low, "Kelvin", "computed", note)
        found["warmest of the resin"] = Origin(kept.high, "Kelvin", "computed", note)
        return found
    found["since hardener"] = Origin(
        view.elapsed.likely, "Second", "measured", when=view.contact
    )  # fmt: skip
    found["warm through after"] = made.warm_after
    return found
