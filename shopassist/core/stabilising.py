"""The one path from wet wood to a known uptake: what is next, and what it waits for."""

from collections.abc import Callable
from typing import Literal

from shopassist.core.drying import (
    BATH_LIMIT,
    Dryness,
    Rule,
    Weighing,
    judge,
    must_dry_again,
)
from shopassist.core.errors import RefusedError
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.pumping import QUIET, soak_minimum
from shopassist.core.quantities import Kelvin, Kilogram, Second, UtcSecond
from shopassist.core.wood_set import Event, WoodSet

StepKey = Literal[
    "weigh", "dry", "cool", "cover", "pull", "soak", "wrap", "heat_up", "hold", "after", "done"
]
STEPS: tuple[tuple[StepKey, str], ...] = (
    ("weigh", "Weigh"),
    ("dry", "Dry"),
    ("cool", "Cool"),
    ("cover", "Cover"),
    ("pull", "Vacuum"),
    ("soak", "Soak"),
    ("wrap", "Wrap"),
    ("heat_up", "Heat up"),
    ("hold", "Hold"),
    ("after", "Weigh out"),
)
"""Steps in their order, with their words."""
MARGIN = Second(600.0)
"""An appliance that switches itself off is announced this much before; ours."""


@frozen
class Terms:
    """What the user has said about oven, bath and bake; None: not said."""

    rule: Rule
    step: Kilogram
    """Step of the scale."""
    cut_off: Second | None = None
    """After so long the oven switches itself off."""
    soak: Second | None = None
    """Minimum of the sheet."""
    heat_up: Second | None = None
    """Worked out for these pieces in this oven."""
    hold: Second | None = None
    """Of the sheet, at its temperature in the core."""
    resin_limit: Kelvin = BATH_LIMIT


@frozen
class Wait:
    """A wait of the path, with what it is for."""

    key: str
    text: Text
    since: UtcSecond
    not_before: UtcSecond | None
    """None: ends on what the user sees, not by a clock."""


@frozen
class Step:
    """Where the set stands."""

    key: StepKey
    what: Text
    """What to do now, in the imperative."""
    why: Text | None = None
    """What is missing, or why it must be done again."""
    wait: Wait | None = None
    dryness: Dryness | None = None

    @property
    def number(self) -> int:
        """Place on the path, from 0."""
        keys = [key for key, _ in STEPS]
        return keys.index(self.key) if self.key in keys else len(keys)


def dryness(state: WoodSet, terms: Terms) -> Dryness:
    """What the weigh log says, by the chosen rule: weighings since the oven was last on."""
    began = state.at("oven_on") or UtcSecond(0.0)
    log = [Weighing(each.at, each.mass) for each in state.log()]
    hot = [each for each in log if each.at >= began]
    return judge(hot or log[-1:], terms.rule, terms.step)


def dry_mass(state: WoodSet) -> Kilogram | None:
    """Mass when it came out of the oven: the base of every later share."""
    bath = state.last("bath")
    oven = state.last("oven")
    if bath is not None and (oven is None or not must_dry_again(oven.mass, bath.mass)):
        return oven.mass if oven is not None else bath.mass
    return oven.mass if oven is not None else None


def stand(state: WoodSet, terms: Terms, now: UtcSecond) -> Step:
    """Tell where the set stands: what the furthest event on the path leads to."""
    for event, step in reversed(_PATH):
        if state.at(event) is not None and (event != "air_in" or state.at("covered") is not None):
            return step(state, terms, now)
    if state.last("wet") is None:
        return Step("weigh", say("Weigh the whole set before the oven."))
    return Step("dry", say("Into the oven at 103 °C, by a thermometer of its own, not the dial."))


def _cool(_state: WoodSet, terms: Terms, _now: UtcSecond) -> Step:
    limit = Amount(terms.resin_limit, "Kelvin", 0)
    return Step("cool", say("Seal it hot in a bag or a tin. Let it cool to {t} or less.", t=limit))


def _wrap(_state: WoodSet, _terms: Terms, _now: UtcSecond) -> Step:
    return Step("wrap", say("Drain, wipe, wrap each one in foil."))


def _load(_state: WoodSet, _terms: Terms, _now: UtcSecond) -> Step:
    what = say("Into the oven. Start when a thermometer of its own says that it is at its setting.")
    return Step("heat_up", what)


def _after(state: WoodSet, _terms: Terms, _now: UtcSecond) -> Step:
    if state.last("baked") is not None:
        return Step("done", say("Uptake is known. The cores go on to Blank."))
    return Step("after", say("Let them cool, unwrap, trim off the skin, and weigh the set."))


def _dry(state: WoodSet, terms: Terms, now: UtcSecond) -> Step:
    found = dryness(state, terms)
    began = state.events["oven_on"]
    if found.dry:
        return Step("dry", say("Dry by weight. Take it out and seal it at once."), found.text,
                    dryness=found)  # fmt: skip
    wait = Wait("weigh_again", say("Next weighing"), began, found.next_at or began)
    wound = state.windings[-1] if state.windings else began
    if terms.cut_off is not None and wound + terms.cut_off - MARGIN <= (found.next_at or now):
        wait = Wait("wind", say("Start the oven again, it switches itself off"), wound,
                    UtcSecond(wound + terms.cut_off - MARGIN))  # fmt: skip
    return Step("dry", say("Weigh the set again."), found.text, wait, found)


