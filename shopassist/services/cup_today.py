"""What may stand in one cup and in one layer today, and which way its heat goes."""

from math import floor
from typing import cast

from shopassist.core.cup import (
    CupCheck,
    DayLimits,
    Regime,
    check_cup,
    day_limits,
    regime,
    working_time_note,
)
from shopassist.core.cure_law import EnergyLaw, rate
from shopassist.core.figures import Figure, Origin
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.pour_plan import LayerPlan, plan_layers
from shopassist.core.quantities import Kelvin, Kilogram, Metre, Ratio, Second
from shopassist.core.sheet_law import basis_of, basis_text
from shopassist.core.sheets import ResinSheet
from shopassist.core.stops import MOST_CUPS, split_cups
from shopassist.services.beside import Beside, Caution, MixFacts, mixed
from shopassist.services.damp import ASK_AIR, damp_air, most_humid

HEAT_WORDS = {
    "low": say("Heat: low. It gives off its warmth as fast as it makes it."),
    "watch": say("Heat: watch it. It may warm itself noticeably."),
    "run-away": say("Heat: it may run away. Smaller cups, or out flat at once."),
}
NO_SHEET = say("Without a sheet no limit of mass or depth is known.")
TEN_MINUTES = 600.0
"""From here on a working time is told in whole minutes."""
INDICATIVE = say("Heat is indicative, by an index; the sheet's limits come first.")
COLD_IS_NO_CREDIT = say("A cold shop is no credit: the sheet's own limit stands.")


@frozen
class Earlier:
    """The last pour of the same resin, to hold today's against."""

    mass: Kilogram
    temp: Kelvin


@frozen
class CupToday:
    """Everything about one cup at today's temperature."""

    limits: DayLimits
    check: CupCheck | None
    cups: int
    """Cups that the whole amount wants; 1 where it fits, or no limit is known."""
    each: Kilogram | None
    heat: Regime | None
    layers: LayerPlan | None


def rate_today(sheet: ResinSheet, temp: Kelvin | None, at: Kelvin | None) -> Ratio | None:
    """How much faster it gels than at the sheet's temperature."""
    if temp is None or at is None:
        return None
    return rate(basis_of(sheet, "gel").law, temp, at)


def limits_today(sheet: ResinSheet, temp: Kelvin | None) -> DayLimits:
    """The sheet's limits, scaled downward only."""
    at = sheet.limits_at
    return day_limits(sheet.mass_limit, sheet.layer_limit, at, temp, rate_today(sheet, temp, at))


def cup_today(facts: MixFacts, temp: Kelvin | None) -> CupToday | None:
    """Judge the amount against today's limits; None without a sheet or grams."""
    sheet, plan = facts.sheet, facts.plan
    if sheet is None or plan.quantity != "Kilogram" or plan.total.value is None:
        return None
    limits, mass = limits_today(sheet, temp), mixed(facts)
    whole = Kilogram(plan.whole or mass)
    cups, each = _cups(whole, limits.mass)
    depth = cast("Metre | None", facts.said.get("pour_depth") or None)  # none is no depth
    layers = None
    if depth is not None and limits.depth is not None:
        layers = plan_layers(depth, limits.depth)
    deepest = layers.each if layers is not None else depth
    return CupToday(
        limits, check_cup(mass, limits.mass, temp, sheet.limits_at), cups, each,
        _heat(sheet, mass, deepest, temp), layers,
    )  # fmt: skip


def _cups(whole: Kilogram, most: Kilogram | None) -> tuple[int, Kilogram | None]:
    """Equal cups that stay within the most; no number where nobody would mix so many."""
    if most is None or whole > MOST_CUPS * most:
        return 1, None
    return split_cups(whole, most)


