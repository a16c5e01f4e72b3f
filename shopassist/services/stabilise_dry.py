"""Numbers of the drying: moisture, where the log is heading, the oven, the air of the shop."""

from shopassist.core.drying import NEEDED, OVEN, OVEN_BAND, must_dry_again, resolution
from shopassist.core.drying_end import end_mass, intervals_left, loss_ratio
from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure, Origin
from shopassist.core.frozen import replace
from shopassist.core.humidity import humidity_when_heated
from shopassist.core.messages import Amount, say
from shopassist.core.moisture import dry_mass as dry_mass_by
from shopassist.core.moisture import (
    equilibrium_moisture,
    moisture,
    shrinkage_between,
    water_in,
)
from shopassist.core.quantities import Kelvin, Kilogram, Ratio
from shopassist.core.stabilising import dry_mass
from shopassist.core.wood_set import Weighed
from shopassist.services.stabilise_facts import (
    STEP,
    Findings,
    WoodFacts,
    ours,
    species_of,
    typed,
)

NEAR_ENOUGH = Ratio(0.001)
AIR_DRY = Ratio(0.12)
METER_MOST = Ratio(0.30)
"""Above the fibre saturation a meter guesses; common practice."""
SET_METER = say("A meter is set for one wood at one warmth: correct it by its own table first.")
WET_METER = say("Above 30 % a meter only guesses, and it is set for one wood at one warmth.")
OVEN_LIMIT = Kelvin(OVEN + 2 * OVEN_BAND)
"""Wood in an oven above this is told of where nobody set a limit; ours."""


def _measured(each: Weighed) -> Origin:
    return Origin(each.mass, "Kilogram", "measured", when=each.at)


def dry_figures(facts: WoodFacts, found: Findings) -> None:
    """Everything that the weigh log, the oven and the air say."""
    _moisture(facts, found)
    _by_meter(facts, found)
    _scale(facts, found)
    _heading(facts, found)
    _regain(facts, found)
    _air(facts, found)
    _oven(facts, found)
    _shrinks(facts, found)
    _meter(facts, found)


def _moisture(facts: WoodFacts, found: Findings) -> None:
    wet, oven = facts.state.last("wet"), facts.state.last("oven")
    if wet is None or oven is None or wet.mass < oven.mass:
        return
    inputs: dict[str, Figure | Origin] = {"mass": _measured(wet), "dry": _measured(oven)}
    found.put("moisture", "Moisture at the start", moisture(wet.mass, oven.mass), "Ratio",
              "moisture.moisture", inputs, "What was not driven out yet.")  # fmt: skip


def _by_meter(facts: WoodFacts, found: Findings) -> None:
    """What the wood should come to and what it holds, by the meter, before the oven has told.

    At its floor a meter says *this or less*: the mass is a range up to that of the wet wood.
    """
    state, wet = facts.state, facts.state.last("wet")
    began = state.at("oven_on")
    meters = [each for each in state.meters if began is None or each.at <= began]
    if wet is None or not meters or state.at("oven_off") is not None:
        return
    shown, floor = meters[-1].shown, meters[-1].floor
    at_floor = shown <= floor
    share = Ratio(floor if at_floor else shown)
    inputs: dict[str, Figure | Origin] = {
        "mass": _measured(wet), "moisture": typed(share, "Ratio"),
    }  # fmt: skip
    omits = "The meter's own error: a mass to expect, no proof of dryness."
    told = WET_METER if share > METER_MOST else SET_METER
    for step in ("weigh", "dry"):
        found.note(step, told)
    least = dry_mass_by(wet.mass, share)
    found.put("by_meter", "By the meter it is dry at", least, "Kilogram", "moisture.dry_mass",
              inputs, omits)  # fmt: skip
    if at_floor:
        made = found.figures["by_meter"]
        found.figures["by_meter"] = replace(
            made, label=say("By the meter it is dry from"), low=least, high=wet.mass,
            range_means=say("At its floor the meter says this or less."),
        )  # fmt: skip
    elif state.last("oven") is None:
        found.put("water", "Water in it now", water_in(wet.mass, share), "Kilogram",
              "moisture.water_in", inputs, omits)  # fmt: skip


def _scale(facts: WoodFacts, found: Findings) -> None:
    newest = facts.state.log()
    if not newest:
        return
    step = Kilogram(facts.said.get("scale_step") or STEP)
    found.put("resolution", "Scale cannot tell from dry", resolution(newest[-1].mass, step),
              "Ratio", "drying.resolution",
              {"dry": _measured(newest[-1]), "step": typed(step, "Kilogram")})  # fmt: skip


def _heading(facts: WoodFacts, found: Findings) -> None:
    log = [each for each in facts.state.log() if each.when == "oven"][-NEEDED:]
    if len(log) < NEEDED:
        return
    one, two, three = log
    first, second = two.at - one.at, three.at - two.at
    if first <= 0 or abs(second - first) > first / 10:
        return
    try:
        end = end_mass(one.mass, two.mass, three.mass)
        left = intervals_left(loss_ratio(one.mass, two.mass, three.mass), three.mass, end,
                              NEAR_ENOUGH)  # fmt: skip
    except ShopError:
        return
    inputs: dict[str, Figure | Origin] = {
        "first": _measured(one), "second": _measured(two), "third": _measured(three)
    }  # fmt: skip
    found.put("heading", "Heading for", end, "Kilogram", "drying_end.end_mass", inputs,
              "Thick pieces slow down later and end lower: never a proof of dryness.")  # fmt: skip
    found.put("intervals", "More intervals like the last", left, "Ratio",
              "drying_end.intervals_left", inputs, "A hope, no proof.")  # fmt: skip


