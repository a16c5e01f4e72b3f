"""What may be reported when: an event out of its turn is refused with what stands in its way."""

from collections.abc import Callable

from shopassist.core.drying import must_dry_again
from shopassist.core.errors import RefusedError
from shopassist.core.quantities import UtcSecond
from shopassist.core.stabilising import STEPS, StepKey, Terms, dryness, stand
from shopassist.core.wood_set import Event, WoodSet

NEEDS: dict[Event, tuple[StepKey, ...]] = {
    "oven_on": ("dry", "cool", "cover"),
    "oven_wound": ("dry", "heat_up", "hold"),
    "oven_cut": ("dry", "heat_up", "hold"),
    "oven_off": ("dry",),
    "cool": ("cool",),
    "covered": ("cover",),
    "pump_on": ("pull",),
    "foam_down": ("pull",),
    "quiet": ("pull",),
    "bubbles": ("pull",),
    "air_in": ("pull",),
    "power_cut": ("pull",),
    "gauge_read": ("pull",),
    "out_of_bath": ("soak",),
    "wrapped": ("wrap",),
    "bake_on": ("heat_up", "done"),
    "core_hot": ("heat_up",),
    "bake_off": ("heat_up", "hold"),
    "sank": ("soak", "wrap"),
    "floated": ("soak", "wrap"),
    "hard": ("after", "done"),
    "soft": ("after", "done"),
}
"""At which step an event makes sense; letting air in is never refused."""


def need_turn(state: WoodSet, terms: Terms, event: Event, now: UtcSecond) -> None:
    """Refuse an event that has no place on the path now, saying what stands in its way."""
    here = stand(state, terms, now)
    if event == "air_in" or here.key in NEEDS[event]:
        _need_gate(state, terms, event, now)
        return
    title = "That step is not due yet." if here.number < len(STEPS) else "This set is done."
    raise RefusedError(title, here.what, f"stabilise.event.{event}")


def _need_gate(state: WoodSet, terms: Terms, event: Event, now: UtcSecond) -> None:
    gate = _GATES.get(event)
    if gate is not None:
        gate(state, terms, now)


def _covered(state: WoodSet, _terms: Terms, _now: UtcSecond) -> None:
    oven, bath = state.last("oven"), state.last("bath")
    if bath is None or bath.at < state.events["cool"]:
        raise RefusedError("Weigh it first, just before the bath.", "", _field("covered"))
    if oven is not None and must_dry_again(oven.mass, bath.mass):
        raise RefusedError("It took up water: back into the oven.", "", _field("covered"))


def _out_of_bath(state: WoodSet, terms: Terms, now: UtcSecond) -> None:
    wait = stand(state, terms, now).wait
    if wait is not None and wait.not_before is not None and now < wait.not_before:
        title = "The soak is not over: early removal spoils it."
        raise RefusedError(title, "", _field("out_of_bath"))


def _oven_off(state: WoodSet, terms: Terms, now: UtcSecond) -> None:
    found = dryness(state, terms, now)
    if not found.dry:
        raise RefusedError("Not dry by weight yet.", found.text, _field("oven_off"))


def _quiet(state: WoodSet, _terms: Terms, _now: UtcSecond) -> None:
    if state.at("foam_down") is None:
        title = "Stay with it until the foam has collapsed."
        raise RefusedError(title, "", _field("quiet"))


def _bake_on(state: WoodSet, _terms: Terms, _now: UtcSecond) -> None:
    if state.at("bake_off") is not None and state.at("soft") is None:
        title = "This set is baked; only soft pieces go back."
        raise RefusedError(title, "", _field("bake_on"))


def _field(event: Event) -> str:
    return f"stabilise.event.{event}"


_GATES: dict[Event, Callable[[WoodSet, Terms, UtcSecond], None]] = {
    "covered": _covered,
    "out_of_bath": _out_of_bath,
    "oven_off": _oven_off,
    "quiet": _quiet,
    "bake_on": _bake_on,
}
"""What an event asks beside its place on the path."""