def _heat(
    sheet: ResinSheet, mass: Kilogram, depth: Metre | None, temp: Kelvin | None
) -> Regime | None:
    """Which way it goes, where the sheet gives a gel time and the law an energy."""
    gel, law = sheet.stage("gel"), basis_of(sheet, "gel").law
    if gel is None or gel.temp is None or temp is None or not isinstance(law, EnergyLaw):
        return None
    time = Second(gel.time / rate(law, temp, gel.temp))
    return regime(mass, depth, time, law.energy, temp)


# -- what is said ---------------------------------------------------------------------------------


def too_much(found: CupToday | None) -> Caution | None:
    """Why this is not for one cup today."""
    if found is None or found.check is None or found.limits.mass is None:
        return None
    if found.check.over:
        most = Amount(found.limits.mass, "Kilogram")
        what = say("Too much for one cup today: {most} at most.", most=most)
        if found.each is None:
            return what, say("More than {most} cups: look at the amount.", most=MOST_CUPS)
        if found.cups == 1:
            return what, say("More went in than was asked for: out flat within 2 minutes.")
        each = Amount(found.each, "Kilogram")
        return what, say("{cups} cups of {each}, or out flat within 2 minutes.",
                         cups=found.cups, each=each)  # fmt: skip
    if found.check.stacked:
        return found.check.factors[0], found.check.factors[-1]
    return None


def not_for_today(sheet: ResinSheet, temp: Kelvin | None) -> Caution | None:
    """Why nothing should be mixed as warm or as cold as it is."""
    told = _temperature_notes(sheet, temp)
    if temp is None or not told:
        return None
    if sheet.temp_highest is not None and temp > sheet.temp_highest:
        return told[0], say("Cool parts and shop first: it sets far sooner and heats itself.")
    if sheet.temp_lowest is not None and temp < sheet.temp_lowest:
        return told[0], say("Warm parts and shop first: it stalls or stays soft.")
    return None


def cup_beside(facts: MixFacts, temp: Origin | None, earlier: Earlier | None) -> Beside:
    """The page of the cup."""
    if facts.sheet is None:
        return Beside(notes=(NO_SHEET,))
    warm = Kelvin(cast("float", temp.value)) if temp is not None else None
    found = cup_today(facts, warm)
    if found is None:
        return Beside(notes=(say("Needs grams to judge a cup."),))
    mass = mixed(facts)
    notes = _notes(facts.sheet, found, warm, mass)
    if earlier is not None and warm is not None:
        notes.append(_compared(facts.sheet, mass, warm, earlier))
    humidity = facts.said.get("humidity")
    damp = damp_air(facts.sheet, humidity)
    if humidity is None and most_humid(facts.sheet) is not None:
        notes.append(ASK_AIR)
    over = too_much(found)
    if damp is not None and over is not None:
        notes += damp
    return Beside(_figures(facts, found, temp), over or damp, tuple(notes))


def _notes(sheet: ResinSheet, found: CupToday, temp: Kelvin | None, mass: Kilogram) -> list[Text]:
    notes: list[Text] = []
    if found.limits.missing is not None:
        notes.append(found.limits.missing)
    notes += _temperature_notes(sheet, temp)
    if found.check is not None and too_much(found) is None:
        notes += found.check.factors
    working = sheet.stage("working")
    if working is not None and (note := working_time_note(working.mass, mass)) is not None:
        notes.append(note)
    if found.heat is not None:
        notes += [HEAT_WORDS[found.heat.heat], INDICATIVE]
    if found.layers is not None and found.layers.note is not None:
        notes.append(found.layers.note)
    return notes


def _temperature_notes(sheet: ResinSheet, temp: Kelvin | None) -> list[Text]:
    if temp is None:
        return []
    if sheet.temp_highest is not None and temp > sheet.temp_highest:
        most = Amount(sheet.temp_highest, "Kelvin", 0)
        return [say("Warmer than the sheet allows: up to {most}.", most=most)]
    if sheet.temp_lowest is not None and temp < sheet.temp_lowest:
        least = Amount(sheet.temp_lowest, "Kelvin", 0)
        return [say("Colder than the sheet allows: from {least}.", least=least), COLD_IS_NO_CREDIT]
    if sheet.limits_at is not None and temp < sheet.limits_at:
        return [COLD_IS_NO_CREDIT]
    return []


