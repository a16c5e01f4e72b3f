"""Numbers of the vacuum: what the dial is worth here, what the pump can reach, what boils."""

from shopassist.core.atmosphere import absolute_of_vacuum, vacuum_of_absolute
from shopassist.core.chamber import cautions_of, vacuum_force
from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure, Origin
from shopassist.core.gas import expansion
from shopassist.core.humidity import saturation_pressure
from shopassist.core.messages import Amount, Text, say
from shopassist.core.monomer import monomer_pressure
from shopassist.core.pumping import (
    NEAR,
    is_slow,
    judge_vacuum,
    pump_down_time,
    stall_causes,
)
from shopassist.core.quantities import (
    CubicMetre,
    CubicMetrePerSecond,
    Kelvin,
    Metre,
    PascalAbsolute,
    Second,
)
from shopassist.services.stabilise_facts import (
    BATH_AT,
    Findings,
    WoodFacts,
    ours,
    typed,
)

NO_AIR = say("Type the barometer, or the shop's elevation in the settings: without them no dial"
             " can be judged.")  # fmt: skip
MMA = "mma"
HARDLY = 0.5
"""Of the air left over: no pump for this work stops so early; ours."""
WEATHER = 0.05
"""Weather moves the air's pressure by about 3 %; from here on another cause is likelier; ours."""


def best_of(facts: WoodFacts) -> PascalAbsolute | None:
    """What the pump can reach: typed before its record."""
    value = facts.said.get("pump_best")
    if value is not None:
        return PascalAbsolute(value)
    return facts.pump.best if facts.pump is not None else None


def speed_of(facts: WoodFacts) -> CubicMetrePerSecond | None:
    """What the pump takes away: typed before its record."""
    value = facts.said.get("pump_speed")
    if value is not None:
        return CubicMetrePerSecond(value)
    return facts.pump.speed if facts.pump is not None else None


def free_of(facts: WoodFacts, filled: float) -> CubicMetre | None:
    """Gas in the chamber: typed, or its record less what is in it."""
    value = facts.said.get("chamber")
    if value is not None:
        return CubicMetre(value)
    inside = facts.chamber.volume if facts.chamber is not None else None
    if inside is None or filled >= inside:
        return None
    return CubicMetre(inside - filled)


def bath_temperature(facts: WoodFacts) -> Kelvin:
    """Typed, or ours."""
    return Kelvin(facts.said.get("bath_temp") or BATH_AT)


def vacuum_figures(facts: WoodFacts, filled: float, found: Findings) -> None:
    """Everything about chamber, pump and dial."""
    _lid(facts, found)
    _boiling(facts, found)
    if facts.chamber is not None:
        for caution in cautions_of(facts.chamber):
            found.note("cover", caution)
    _pump(facts, found)
    _barometer(facts, found)
    ambient, best = facts.ambient, best_of(facts)
    if ambient is None:
        found.note("pull", NO_AIR)
        return
    if best is not None:
        _reach(facts, ambient, best, filled, found)
    if facts.state.vacuums:
        _dial(facts, ambient, best, filled, found)


def _barometer(facts: WoodFacts, found: Findings) -> None:
    """A weather report's pressure is that of the sea: high up it would make a good pump leak."""
    read, here = facts.said.get("barometer"), facts.by_height
    if read is not None and here is not None and abs(read / here - 1) > WEATHER:
        found.problems["barometer"] = say(
            "By the shop's elevation the air is {here}: is this as brought to sea level, or is the"
            " elevation in the settings wrong?", here=Amount(here, "PascalAbsolute", 0),
        )  # fmt: skip


def _lid(facts: WoodFacts, found: Findings) -> None:
    across = facts.said.get("vessel_diameter")
    if facts.chamber is not None:
        across = facts.chamber.diameter
    if across is None or facts.ambient is None:
        return
    try:
        force = vacuum_force(Metre(across), facts.ambient)
    except ShopError:
        return
    found.put("lid", "Air presses on the lid with", force, "Newton", "chamber.vacuum_force",
              {"ambient": Origin(facts.ambient, "PascalAbsolute", "record"),
               "diameter": typed(across, "Metre")}, "A lid wider than the vessel.")  # fmt: skip


def _boiling(facts: WoodFacts, found: Findings) -> None:
    temp = bath_temperature(facts)
    origin: dict[str, Figure | Origin] = {
        "temp": typed(temp, "Kelvin") if facts.said.get("bath_temp") else ours(temp, "Kelvin")
    }  # fmt: skip
    try:
        found.put("water_boils", "Water boils in this bath at", saturation_pressure(temp),
                  "PascalAbsolute", "humidity.saturation_pressure", origin)  # fmt: skip
        if facts.said.word("monomer") == MMA:
            found.put("monomer_boils", "The resin itself boils at", monomer_pressure(temp),
                      "PascalAbsolute", "monomer.monomer_pressure", origin,
                      "A resin that is only partly monomer boils a little deeper.")  # fmt: skip
    except ShopError as error:
        found.problems["bath_temp"] = error.title


