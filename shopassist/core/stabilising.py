"""The one path from wet wood to a known uptake: what is next, and what it waits for."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Literal

from shopassist.core.drying import (
    BATH_LIMIT,
    OVEN,
    Dryness,
    Rule,
    Weighing,
    judge,
    must_dry_again,
)
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.oven_time import gap_time, hot_since, hot_time, is_off
from shopassist.core.pumping import QUIET, soak_minimum
from shopassist.core.quantities import Kelvin, Kilogram, Second, UtcSecond
from shopassist.core.wood_set import Event, Weighed, WoodSet

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
BRIDGED = Second(300.0)
"""A bake that was off no longer than this has not cooled; ours."""


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
    dry_for: Second | None = None
    """Hours that the wood is meant to stay in the oven before it is worth a weighing."""


@frozen
class Wait:
    """A wait of the path, with what it is for."""

    key: str
    text: Text
    since: UtcSecond
    not_before: UtcSecond | None
    """None: ends on what the user sees, not by a clock."""
    by: bool = False
    """True where something must be done by then, not after it."""


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


def dryness(state: WoodSet, terms: Terms, now: UtcSecond) -> Dryness:
    """What the weigh log says, by the chosen rule: weighings since the oven was last on.

    Hours count while the oven was on; the pieces of a set that were weighed one by one are
    judged one by one.
    """
    began = state.at("oven_on") or UtcSecond(0.0)
    log = state.log()
    hot = [each for each in log if each.at >= began] or log[-1:]

    def counted(at: UtcSecond) -> UtcSecond:
        return (
            UtcSecond(began + hot_time(state.dry_runs, terms.cut_off, at)) if state.dry_runs else at
        )

    found = judge([Weighing(counted(each.at), each.mass) for each in hot], terms.rule, terms.step)
    if found.dry:
        found = _each_piece(hot, counted, terms) or found
    if found.next_at is None:
        return found
    least = began + terms.dry_for if terms.dry_for is not None and state.dry_runs else 0.0
    left = max(0.0, found.next_at - counted(now), least - counted(now))
    return replace(found, next_at=UtcSecond(now + left))


def _each_piece(
    hot: Sequence[Weighed], counted: Callable[[UtcSecond], UtcSecond], terms: Terms
) -> Dryness | None:
    """The first piece of a dry set that is not dry itself."""
    count = len(hot[-1].each)
    alike = [each for each in hot if len(each.each) == count]
    for number in range(count):
        log = [Weighing(counted(each.at), each.each[number]) for each in alike]
        found = judge(log, terms.rule, terms.step)
        if not found.dry:
            return replace(found, text=say("Piece {n}: {what}", n=str(number + 1), what=found.text))
    return None


def dry_mass(state: WoodSet) -> Kilogram | None:
    """Mass when it came out of the oven: the base of every later share.

    What weighs less just before the bath goes into it with that weight: a piece may be missing.
    """
    oven, bath = state.last("oven"), state.last("bath")
    if oven is None or bath is None:
        known = oven or bath
        return None if known is None else known.mass
    return min(oven.mass, bath.mass) if bath.at >= oven.at else oven.mass


def stand(state: WoodSet, terms: Terms, now: UtcSecond) -> Step:
    """Tell where the set stands: what the furthest event on the path leads to."""
    for event, step in reversed(_PATH):
        if state.at(event) is not None and (event != "air_in" or state.at("covered") is not None):
            return step(state, terms, now)
    if state.last("wet") is None:
        return Step("weigh", say("Weigh the whole set before the oven."))
    return Step("dry", say("Into the oven at {t}, by a thermometer of its own, not the dial.",
                           t=Amount(OVEN, "Kelvin", 0)))  # fmt: skip


def _cool(state: WoodSet, terms: Terms, _now: UtcSecond) -> Step:
    limit = Amount(terms.resin_limit, "Kelvin", 0)
    what = say("Seal it hot in a bag or a tin. Let it cool to {t} or less.", t=limit)
    why = say("Warm wood sets the bath; open wood takes up water.")
    return Step("cool", what, why, Wait("cool", say("Cooling"), state.events["oven_off"], None))


def _wrap(_state: WoodSet, _terms: Terms, _now: UtcSecond) -> Step:
    return Step("wrap", say("Drain, wipe, wrap each one in foil."))


def _load(_state: WoodSet, _terms: Terms, _now: UtcSecond) -> Step:
    what = say("Into the oven. Start when a thermometer of its own says that it is at its setting.")
    return Step("heat_up", what)


def _after(state: WoodSet, terms: Terms, _now: UtcSecond) -> Step:
    baked, off = state.last("baked"), state.events["bake_off"]
    why = say("It came out before its core was held long enough: look for soft pieces.")
    short = why if is_short(state, terms) else None
    if state.at("soft") is not None:
        return Step("done", say("Sort out the soft pieces, or bake the set again."),
                    say("Half-cured wood is reported not to be saved by a second bake; others say"
                        " that more heat harms nothing. No source settles it."))  # fmt: skip
    if baked is not None and baked.at >= off:
        return Step("done", _known(dry_mass(state), baked.mass), short)
    cooling = Wait("cool_after", say("Out of the oven"), off, None)
    what = say("Let them cool, unwrap, trim off the skin, and weigh the set.")
    return Step("after", what, short, cooling)


def _known(dry: Kilogram | None, baked: Kilogram) -> Text:
    if dry is None:
        return say("No uptake: there is no dry mass. The cores go on to Blank.")
    if baked < dry:
        return say("No uptake: it weighs less than its dry wood. Look at both weights.")
    return say("Uptake is known. The cores go on to Blank.")


def is_short(state: WoodSet, terms: Terms) -> bool:
    """True where the bake ended before the core had been held as long as the sheet says."""
    off = state.at("bake_off")
    if off is None or terms.hold is None:
        return False
    before = UtcSecond(off - 1.0)
    since = hot_since(state.runs, terms.cut_off, before, BRIDGED)
    hot = state.at("core_hot")
    if since is None or (hot is None and terms.heat_up is None):
        return True
    began = hot if hot is not None and hot >= since else since + (terms.heat_up or 0.0)
    return off < began + terms.hold


def _dry(state: WoodSet, terms: Terms, now: UtcSecond) -> Step:
    found = dryness(state, terms, now)
    began = state.events["oven_on"]
    if found.dry:
        return Step("dry", say("Dry by weight. Take it out and seal it at once."), found.text,
                    dryness=found)  # fmt: skip
    gate = found.next_at or began
    wait = _wind(state, terms, now, gate) or Wait("weigh_again", say("Next weighing"), began, gate)
    return Step("dry", say("Weigh the set again."), _gap(state, terms, now) or found.text, wait,
                found)  # fmt: skip


def _wind(state: WoodSet, terms: Terms, now: UtcSecond, gate: UtcSecond | None) -> Wait | None:
    """The oven that must be started again before the gate, or now."""
    if is_off(state.runs, terms.cut_off, now):
        last = state.runs[-1]
        own = now if terms.cut_off is None else last.start + terms.cut_off
        off = UtcSecond(own if last.end is None else min(last.end, own))
        return Wait("wind", say("The oven is off: start it again"), off, off, by=True)
    if terms.cut_off is None or not state.runs:
        return None
    start = state.runs[-1].start
    by = UtcSecond(start + terms.cut_off - min(MARGIN, terms.cut_off / 2))
    if gate is not None and gate < by:
        return None
    return Wait("wind", say("Start the oven again, it switches itself off"), start, by, by=True)


def _gap(state: WoodSet, terms: Terms, now: UtcSecond) -> Text | None:
    gap = gap_time(state.runs, terms.cut_off, now)
    if gap < 1.0:
        return None
    return say("The oven stood off for {gap}: that does not count.", gap=Amount(gap, "Second"))


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
    if state.at("foam_down") is None:
        what = say("Down in steps, with pauses. Stay with it until the foam has collapsed.")
        return Step("pull", what, say("No long wait begins before: foam goes into the pump."),
                    Wait("foam", say("Pump is on"), pump, None))  # fmt: skip
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
    why = say("Twice the vacuum, or the sheet's minimum. Thick pieces want longer.")
    return Step("soak", say("Leave it covered. Then take it out and weigh it."), why, wait)


def _bake(state: WoodSet, terms: Terms, now: UtcSecond) -> Step:
    began, hot = state.events["bake_on"], state.at("core_hot")
    since = hot_since(state.runs, terms.cut_off, now, BRIDGED)
    off = _wind(state, terms, now, None) if is_off(state.runs, terms.cut_off, now) else None
    if off is not None or since is None:
        what = say("Start the oven again. The core cools: its heating begins anew.")
        return Step("heat_up", what, _gap(state, terms, now), off)
    again = _gap(state, terms, now) if since > began else None
    if hot is not None and hot >= since:
        return _remind(_hold(hot, terms), state, terms, now)
    if terms.heat_up is None:
        what = say("Say when the probe in the dummy core is at temperature.")
        why = again or say("Without a probe, give the size of the pieces and the oven.")
        step = Step("heat_up", what, why, Wait("heat_up", say("In the oven"), since, None))
        return _remind(step, state, terms, now)
    until = None if terms.hold is None else UtcSecond(since + terms.heat_up + terms.hold)
    what = say("The hold begins when the core is hot, not when the door shuts.")
    wait = Wait("bake", say("Core hot, then hold"), since, until)
    return _remind(Step("heat_up", what, again, wait), state, terms, now)


def _remind(step: Step, state: WoodSet, terms: Terms, now: UtcSecond) -> Step:
    """Let the oven's own clock go before the wait where it runs out first."""
    gate = step.wait.not_before if step.wait is not None else None
    wind = _wind(state, terms, now, gate)
    return replace(step, wait=wind) if wind is not None else step


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


def not_comparable(state: WoodSet, terms: Terms, now: UtcSecond) -> Text | None:
    """Why an uptake is no measure beside others; None where it is."""
    if dry_mass(state) is None:
        return say("No dry mass: weigh before the bath next time.")
    if not dryness(state, terms, now).dry:
        return say("Its base was not proved dry: the water in it counts as wood.")
    if state.at("soft") is not None:
        return say("Some pieces are soft: resin in them is not all cured.")
    return None