def _cover(state: WoodSet, _terms: Terms, _now: UtcSecond) -> Step:
    oven, bath = state.last("oven"), state.last("bath")
    fresh = bath is not None and bath.at >= state.events["cool"]
    if fresh and oven is not None and bath is not None and must_dry_again(oven.mass, bath.mass):
        return Step("cover", say("It took up water since the oven: dry it again."),
                    say("It gained {g}.", g=Amount(bath.mass - oven.mass, "Kilogram")))  # fmt: skip
    if not fresh:
        return Step("cover", say("Weigh it once more, just before the bath."))
    return Step("cover", say("Into the chamber, ballast on it, resin over it."))


def _pull(state: WoodSet, _terms: Terms, _now: UtcSecond) -> Step:
    if state.at("power_cut") is not None and state.at("gauge_read") is None:
        return Step("pull", say("Read the gauge and look at the oil."),
                    say("Power was cut: the state of the chamber is not known."))  # fmt: skip
    pump = state.at("pump_on")
    if pump is None:
        return Step("pull", say("Crack the vent, start the pump, go down in steps with pauses."
                                " Stay with it until the foam has collapsed."))  # fmt: skip
    quiet = state.at("quiet")
    if quiet is None:
        return Step("pull", say("Watch the bubbles. Say when there are none."),
                    say("It ends on what you see, not by a clock."),
                    Wait("vacuum", say("Under vacuum"), pump, None))  # fmt: skip
    wait = Wait("quiet", say("Without bubbles"), quiet, UtcSecond(quiet + QUIET))
    what = say("No bubbles for ten minutes? Close the valve, then let air in slowly.")
    return Step("pull", what, None, wait)


def _soak(state: WoodSet, terms: Terms, _now: UtcSecond) -> Step:
    air, pump = state.events["air_in"], state.at("pump_on")
    under = Second(max(air - pump, 0.0)) if pump is not None else Second(0.0)
    wait = Wait("soak", say("Soak"), air, UtcSecond(air + soak_minimum(under, terms.soak)))
    return Step("soak", say("Leave it covered. Then take it out and weigh it."), None, wait)


def _bake(state: WoodSet, terms: Terms, _now: UtcSecond) -> Step:
    began, hot = state.events["bake_on"], state.at("core_hot")
    if hot is not None:
        return _hold(hot, terms)
    if terms.heat_up is None:
        what = say("Say when the probe in the dummy core is at temperature.")
        why = say("Without a probe, give the size of the pieces and the oven.")
        return Step("heat_up", what, why, Wait("heat_up", say("In the oven"), began, None))
    until = None if terms.hold is None else UtcSecond(began + terms.heat_up + terms.hold)
    what = say("The hold begins when the core is hot, not when the door shuts.")
    return Step("heat_up", what, None, Wait("bake", say("Core hot, then hold"), began, until))


def _hold(hot: UtcSecond, terms: Terms) -> Step:
    if terms.hold is None:
        what, why = say("Hold as long as the sheet says."), say("No hold on the sheet.")
        return Step("hold", what, why, Wait("bake", say("Held"), hot, None))
    what = say("Hold. Not before the time; longer does no harm under the limit.")
    wait = Wait("bake", say("Hold"), hot, UtcSecond(hot + terms.hold))
    return Step("hold", what, None, wait)


_PATH: tuple[tuple[Event, Callable[[WoodSet, Terms, UtcSecond], Step]], ...] = (
    ("oven_on", _dry),
    ("oven_off", _cool),
    ("cool", _cover),
    ("covered", _pull),
    ("air_in", _soak),
    ("out_of_bath", _wrap),
    ("wrapped", _load),
    ("bake_on", _bake),
    ("bake_off", _after),
)
"""The events that move the set on, in the order of the path."""
NEEDS: dict[Event, tuple[StepKey, ...]] = {
    "oven_on": ("dry", "cool", "cover"),
    "oven_wound": ("dry",),
    "oven_off": ("dry",),
    "cool": ("cool",),
    "covered": ("cover",),
    "pump_on": ("pull",),
    "quiet": ("pull",),
    "bubbles": ("pull",),
    "air_in": ("pull",),
    "power_cut": ("pull", "dry", "heat_up", "hold"),
    "gauge_read": ("pull",),
    "out_of_bath": ("soak",),
    "wrapped": ("wrap",),
    "bake_on": ("heat_up",),
    "core_hot": ("heat_up",),
    "bake_off": ("heat_up", "hold"),
    "sank": ("soak", "wrap"),
    "floated": ("soak", "wrap"),
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
    field = f"stabilise.event.{event}"
    if event == "covered":
        oven, bath = state.last("oven"), state.last("bath")
        if bath is None or bath.at < state.events["cool"]:
            raise RefusedError("Weigh it first, just before the bath.", "", field)
        if oven is not None and must_dry_again(oven.mass, bath.mass):
            raise RefusedError("It took up water: back into the oven.", "", field)
    if event == "out_of_bath":
        wait = _soak(state, terms, now).wait
        if wait is not None and wait.not_before is not None and now < wait.not_before:
            raise RefusedError("The soak is not over: early removal spoils it.", "", field)
    if event == "oven_off" and not dryness(state, terms).dry:
        raise RefusedError("Not dry by weight yet.", dryness(state, terms).text, field)