def _regain(facts: WoodFacts, found: Findings) -> None:
    state = facts.state
    oven, bath = state.last("oven"), state.last("bath")
    if oven is None or bath is None or bath.at < oven.at or bath.mass < oven.mass:
        return
    found.put("regain", "Taken up since the oven", moisture(bath.mass, oven.mass), "Ratio",
              "moisture.moisture", {"mass": _measured(bath), "dry": _measured(oven)})  # fmt: skip
    if must_dry_again(oven.mass, bath.mass):
        found.note("cover", say("Seal it hot in a bag or a tin next time: open wood goes back to"
                                " the moisture of the air."))  # fmt: skip


def _air(facts: WoodFacts, found: Findings) -> None:
    temp, humidity = facts.said.get("air_temp"), facts.said.get("air_humidity")
    if temp is None or humidity is None:
        return
    air: dict[str, Figure | Origin] = {
        "temp": typed(temp, "Kelvin"), "humidity": typed(humidity, "Ratio")
    }  # fmt: skip
    try:
        rests = equilibrium_moisture(Kelvin(temp), Ratio(humidity))
        heated = humidity_when_heated(Kelvin(temp), Ratio(humidity), OVEN)
        floor = equilibrium_moisture(OVEN, heated)
    except ShopError as error:
        found.problems["air_humidity" if error.field == "humidity" else "air_temp"] = error.title
        return
    found.put("air", "Wood left in this air goes to", rests, "Ratio",
              "moisture.equilibrium_moisture", air,
              "Species differ; the handbook's mean.")  # fmt: skip
    found.put("oven_floor", "An oven fed with it leaves", floor, "Ratio",
              "moisture.equilibrium_moisture",
              {**air, "heated to": ours(OVEN, "Kelvin")})  # fmt: skip
    dry = dry_mass(facts.state)
    if dry is not None:
        gain = Amount(dry * rests, "Kilogram")
        found.note("cool", say("Left open it takes up to {g} of water from this air.", g=gain))


def _oven(facts: WoodFacts, found: Findings) -> None:
    """By the thermometer: how far above its dial, and whether it is too hot."""
    state = facts.state
    if not state.oven_temps:
        return
    _, temp = state.oven_temps[-1]
    limit = oven_limit(facts)
    if temp > limit:
        shown, most = Amount(temp, "Kelvin"), Amount(limit, "Kelvin")
        text = say("The oven is at {t}, above {most}: turn it down, look at the wood, set its"
                   " cut-out.", t=shown, most=most)  # fmt: skip
        for step in ("dry", "heat_up", "hold"):
            found.note(step, text)
    elif temp < OVEN - OVEN_BAND:
        found.note("dry", say("The standards dry at {t}; cooler takes longer and ends wetter.",
                              t=Amount(OVEN, "Kelvin", 0)))  # fmt: skip


def oven_limit(facts: WoodFacts) -> Kelvin:
    """What the oven must not pass."""
    return Kelvin(facts.said.get("oven_limit") or OVEN_LIMIT)


def _shrinks(facts: WoodFacts, found: Findings) -> None:
    """Both ways across the grain: where they differ cracks open and round work turns oval."""
    wood = species_of(facts.said)
    if wood is None:
        return
    for name, label, share in (
        ("shrinks", "Shrinks along the rings, 12 % to dry", wood.tangential),
        ("shrinks_radial", "Across the rings", wood.radial),
    ):
        if share is None:
            continue
        note = Origin(share, "Ratio", "standard", say("Mean of {name}.", name=wood.name),
                      source="WH190")  # fmt: skip
        found.put(name, label, shrinkage_between(share, AIR_DRY, Ratio(0.0)), "Ratio",
                  "moisture.shrinkage_between", {"green_to_dry": note},
                  "The piece in hand: measure it again when it is dry.")  # fmt: skip
    if wood.volumetric is not None:
        volume = Origin(wood.volumetric, "Ratio", "standard", say("Mean of {name}.",
                        name=wood.name), source="WH190")  # fmt: skip
        found.put("shrinks_volume", "Its volume, green to dry", wood.volumetric, "Ratio", "",
                  {"of the table": volume})  # fmt: skip


def _meter(facts: WoodFacts, found: Findings) -> None:
    """A meter's bias against the scale: a warning about that meter, no correction."""
    state = facts.state
    wet, dry = state.last("wet"), dry_mass(state)
    if not state.meters or wet is None or dry is None or wet.mass < dry:
        return
    first = state.meters[0]
    if first.shown <= first.floor:
        return
    off = first.shown - moisture(wet.mass, dry)
    words = "lower" if off < 0 else "higher"
    found.note("cool", say("The meter showed {d} {way} than the scale found: trust the scale.",
                           d=Amount(abs(off), "Ratio", 1, "%"), way=words))  # fmt: skip
