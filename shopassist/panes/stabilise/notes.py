"""What else is to be said at a step: steps of the pump, orders, what was found out."""

from shopassist.core.atmosphere import absolute_of_vacuum
from shopassist.core.pumping import AFTER_A_POWER_CUT, SHUT_DOWN, pauses
from shopassist.core.quantities import PascalAbsolute
from shopassist.core.stabilising import Step
from shopassist.core.wood_set import WoodSet
from shopassist.core.wording import Wording
from shopassist.services.stabilise_facts import WoodFigures
from shopassist.widgets.shown import FigureShown


def note(
    say: Wording, state: WoodSet, step: Step, found: WoodFigures,
    ambient: PascalAbsolute | None,
) -> str:  # fmt: skip
    """Everything that is to be known at this step."""
    told = [say.say(each) for each in found.notes.get(step.key, ())]
    if step.key == "pull":
        return _pull(say, state, told, ambient)
    if step.key == "dry" and "heading" in found.figures:
        told.append("A log heads somewhere; thick pieces end lower. No proof of dryness.")
    return " ".join(told)


def _pull(say: Wording, state: WoodSet, told: list[str], ambient: PascalAbsolute | None) -> str:
    if state.at("power_cut") is not None and state.at("gauge_read") is None:
        return " ".join(say.say(each) for each in AFTER_A_POWER_CUT)
    if state.at("pump_on") is not None and state.at("foam_down") is None:
        steps = ", ".join(say.amount(each, "PascalVacuum") for each in pauses(ambient))
        return " ".join([f"Pause at {steps} on the dial.", *told])
    if state.at("quiet") is not None:
        return "  ".join(f"{n} {say.say(each)}" for n, each in enumerate(SHUT_DOWN, 1))
    return " ".join(told)


def own_figures(
    say: Wording, state: WoodSet, step: Step, ambient: PascalAbsolute | None
) -> tuple[FigureShown, ...]:
    """Numbers that come from the last readings: loss in the oven, pressure, the oven's range."""
    if step.dryness is not None and step.dryness.loss is not None:
        allowed = step.dryness.allowed or 0.0
        return (FigureShown(
            "Lost since the weighing before", *say.split(step.dryness.loss, "Kilogram"),
            note=f"allowed {say.amount(allowed, 'Kilogram')}", explains=False, lead=False,
        ),)  # fmt: skip
    if step.key == "pull" and state.vacuums and ambient is not None:
        vacuum = state.vacuums[-1].vacuum
        if vacuum < ambient:
            absolute = absolute_of_vacuum(vacuum, ambient)
            share = say.percent(1 - absolute / ambient, 1)
            return (FigureShown(
                "In the chamber", *say.split(absolute, "PascalAbsolute"),
                note=f"{share} of this air", explains=False, lead=False,
            ),)  # fmt: skip
    return _oven_range(say, state, step)


def _oven_range(say: Wording, state: WoodSet, step: Step) -> tuple[FigureShown, ...]:
    began = state.at("bake_on")
    if step.key not in ("heat_up", "hold", "after") or began is None:
        return ()
    temps = [temp for at, temp in state.oven_temps if at >= began]
    if not temps:
        return ()
    low, high = (say.amount(each, "Kelvin") for each in (min(temps), max(temps)))
    return (FigureShown("Oven, newest reading", *say.split(temps[-1], "Kelvin"),
                        note=f"from {low} to {high} in this bake", explains=False,
                        lead=False),)  # fmt: skip