def _compared(sheet: ResinSheet, mass: Kilogram, temp: Kelvin, earlier: Earlier) -> Text:
    times = rate(basis_of(sheet, "gel").law, temp, earlier.temp)
    return say(
        "Last time {old} at {cold}; today {new} at {warm}: {times} times as fast.",
        old=Amount(earlier.mass, "Kilogram"), cold=Amount(earlier.temp, "Kelvin", 0),
        new=Amount(mass, "Kilogram"), warm=Amount(temp, "Kelvin", 0),
        times=Amount(times, "Ratio", 1),
    )  # fmt: skip


def _figures(facts: MixFacts, found: CupToday, temp: Origin | None) -> tuple[Figure, ...]:
    sheet, made = cast("ResinSheet", facts.sheet), list[Figure]()
    inputs: dict[str, Figure | Origin] = {} if temp is None else {"temp": temp}
    if sheet.limits_at is not None:
        inputs["limit_at"] = Origin(sheet.limits_at, "Kelvin", "sheet")
    for name, quantity, limit, own, formula, label in (
        ("most_in_cup", "Kilogram", found.limits.mass, sheet.mass_limit, "day_limits.mass_limit",
         "Most in a cup"),
        ("deepest_layer", "Metre", found.limits.depth, sheet.layer_limit,
         "day_limits.depth_limit", "Deepest layer"),
    ):  # fmt: skip
        if limit is not None and own is not None:
            known = inputs | {"limit": Origin(own, quantity, "sheet")}
            made.append(Figure(f"mix.{name}", limit, quantity, formula, known, label=say(label)))
    if found.cups > 1:
        made.append(Figure("mix.cups_wanted", float(found.cups), "Ratio", "stops.split_cups",
                           {"all of it": Origin(facts.plan.whole or 0.0, "Kilogram", "computed"),
                            "most in one cup": Origin(
                                found.limits.mass or 0.0, "Kilogram", "computed"
                            )}, label=say("Cups")))  # fmt: skip
    if found.layers is not None:
        made.append(Figure("mix.layers", float(found.layers.count), "Ratio", "pour.layers",
                           {"deepest": Origin(found.limits.depth or 0.0, "Metre", "computed"),
                            "depth": Origin(facts.said.get("pour_depth") or 0.0, "Metre", "typed")},
                           label=say("Layers")))  # fmt: skip
    return (*made, *_working(sheet, temp))


def _working(sheet: ResinSheet, temp: Origin | None) -> tuple[Figure, ...]:
    """Working time at today's temperature, for the sheet's own mass; never scaled by mass."""
    working = sheet.stage("working")
    if working is None or working.temp is None or temp is None:
        return ()
    warm, basis = Kelvin(cast("float", temp.value)), basis_of(sheet, "working")
    times = rate(basis.law, warm, working.temp)
    printed = [pair for pair in working.more if warm >= pair.temp]
    time = min([float(working.time / times), *(pair.time for pair in printed)])
    step = 60.0 if time >= TEN_MINUTES else 1.0
    inputs: dict[str, Figure | Origin] = {
        "time on the sheet": Origin(working.time, "Second", "sheet"),
        "so many times as long": Origin(
            1 / times, "Ratio", "computed", basis_text(basis)
        ), "resin is at": temp,
    }  # fmt: skip
    for pair in printed:
        never = say("at {temp}; never longer than that as warm", temp=Amount(pair.temp, "Kelvin"))
        inputs["the sheet prints"] = Origin(pair.time, "Second", "sheet", never)
    return (Figure(
        "mix.working_today", floor(time / step) * step, "Second", "budget.scaled_by", inputs,
        rounding=say("Down: it is never longer than it says."),
        omits=(say("Its own warmth: a fuller cup has less."),), label=say("Workable for"),
    ),)  # fmt: skip