def _pump(facts: WoodFacts, found: Findings) -> None:
    pump, state = facts.pump, facts.state
    if pump is None:
        return
    began = state.at("pump_on")
    if pump.rest is not None and began is not None and facts.now - began > pump.rest:
        found.note("pull", say("{pump} has run for {time}: feel how hot it is, let it rest by the"
                               " order of shutting down.", pump=pump.name,
                               time=Amount(facts.now - began, "Second")))  # fmt: skip
    if pump.oil_every is not None and facts.pump_hours > pump.oil_every:
        found.note("cover", say("{pump} has run {time} since its oil was changed: change it.",
                                pump=pump.name,
                                time=Amount(facts.pump_hours, "Second")))  # fmt: skip


def _reach(
    facts: WoodFacts, ambient: PascalAbsolute, best: PascalAbsolute, filled: float, found: Findings
) -> None:
    inputs: dict[str, Figure | Origin] = {
        "ambient": Origin(ambient, "PascalAbsolute", "record"),
        "best": typed(best, "PascalAbsolute"),
    }  # fmt: skip
    if best > HARDLY * ambient:
        found.problems["pump_best"] = say("So high an absolute pressure is hardly a vacuum: was a"
                                          " dial's reading typed? 27 inHg on the dial are 2.92 inHg"
                                          " absolute.")  # fmt: skip
        return
    try:
        found.put("dial_best", "Dial can reach here", vacuum_of_absolute(best, ambient),
                  "PascalVacuum", "atmosphere.vacuum_of_absolute", inputs)  # fmt: skip
        found.put("swells", "Bubbles swell there", expansion(best, ambient), "Ratio",
                  "gas.expansion", inputs,
                  "Vapour, and gas that comes out of the resin.")  # fmt: skip
    except ShopError as error:
        found.problems["pump_best"] = error.title
        return
    expected = _expected(facts, ambient, PascalAbsolute(best * NEAR), best, filled)
    if expected is not None:
        found.put("pump_down", "Pump-down if tight", expected, "Second",
                  "pumping.pump_down_time", inputs,
                  "Leaks, vapour, wet wood: much longer means one of them.")  # fmt: skip


def _expected(
    facts: WoodFacts, ambient: PascalAbsolute, goal: PascalAbsolute, best: PascalAbsolute,
    filled: float,
) -> Second | None:  # fmt: skip
    speed, free = speed_of(facts), free_of(facts, filled)
    if speed is None or free is None:
        return None
    try:
        return pump_down_time(free, speed, ambient, goal, best)
    except ShopError:
        return None


def _dial(
    facts: WoodFacts, ambient: PascalAbsolute, best: PascalAbsolute | None, filled: float,
    found: Findings,
) -> None:  # fmt: skip
    newest = facts.state.vacuums[-1]
    try:
        absolute = absolute_of_vacuum(newest.vacuum, ambient)
    except ShopError:
        return
    below = _near_boiling(absolute, found)
    if best is None:
        found.note("pull", say("Type what the pump reaches to judge the dial."))
        return
    verdict = judge_vacuum(newest.vacuum, ambient, best)
    found.note("pull", verdict.text)
    if verdict.deep_enough:
        return
    if _is_slow(facts, ambient, verdict.absolute, best, filled):
        temp = bath_temperature(facts)
        boils = facts.said.word("monomer") == MMA and not below
        monomer = monomer_pressure(temp) if boils else None
        causes = stall_causes(verdict.absolute, best, temp, monomer)
        found.note("pull", _standing(causes))


def _standing(causes: tuple[Text, ...]) -> Text:
    text = causes[0]
    for other in causes[1:]:
        text = say("{one} Or: {other}", one=text, other=other)
    return say("Standing there: {why}", why=text)


def _near_boiling(absolute: PascalAbsolute, found: Findings) -> bool:
    """Deep enough for the resin itself to boil, however deep the pump could go."""
    boils = found.figures.get("monomer_boils")
    if boils is None or boils.value is None or absolute > boils.value:
        return False
    found.note("pull", say("Deeper than {p} the resin itself boils: those bubbles never end."
                           " Let a little air in.",
                           p=Amount(boils.value, "PascalAbsolute")))  # fmt: skip
    return True


def _is_slow(
    facts: WoodFacts, ambient: PascalAbsolute, reached: PascalAbsolute, best: PascalAbsolute,
    filled: float,
) -> bool:  # fmt: skip
    pump = facts.state.at("pump_on")
    if pump is None:
        return False
    expected = _expected(facts, ambient, reached, best, filled)
    taken = Second(max(0.0, facts.state.vacuums[-1].at - pump))
    return expected is None or is_slow(taken, expected)
